"""How near `guidegen trace` comes to what was drawn, on seeded photos: count, first seed, kind.

    ./start python tests/benchmarks/trace_photos.py 200 0          one photo of an A3 template each
    ./start python tests/benchmarks/trace_photos.py 10 0 long      two photos of a long one
    ./start python tests/benchmarks/trace_photos.py 24 0 bad       photos that ought to be refused

Each line is one case: what it was, what came out, how far off (mm) after moving and turning, never
scaling. A case counts where the outline is nowhere farther off than 0.5 mm.
"""

import io
import json
import sys
import time

import numpy as np
from benchmarks import photo_scenes as scenes
from benchmarks.photo_camera import View, take
from PIL import Image
from scipy.spatial import cKDTree
from shapely.geometry import Polygon

from guidegen.bench.photos.fitting.whole import dense
from guidegen.bench.photos.records import Asked, TemplatePhoto
from guidegen.bench.photos.trace import trace
from guidegen.errors import ContentError

CARDS = (
    ((0.75, 0.7, 0.6), (0.08, 0.1, 0.09)),
    ((0.06, 0.055, 0.05), (0.5, 0.45, 0.38)),
    ((0.5, 0.1, 0.08), (0.12, 0.2, 0.13)),
    ((0.42, 0.3, 0.18), (0.75, 0.74, 0.7)),
    ((0.78, 0.77, 0.75), (0.3, 0.2, 0.12)),
)
"""Linear light of card and ground: white on a green mat, black on wood, red on green, kraft on white,
white on brown."""
PAPERS = ((0.8, 0.8, 0.78), (0.5, 0.4, 0.28), (0.7, 0.72, 0.75))


def make(seed, kind="usual"):
    """A scene, its photos, and in words what is particular about it."""
    rng = np.random.default_rng([seed, 21])
    bad = ["one", "bowed", "blurred", "alike", "far", "covered"][seed % 6] if kind == "bad" else ""
    what = str(rng.choice(["card", "pen"], p=[0.7, 0.3]))
    layout = str(rng.choice(["around", "six", "l"], p=[0.5, 0.3, 0.2]))
    card, ground = CARDS[rng.integers(len(CARDS))]
    if what == "pen":
        ground = PAPERS[rng.integers(len(PAPERS))]
    view = {
        "lean": float(rng.uniform(3, 32)),
        "bent": (float(rng.uniform(-0.06, 0.06)), float(rng.uniform(-0.02, 0.02))),
        "blur": float(rng.uniform(0.4, 1.2)),
        "noise": float(rng.uniform(0.002, 0.015)),
        "shadow": str(rng.choice(["none", "soft", "hard"], p=[0.25, 0.5, 0.25])),
        "jpeg": int(rng.choice([0, 60, 75, 85, 95], p=[0.3, 0.15, 0.2, 0.2, 0.15])),
        "card": card,
        "ground": ground,
    }
    if kind == "usual" and seed % 40 == 7:
        view |= {"width": 4000, "height": 3000, "blur": view["blur"] * 3}
    wide, high = 400.0, 280.0
    match bad:
        case "one":
            layout = "one"
        case "bowed":
            view["bow"] = 8.0
        case "blurred":
            view["blur"] = 6.0
        case "alike":
            what, view["ground"], view["card"], view["grain"] = (
                "card",
                (0.4, 0.38, 0.35),
                (0.42, 0.4, 0.37),
                0.1,
            )
        case "far":
            view |= {"width": 800, "height": 600}
    if kind == "long":
        made, photos = _long(rng, what, view)
    else:
        made = scenes.scene(rng, what, layout, wide, high)
        if bad == "covered":
            # A strip lies on the edge of the template.
            first = next(iter(made.strips))
            middle = np.array(Polygon(scenes.along(made.ring, 1)).centroid.coords[0])
            place = made.strips[first]
            towards = middle - scenes.laid(place, np.array([[125.0, 17.0]]))[0]
            made.strips[first] = place + np.append(towards * 0.45, 0)
        photos = [take(rng, made, View(**view))]
    words = f"{bad or what} {layout if kind != 'long' else 'long'} {view['shadow']} q{view['jpeg']}"
    return made, photos, words


def _long(rng, what, view):
    """A piece of 700 mm with strips along both long sides, in two photos that share some."""
    made = scenes.scene(rng, what, "around", 690.0, 230.0)
    points = scenes.along(made.ring, 1.0)
    low, high = points.min(0), points.max(0)
    strips, number = {}, 0
    for x in (low[0] - 15, (low[0] + high[0]) / 2 - 125, high[0] + 15 - 250):
        strips[number] = np.array([x, low[1] - 50, 0.0]) + rng.normal(0, [1, 1, 0.01])
        strips[number + 1] = np.array([x + 250, high[1] + 50, np.pi]) + rng.normal(0, [1, 1, 0.01])
        number += 2
    strips[6] = np.array([low[0] - 50, (low[1] + high[1]) / 2 + 125, -np.pi / 2])
    strips[7] = np.array([high[0] + 50, (low[1] + high[1]) / 2 - 125, np.pi / 2])
    made = scenes.Scene(made.ring, made.holes, made.marks, strips, made.kind)
    view = view | {"shadow": "soft", "lean": 15.0}
    middle, half = (low + high) / 2, (high - low)[0] / 2
    targets = [middle + np.array([s * (half - 200), 0]) for s in (-1, 1)]
    photos = [take(rng, made, View(**view), t, (500.0, 350.0)) for t in targets]
    return made, photos


def aligned(points, truth, outline):
    """Points moved and turned onto the truth, found from all turns."""
    tree = cKDTree(truth)
    start, goal = (np.array(Polygon(one).centroid.coords[0]) for one in (outline, truth))
    flat = outline - start
    best = (np.inf, None, 0.0)
    for angle in np.linspace(0, 2 * np.pi, 72, endpoint=False):
        turned = flat @ _turn(angle) + goal
        off = tree.query(turned[::20])[0].mean()
        if off < best[0]:
            best = (off, turned, angle)
    way = np.roll(truth, -2, 0) - np.roll(truth, 2, 0)
    out = np.column_stack((way[:, 1], -way[:, 0])) / np.linalg.norm(way, axis=1)[:, None]
    moved, others = best[1], (points - start) @ _turn(best[2]) + goal
    for step in range(30):
        gap, near = tree.query(moved)
        left = ((truth[near] - moved) * out[near]).sum(1)
        about = moved.mean(0)
        spin = (moved - about)[:, 0] * out[near][:, 1] - (moved - about)[:, 1] * out[near][:, 0]
        used = gap < 3 * np.median(gap) + 0.2 if step > 10 else gap >= 0
        x = np.linalg.lstsq(np.column_stack((out[near], spin))[used], left[used], rcond=None)[0]
        moved = (moved - about) @ _turn(x[2]) + about + x[:2]
        others = (others - about) @ _turn(x[2]) + about + x[:2]
    return moved, others


def _turn(angle):
    return np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])


def judge(made, photos):
    """One case tried: what came out, beside what was drawn."""
    pictures = [
        TemplatePhoto(
            f"photo-{n}.{photo.ending}",
            np.asarray(Image.open(io.BytesIO(photo.data)).convert("RGB")),
        )
        for n, photo in enumerate(photos)
    ]
    begun = time.process_time()
    try:
        found = trace(pictures, Asked())
    except ContentError as error:
        return {"refused": error.problems[0].code, "seconds": round(time.process_time() - begun, 2)}
    seconds = time.process_time() - begun
    truth, outline = scenes.along(made.ring, 0.1), dense(found.outline.run)
    holes = np.concatenate([dense(one.run) for one in found.holes] or [np.zeros((0, 2))])
    moved, moved_holes = aligned(holes, truth, outline)
    off = max(cKDTree(truth).query(moved)[0].max(), cKDTree(moved).query(truth)[0].max())
    result = {"off": round(float(off), 3)}
    if made.holes and len(holes):
        true_holes = np.concatenate([scenes.along(one, 0.1) for one in made.holes])
        result["holes off"] = round(float(cKDTree(true_holes).query(moved_holes)[0].max()), 3)
    return result | {
        "trust": round(found.trust.total, 3),
        "segments": len(found.outline.run),
        "drawn": len(made.ring),
        "holes": [len(found.holes), len(made.holes)],
        "marks": [len(found.marks), len(made.marks)],
        "what": [str(found.what), made.kind],
        "seconds": round(seconds, 2),
    }


def main(count, first, kind):
    """Print a line for each case, then the sums."""
    rows = []
    for seed in range(first, first + count):
        made, photos, words = make(seed, kind)
        row = {"seed": seed, "words": words} | judge(made, photos)
        print(json.dumps(row), flush=True)
        rows.append(row)
    print(json.dumps(summary(rows)))


def summary(rows):
    """What a run comes to."""
    done = [row for row in rows if "off" in row]
    codes = [row["refused"] for row in rows if "refused" in row]
    off = np.array([row["off"] for row in done] or [0.0])
    return {
        "photos": len(rows),
        "within 0.5 mm": int((off <= 0.5).sum()),
        "refused": {code: codes.count(code) for code in sorted(set(codes))},
        "mean of worst": round(float(off.mean()), 3),
        "95th of worst": round(float(np.percentile(off, 95)), 3),
        "worst": float(off.max()),
        "over 1 mm": int((off > 1).sum()),
        "segments to drawn": round(
            sum(r["segments"] for r in done) / max(sum(r["drawn"] for r in done), 1), 2
        ),
        "more than twice": sum(r["segments"] > 2 * r["drawn"] for r in done),
        "holes": [sum(r["holes"][n] for r in done) for n in (0, 1)] if done else [],
        "marks": [sum(r["marks"][n] for r in done) for n in (0, 1)] if done else [],
        "seconds": round(float(np.mean([row["seconds"] for row in rows])), 2),
    }


if __name__ == "__main__":
    arguments = [*sys.argv[1:], "usual"][:3]
    main(int(arguments[0]), int(arguments[1]), arguments[2])
