"""The pages of a template sheet in → long lines to check with a ruler or tape out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.records import Point
from guidegen.layout.paper.frame import LARGE
from guidegen.layout.records import TemplatePage
from guidegen.pictures.pen.label_fields import LabelField

IN_LANE = 4.5
"""mm from the edge of the window to a line in its lane: room for the strokes at its ends."""


@dataclass(frozen=True, slots=True)
class CheckLine:
    """A long line that is measured once the pages are joined."""

    start: Point
    end: Point
    """mm on the sheet."""
    joined: bool = True
    """True where it runs over several pages."""

    @property
    def length(self) -> float:
        """mm."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])


def check_lines(
    pages: Sequence[TemplatePage], ink: LabelField, taken: Sequence[Point], side: float
) -> Iterator[CheckLine]:
    """A level and an upright line over the longest stretches of printed pages, clear of squares.

    `taken` are the lower left corners of check squares of `side` mm, on the sheet. Each line
    has a whole number of half decimetres. Over joined pages it crosses as few lines of templates
    as can be. A single page has check lines where it is large, since a plotter's feed may drift:
    in the lane kept free for them, else where they cross nothing, even if they are shorter.
    """
    places = {(page.column, page.row): page for page in pages}
    for level in (True, False):
        stretch = _longest(places, level=level)
        first, last = stretch[0], stretch[-1]
        if len(stretch) == 1 and (first.width if level else first.height) < LARGE:
            continue
        joined = len(stretch) > 1
        if level:
            # mm; room for the arrows and end strokes, and for a hand with a ruler.
            low, high = first.x + 16, last.x + last.width - 16
            across = [first.y + 14, first.y + first.height - 14]
        else:
            low, high = last.y + 16, first.y + first.height - 16
            across = [first.x + 14, first.x + first.width - 14]
        # Half decimetres: lengths that any ruler shows without counting.
        length = int((high - low) / 50) * 50.0
        if length < 50:
            continue
        low += (high - low - length) / 2
        if not joined and first.lane:
            at = (first.y if level else first.x) + IN_LANE
            yield _line(low, at, length, level=level, joined=False)
            continue
        # Over joins the whole length is what is checked, even across templates; on one page a
        # shorter line that crosses nothing says as much.
        for start, reach in [(low, length)] if joined else _shorter(low, length):
            cost, at = _quietest(
                ink, level=level, low=start, length=reach, across=across, taken=taken, side=side
            )
            if joined or not cost:
                yield _line(start, at, reach, level=level, joined=joined)
                break


def _line(low: float, at: float, length: float, *, level: bool, joined: bool) -> CheckLine:
    if level:
        return CheckLine((low, at), (low + length, at), joined)
    return CheckLine((at, low), (at, low + length), joined)


def _shorter(low: float, length: float) -> Iterator[tuple[float, float]]:
    """Starts and lengths of a line and of shorter ones at either end of it, the longest first."""
    for quarters in (4, 3, 2, 1):
        reach = int(length * quarters / 4 / 50) * 50.0
        if reach:
            yield low, reach
            yield low + length - reach, reach


def _longest(places: Mapping[tuple[int, int], TemplatePage], *, level: bool) -> list[TemplatePage]:
    """The longest unbroken row (or column) of printed pages."""
    best: list[TemplatePage] = []
    for column, row in sorted(places):
        run: list[TemplatePage] = []
        at = (column, row)
        while at in places:
            # Begun at every page, so that gaps in a row are found by themselves.
            run.append(places[at])
            at = (at[0] + 1, at[1]) if level else (at[0], at[1] + 1)
        if len(run) > len(best):
            best = run
    return best


def _quietest(
    ink: LabelField,
    *,
    level: bool,
    low: float,
    length: float,
    across: Sequence[float],
    taken: Sequence[Point],
    side: float,
) -> tuple[int, float]:
    """How many marked cells a line must cross, and where it does; never a check square."""
    best: tuple[int, float] | None = None
    steps = max(1, int((across[1] - across[0]) / 2.5))
    for number in range(steps + 1):
        at = across[0] + (across[1] - across[0]) * number / steps
        if level:
            start, end = (low, at), (low + length, at)
        else:
            start, end = (at, low), (at, low + length)
        cost = ink.crossings(start, end)
        for x, y in taken:
            hit = (y - 4 < at < y + side + 4) if level else (x - 4 < at < x + side + 4)
            # More than a line can cross otherwise: through a check square only if there is no
            # other way.
            cost += 10000 if hit else 0
        if best is None or cost < best[0]:
            best = (cost, at)
    return best or (0, across[0])
