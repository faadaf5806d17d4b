"""Layer stack in → where each layer lies on the one below, and so where glue goes."""

from dataclasses import dataclass

from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    heading,
    segment_point,
    segment_start,
)
from guidegen.geometry.outline.records import InnerLine, LineKind, Point, Run
from guidegen.geometry.pieces.records import Kit, LayerStack, Piece, Side
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.label_places import Rings, inside

SAME = 1.0
"""mm; a placement line whose extent differs by less shows the piece unturned."""


@dataclass(frozen=True, slots=True)
class GluedPiece:
    """A piece laid on the lowest layer of its stack."""

    piece: Piece
    frames: tuple[Frame, ...]
    """Where it lies in the lowest layer's coordinates: one for each copy."""
    sure: bool
    """True where placement lines say so, or where it is as large as the lowest layer."""

    def bodies(self) -> tuple[tuple[Run, ...], ...]:
        """Rings of each copy, outline first, in the lowest layer's coordinates."""
        rings = (self.piece.shape.ring(), *self.piece.shape.holes)
        return tuple(frame.runs(rings) for frame in self.frames)


def lay_up(stack: LayerStack, kit: Kit) -> tuple[GluedPiece, ...]:
    """Every layer where it belongs: on placement lines that name it, else in the middle.

    Empty where the kit lacks the lowest layer's piece; other layers without piece are left out.
    """
    laid: list[GluedPiece] = []
    for layer in stack.layers:
        piece = next(kit.built(layer.part), None)
        # The lowest layer is the frame of reference; without it nothing has a place.
        if piece is None:
            if not laid:
                return ()
            continue
        frames = _named_places(piece, laid)
        if frames:
            laid.append(GluedPiece(piece, frames, sure=True))
            continue
        base, ring = (laid[0].piece if laid else piece).shape.ring(), piece.shape.ring()
        (x, y), middle = _middle(base), _middle(ring)
        frame = Frame(x=x - middle[0], y=y - middle[1])
        laid.append(GluedPiece(piece, (frame,), sure=_as_large(base, ring)))
    return tuple(laid)


def footprints(laid: tuple[GluedPiece, ...]) -> tuple[tuple[Run, ...], ...]:
    """For each layer, the rings on it of all that rests on it, in the lowest layer's coordinates.

    A copy rests on the highest layer below it that has foam under most of it: what stands in a
    window rests on the layer behind the window. Layers whose place is not sure are left out.
    """
    # mm; half a millimetre of a curve decides nothing about where most of a piece lies.
    faces = [[[flatten(ring, 0.5) for ring in rings] for rings in layer.bodies()] for layer in laid]
    resting: list[list[Run]] = [[] for _ in laid]
    for number, layer in enumerate(laid):
        for rings in layer.bodies() if layer.sure else ():
            # From the next layer down to the lowest: the first with foam under most of the piece
            # bears it.
            for below in range(number - 1, -1, -1):
                if any(_lands(rings, face) for face in faces[below]):
                    resting[below].extend(rings)
                    break
    return tuple(tuple(rings) for rings in resting)


def _lands(rings: tuple[Run, ...], face: Rings) -> bool:
    """Whether most of an outline lies on foam, not over a hole or beside it."""
    points = [point for ring in rings for point in flatten(ring, 0.5)]
    # Points of the outline stand for its area: more than half of them over foam.
    return sum(inside(face, point) for point in points) * 2 > len(points)


def _as_large(first: Run, second: Run) -> bool:
    (l1, b1, r1, t1), (l2, b2, r2, t2) = bounds((first,)), bounds((second,))
    return abs((r1 - l1) - (r2 - l2)) < 2 * SAME and abs((t1 - b1) - (t2 - b2)) < 2 * SAME


def _named_places(piece: Piece, laid: list[GluedPiece]) -> tuple[Frame, ...]:
    """Where the placement lines below put a piece; the nearest layer with such lines counts."""
    for under in reversed(laid):
        lines = [line for line in under.piece.shape.lines if _names(line, piece)]
        if lines:
            return tuple(_onto(_placed(line.run, piece), under.frames[0]) for line in lines)
    return ()


def _names(line: InnerLine, piece: Piece) -> bool:
    """Whether a placement line is meant for a piece: its label, without the letter of its side."""
    plain = piece.label if piece.side is Side.ANY else piece.label.removesuffix(_letter(piece))
    return line.kind is LineKind.PLACEMENT and line.label in {piece.label, plain}


def _letter(piece: Piece) -> str:
    return "L" if piece.side is Side.LEFT else "R"


def _placed(run: Run, piece: Piece) -> Frame:
    """The frame that lays a piece into a placement line: turned as the line is, middles meeting."""
    ring = piece.shape.ring()
    (left, low, right, high), (l2, b2, r2, t2) = bounds((ring,)), bounds((run,))
    # A line as wide and high as the piece is the piece unturned; else both runs are the same
    # outline, and the angle between like points of them is the turn.
    turned = abs((right - left) - (r2 - l2)) > SAME or abs((high - low) - (t2 - b2)) > SAME
    angle = _turn(run) - _turn(ring) if turned and len(run) == len(ring) else 0.0
    spun = Frame(angle=angle)
    middle, place = _middle(spun.run(ring)), _middle(run)
    return Frame(x=place[0] - middle[0], y=place[1] - middle[1], angle=angle)


def _turn(run: Run) -> float:
    """Direction from a run's first point to the start of its middle segment, in degrees."""
    (x0, y0), (x1, y1) = segment_start(run[0]), segment_start(run[len(run) // 2])
    if len(run) == 1:
        (x1, y1) = segment_point(run[0], 0.5)
    return heading((x1 - x0, y1 - y0))


def _onto(frame: Frame, base: Frame) -> Frame:
    """A frame given in the coordinates of a piece that lies in `base`."""
    x, y = base.point((frame.x, frame.y))
    return Frame(x=x, y=y, angle=frame.angle + base.angle)


def _middle(run: Run) -> Point:
    left, low, right, high = bounds((run,))
    return ((left + right) / 2, (low + high) / 2)
