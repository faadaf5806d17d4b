"""Edges of a piece as drawn and as graded → what grading has spoilt in one size.

A drawing is made for one body. For another it may still be a closed outline that crosses nowhere
and yet no piece that anyone could wear: an edge shrunk to a stub, a spike, a notch, a corner turned
inside out. That is an error, and tells the measurements behind it.
"""

from collections.abc import Iterator, Sequence

from guidegen.buildfile.yaml.expressions import Expression
from guidegen.geometry.grading.drawn_part import DrawnPart
from guidegen.geometry.outline.areas import Limb, narrow_gaps, thin_limbs
from guidegen.geometry.outline.convexity import is_convex
from guidegen.geometry.outline.curves import turn_between
from guidegen.geometry.outline.distances import farthest_apart
from guidegen.geometry.outline.measures import flatten, run_length, tangent
from guidegen.geometry.outline.records import Edge, Point
from guidegen.units import mm_text

THIN = 6.0
"""mm; a limb or a gap narrower than this is a spike or a notch where it is long. Our choice: less
foam than that tears when it is bent, and no knife turns in a narrower gap."""

LONG = 4.0
"""Widths from which a thin limb or gap is long, so that it is not just a sharp corner."""

GROWN = 1.5
"""Times by which it has to be longer than what was drawn already."""

TURNED_BACK = 3.0
"""degrees from which a corner counts as turned outward or inward. Our choice: rounding is less."""

DENT = 3.0
"""mm; a dent deeper than this is no blemish to be trued but another shape. Our choice: half of what
is thin."""


def audit_grading(
    job: DrawnPart, drawn: Sequence[Edge], graded: Sequence[Edge], unsmoothed: Sequence[Edge]
) -> None:
    """Note what grading has spoilt: `drawn` before it, `graded` after it, edge by edge.

    `unsmoothed` is what grading made before dents in convex edges were smoothed.
    """
    # Equal to the last bit: nothing was graded, and a drawing may be as odd as its author wants.
    if all(before.run == after.run for before, after in zip(drawn, graded, strict=True)):
        return  # the size that was drawn, and parts that are not graded
    behind = _measured(job)
    for edge, words, amount in _shrunk(job, drawn, graded):
        told = _told(job, words, behind)
        job.note("grading-shrunk", _place(job, edge), told, _CURE, key=True, amount=amount)
    for edge, words, amount in _turned_back(drawn, graded, unsmoothed):
        told = _told(job, words, behind)
        job.note("grading-concave", _place(job, edge), told, _CURE, key=True, amount=amount)
    for edge, words, amount in _thin(drawn, graded):
        told = _told(job, words, behind)
        job.note("grading-thin", _place(job, edge), told, _CURE, key=True, amount=amount)


_CURE = (
    "measure again; if the figures are right, this drawing cannot follow them: draw the part for "
    "such a body (drawing-per-size), or correct how it is graded"
)

type _Fault = tuple[str, str, float]
"""Edge, what is wrong with it, and how much: a share that is lost, mm or degrees."""


def _place(job: DrawnPart, edge: str) -> tuple[str, ...]:
    return ("edges", edge) if edge in job.part.edges else ()


def _told(job: DrawnPart, words: str, behind: str) -> str:
    return f"{job.part.name}, size {job.size}: {words}{behind}"


def _shrunk(job: DrawnPart, drawn: Sequence[Edge], graded: Sequence[Edge]) -> Iterator[_Fault]:
    least = job.part.shrinks_to
    for before, after in zip(drawn, graded, strict=True):
        was, now = run_length(before.run), run_length(after.run)
        if now < least * was:
            yield (
                before.name,
                f"the edge {before.name} shrinks to {now:.1f} mm, {100 * now / was:.0f} % of the "
                f"{was:.1f} mm drawn; expected {100 * least:.0f} % or more",
                1 - now / was,
            )


def _turned_back(
    drawn: Sequence[Edge], graded: Sequence[Edge], unsmoothed: Sequence[Edge]
) -> Iterator[_Fault]:
    """Edges and corners that were convex and are not any more."""
    for number, (before, after) in enumerate(zip(drawn, graded, strict=True)):
        rough = unsmoothed[number]
        # Most edges need no smoothing, so nothing is measured on them.
        # How far smoothing had to move the edge is how deep the dent was.
        depth = (
            farthest_apart(flatten(rough.run, 0.1), flatten(after.run, 0.1))
            if rough.run != after.run and is_convex(before.run)
            else 0.0
        )
        if depth > DENT:
            yield (
                before.name,
                f"the edge {before.name} turns concave by {depth:.0f} mm, though it was drawn "
                "convex",
                depth,
            )
        old, new = _corner(drawn, number), _corner(graded, number)
        if old > TURNED_BACK and new < -TURNED_BACK:
            names = f"{drawn[number - 1].name} and {before.name}"
            yield (
                before.name,
                f"the corner between {names} turns inward by {-new:.0f}°, though it was drawn "
                f"outward by {old:.0f}°",
                -new,
            )


def _corner(edges: Sequence[Edge], number: int) -> float:
    """degrees that the outline turns where an edge begins; positive is outward."""
    before, after = edges[number - 1].run[-1], edges[number].run[0]
    return turn_between(tangent(before, 1.0), tangent(after, 0.0))


def _thin(drawn: Sequence[Edge], graded: Sequence[Edge]) -> Iterator[_Fault]:
    """Spikes and slivers of foam, and notches, longer than any that were drawn."""
    old, new = _ring(drawn), _ring(graded)
    for name, find in (("spike or sliver", thin_limbs), ("notch", narrow_gaps)):
        # What was drawn thin is meant: only what grading made longer counts.
        known = max((limb.length for limb in find(old, THIN)), default=0.0)
        worst = max(find(new, THIN), key=lambda limb: limb.length, default=Limb(0.0, (0.0, 0.0)))
        if worst.length > max(LONG * THIN, GROWN * known):
            edge = _nearest(graded, worst.at)
            yield (
                edge,
                f"at the edge {edge} a {name} of {worst.length:.0f} mm is left, less than "
                f"{mm_text(THIN)} mm wide",
                worst.length,
            )


def _ring(edges: Sequence[Edge]) -> list[Point]:
    return flatten(tuple(segment for edge in edges for segment in edge.run), 0.1)


def _nearest(edges: Sequence[Edge], point: Point) -> str:
    """Name of the edge that is nearest to a point."""
    gaps = {
        edge.name: min(abs(complex(*p) - complex(*point)) for p in flatten(edge.run, 0.1))
        for edge in edges
    }
    # Rounded, so that of two edges that meet at the place the first is named on every machine.
    return min(gaps, key=lambda name: round(gaps[name], 6))


def _measured(job: DrawnPart) -> str:
    """The measurements that the part is graded by: as they are, and as they were drawn."""
    needed = _needed(job)
    numbers = job.numbers
    made = [name for name in numbers.measurements if name in needed]
    if not made:
        return ""
    words = ", ".join(f"{_plain(job, n)} {mm_text(numbers.measurements[n])} mm" for n in made)
    drawn = [numbers.drawn[f"drawn_{n}"] for n in made if f"drawn_{n}" in numbers.drawn]
    if len(drawn) < len(made):
        return f". Made for {words}"
    base = ", ".join(mm_text(value) for value in drawn)
    return f". Made for {words}; drawn for {base}"


def _plain(job: DrawnPart, name: str) -> str:
    return job.file.guide.measurements[name].name.lower()


def _needed(job: DrawnPart) -> set[str]:
    """Names of all measurements in the part's grading, by way of named values too."""
    part = job.part
    rules: list[Expression] = [spread.opens for spread in part.spread]
    rules += [number for rule in part.grade.values() for number in (rule.dx, rule.dy)]
    rules += [part.scale.x, part.scale.y] if part.scale else []
    open_names = [name for rule in rules for name in sorted(rule.names)]
    needed: set[str] = set()
    while open_names:
        name = open_names.pop()
        if name not in needed:
            needed.add(name)
            value = job.file.guide.values.get(name)
            open_names += sorted(value.names) if value is not None else ()
    return needed
