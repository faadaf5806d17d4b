"""What stands below the pieces of a step: bevels, layers, the thing before and after."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from guidegen.assembly.records import JoinSeen
from guidegen.buildfile.records.guide import Step
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.steps.bevels import (
    HEIGHT,
    BevelSection,
    bevel_rows,
    bevel_sections,
    describe_bevels,
    draw_bevel_rows,
)
from guidegen.pictures.steps.joined import (
    JoinBlock,
    arrange_joined,
    describe_joined,
    draw_joined,
)
from guidegen.pictures.steps.layers import (
    LayerBlock,
    arrange_layers,
    describe_layers,
    draw_layers,
    layers_at_hand,
)
from guidegen.words import Words

BESIDE = 4.0
"""mm between the layers and the views beside them."""


@dataclass(frozen=True, slots=True)
class Below:
    """What stands below the pieces."""

    bevels: tuple[tuple[BevelSection, ...], ...]
    layers: LayerBlock
    pairs: JoinBlock
    room: float
    """mm across."""
    words: str
    """The same in words."""

    @staticmethod
    def of(
        step: Step,
        kit: Kit,
        before: Collection[str],
        seen: Sequence[JoinSeen],
        *,
        room: tuple[float, float],
        lang: Words,
        cutting: bool,
    ) -> "Below":
        """Arranged in `room`: mm across, and at most where layers lie side by side on one piece.

        `before` are stacks that earlier steps have joined, `seen` the thing before and after this
        one; `cutting` tells that the step cuts bevels.
        """
        least, most = room
        sections = bevel_sections(step.parts, step.seams, kit, lang, cutting=cutting)
        trees = layers_at_hand(step.stacks, before, kit, lang)
        layers = arrange_layers(trees, least, lang)
        across = max(least, min(layers.width, most))
        pairs = arrange_joined(seen, across, lang)
        if pairs.pairs and layers.width + BESIDE + pairs.width > across:
            # No room for both: the views say where each layer goes, the words say the rest.
            layers, across = LayerBlock((), 0.0), least
            pairs = arrange_joined(seen, across, lang)
        words = ""
        if sections:
            words += " " + lang.say("Bevels: {list}.", list=describe_bevels(sections))
        if trees:
            words += " " + lang.say("Layers: {list}.", list=describe_layers(trees, lang))
        words += describe_joined(pairs, kit, lang)
        return Below(bevel_rows(sections, least), layers, pairs, across, words)

    @property
    def _bevels_at(self) -> float:
        # Views stand beside the layers, but under the words over them, which reach across.
        return max(self.layers.height, self.pairs.height + self.layers.head_height)

    @property
    def height(self) -> float:
        """mm."""
        return self._bevels_at + HEIGHT * len(self.bevels)

    def draw(
        self, canvas: Canvas, corner: tuple[float, float], width: float, materials: tuple[str, ...]
    ) -> None:
        """From the lower left `corner` up; bevels in `width` mm."""
        x, y = corner
        draw_bevel_rows(canvas, self.bevels, (x, y + self._bevels_at), width)
        layers_at = (x, y + self._bevels_at - self.layers.height)
        draw_layers(canvas, self.layers, layers_at, materials)
        free = self.room - self.pairs.width if self.layers.rows else 0.0
        draw_joined(canvas, self.pairs, (x + free, y), materials)
