"""Pages that carry whole lines and show a window of them in → sheets, joined by these lines.

Programs that spread a drawing over pages often write all of it on each one and cut it off at the
window: the same line on two pages then says how one lies to the other, to the last digit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.bench.vectors.joining import JoinedSheet, move_path
from guidegen.bench.vectors.records import FoundPage, FoundPath
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.records import Point
from guidegen.geometry.outline.transforms import RigidMotion

ALIKE = 0.05
"""mm by which the same line may differ from page to page: as for lines drawn twice."""
MOST_TRIED = 20
"""Ways to lay a page on another that are tried. Our choice."""


def join_by_lines(pages: Sequence[FoundPage]) -> list[JoinedSheet]:
    """Sheets of pages that carry the same lines, which lead out of the windows that they show."""
    known = {page.number: _lines(page) for page in pages}
    motions: dict[int, RigidMotion] = {}
    sheets: list[JoinedSheet] = []
    for page in pages:
        if page.number in motions:
            continue
        motions[page.number] = RigidMotion()
        members, waiting = [page], [page]
        while waiting:
            here = waiting.pop(0)
            for other in pages:
                shift = _shift(known[here.number], known[other.number])
                if other.number in motions or shift is None:
                    continue
                base = motions[here.number]
                motions[other.number] = RigidMotion(base.dx + shift[0], base.dy + shift[1])
                members.append(other)
                waiting.append(other)
        members.sort(key=lambda one: one.number)
        paths = [move_path(path, motions[one.number]) for one in members for path in one.paths]
        sheets.append(JoinedSheet(tuple(one.number for one in members), tuple(_once(paths))))
    return sheets


@dataclass(frozen=True, slots=True)
class _Anchor:
    """A line by what is alike wherever it lies."""

    kind: tuple[object, ...]
    """Its look, and its numbers of segments."""
    extent: Point
    corner: Point
    """mm; of its box, and lower left of that."""

    def is_like(self, other: "_Anchor") -> bool:
        """Whether it is the same line in another place."""
        return self.kind == other.kind and distance(self.extent, other.extent) < ALIKE


def _anchor(path: FoundPath) -> _Anchor:
    box = path.box()
    kind = (path.look, tuple(len(stroke.run) for stroke in path.strokes))
    return _Anchor(kind, (box[2] - box[0], box[3] - box[1]), (box[0], box[1]))


def _leads_out(path: FoundPath) -> bool:
    """Whether a line is only seen in part."""
    if path.clip is None:
        return False
    box, window = path.box(), path.clip
    return (
        box[0] < window[0] - 0.1
        or box[1] < window[1] - 0.1
        or box[2] > window[2] + 0.1
        or box[3] > window[3] + 0.1
    )


@dataclass(frozen=True, slots=True)
class _Lines:
    """The lines of a page."""

    seen_in_part: tuple[_Anchor, ...]
    by_kind: dict[tuple[object, ...], list[_Anchor]]

    def has(self, wanted: _Anchor, shift: Point) -> bool:
        """Whether a line of another page, moved, lies on one of this page."""
        at = (wanted.corner[0] + shift[0], wanted.corner[1] + shift[1])
        return any(
            wanted.is_like(own) and distance(own.corner, at) < ALIKE
            for own in self.by_kind.get(wanted.kind, ())
        )


def _lines(page: FoundPage) -> _Lines:
    by_kind: dict[tuple[object, ...], list[_Anchor]] = {}
    part: list[_Anchor] = []
    for path in page.paths:
        anchor = _anchor(path)
        by_kind.setdefault(anchor.kind, []).append(anchor)
        if _leads_out(path):
            part.append(anchor)
    return _Lines(tuple(part), by_kind)


def _shift(here: _Lines, other: _Lines) -> Point | None:
    """By how much the other page is moved to lie on this one; None where they are no neighbours.

    All that either shows in part has to be on both: the same piece on two sheets does not join
    them.
    """
    if not here.seen_in_part or not other.seen_in_part:
        return None
    first = other.seen_in_part[0]
    tried = [own for own in here.by_kind.get(first.kind, ()) if own.is_like(first)]
    for own in tried[:MOST_TRIED]:
        shift = (own.corner[0] - first.corner[0], own.corner[1] - first.corner[1])
        back = (-shift[0], -shift[1])
        if all(here.has(one, shift) for one in other.seen_in_part) and all(
            other.has(one, back) for one in here.seen_in_part
        ):
            return shift
    return None


def _once(paths: Sequence[FoundPath]) -> list[FoundPath]:
    """Paths without those that lie on another: the same line from two pages."""
    kept: list[FoundPath] = []
    seen: dict[tuple[object, ...], list[_Anchor]] = {}
    for path in paths:
        anchor = _anchor(path)
        alike = seen.setdefault(anchor.kind, [])
        if any(anchor.is_like(o) and distance(anchor.corner, o.corner) < ALIKE for o in alike):
            continue
        alike.append(anchor)
        kept.append(path)
    return kept
