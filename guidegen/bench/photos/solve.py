"""Markers seen in photos in → each photo's camera, and where the strips lie on the bench, out.

All photos are solved together: a strip that two of them see joins them. The bench is the plane
z = 0, and the first strip lies along its x axis from the origin. scipy's least squares does it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import OptimizeResult, least_squares

from guidegen.bench.photos.arrays import Array, BenchMask
from guidegen.bench.photos.lens import COUNT, PhotoCamera, half_side, project, to_flat, turn_matrix
from guidegen.bench.photos.strips import MARKERS, SeenMarker, marker_corners, strip_rim

FOCAL = (0.53, 0.35)
"""Logarithm of the usual focal length of telephones and cameras, and how far it may differ:
1.7 half sides is 24 to 28 mm on small film. From memory; a wide guess only."""
LOOSE = np.array([0.02, 0.02, 0.15, 0.1, 0.004, 0.004])
"""How far middle, k1, k2, p1 and p2 may be from none. Our choice: larger than lenses are, so that
they only keep steady what a photo says nothing of."""
PIXEL = 0.1
"""px: how well a corner is seen at best."""
TILTS = ((0.0, 0.0), (0.45, 0.0), (-0.45, 0.0), (0.0, 0.45), (0.0, -0.45))
"""radians by which a camera may lean, to begin with."""
SETTLED = 0.5
"""px: a first guess that leaves no more is right."""
OUTLIER = 6.0
"""Times the usual error from which on a marker is not where it seems to be."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One photo as far as it is solved from."""

    name: str
    width: int
    height: int
    markers: tuple[SeenMarker, ...]


@dataclass(frozen=True, slots=True)
class Solved:
    """The bench and all cameras over it."""

    cameras: tuple[PhotoCamera, ...]
    strips: dict[int, Array]
    """By strip: x, y of its lower left corner in mm, and its turn in radians."""
    error: float
    """Root mean square of what is left over at the markers, in px."""
    worst: float
    """The largest, in mm on the bench."""
    spread: Array
    """Columns: how the numbers of all cameras may move together, each by one standard deviation."""
    dropped: tuple[int, ...]
    """Markers that were left out, as they are not where their strip has them."""

    def rim(self, strip: int) -> Array:
        """The corners of a strip on the bench, mm."""
        return laid(self.strips[strip], strip_rim())


def laid(place: Array, points: Array) -> Array:
    """Points of a strip on the bench."""
    cos, sin = np.cos(place[2]), np.sin(place[2])
    return np.asarray(points @ np.array([[cos, sin], [-sin, cos]]) + place[:2])


def join_order(shots: Sequence[Shot]) -> tuple[list[int], list[int]]:
    """Photos in the order in which each shares a strip with one before it, and those that do not.

    The photo with most markers comes first.
    """
    left = sorted(range(len(shots)), key=lambda one: (-len(shots[one].markers), one))
    order, known = [left.pop(0)], _strips_of(shots[0])
    known = _strips_of(shots[order[0]])
    while left:
        shared = [len(known & _strips_of(shots[one])) for one in left]
        if max(shared) == 0:
            break
        order.append(left.pop(shared.index(max(shared))))
        known |= _strips_of(shots[order[-1]])
    return order, left


def solve(shots: Sequence[Shot]) -> Solved:
    """Cameras and strips. All photos must be joined by strips that they share, see `join_order`."""
    order, _ = join_order(shots)
    places: dict[int, Array] = {}
    values: dict[int, Array] = {}
    for number in order:
        values[number], places = _first_guess(shots[number], places)
        found = _Bundle([shots[one] for one in values], list(places))
        start = found.pack(list(values.values()), places)
        cameras, places = found.unpack(_fitted(found, start).x)
        values = dict(zip(values, cameras, strict=True))
    shots, lost = _without_outliers(shots, values, places)
    bundle = _Bundle(shots, list(places))
    done = _fitted(bundle, bundle.pack([values[one] for one in range(len(shots))], places), 100)
    cameras, places = bundle.unpack(done.x)
    errors = bundle.errors(done.x)
    error = float(np.sqrt(np.mean(errors**2) * 2))
    return Solved(
        tuple(PhotoCamera(v, s.width, s.height) for v, s in zip(cameras, shots, strict=True)),
        places,
        error,
        bundle.worst_mm(done.x),
        _spread(done.jac, max(error, PIXEL / 2) / PIXEL, COUNT * len(shots)),
        lost,
    )


class _Bundle:
    """Markers of several photos against cameras and strips as one row of numbers."""

    def __init__(self, shots: Sequence[Shot], strips: Sequence[int]) -> None:
        self._shots, self._strips = shots, list(strips)
        self._own = [np.concatenate([marker_corners(m.number) for m in s.markers]) for s in shots]
        self._seen = [np.concatenate([m.corners for m in s.markers]) for s in shots]
        slot = {strip: number for number, strip in enumerate(self._strips)}
        self._slots = [np.repeat([slot[m.strip] for m in s.markers], 4) for s in shots]

    def pack(self, cameras: Sequence[Array], places: dict[int, Array]) -> Array:
        """The first strip is left out: it holds all others."""
        return np.concatenate([*cameras, *(places[one] for one in self._strips[1:])])

    def unpack(self, row: Array) -> tuple[list[Array], dict[int, Array]]:
        """The contrary of `pack`."""
        cut = COUNT * len(self._shots)
        cameras = [row[n : n + COUNT] for n in range(0, cut, COUNT)]
        rest = np.concatenate((np.zeros(3), row[cut:])).reshape(-1, 3)
        return cameras, dict(zip(self._strips, rest, strict=True))

    def errors(self, row: Array) -> Array:
        """x and y of what is left over at each corner, px."""
        cameras, places = self.unpack(row)
        rest = np.array(list(places.values()))
        found = []
        for shot, own, seen, slots, camera in zip(
            self._shots, self._own, self._seen, self._slots, cameras, strict=True
        ):
            place = rest[slots]
            cos, sin = np.cos(place[:, 2]), np.sin(place[:, 2])
            x = own[:, 0] * cos - own[:, 1] * sin + place[:, 0]
            y = own[:, 0] * sin + own[:, 1] * cos + place[:, 1]
            flat = project(camera, np.column_stack((x, y, np.zeros(len(x)))))
            side = half_side(shot.width, shot.height)
            found.append(((flat - to_flat(seen, shot.width, shot.height)) * side).ravel())
        return np.concatenate(found)

    def residuals(self, row: Array) -> Array:
        """All that is to be small, each divided by how large it usually is."""
        cameras, _ = self.unpack(row)
        beliefs = [
            np.concatenate(([(v[0] - FOCAL[0]) / FOCAL[1]], v[1:7] / LOOSE)) for v in cameras
        ]
        return np.concatenate((self.errors(row) / PIXEL, *beliefs))

    def worst_mm(self, row: Array) -> float:
        """The largest error of a corner in mm: by the pixels that its marker's side has."""
        sides = np.concatenate(
            [
                np.repeat(np.linalg.norm(m.corners - np.roll(m.corners, 1, 0), axis=1).mean(), 4)
                for shot in self._shots
                for m in shot.markers
            ]
        )
        far = np.linalg.norm(self.errors(row).reshape(-1, 2), axis=1)
        return float((far / sides * 24.0).max())


def _fitted(bundle: _Bundle, start: Array, most: int = 40, loss: str = "soft_l1") -> OptimizeResult:
    return least_squares(
        bundle.residuals, start, x_scale="jac", loss=loss, f_scale=5.0, max_nfev=most
    )


def _first_guess(shot: Shot, known: dict[int, Array]) -> tuple[Array, dict[int, Array]]:
    """A camera and the places of a photo's strips, from several leans: the one that fits best."""
    strips = sorted(_strips_of(shot))
    anchors = [one for one in strips if one in known] or strips
    counts = [sum(m.strip == one for m in shot.markers) for one in anchors]
    anchor = anchors[counts.index(max(counts))]
    best: tuple[float, Array, dict[int, Array]] | None = None
    for tilt in TILTS:
        camera = _leaning(shot, anchor, known.get(anchor, np.zeros(3)), tilt)
        order = [*known, *(one for one in (anchor, *strips) if one not in known)]
        places = {one: known.get(one, np.zeros(3)) for one in dict.fromkeys(order)}
        for one in strips:
            if one not in known and one != anchor:
                places[one] = _laid_by(shot, one, camera)
        bundle = _Bundle([shot], list(places))
        done = _fitted(bundle, bundle.pack([camera], places), 25)
        if best is None or done.cost < best[0] * 0.999:
            cameras, found = bundle.unpack(done.x)
            best = (float(done.cost), cameras[0], {**found, **known})
            if np.sqrt(np.mean(bundle.errors(done.x) ** 2) * 2) < SETTLED:
                break  # another lean would lead to the same place
    assert best is not None  # noqa: S101 - there are leans
    return best[1], best[2]


def _leaning(shot: Shot, anchor: int, place: Array, tilt: tuple[float, float]) -> Array:
    """A camera that leans by `tilt` and sees one strip about where it is seen."""
    own = laid(place, np.concatenate([marker_corners(m.number) for m in _on(shot, anchor)]))
    seen = np.concatenate([m.corners for m in _on(shot, anchor)])
    flat = to_flat(seen, shot.width, shot.height)
    # By how much, and how far turned, the strip stands in the photo: y runs downward there.
    z, w = (own - own.mean(0)) @ [1, -1j], (flat - flat.mean(0)) @ [1, 1j]
    turn = np.vdot(z, w) / np.vdot(z, z)
    spin = turn_matrix(np.array([0, 0, np.angle(turn)]))
    lean = turn_matrix(np.array([tilt[0], tilt[1], 0]))
    matrix = lean @ spin @ np.diag([1.0, -1.0, -1.0])
    focal = np.exp(FOCAL[0])
    distance = focal / abs(turn)
    middle = np.append(own.mean(0), 0.0)
    towards = np.append(flat.mean(0) / focal, 1.0) * distance
    return np.concatenate(
        ([FOCAL[0]], np.zeros(6), _turn_vector(matrix), towards - matrix @ middle)
    )


def _laid_by(shot: Shot, strip: int, camera: Array) -> Array:
    """Where a strip lies if the camera is right."""
    own = np.concatenate([marker_corners(m.number) for m in _on(shot, strip)])
    seen = np.concatenate([m.corners for m in _on(shot, strip)])
    flat = to_flat(seen, shot.width, shot.height)
    matrix = turn_matrix(camera[7:10])
    rays = np.column_stack((flat / np.exp(camera[0]), np.ones(len(flat)))) @ matrix
    eye = -matrix.T @ camera[10:13]
    down = np.minimum(rays[:, 2:], -0.05)  # a ray that would miss the bench meets it far away
    points = (eye - rays * (eye[2] / down))[:, :2]
    z, w = (own - own.mean(0)) @ [1, 1j], (points - points.mean(0)) @ [1, 1j]
    angle = float(np.angle(np.vdot(z, w)))
    place = np.array([0.0, 0.0, angle])
    place[:2] = points.mean(0) - laid(place, own).mean(0)
    return place


def _without_outliers(
    shots: Sequence[Shot], values: dict[int, Array], places: dict[int, Array]
) -> tuple[list[Shot], tuple[int, ...]]:
    """Photos without the markers that lie farther off than chance has it."""
    bundle = _Bundle(shots, list(places))
    row = bundle.pack([values[one] for one in range(len(shots))], places)
    far = np.linalg.norm(bundle.errors(row).reshape(-1, 4, 2), axis=2).max(axis=1)
    most = max(OUTLIER * float(np.median(far)), 1.0)
    keep: BenchMask = far <= most
    kept, lost, at = [], [], 0
    for shot in shots:
        own = keep[at : at + len(shot.markers)]
        at += len(shot.markers)
        good = [m for m, fine in zip(shot.markers, own, strict=True) if fine]
        strips = {m.strip for m in good}
        # A strip that would vanish stays: whether it lies flat is asked later, and told.
        good += [m for m in shot.markers if m.strip not in strips]
        lost += [m.number for m in shot.markers if m not in good]
        kept.append(Shot(shot.name, shot.width, shot.height, tuple(good)))
    return kept, tuple(lost)


def _spread(jacobian: Array, scale: float, count: int) -> Array:
    """Standard deviations of the cameras' numbers as columns, of the covariance's square root."""
    _, sizes, turns = np.linalg.svd(jacobian, full_matrices=False)
    sizes = np.maximum(sizes, sizes[0] * 1e-12)
    return np.asarray((turns.T / sizes * scale)[:count])


def _turn_vector(matrix: Array) -> Array:
    """The contrary of `turn_matrix`."""
    from scipy.spatial.transform import Rotation  # noqa: PLC0415 - loads slowly

    return np.asarray(Rotation.from_matrix(matrix).as_rotvec())


def _strips_of(shot: Shot) -> set[int]:
    return {marker.strip for marker in shot.markers}


def _on(shot: Shot, strip: int) -> list[SeenMarker]:
    return [marker for marker in shot.markers if marker.strip == strip]


__all__ = ["MARKERS", "Shot", "Solved", "join_order", "laid", "solve"]
