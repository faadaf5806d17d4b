"""A plate whose edge stands on a line of a face → the plate in space, at its angle to the face."""

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.bevels import bevelled
from guidegen.assembly.sheets.flat import Points2, even_points
from guidegen.assembly.sheets.made import Made, lifted, piece_mesh, sheet_of
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import JoinedSeam, Piece, Standing

LINE_PARTS = 40
"""Parts of a line on which a plate stands. Our choice: a tenth of a millimetre off on an arc of
200 mm with a radius of 100."""
MOST_RULED = 0.03
"""Share by which a plate on a bent line may be longer or shorter than its flat piece. Our choice:
what proof lets pass."""


def ruled_plate(
    base: Made, piece: Piece, seam: JoinedSeam, line: Run, standing: Standing
) -> Made | None:
    """A plate whose edge stands on a line: ruled along it, each point as far from the line as it is
    from the edge. Where foot and line bend alike, that keeps its lengths."""
    mesh = piece_mesh(piece)
    edge = mesh.edges.get(seam.first.edge) if mesh is not None else None
    if mesh is None or edge is None or len(edge) < 2:
        return None
    foot = np.array(even_points([(x, y) for x, y in mesh.points[edge].tolist()], LINE_PARTS))
    way = np.array(even_points(flatten(line), LINE_PARTS))
    points, out = lifted(base, way if seam.flipped else way[::-1], base.sheet.thickness / 2)
    along = unit(np.gradient(points, axis=0))
    aside = np.cross(out, along)
    angle = np.radians(standing.angle)
    rise = unit(out * np.sin(angle) + aside * np.cos(angle))
    face = unit(out * np.cos(angle) - aside * np.sin(angle))
    # The outline is that of the larger face: its foot is bevelled half way up, or is in a slot.
    sunk = standing.deep or abs(np.tan(np.pi / 2 - angle)) * piece.thickness / 2
    at, beyond, high = _beside(foot, mesh.points)
    number = np.arange(LINE_PARTS + 1)

    def there(values: Points3) -> Points3:
        return np.stack([np.interp(at, number, values[:, k]) for k in range(3)], axis=1)

    middle = there(points) + there(along) * beyond[:, None] + there(rise) * (high - sunk)[:, None]
    sheet = sheet_of(piece, mesh, middle, unit(there(face)))
    if sheet.strain > MOST_RULED:
        # What bends otherwise than its line stays flat, and the line gives way to it.
        middle, normal = _laid_flat(mesh.points, middle, edge)
        sheet = sheet_of(piece, mesh, middle, np.broadcast_to(normal, middle.shape).copy())
    return bevelled(Made(piece, sheet, mesh))


def _laid_flat(flat: Points2, near: Points3, edge: NDArray[np.int64]) -> tuple[Points3, Row]:
    """Flat points as a plane in space whose edge comes nearest to where it should be, and the
    normal of the plane: across the whole of `near`, turned in it as the edge is (Kabsch)."""
    own, goal = flat[edge] - flat[edge].mean(0), near[edge] - near[edge].mean(0)
    up = near.mean(0) - near[edge].mean(0)
    right = unit(near[edge[-1]] - near[edge[0]])
    up = unit(up - right * float(up @ right))
    place = np.stack([goal @ right, goal @ up], axis=1)
    turn = np.arctan2(
        (own[:, 0] * place[:, 1] - own[:, 1] * place[:, 0]).sum(), (own * place).sum()
    )
    off = flat - flat[edge].mean(0)
    x = off[:, 0] * np.cos(turn) - off[:, 1] * np.sin(turn)
    y = off[:, 0] * np.sin(turn) + off[:, 1] * np.cos(turn)
    middle = near[edge].mean(0) + x[:, None] * right + y[:, None] * up
    return middle, np.cross(right, up)


def _beside(foot: Points2, flat: Points2) -> tuple[Row, Row, Row]:
    """Where flat points lie beside an edge: its place along it, mm beyond its ends, mm to its left.

    Each point is taken to the side of the edge that is nearest to it.
    """
    start, side = foot[:-1], np.diff(foot, axis=0)
    long = np.sqrt((side**2).sum(1))
    direction = side / long[:, None]
    off = flat[:, None, :] - start[None, :, :]
    share = (off * direction).sum(2) / long
    last = len(start) - 1
    held = np.clip(share, 0.0, 1.0)
    gap = off - held[:, :, None] * side
    best = (gap**2).sum(2).argmin(1)
    rows = np.arange(len(flat))
    own = share[rows, best]
    beyond = np.where(best == 0, np.minimum(own, 0.0), 0.0) + np.where(
        best == last, np.maximum(own - 1, 0.0), 0.0
    )
    there, along = off[rows, best], direction[best]
    cross = along[:, 0] * there[:, 1] - along[:, 1] * there[:, 0]
    # In the wedge over a corner of the edge, as far as its corner is.
    over = np.sqrt((gap[rows, best] ** 2).sum(1))
    within = (own >= 0) & (own <= 1)
    high = np.where(within | (beyond != 0), cross, np.sign(cross) * over)
    return best + np.clip(own, 0.0, 1.0), beyond * long[best], high
