"""Photos and what is asked in → the outline of the template on them, or why there is none."""

from collections.abc import Iterator, Sequence

import numpy as np

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, BenchMask
from guidegen.bench.photos.check import outline_problems
from guidegen.bench.photos.contour import TemplateRings, card_rings, drawn_rings, is_drawn
from guidegen.bench.photos.edges import SPACING, Sight, Sort, Traced, trace_edge
from guidegen.bench.photos.fitting.whole import ROUNDED, ROUNDED_LINE, Fitted, fit_run
from guidegen.bench.photos.flat import Flat, lay_flat
from guidegen.bench.photos.marks import marks_on
from guidegen.bench.photos.moving import MARGIN, FoundTemplate, placed
from guidegen.bench.photos.records import Asked, TemplatePhoto, Trace, Trust, What
from guidegen.bench.photos.refusals import (
    LEAST_CONTRAST,
    MOST_HIDDEN,
    MOST_OFF,
    MOST_PIXEL,
    edge_problems,
    problem,
    refusal,
    stop,
    trust_problems,
)
from guidegen.bench.photos.region import (
    STEADY,
    Region,
    edge_steepness,
    find_region,
    line_steepness,
    log_light,
)
from guidegen.bench.photos.sampling import sharpen_corners
from guidegen.bench.photos.solve import Shot, Solved, join_order, solve
from guidegen.bench.photos.strips import RULER
from guidegen.bench.photos.trust import camera_error, detail

LEAST_TRUST = 0.3
"""mm below which nothing is promised, however little is left over. Measured on computed photos
(tests/benchmarks/trace_photos.py): the worst place of an outline was up to 0.29 mm off where all
that is left over said 0.13, at corners and joints, of cut card and drawn lines alike."""


def trace(pictures: Sequence[TemplatePhoto], asked: Asked) -> Trace:
    """The outline. Raises ContentError, which says what the photo lacks."""
    solved = _solved(pictures)
    height = asked.thick * RULER / asked.ruler
    flat = lay_flat([one.pixels for one in pictures], solved, height)
    name = pictures[0].name
    flat, log, region, drawn = _found(flat, asked.what, name)
    sight = Sight(tuple(one.pixels for one in pictures), solved.cameras, flat, height)
    steep = line_steepness(flat, log)
    rings = drawn_rings(flat, steep, region) if drawn else card_rings(flat, log, region)
    if rings is None:
        raise refusal("trace-nothing", name, "nothing on the bench stands out as a template")
    sort = Sort.DARK if drawn else Sort.EDGE
    outline = trace_edge(sight, rings.outline, sort=sort)
    stop(edge_problems(outline, name, sight))
    fitted = _fit(outline, sort)
    stop(outline_problems(sight, fitted, outline, sort, name))
    holes = tuple(_fit(one, sort) for one in _good_rings(sight, rings, sort))
    marks = tuple(marks_on(sight, log, rings, drawn=drawn))
    trust = _trust(sight, solved, outline, fitted)
    stop(trust_problems(trust, name))
    kind = What.PEN if drawn else What.CARD
    strips = tuple(sorted(strip + 1 for strip in solved.strips))
    notes = tuple(_notes(region, solved))
    found = FoundTemplate(fitted, outline, holes, marks, kind, trust, strips, notes)
    return placed(sight, found, asked.ruler / RULER)


def _solved(pictures: Sequence[TemplatePhoto]) -> Solved:
    """Cameras and strips; a photo that does not show enough is refused."""
    shots, problems = [], []
    for picture in pictures:
        markers = sharpen_corners(
            picture.pixels, vision.find_markers(vision.grey_of(picture.pixels))
        )
        high, wide = picture.pixels.shape[:2]
        shots.append(Shot(picture.name, wide, high, markers))
        strips = {marker.strip for marker in markers}
        if len(markers) < 4:
            message = (
                f"{len(markers)} markers of strips can be read; expected at least two strips that "
                "lie flat beside the template, sharp and whole"
            )
            problems.append(problem("trace-no-strips", picture.name, message))
        elif len(strips) < 2 and len(pictures) == 1:
            message = (
                f"one strip alone (number {min(strips) + 1}) can be read; expected strips on two "
                "sides of the template at least, better on four"
            )
            problems.append(problem("trace-no-strips", picture.name, message))
    stop(problems)
    _, apart = join_order(shots)
    stop(
        problem(
            "trace-apart",
            shots[one].name,
            "shares no strip with the other photos; expected one strip at least that both show",
        )
        for one in apart
    )
    solved = solve(shots)
    if solved.error > MOST_PIXEL or solved.worst > MOST_OFF:
        message = (
            f"markers stand up to {solved.worst:.1f} mm from where a flat bench has them; expected "
            f"at most {MOST_OFF:.1f} mm: strips that are bent, moved between photos, or printed at "
            "different sizes"
        )
        raise refusal("trace-not-flat", shots[0].name, message)
    return solved


def _found(flat: Flat, what: What, name: str) -> tuple[Flat, Array, Region, bool]:
    """The part of the bench with the template on it, its light, its region, and if it is drawn."""
    log = log_light(flat.picture)
    region, drawn = None, what is What.PEN
    if what is not What.PEN:
        region = find_region(flat, edge_steepness(flat, log))
        if region is not None and what is What.ANY:
            drawn = is_drawn(flat, log, region)
    if drawn:
        region = find_region(flat, line_steepness(flat, log))
    if region is None or region.steady < STEADY:
        line = "a closed dark line" if drawn else "a closed edge against the ground"
        message = (
            f"no template can be told from what lies around it; expected {line}, wholly in the "
            "photo, with nothing on it"
        )
        raise refusal("trace-nothing", name, message)
    if region.touches:
        message = "the template reaches under a strip; expected 5 mm of ground between them"
        raise refusal("trace-touches", name, message)
    rows, columns = np.nonzero(region.mask)
    more = round((MARGIN + 15.0) / flat.step)
    down = slice(max(0, int(rows.min()) - more), int(rows.max()) + more)
    across = slice(max(0, int(columns.min()) - more), int(columns.max()) + more)
    part = Region(region.mask[down, across], region.steady, region.others, region.touches)
    return flat.window(down, across), log[down, across], part, drawn


def _trust(sight: Sight, solved: Solved, outline: Traced, fitted: Fitted) -> Trust:
    open_ = 2 * float(camera_error(sight, solved, outline.points).max())
    left = fitted.left_over[outline.good & _away_from_corners(outline, fitted)]
    fit = float(np.sqrt(np.mean(left**2))) if len(left) else 0.0
    worst = float(np.percentile(left, 99)) if len(left) else 0.0
    # What is not known of lens and light grows with the blur: a tenth of it, our choice.
    total = float(np.sqrt(open_**2 + (2 * fit) ** 2 + (outline.blur / 10) ** 2)) + 0.05
    total = max(total, LEAST_TRUST)
    pixels = detail(sight, outline.points)
    return Trust(open_, outline.blur, fit, worst, solved.error, pixels, total)


def _away_from_corners(outline: Traced, fitted: Fitted) -> BenchMask:
    """Places that no corner is rounded at."""
    far = np.ones(len(outline.points), bool)
    for corner in fitted.corners:
        far &= np.linalg.norm(outline.points - corner, axis=1) > max(1.6, 1.5 * outline.blur)
    return far


def _fit(edge: Traced, sort: Sort) -> Fitted:
    rounded = ROUNDED_LINE if sort else ROUNDED
    return fit_run(edge.points, edge.good, SPACING, edge.blur, closed=True, rounded=rounded)


def _good_rings(sight: Sight, rings: TemplateRings, sort: Sort) -> Iterator[Traced]:
    """Holes whose rims were seen."""
    for ring in rings.holes:
        edge = trace_edge(sight, ring, sort=sort)
        if edge.good.mean() > 1 - 2 * MOST_HIDDEN and edge.gap > LEAST_CONTRAST:
            yield edge


def _notes(region: Region, solved: Solved) -> Iterator[str]:
    if region.others:
        yield "others"
    if solved.dropped:
        yield "dropped"
