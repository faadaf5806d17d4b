"""Layer stack in → where each layer lies on the one below, and so where glue goes."""

from dataclasses import dataclass

from guidegen.geometry.measures import bounds, flatten
from guidegen.geometry.records import Kit, LayerStack, LineKind, Piece, Point, Run
from guidegen.pictures.frames import Frame
from guidegen.pictures.shapes_help import Rings, inside


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece laid on the lowest layer of its stack."""

    piece: Piece
    spots: tuple[Point, ...]
    """Where its origin comes to lie in the lowest layer's coordinates: one for each copy."""

    def bodies(self) -> tuple[tuple[Run, ...], ...]:
        """Rings of each copy, outline first, in the lowest layer's coordinates."""
        rings = (self.piece.shape.ring(), *self.piece.shape.holes)
        return tuple(Frame(x=x, y=y).runs(rings) for x, y in self.spots)


def lay_up(stack: LayerStack, kit: Kit) -> tuple[Laid, ...]:
    """Every layer where it belongs: on placement lines that name it, else in the middle.

    Empty where the kit lacks the lowest layer's piece; other layers without piece are left out.
    """
    laid: list[Laid] = []
    for layer in stack.layers:
        piece = next(iter(kit.pieces_of(layer.part)), None)
        if piece is None:
            if not laid:
                return ()
            continue
        middle = _middle(piece.shape.ring())
        spots = _named_places(piece, laid)
        if not spots:
            spots = (_middle(laid[0].piece.shape.ring()) if laid else middle,)
        laid.append(Laid(piece, tuple((x - middle[0], y - middle[1]) for x, y in spots)))
    return tuple(laid)


def footprints(laid: tuple[Laid, ...]) -> tuple[tuple[Run, ...], ...]:
    """For each layer, the rings on it of all that rests on it, in the lowest layer's coordinates.

    A copy rests on the highest layer below it that has foam under most of it: what stands in a
    window rests on the layer behind the window.
    """
    faces = [[[flatten(ring, 0.5) for ring in rings] for rings in layer.bodies()] for layer in laid]
    resting: list[list[Run]] = [[] for _ in laid]
    for number, layer in enumerate(laid):
        for rings in layer.bodies():
            for below in range(number - 1, -1, -1):
                if any(_lands(rings, face) for face in faces[below]):
                    resting[below].extend(rings)
                    break
    return tuple(tuple(rings) for rings in resting)


def _lands(rings: tuple[Run, ...], face: Rings) -> bool:
    """Whether most of an outline lies on foam, not over a hole or beside it."""
    points = [point for ring in rings for point in flatten(ring, 0.5)]
    return sum(inside(face, point) for point in points) * 2 > len(points)


def _named_places(piece: Piece, laid: list[Laid]) -> tuple[Point, ...]:
    """Middles of the placement lines below that name a piece; the nearest layer counts."""
    for under in reversed(laid):
        shift = under.spots[0]
        found = tuple(
            (x + shift[0], y + shift[1])
            for line in under.piece.shape.lines
            if line.kind is LineKind.PLACEMENT
            and line.label in {piece.label, piece.name, piece.part}
            for x, y in (_middle(line.run),)
        )
        if found:
            return found
    return ()


def _middle(run: Run) -> Point:
    left, low, right, high = bounds((run,))
    return ((left + right) / 2, (low + high) / 2)
