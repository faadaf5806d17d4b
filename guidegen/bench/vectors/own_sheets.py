"""Template pages that guidegen wrote in → their lines by what they ask for, without all else.

On its own sheets lines are known by width and dashes, and what lies outside the window of a page is
words, check squares and the title strip.
"""

from collections.abc import Sequence
from dataclasses import replace

from guidegen.bench.vectors.parts import FoundPart
from guidegen.bench.vectors.records import FoundPage, FoundPath, StrokeLook
from guidegen.geometry.drawing.records import Role, Subpath
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import run_length, segment_end, segment_start
from guidegen.geometry.outline.records import LineKind
from guidegen.pictures.pen.canvas import Stroke
from guidegen.pictures.pen.linestyles import CREASE, CUT, INNER

PRODUCER = "guidegen"

_ROLES = {
    LineKind.FOLD: Role.FOLD,
    LineKind.PLACEMENT: Role.PLACEMENT,
    LineKind.TEXTURE: Role.TEXTURE,
    LineKind.ENGRAVE: Role.ENGRAVE,
    LineKind.CENTRE: Role.CENTRE,
}

_ALIKE = 0.02
"""mm by which a width or a dash may differ."""


def is_own(producer: str) -> bool:
    """Whether a file says that guidegen wrote it."""
    return producer.split()[:1] == [PRODUCER]


def own_lines(pages: Sequence[FoundPage]) -> list[FoundPage]:
    """The pages with lines of templates alone, each on a layer named after its role."""
    return [
        replace(page, paths=tuple(kept for path in page.paths if (kept := _own_line(path))))
        for page in pages
    ]


def _own_line(path: FoundPath) -> FoundPath | None:
    if path.clip is None or not path.look.width:
        return None
    name = next((name for name, stroke in _known() if _fits(path.look, stroke)), "")
    # Match marks have the width of the cut line; a tick is one straight stroke.
    if name == "cut" and all(len(one.run) == 1 and not one.closed for one in path.strokes):
        name = str(Role.NOTE)
    return replace(path, look=StrokeLook(name, path.look.colour, path.look.width)) if name else None


def _known() -> list[tuple[str, Stroke]]:
    inner = [(str(_ROLES[kind]), style.stroke) for kind, style in INNER.items() if kind in _ROLES]
    return [("cut", CUT.stroke), (str(Role.CENTRE), CREASE.stroke), *inner]


def _fits(look: StrokeLook, stroke: Stroke) -> bool:
    return (
        abs(look.width - stroke.width) < _ALIKE
        and look.colour.lower() == stroke.colour.lower()
        and len(look.dash) == len(stroke.dash)
        and all(abs(a - b) < _ALIKE for a, b in zip(look.dash, stroke.dash, strict=True))
    )


def own_halves(lines: Sequence[tuple[StrokeLook, Subpath]]) -> list[tuple[StrokeLook, Subpath]]:
    """The lines with the cut line of each half closed by the centre line that it ends on."""
    creases = [
        stroke
        for look, stroke in lines
        if look.layer == str(Role.CENTRE) and not stroke.closed and len(stroke.run) == 1
    ]
    found: list[tuple[StrokeLook, Subpath]] = []
    for look, stroke in lines:
        if look.layer == "cut" and not stroke.closed and _is_half(stroke, creases):
            found.append((look, Subpath(stroke.run, closed=True)))
        else:
            found.append((look, stroke))
    return found


def own_pieces(pages: Sequence[Sequence[FoundPart]]) -> list[list[FoundPart]]:
    """The pieces of all pages, each once, however many pages show a part of it."""
    seen: list[tuple[float, ...]] = []
    found: list[list[FoundPart]] = []
    for parts in pages:
        kept: list[FoundPart] = []
        for part in parts:
            # What lies in no outline is words and marks of the page.
            if not part.has_outline:
                continue
            left, low, right, high = part.box
            ring = part.lines[0].stroke.run
            key = (right - left, high - low, run_length(ring), float(len(part.lines)))
            if not any(max(abs(a - b) for a, b in zip(key, k, strict=True)) < 0.1 for k in seen):
                seen.append(key)
                kept.append(part)
        found.append(kept)
    return found


def _is_half(stroke: Subpath, creases: Sequence[Subpath]) -> bool:
    ends = (segment_start(stroke.run[0]), segment_end(stroke.run[-1]))
    return any(
        min(
            distance(ends[0], a) + distance(ends[1], b),
            distance(ends[0], b) + distance(ends[1], a),
        )
        < 0.1
        for crease in creases
        for a, b in [(segment_start(crease.run[0]), segment_end(crease.run[-1]))]
    )
