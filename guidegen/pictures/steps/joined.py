"""What is seen before and after a step in → pairs of views with an arrow between them."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.assembly.records import JoinSeen
from guidegen.geometry.outline.records import Line
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.bodies.finished import FINE_LINES, paint_seen
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.lettering import text_width
from guidegen.words import Words

LETTERS = 3.6
"""mm; size of the words over a view."""
HEAD = 5.0
"""mm above the views for these words."""
ARROW = 5.5
"""mm from the left to the right view, with the arrow between them."""
GAP = 6.0
"""mm from one pair to the next."""
FOOT = 2.0
"""mm below them."""


@dataclass(frozen=True, slots=True)
class JoinBlock:
    """Pairs side by side, and the room in mm that they take."""

    pairs: tuple[JoinSeen, ...]
    width: float
    height: float
    """0 without pairs."""
    before: str = ""
    after: str = ""


def arrange_joined(joined: Sequence[JoinSeen], width: float, lang: Words) -> JoinBlock:
    """As many pairs as fit into `width` mm side by side: one at least."""
    before, after = lang.within("step", "Before"), lang.within("step", "After")
    pairs: list[JoinSeen] = []
    used = 0.0
    for one in joined:
        across = _across(one, before, after) + (GAP if pairs else 0.0)
        if pairs and used + across > width:
            break
        pairs.append(one)
        used += across
    if not pairs:
        return JoinBlock((), 0.0, 0.0)
    high = max(one.after.height for one in pairs)
    return JoinBlock(tuple(pairs), used, high + HEAD + FOOT, before, after)


def draw_joined(
    canvas: Canvas, block: JoinBlock, corner: tuple[float, float], materials: tuple[str, ...]
) -> None:
    """The pairs from the lower left `corner` on."""
    x, y = corner[0], corner[1] + FOOT
    with canvas.group(css="joined"):
        for one in block.pairs:
            high = one.after.height
            room = _column(one, block.before)
            _view(canvas, one, (x, y), materials, block.before, fresh=False)
            x += room
            _arrow(canvas, (x + 0.8, y + high / 2), ARROW - 1.6)
            x += ARROW
            _view(canvas, one, (x, y), materials, block.after, fresh=True)
            x += _column(one, block.after) + GAP


def describe_joined(block: JoinBlock, kit: Kit, lang: Words) -> str:
    """The pairs in words, for those who cannot see them; empty without pairs."""
    said = []
    known = {piece.part: piece.name for piece in kit.pieces}
    for one in block.pairs:
        names = {part: known[part] for part in one.after.parts if part in known}
        had = [names[part] for part in one.before.parts if part in names]
        said.append(
            lang.say(
                "Before the step {before}, after it {after}.",
                before=lang.listed(had),
                after=lang.listed(list(names.values())),
            )
        )
    return "".join(f" {one}" for one in said)


def _column(one: JoinSeen, words: str) -> float:
    return max(one.after.width, text_width(words, LETTERS, 600))


def _across(one: JoinSeen, before: str, after: str) -> float:
    return _column(one, before) + ARROW + _column(one, after)


def _view(
    canvas: Canvas,
    one: JoinSeen,
    at: tuple[float, float],
    materials: tuple[str, ...],
    words: str,
    *,
    fresh: bool,
) -> None:
    seen = one.after if fresh else one.before
    x = at[0] + (_column(one, words) - seen.width) / 2
    paint_seen(canvas, seen, materials, (x, at[1]), FINE_LINES)
    middle = at[0] + _column(one, words) / 2
    canvas.text(
        (middle, at[1] + one.after.height + 1.2), words, LETTERS,
        anchor="middle", weight=600, css="label strong",
    )  # fmt: skip


def _arrow(canvas: Canvas, start: tuple[float, float], length: float) -> None:
    x, y = start
    tip = x + length
    stroke = Stroke(0.5)
    canvas.path([(Line((x, y), (tip, y)),)], stroke, css="ink")
    head = (Line((tip - 1.6, y + 1.1), (tip, y)), Line((tip, y), (tip - 1.6, y - 1.1)))
    canvas.path([head], stroke, css="ink")
