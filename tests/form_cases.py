"""OBJ, STL and PLY files that attack their reader or break by accident, each with what is told.

`says` is part of the message; None where the file is read as it is, and told what was mended.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from form_shapes import ball, box, cone, obj, ply, stl


@dataclass(frozen=True)
class FormCase:
    """One hostile file."""

    name: str
    says: str | None
    data: bytes


SQUARE = "v 0 0 0\nv 100 0 0\nv 100 100 0\nv 0 100 0\n"


def cases() -> list[FormCase]:
    """All of them, in a fixed order."""
    found = [*_obj(), *_stl(), *_ply(), *_surfaces()]
    return [FormCase(name, says, data) for name, says, data in found]


def _obj() -> Iterator[tuple[str, str | None, bytes]]:
    def text(name: str, says: str | None, more: str) -> tuple[str, str | None, bytes]:
        return f"{name}.obj", says, (SQUARE + more).encode()

    yield "empty.obj", "no faces", b""
    yield "zeros.obj", "longer than", bytes(100_000)
    yield "random.obj", "", np.random.default_rng(1).bytes(50_000)
    yield text("points-alone", "no faces", "")
    yield text("far-index", "there is no point 99", "f 1 2 99\n")
    yield text("zero-index", "expected the number of a point", "f 0 1 2\n")
    yield text("huge-index", "expected the number of a point", f"f 1 2 {'9' * 400}\n")
    yield text("back-index", "there is no point -9", "f 1 2 -9\n")
    yield text("words-for-numbers", 'found "nan"', "v nan 0 0\nf 1 2 5\n")
    yield text("infinite", 'found "inf"', "v 1 inf 0\nf 1 2 3\n")
    yield text("overflow", "far too large", "v 1e300 1e300 1e300\nf 1 2 5\n")
    yield text("two-corners", "a face of 2 corners", "f 1 2\n")
    yield text("many-corners", "a face of 5000 corners", "f " + "1 2 3 4 " * 1250 + "\n")
    yield text("long-line", "longer than", "f " + "1" * 3_000_000 + "\n")
    yield text("line-that-goes-on", "longer than", "f 1 2 \\\n" * 40_000)
    yield text("curves", "curved surfaces", "cstype bspline\ncurv 0 1 1 2 3 4\n")
    yield text("other-file", None, "mtllib /etc/passwd\nusemtl ../../x\nf 1 2 3 4\n")
    yield text("names", "materials and groups",
               "".join(f"usemtl m{n}\nf 1 2 3\n" for n in range(600)))  # fmt: skip
    yield text("points-in-one-place", "its longest side is 0 mm", "v 0 0 0\nv 0 0 0\nf 1 5 6\n")
    yield text("line-in-space", None, "v 900 0 0\nf 1 2 3 4\nl 1 5\n")
    yield (
        "million-faces.obj",
        "more than 100000 triangles",
        (SQUARE + "f 1 2 3\n" * 110_000).encode(),
    )
    yield (
        "in-metres.obj",
        "expected 10 to 5000 mm",
        (SQUARE.replace("100", "0.1") + "f 1 2 3\n").encode(),
    )


def _stl() -> Iterator[tuple[str, str | None, bytes]]:
    good = stl(cone(50, 50, 60, 12, 2))
    yield "short.stl", "too short", b"\0" * 50
    yield "cut-off.stl", "has room for", good[:-30]
    yield "count-lies.stl", "has room for", good[:80] + b"\xff\xff\xff\xff" + good[84:]
    yield "solid-in-head.stl", None, b"solid" + good[5:]
    yield "four-corners.stl", "a facet of 4 corners", b"solid a\nfacet\nouter loop\n" + (
        b"vertex 1 2 3\n" * 4
    ) + b"endloop\n"  # fmt: skip
    yield (
        "ends-within.stl",
        "ends within a facet",
        b"solid a\nvertex 1 2 3\nvertex 2 3 4\n" + b" " * 90,
    )
    nan = bytearray(good)
    nan[96:100] = b"\x00\x00\xc0\x7f"
    yield "nan.stl", "no number", bytes(nan)
    yield "no-numbers.stl", "expected a number", b"solid a\nvertex a b c\n" + b" " * 90


def _ply() -> Iterator[tuple[str, str | None, bytes]]:
    good = ply(cone(50, 50, 60, 12, 2), text=True)
    head = b"ply\nformat ascii 1.0\n"
    tail = b"property float x\nproperty float y\nproperty float z\nend_header\n"
    yield "no-head.ply", "expected a head", b"ply\n" + b"x" * 100_000
    yield "endless-head.ply", "expected a head", b"ply\n" + b"comment a\n" * 200_000
    yield "other-format.ply", "no such format", good.replace(b"ascii", b"octal")
    yield "many-points.ply", "elements vertex", head + b"element vertex 999999999\n" + tail
    yield "cut-off.ply", "ends before", good[:-40]
    yield "list-of-many.ply", "a list of", good.replace(b"\n3 0 ", b"\n99999 0 ", 1)
    yield "no-x.ply", 'a value "x"', good.replace(b"property double x", b"property double w")
    yield "empty-elements.ply", "no faces", head + b"element vertex 0\n" + tail
    yield "many-words.ply", "1200000 values", head + b"element odd 100000\n" + (
        b"property float a\n" * 90
    ) + b"end_header\n" + b"1 " * 1_300_000  # fmt: skip


def _surfaces() -> Iterator[tuple[str, str | None, bytes]]:
    """Meshes that are well written and no sound surface."""
    points, faces = box(100, 80, 60, 2)
    yield "inside-out.obj", None, obj((points, faces[:, ::-1]))
    some = faces.copy()
    some[::5] = some[::5, ::-1]
    yield "faces-turned.obj", None, obj((points, some))
    yield "one-face-missing.obj", None, obj((points, faces[1:]))
    fin = np.vstack((points, [(50, -50, 60)]))
    yield (
        "fin.obj",
        "three faces or more",
        obj((fin, np.vstack((faces, [(*faces[0][:2], len(points))])))),
    )
    two = np.vstack((points, points + np.array((37, 23, 11))))
    yield (
        "two-boxes.obj",
        "passes through itself",
        obj((two, np.vstack((faces, faces + len(points))))),
    )
    apart = np.vstack((points, points + np.array((150, 0, 0))))
    yield "boxes-apart.obj", None, obj((apart, np.vstack((faces, faces + len(points)))))
    band = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    rows = [
        ((100 + s * 20 * np.cos(t / 2)) * np.cos(t), (100 + s * 20 * np.cos(t / 2)) * np.sin(t),
         s * 20 * np.sin(t / 2)) for t in band for s in (-1, 1)
    ]  # fmt: skip
    joined = []
    for n in range(24):
        a, b = 2 * n, 2 * n + 1
        c, d = (2 * n + 2, 2 * n + 3) if n < 23 else (1, 0)
        joined += [(a, c, b), (b, c, d)]
    yield "one-sided.obj", "one side alone", obj((np.array(rows), np.array(joined)))
    touching = np.vstack((points, points + np.array((100, 80, 60))))
    yield "touch-in-a-point.obj", None, obj((touching, np.vstack((faces, faces + len(points)))))
    yield "twice.obj", None, obj((points, np.vstack((faces, faces))))
    crumbs = np.random.default_rng(2).uniform(0, 500, (900, 3))
    yield "crumbs.obj", "", obj((crumbs, np.arange(900).reshape(-1, 3)))
    tangle = np.random.default_rng(3).uniform(0, 500, (3000, 3))
    pairs = np.random.default_rng(4).integers(0, 3000, (6000, 3))
    yield "tangle.obj", "", obj((tangle, pairs))
    flat = ball(100, 24, 12)
    yield "pressed-flat.obj", "", obj((flat[0] * (1, 1, 0), flat[1]))
    flat = ball(100, 12, 6)
    spiky = flat[0] * np.random.default_rng(5).uniform(0.4, 1.6, (len(flat[0]), 1))
    yield "spiky.obj", None, obj((spiky, flat[1]))
