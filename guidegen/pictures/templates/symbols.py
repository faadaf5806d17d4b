"""What small pictures beside words on templates show → their lines."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import radians, tan

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.linestyles import CUT, FINE

HIDDEN = replace(FINE, dash=(1.0, 0.6))
FOLD = replace(FINE, dash=(2.0, 0.6, 0.2, 0.6))

SECTION_WIDTH = 8.0
SECTION_HEIGHT = 3.4
"""mm; room for a section."""

type SymbolPlace = Callable[[float, float], Point]
"""From mm right of a picture's left end and above its middle to a point on the page."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A slanted edge cut through: the face that one sees is on top."""

    angle: float
    """degrees from square."""
    inward: bool
    """True where the far face is the smaller one."""
    width: float = SECTION_WIDTH
    height: float = SECTION_HEIGHT

    def draw(self, canvas: Canvas, at: SymbolPlace) -> None:
        """The face on top is wide, as cut lines are."""
        # True to the angle as far as the picture is wide; 2 mm of the face stay in any case.
        lean = min(self.height * tan(radians(self.angle)), self.width - 2)
        top, foot = (0.0, lean) if self.inward else (lean, 0.0)
        low, high = -self.height / 2, self.height / 2
        _draw(canvas, at, [(0, low), (self.width - foot, low), (self.width - top, high), (0, high)])
        canvas.line(at(0, high), at(self.width - top, high), CUT.stroke)


@dataclass(frozen=True, slots=True)
class GrooveSymbol:
    """A groove on the back, cut through: the face that one sees is on top."""

    fold: float
    """degrees between the walls."""
    share: float
    """How deep it is, as a share of the foam."""
    width: float = SECTION_WIDTH
    height: float = SECTION_HEIGHT

    def draw(self, canvas: Canvas, at: SymbolPlace) -> None:
        """Foam with the groove from below."""
        deep = self.share * self.height
        # True to the angle as far as the picture is wide; 1 mm of the back stays at each side.
        half = min(deep * tan(radians(self.fold / 2)), self.width / 2 - 1)
        middle, low, high = self.width / 2, -self.height / 2, self.height / 2
        _draw(
            canvas,
            at,
            [
                (0, low),
                (middle - half, low),
                (middle, low + deep),
                (middle + half, low),
                (self.width, low),
                (self.width, high),
                (0, high),
                (0, low),
            ],
        )
        canvas.line(at(0, high), at(self.width, high), CUT.stroke)


HALF = 4.0
TALL = 5.0
GAP = 1.6
"""mm; width and height of an outline that stands for a template, and the gap between two."""

OUTLINE = ((0.0, -2.5), (HALF, -2.5), (HALF, 2.5), (HALF / 2, 2.5), (0.0, 0.0), (0.0, -2.5))
"""An outline that one cannot take for its mirror image."""


@dataclass(frozen=True, slots=True)
class HandSymbol:
    """Which way round a template is cut: the first solid, what is made by flipping it dashed."""

    flipped: bool
    """True where the second is the first one flipped; False where both are as drawn."""
    joined: bool = False
    """True for a half on the fold: one piece."""
    height: float = TALL

    @property
    def width(self) -> float:
        """mm."""
        return 2 * HALF + (0 if self.joined else GAP)

    def draw(self, canvas: Canvas, at: SymbolPlace) -> None:
        """Two outlines side by side, or two halves with the fold between them."""
        # A half on the fold lies open there: its right side, where the fold is drawn, is left out.
        first = OUTLINE[2:5] + OUTLINE[4:] + OUTLINE[1:2] if self.joined else OUTLINE
        _draw(canvas, at, first)
        second = [(self.width - x if self.flipped else x + HALF + GAP, y) for x, y in first]
        _draw(canvas, at, second, HIDDEN if self.flipped else FINE)
        if self.joined:
            canvas.line(at(HALF, -TALL / 2), at(HALF, TALL / 2), FOLD)


type AnySymbol = Symbol | GrooveSymbol | HandSymbol


def hand_symbol(piece: Piece, served: Sequence[Piece]) -> HandSymbol | None:
    """The picture of how a template is cut; None where one piece is cut as drawn."""
    if piece.fold:
        return HandSymbol(flipped=True, joined=True)
    if {one.mirrored for one in served} == {True, False}:
        return HandSymbol(flipped=True)
    if sum(one.copies for one in served) > 1:
        return HandSymbol(flipped=False)
    return None


def _draw(
    canvas: Canvas, at: SymbolPlace, points: Sequence[tuple[float, float]], stroke: Stroke = FINE
) -> None:
    canvas.path([polyline([at(u, v) for u, v in points])], stroke)
