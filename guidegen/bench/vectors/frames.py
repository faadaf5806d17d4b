"""Pages in → the same without what is no line of a template: grounds, frames of pages and tiles."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from guidegen.bench.vectors.records import FoundPage, FoundPath, LineBox
from guidegen.geometry.outline.records import Line

SPAN = 0.7
"""Share of a page's width and height that a frame of a tile spans. Our choice: margins of printers
and room for glue take a tenth on each side."""
EDGE = 40.0
"""mm from the edge of its page within which a dashed line across it is one of a tile: our
choice."""
SAME = 0.05
"""mm."""


def without_frames(pages: Sequence[FoundPage]) -> tuple[list[FoundPage], dict[str, int]]:
    """The pages, and how many of each were left out, by what they are."""
    left_out: Counter[str] = Counter()
    repeated = _repeated(pages)
    found: list[FoundPage] = []
    for page in pages:
        kept: list[FoundPath] = []
        for path in page.paths:
            reason = _reason(page, path)
            if not reason and _key(path) in repeated:
                reason = "drawn at one place on every page"
            if reason:
                left_out[reason] += 1
            else:
                kept.append(path)
        found.append(replace(page, paths=tuple(kept)))
    return found, dict(left_out)


def _reason(page: FoundPage, path: FoundPath) -> str:
    """Why a path is no line of a template; empty where it may be one."""
    box, look = path.box(), path.look
    width, height = page.size
    if look.face and not look.width and look.face.lower() == "#ffffff":
        return "white faces"
    if path.clip is not None and not _overlap(box, path.clip):
        return "outside the window of its page"
    if not (width and height):
        return ""
    if not _overlap(box, (0.0, 0.0, width, height)):
        return "outside its page"
    if not _is_level(path):
        return ""
    whole = all(
        abs(side - edge) < 1 for side, edge in zip(box, (0.0, 0.0, width, height), strict=True)
    )
    if whole:
        return "frame of the page"
    if look.dash and _spans(box, width, height):
        return "dashed frame of a tile"
    return ""


def _overlap(first: LineBox, second: LineBox) -> bool:
    return (
        first[0] <= second[2] + SAME
        and first[2] >= second[0] - SAME
        and first[1] <= second[3] + SAME
        and first[3] >= second[1] - SAME
    )


def _is_level(path: FoundPath) -> bool:
    """Whether all of it runs along the sides of the page."""
    return all(
        isinstance(one, Line)
        and min(abs(one.end[0] - one.start[0]), abs(one.end[1] - one.start[1])) < SAME
        for stroke in path.strokes
        for one in stroke.run
    )


def _spans(box: LineBox, width: float, height: float) -> bool:
    """Whether a dashed thing goes round most of its page, or along one edge of it."""
    across, up = box[2] - box[0], box[3] - box[1]
    if across >= SPAN * width and up >= SPAN * height:
        return True
    if up < SAME and across >= SPAN * width:
        return min(box[1], height - box[3]) < EDGE
    if across < SAME and up >= SPAN * height:
        return min(box[0], width - box[2]) < EDGE
    return False


type _Key = tuple[object, ...]


def _key(path: FoundPath) -> _Key:
    counts = tuple(len(stroke.run) for stroke in path.strokes)
    return (path.look, counts, *(round(side, 1) for side in path.box()))


def _repeated(pages: Sequence[FoundPage]) -> set[_Key]:
    """What every page has at the same place: heads, frames, crosses to join by."""
    if len(pages) < 2:
        return set()
    common: set[_Key] | None = None
    for page in pages:
        keys = {_key(path) for path in page.paths if not _sticks_out(path)}
        common = keys if common is None else common & keys
    return common or set()


def _sticks_out(path: FoundPath) -> bool:
    """A line that its window cuts off goes on elsewhere: it is no furniture of a page."""
    box = path.box()
    return path.clip is not None and any(
        over > 0.1
        for over in (
            path.clip[0] - box[0],
            path.clip[1] - box[1],
            box[2] - path.clip[2],
            box[3] - path.clip[3],
        )
    )
