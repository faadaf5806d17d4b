"""Meshes by formula, as points and triangles and as text of files: what forms are tested with."""

from collections.abc import Callable, Iterable

import numpy as np

type Form = tuple[np.ndarray, np.ndarray]
"""Points in mm, and three of them for each face, counter-clockwise from outside."""


def lathe(profile: Iterable[tuple[float, float]], around: int) -> Form:
    """Rings of (radius, height), joined to a surface that is open below and above."""
    rings = list(profile)
    angle = 2 * np.pi * np.arange(around) / around
    points = [
        np.column_stack((r * np.cos(angle), r * np.sin(angle), np.full(around, z)))
        for r, z in rings
    ]
    return np.concatenate(points), _grid(len(rings), around)


def _grid(rings: int, around: int, *, closed: bool = False) -> np.ndarray:
    faces = []
    for ring in range(rings if closed else rings - 1):
        for place in range(around):
            a, b = ring * around + place, ring * around + (place + 1) % around
            up = (ring + 1) % rings * around - ring * around
            faces += [(a, b, b + up), (a, b + up, a + up)]
    return np.array(faces)


def cone(bottom: float, top: float, height: float, around: int, rings: int) -> Form:
    """A cylinder or a frustum."""
    shares = np.linspace(0, 1, rings + 1)
    return lathe([(bottom + (top - bottom) * s, height * s) for s in shares], around)


def ball(radius: float, around: int, rings: int) -> Form:
    """A sphere with a point at either pole."""
    angle = np.pi * np.arange(1, rings) / rings - np.pi / 2
    points, faces = lathe([(radius * np.cos(t), radius * np.sin(t)) for t in angle], around)
    low, high = len(points), len(points) + 1
    last = (rings - 2) * around
    caps = [(low, (n + 1) % around, n) for n in range(around)]
    caps += [(last + n, last + (n + 1) % around, high) for n in range(around)]
    return np.vstack((points, [(0, 0, -radius), (0, 0, radius)])), np.vstack((faces, caps))


def ring(radius: float, tube: float, around: int, across: int) -> Form:
    """A torus."""
    angle = 2 * np.pi * np.arange(across) / across
    points, _ = lathe([(radius + tube * np.cos(t), tube * np.sin(t)) for t in angle], around)
    return points, _grid(across, around, closed=True)


def torso(around: int, rings: int) -> Form:
    """A body form with chest, waist, shoulders, open at neck and hip; z upward, -y to the front."""
    points = []
    for level in range(rings + 1):
        t = level / rings
        wide = 150 + 25 * np.sin(1.2 * np.pi * (t - 0.1)) - 95 * max(0, (t - 0.75) / 0.25) ** 1.6
        deep = (
            95 + 22 * np.exp(-(((t - 0.62) / 0.17) ** 2)) - 12 * np.exp(-(((t - 0.3) / 0.15) ** 2))
        )
        deep -= 38 * max(0, (t - 0.8) / 0.2) ** 1.5
        for place in range(around):
            angle = 2 * np.pi * place / around
            cosine, sine = np.cos(angle), np.sin(angle)
            x = wide * np.sign(cosine) * abs(cosine) ** 0.85
            y = deep * np.sign(sine) * abs(sine) ** 0.85
            if y < 0:
                away = (520 * t - 340) / 55
                y -= sum(16 * np.exp(-(((x - side) / 38) ** 2) - away**2) for side in (60, -60))
            points.append((x, y, 520 * t))
    return np.array(points), _grid(rings + 1, around)


def box(wide: float, deep: float, high: float, parts: int = 4) -> Form:
    """A closed box, each side in parts × parts squares."""
    faces: list[tuple[int, int, int]] = []
    points: list[tuple[float, ...]] = []
    size = (wide, deep, high)
    for axis in range(3):
        for end in (0.0, 1.0):
            one, two = (axis + 1) % 3, (axis + 2) % 3
            first = len(points)
            for row in range(parts + 1):
                for column in range(parts + 1):
                    place = [0.0, 0.0, 0.0]
                    place[axis], place[one], place[two] = end, row / parts, column / parts
                    points.append(tuple(s * p for s, p in zip(size, place, strict=True)))
            for row in range(parts):
                for column in range(parts):
                    a = first + row * (parts + 1) + column
                    b, c, d = a + parts + 1, a + parts + 2, a + 1
                    pair = [(a, b, c), (a, c, d)]
                    faces += pair if end else [(p, r, q) for p, q, r in pair]
    return np.array(points), np.array(faces)


def along_meridians(around: int, rings: int, every: int, *, poles: bool = False) -> str:
    """Lines of an OBJ from below to above, at each `every`th meridian of a lathe."""
    rows = []
    for place in range(0, around, every):
        line = [ring * around + place + 1 for ring in range(rings)]
        if poles:
            line = [rings * around + 1, *line, rings * around + 2]
        rows.append("l " + " ".join(map(str, line)))
    return "\n".join(rows) + "\n"


def obj(form: Form, more: str = "") -> bytes:
    """Text of an OBJ."""
    points, faces = form
    rows = [f"v {x:.9g} {y:.9g} {z:.9g}" for x, y, z in points]
    rows += [f"f {a + 1} {b + 1} {c + 1}" for a, b, c in faces]
    return ("\n".join(rows) + "\n" + more).encode()


def stl(form: Form, *, text: bool = False) -> bytes:
    """An STL, binary or as text."""
    corners = form[0][form[1]].astype("<f4")
    if text:
        rows = ["solid form"]
        for face in corners:
            rows += ["facet normal 0 0 0", "outer loop"]
            rows += [f"vertex {x:.9g} {y:.9g} {z:.9g}" for x, y, z in face]
            rows += ["endloop", "endfacet"]
        return "\n".join([*rows, "endsolid form", ""]).encode()
    rows = np.zeros(len(corners), [("n", "<f4", 3), ("c", "<f4", (3, 3)), ("m", "<u2")])
    rows["c"] = corners
    return bytes(80) + len(corners).to_bytes(4, "little") + rows.tobytes()


def ply(form: Form, *, text: bool = False) -> bytes:
    """A PLY, binary or as text."""
    points, faces = form
    kind = "ascii" if text else "binary_little_endian"
    head = (
        f"ply\nformat {kind} 1.0\nelement vertex {len(points)}\nproperty double x\n"
        f"property double y\nproperty double z\nelement face {len(faces)}\n"
        "property list uchar int vertex_indices\nend_header\n"
    ).encode()
    if text:
        rows = [" ".join(f"{value:.12g}" for value in point) for point in points]
        rows += ["3 " + " ".join(map(str, face)) for face in faces]
        return head + ("\n".join(rows) + "\n").encode()
    body = points.astype("<f8").tobytes()
    packed = np.zeros(len(faces), [("n", "u1"), ("c", "<i4", 3)])
    packed["n"], packed["c"] = 3, faces
    return head + body + packed.tobytes()


def moved(form: Form, change: Callable[[np.ndarray], np.ndarray]) -> Form:
    """The form with other points."""
    return change(form[0]), form[1]
