"""Photos and what is asked in → the outline of the template on them, or why there is none."""

from collections.abc import Iterator, Sequence

import numpy as np

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, Mask
from guidegen.bench.photos.contour import Rings, card_rings, drawn_rings, is_drawn
from guidegen.bench.photos.edges import SPACING, Sight, Traced, longest_gap, trace_edge
from guidegen.bench.photos.fitting.whole import Fitted, dense, fit_run
from guidegen.bench.photos.flat import Flat, lay_flat
from guidegen.bench.photos.moving import Move
from guidegen.bench.photos.records import Asked, Picture, Trace, Trust, What
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
from guidegen.bench.photos.strokes import strokes_in
from guidegen.bench.photos.trust import camera_error, detail
from guidegen.errors import ContentError
from guidegen.problems import Place, Problem

MARGIN = 10.0
"""mm around the outline in its drawing."""
MOST_PIXEL = 1.0
"""px: root mean square at markers from which on the strips do not lie flat."""
MOST_OFF = 0.45
"""mm: a marker that stands farther off than that is not on a flat bench."""
MOST_OPEN = 0.45
"""mm: twice the deviation that markers may leave open."""
MOST_GAP = 8.0
"""mm of edge that may be hidden; it is bridged."""
MOST_HIDDEN = 0.12
"""Share of an edge that may be hidden in all."""
MOST_BLUR = 1.6
"""mm from a quarter to three quarters of the way from dark to bright."""
LEAST_DETAIL = 2.0
"""px that a mm must have."""
LEAST_CONTRAST = 0.12
"""Of logarithms of light, or of light beside a line: below, no edge can be told."""
MOST_LEFT = 0.4
"""mm between measured places and segments, over a stretch of some mm."""


def trace(pictures: Sequence[Picture], asked: Asked) -> Trace:
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
        raise _refusal("trace-nothing", name, "nothing on the bench stands out as a template")
    outline = trace_edge(sight, rings.outline, line=drawn)
    _stop(_edge_problems(outline, name, sight))
    fitted = _fit(outline)
    holes = tuple(_fit(one) for one in _good_rings(sight, rings, line=drawn))
    marks = tuple(_marks(sight, log, rings, drawn=drawn))
    trust = _trust(sight, solved, outline, fitted)
    _stop(_trust_problems(trust, fitted, name))
    notes = tuple(_notes(region, solved))
    return _placed(sight, solved, asked, (fitted, holes, marks), outline, trust, drawn, notes)


def _solved(pictures: Sequence[Picture]) -> Solved:
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
            problems.append(_problem("trace-no-strips", picture.name, message))
        elif len(strips) < 2 and len(pictures) == 1:
            message = (
                f"one strip alone (number {min(strips) + 1}) can be read; expected strips on two "
                "sides of the template at least, better on four"
            )
            problems.append(_problem("trace-no-strips", picture.name, message))
    _stop(problems)
    _, apart = join_order(shots)
    _stop(
        _problem(
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
        raise _refusal("trace-not-flat", shots[0].name, message)
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
        raise _refusal("trace-nothing", name, message)
    if region.touches:
        message = "the template reaches under a strip; expected 5 mm of ground between them"
        raise _refusal("trace-touches", name, message)
    rows, columns = np.nonzero(region.mask)
    more = round((MARGIN + 15.0) / flat.step)
    down = slice(max(0, int(rows.min()) - more), int(rows.max()) + more)
    across = slice(max(0, int(columns.min()) - more), int(columns.max()) + more)
    part = Region(region.mask[down, across], region.steady, region.others, region.touches)
    return flat.window(down, across), log[down, across], part, drawn


def _edge_problems(edge: Traced, name: str, sight: Sight) -> Iterator[Problem]:
    """Where the outline was not seen."""
    if edge.gap < LEAST_CONTRAST:
        message = "the template is hardly lighter or darker than what lies around it"
        yield _problem("trace-faint", name, f"{message}; expected another ground or a darker pen")
        return
    start, count = longest_gap(edge.good, closed=True)
    hidden = float((~edge.good).mean())
    if count * SPACING > MOST_GAP or hidden > MOST_HIDDEN:
        place = edge.points[(start + count // 2) % len(edge.points)]
        owner = max(int(sight.flat.owners(place[None])[0]), 0)
        x, y = sight.cameras[owner].pixels(place[None], sight.height)[0]
        message = (
            f"the edge is not clear for {count * SPACING:.0f} mm around the pixel {x:.0f}, {y:.0f}; "
            f"expected at most {MOST_GAP:.0f} mm: a hard shadow, a glare, or something on it"
        )
        yield _problem("trace-edge", name, message)
    if edge.blur > MOST_BLUR:
        message = (
            f"the edge is blurred over {edge.blur:.1f} mm; expected at most {MOST_BLUR:.1f} mm: hold "
            "still, let the camera focus, come nearer"
        )
        yield _problem("trace-blurred", name, message)


def _trust_problems(trust: Trust, fitted: Fitted, name: str) -> Iterator[Problem]:
    """Where what was seen does not suffice for half a millimetre."""
    if trust.detail < LEAST_DETAIL:
        message = (
            f"a millimetre has {trust.detail:.1f} pixels; expected at least {LEAST_DETAIL:.0f}: come "
            "nearer, or take several photos that share strips"
        )
        yield _problem("trace-small", name, message)
    if trust.camera > MOST_OPEN:
        message = (
            f"the strips leave {trust.camera:.1f} mm open; expected at most {MOST_OPEN:.1f} mm: lay "
            "strips on all sides, and hold the camera straight above"
        )
        yield _problem("trace-open", name, message)
    if trust.worst > MOST_LEFT:
        message = (
            f"the outline is {trust.worst:.1f} mm from what was measured; expected at most "
            f"{MOST_LEFT:.1f} mm: an edge that is torn, furry or in a hard shadow"
        )
        yield _problem("trace-edge", name, message)


def _trust(sight: Sight, solved: Solved, outline: Traced, fitted: Fitted) -> Trust:
    open_ = 2 * float(camera_error(sight, solved, outline.points).max())
    left = fitted.left_over[outline.good & _away_from_corners(outline, fitted)]
    fit = float(np.sqrt(np.mean(left**2))) if len(left) else 0.0
    worst = float(np.percentile(left, 99)) if len(left) else 0.0
    # What is not known of lens and light grows with the blur: a tenth of it, our choice.
    total = float(np.sqrt(open_**2 + (2 * fit) ** 2 + (outline.blur / 10) ** 2)) + 0.05
    pixels = detail(sight, outline.points)
    return Trust(open_, outline.blur, fit, worst, solved.error, pixels, total)


def _away_from_corners(outline: Traced, fitted: Fitted) -> Mask:
    """Places that no corner is rounded at."""
    far = np.ones(len(outline.points), bool)
    for corner in fitted.corners:
        far &= np.linalg.norm(outline.points - corner, axis=1) > max(1.6, 1.5 * outline.blur)
    return far


def _fit(edge: Traced) -> Fitted:
    return fit_run(edge.points, edge.good, SPACING, edge.blur, closed=True)


def _good_rings(sight: Sight, rings: Rings, *, line: bool) -> Iterator[Traced]:
    """Holes whose rims were seen."""
    for ring in rings.holes:
        edge = trace_edge(sight, ring, line=line)
        if edge.good.mean() > 1 - 2 * MOST_HIDDEN and edge.gap > LEAST_CONTRAST:
            yield edge


def _marks(sight: Sight, log: Array, rings: Rings, *, drawn: bool) -> Iterator[Fitted]:
    """Lines that are drawn on the template."""
    flat = sight.flat
    body = vision.filled(flat.owner.shape, [flat.to_cells(rings.outline)])
    body = vision.grown(body, -round(3.0 / flat.step))
    for hole in rings.holes:
        body &= ~vision.grown(
            vision.filled(flat.owner.shape, [flat.to_cells(hole)]), round(2.5 / flat.step)
        )
    if not body.any():
        return
    dark = float(np.median(log[body])) < np.log(0.15)
    steep = line_steepness(flat, log, light=dark and not drawn)
    usual = float(np.median(steep[body]))
    ink = body & (steep > max(0.2, 8 * usual))
    for way, closed in strokes_in(ink, flat.step):
        edge = trace_edge(sight, flat.to_mm(way), closed=closed, line=True)
        if edge.good.mean() > 0.7:
            yield fit_run(edge.points, edge.good, SPACING, edge.blur, closed=closed)


def _notes(region: Region, solved: Solved) -> Iterator[str]:
    if region.others:
        yield "others"
    if solved.dropped:
        yield "dropped"


def _placed(
    sight: Sight,
    solved: Solved,
    asked: Asked,
    found: tuple[Fitted, tuple[Fitted, ...], tuple[Fitted, ...]],
    outline: Traced,
    trust: Trust,
    drawn: bool,
    notes: tuple[str, ...],
) -> Trace:
    """All moved to the lower left of a drawing of its own, at the size that was printed."""
    fitted, holes, marks = found
    scale = asked.ruler / RULER
    places = dense(fitted.run, 1.0)
    low, high = places.min(axis=0) - MARGIN / scale, places.max(axis=0) + MARGIN / scale
    move = Move(low, scale)
    near = dense(fitted.run)
    some = np.flatnonzero(outline.good)[::4]
    gaps = ((outline.points[some][:, None] - near[None, ::2]) ** 2).sum(axis=2)
    on = near[::2][gaps.argmin(axis=1)]
    whiskers = tuple(
        np.vstack((move.point(a), move.point(b)))
        for a, b in zip(on, outline.points[some], strict=True)
    )
    flat = sight.flat
    left, top = flat.to_cells(np.array([(low[0], high[1])]))[0]
    right, bottom = flat.to_cells(np.array([(high[0], low[1])]))[0]
    box = (slice(max(0, round(top)), round(bottom) + 1), slice(max(0, round(left)), round(right) + 1))
    return Trace(
        move.fitted(fitted),
        tuple(move.fitted(one) for one in holes),
        tuple(move.fitted(one) for one in marks),
        What.PEN if drawn else What.CARD,
        trust,
        flat.picture[box],
        whiskers,
        (float(high[0] - low[0]) * scale, float(high[1] - low[1]) * scale),
        tuple(sorted(strip + 1 for strip in solved.strips)),
        notes,
    )


def _problem(code: str, name: str, message: str) -> Problem:
    return Problem(code, Place(name), "", message)


def _refusal(code: str, name: str, message: str) -> ContentError:
    return ContentError([_problem(code, name, message)])


def _stop(problems: "Iterator[Problem] | list[Problem]") -> None:
    found = list(problems)
    if found:
        raise ContentError(found)
