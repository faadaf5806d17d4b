"""What a photo lacks → problems in the author's words: the one place for how much is enough."""

from collections.abc import Iterable, Iterator

from guidegen.bench.photos.edges import SPACING, Sight, Traced, longest_gap
from guidegen.bench.photos.records import Trust
from guidegen.errors import ContentError
from guidegen.problems import Place, Problem

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
LEAST_DETAIL = 1.8
"""px that a mm must have."""
LEAST_CONTRAST = 0.12
"""Of logarithms of light, or of light beside a line: below, no edge can be told."""
MOST_LEFT = 0.4
"""mm between measured places and segments, over a stretch of some mm."""


def edge_problems(edge: Traced, name: str, sight: Sight) -> Iterator[Problem]:
    """Where the outline was not seen."""
    if edge.gap < LEAST_CONTRAST:
        message = "the template is hardly lighter or darker than what lies around it"
        yield problem("trace-faint", name, f"{message}; expected another ground or a darker pen")
        return
    start, count = longest_gap(edge.good, closed=True)
    hidden = float((~edge.good).mean())
    if count * SPACING > MOST_GAP or hidden > MOST_HIDDEN:
        place = edge.points[(start + count // 2) % len(edge.points)]
        owner = max(int(sight.flat.owners(place[None])[0]), 0)
        x, y = sight.cameras[owner].pixels(place[None], sight.height)[0]
        message = (
            f"the edge is not clear for {count * SPACING:.0f} mm around pixel {x:.0f}, {y:.0f}; "
            f"expected at most {MOST_GAP:.0f} mm: a hard shadow, a glare, or something on it"
        )
        yield problem("trace-edge", name, message)
    if edge.blur > MOST_BLUR:
        message = (
            f"the edge is blurred over {edge.blur:.1f} mm; expected at most {MOST_BLUR:.1f} mm: "
            "hold still, let the camera focus, come nearer"
        )
        yield problem("trace-blurred", name, message)


def trust_problems(trust: Trust, name: str) -> Iterator[Problem]:
    """Where what was seen does not suffice for half a millimetre."""
    if trust.detail < LEAST_DETAIL:
        message = (
            f"a millimetre has {trust.detail:.1f} pixels; expected at least {LEAST_DETAIL:.1f}: "
            "come nearer, or take several photos that share strips"
        )
        yield problem("trace-small", name, message)
    if trust.camera > MOST_OPEN:
        message = (
            f"the strips leave {trust.camera:.1f} mm open; expected at most {MOST_OPEN:.1f} mm: "
            "lay strips on all sides, and hold the camera straight above"
        )
        yield problem("trace-open", name, message)
    if trust.worst > MOST_LEFT:
        message = (
            f"the outline is {trust.worst:.1f} mm from what was measured; expected at most "
            f"{MOST_LEFT:.1f} mm: an edge that is torn, furry or in a hard shadow"
        )
        yield problem("trace-edge", name, message)


def problem(code: str, name: str, message: str) -> Problem:
    """A finding about a photo."""
    return Problem(code, Place(name), "", message)


def refusal(code: str, name: str, message: str) -> ContentError:
    """The end of a trace, to be raised."""
    return ContentError([problem(code, name, message)])


def stop(problems: Iterable[Problem]) -> None:
    """Raise ContentError where there are problems."""
    found = list(problems)
    if found:
        raise ContentError(found)
