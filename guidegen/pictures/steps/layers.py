"""Step and kit in → the layers at hand as far as they are built, those of this step in colour."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from itertools import pairwise

from guidegen.geometry.pieces.records import Kit, LayerStack
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.hatches import fill_tint
from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width, wrap
from guidegen.pictures.pen.tints import ACCENT, NARROW, PAPER, foam_tint
from guidegen.words import Words

LETTERS = 3.6
"""mm; size of the words in a slab."""
SLAB, GROWTH = 5.0, 0.35
"""mm; height of the thinnest slab, and what each mm of foam adds: thin layers stay readable."""
HEAD = 1.6
"""mm above the words over the slabs."""
LIFT = 2.6
"""mm from the slabs up to the base line of these words, in the gap that the last row leaves."""
LINE = 4.6
"""mm from one line of these words to the next."""
GAP = 5.0
"""mm between what stands on different pieces."""
INSET = 1.2
"""mm by which a layer ends before the one below, on both sides, so that both are seen."""
WIDEST = 35.0
"""mm for a single layer: two stand beside each other, and wider ones say no more."""
FRESH = Stroke(0.9, colour=ACCENT)
"""Glue line of this step."""


@dataclass(frozen=True, slots=True)
class LayerNode:
    """A layer, and what lies directly on it."""

    part: str
    label: str
    material: str
    thickness: float
    """mm."""
    fresh: bool
    """True where this step glues it on the one below."""
    lang: Words
    above: tuple["LayerNode", ...] = ()

    @property
    def words(self) -> str:
        """Label and thickness."""
        return f"{self.label} · {self.lang.number(self.thickness, 1)}"

    @property
    def width(self) -> float:
        """mm that the words of this layer and of those above need."""
        own = text_width(self.words, LETTERS, 600) + 3
        return max(own, sum(one.width for one in self.above)) + 2 * INSET

    @property
    def height(self) -> float:
        """mm from its lower face to the top of all that lies on it."""
        return _slab(self) + max((one.height for one in self.above), default=0.0)


def layers_at_hand(
    stacks: Collection[str], before: Collection[str], kit: Kit, lang: Words
) -> tuple[LayerNode, ...]:
    """What a step that joins `stacks` has at its end, `before` being joined already.

    One tree for each piece that lies on no other one. Stacks of earlier steps are shown only
    where they share a part with this step's.
    """
    chosen = [stack for stack in kit.stacks if stack.id in stacks]
    reached = {layer.part for stack in chosen for layer in stack.layers}
    earlier: list[LayerStack] = []
    # Backward: a stack that was joined earlier may carry this step's by way of one between them.
    for stack in reversed([stack for stack in kit.stacks if stack.id in before]):
        if stack not in chosen and reached & {layer.part for layer in stack.layers}:
            earlier.insert(0, stack)
            reached |= {layer.part for layer in stack.layers}
    on: dict[str, dict[str, bool]] = {}
    for fresh, group in ((False, earlier), (True, chosen)):
        for stack in group:
            parts = [layer.part for layer in stack.layers]
            for below, above in pairwise(parts):
                on.setdefault(below, {})[above] = fresh
    # What lies on nothing is at the bottom: one tree for each.
    carried = {above for laid in on.values() for above in laid}
    roots = [part for part in on if part not in carried]
    return tuple(_tree(kit, part, on, lang, frozenset(), fresh=False) for part in roots)


def _tree(
    kit: Kit,
    part: str,
    on: dict[str, dict[str, bool]],
    lang: Words,
    seen: frozenset[str],
    *,
    fresh: bool,
) -> LayerNode:
    """A part with all that lies on it; `seen` are the parts below, so that no circle is endless."""
    pieces = tuple(kit.pieces_of(part))
    piece = pieces[0]
    above = tuple(
        _tree(kit, other, on, lang, seen | {part}, fresh=new)
        for other, new in on.get(part, {}).items()
        # Stacks of a guide that is still wrong may go round in a circle; checks tell of it,
        # drawings end.
        if other not in seen and other != part and any(kit.pieces_of(other))
    )
    label = " + ".join(one.label for one in pieces)
    return LayerNode(part, label, piece.material, piece.thickness, fresh, lang, above)


@dataclass(frozen=True, slots=True)
class LayerBlock:
    """Trees in rows, and the room in mm that they take."""

    rows: tuple[tuple[LayerNode, ...], ...]
    height: float
    width: float = 0.0
    head: tuple[str, ...] = ()
    """Lines of words above them."""

    @property
    def head_height(self) -> float:
        """mm from the top down to below the last line of these words, its descenders too."""
        lines = LINE * (len(self.head) - 1) + LETTERS * 0.25
        return HEAD + GAP - LIFT + lines if self.head else 0.0


def arrange_layers(trees: Iterable[LayerNode], width: float, lang: Words) -> LayerBlock:
    """Trees side by side, in as many rows as they need; one tree may be wider than `width`."""
    rows: list[list[LayerNode]] = []
    # As full: the first tree begins a row.
    used = width + 1.0
    for tree in trees:
        across = _across(tree)
        if used + across > width:
            rows.append([])
            used = 0.0
        rows[-1].append(tree)
        used += across + GAP
    if not rows:
        return LayerBlock((), 0.0)
    height = sum(max(tree.height for tree in row) + GAP for row in rows)
    widest = max(sum(map(_across, row)) + GAP * (len(row) - 1) for row in rows)
    words = lang.say("Layers after this step, the body below; mm")
    head = tuple(wrap(words, max(width, widest), LETTERS, 600, most=3))
    height += HEAD + LINE * (len(head) - 1)
    return LayerBlock(tuple(map(tuple, rows)), height, widest, head)


def draw_layers(
    canvas: Canvas, block: LayerBlock, corner: tuple[float, float], materials: tuple[str, ...]
) -> None:
    """The rows from the lower left `corner` upward, with words above them."""
    if not block.rows:
        return
    left, base = corner
    y = base
    with canvas.group(css="layers-at-hand"):
        for row in reversed(block.rows):
            x = left
            for tree in row:
                _draw(canvas, tree, (x, y, _across(tree)), materials)
                x += _across(tree) + GAP
            y += max(tree.height for tree in row) + GAP
    for number, line in enumerate(reversed(block.head)):
        # The last row has left its gap behind: words belong to the slabs, not to the gap.
        at = (left, y - GAP + LIFT + LINE * number)
        canvas.text(at, line, LETTERS, weight=600, css="label strong")


def describe_layers(trees: Iterable[LayerNode], lang: Words) -> str:
    """The trees in words: 'B2 on B1 (now), B3 on B2'."""
    return "; ".join(words for tree in trees for words in _pairs(tree, lang))


def _pairs(laid: LayerNode, lang: Words) -> list[str]:
    words = []
    for one in laid.above:
        pair = lang.say("{upper} on {lower}", upper=one.label, lower=laid.label)
        words.append(f"{pair} {lang.say('in this step')}" if one.fresh else pair)
        words += _pairs(one, lang)
    return words


def _across(tree: LayerNode) -> float:
    return max(tree.width, WIDEST if tree.above else 0.0)


def _slab(laid: LayerNode) -> float:
    return SLAB + GROWTH * laid.thickness


def _draw(
    canvas: Canvas, laid: LayerNode, room: tuple[float, float, float], materials: tuple[str, ...]
) -> None:
    """A slab in a room (x, y and width), then what lies on it, each in a share of the width."""
    x, y, width = room
    high = _slab(laid)
    ring = polygon([(x, y), (x + width, y), (x + width, y + high), (x, y + high)])
    fill_tint(canvas, (ring,), foam_tint(materials, laid.material))
    canvas.path([ring], NARROW, css="thin", closed=True)
    middle, half = x + width / 2, text_width(laid.words, LETTERS, 600) / 2 + 0.8
    text = y + high / 2 - LETTERS * CAP_HEIGHT / 2
    plate = (middle - half, text - 0.9, 2 * half, LETTERS * CAP_HEIGHT + 1.8)
    canvas.rectangle(*plate, None, fill=PAPER, css="paper")
    canvas.text(
        (middle, text), laid.words, LETTERS, anchor="middle", weight=600, css="label strong"
    )
    if laid.fresh:
        canvas.line((x, y), (x + width, y), FRESH, css="accent")
    free = width - 2 * INSET
    spare = free - sum(one.width for one in laid.above)
    at = x + INSET
    for one in laid.above:
        # What is left over is shared evenly, so that layers fill the one below.
        across = one.width + spare / len(laid.above)
        _draw(canvas, one, (at, y + high, across), materials)
        at += across
