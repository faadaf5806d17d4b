"""How true flattened forms come out: prints a table of figures, form by form.

./start python tests/benchmarks/measure_forms.py
"""

import time
from math import hypot, pi

from form_shapes import along_meridians, ball, box, cone, obj, ring, torso

from guidegen.bench.forms.flatten import Flattened, flatten
from guidegen.bench.forms.records import CutAlong, FormWishes, Shown
from guidegen.geometry.outline.records import Arc, Line

FOAM = 10.0


def laid(
    form, *, more: str = "", along: CutAlong = CutAlong.ANY, shows: Shown | None = Shown.INSIDE
):
    """A form laid flat, and the seconds of the processor that it took."""
    begun = time.process_time()
    wishes = FormWishes("mm", along, shows, FOAM if shows else 0.0, up="z")
    found = flatten(obj(form, more), "form.obj", wishes)
    return found, time.process_time() - begun


def row(name: str, found: Flattened, seconds: float) -> None:
    """Figures of one form."""
    strain = [piece.panel.strain for piece in found.pieces]
    areas = [float(one.areas.sum()) for one in strain]
    mean = sum(one.mean * area for one, area in zip(strain, areas, strict=True)) / sum(areas)
    apart = max((seam.apart for seam in found.seams), default=0.0)
    print(
        f"| {name} | {found.faces} | {len(found.pieces)} | {100 * mean:.2f} | "
        f"{100 * max(one.high for one in strain):.2f} | {100 * max(one.worst for one in strain):.2f} | "
        f"{apart:.3f} | {len(found.flagged)} | {len(found.unequal)} | {seconds:.1f} |",
        flush=True,
    )


def radii() -> None:
    """Cylinders and cones with thickness against their formulas."""
    print(
        "| radii, mm | height | around | shows | most off, mm |\n| --- | ---: | ---: | --- | ---: |"
    )
    for shows, side in ((Shown.INSIDE, 0.5), (Shown.OUTSIDE, -0.5), (Shown.MIDDLE, 0.0)):
        for bottom, top, height in ((50, 50, 200), (120, 120, 80), (100, 50, 150), (50, 30, 200)):
            for around in (24, 64, 160):
                found, _ = laid(cone(bottom, top, height, around, 12), shows=shows)
                off = radius_error(found, bottom, top, height, side * FOAM)
                print(
                    f"| {bottom}, {top} | {height} | {around} | {shows} | {off:.4f} |", flush=True
                )


def radius_error(
    found: Flattened, bottom: float, top: float, height: float, offset: float
) -> float:
    """mm by which a flat frustum differs from its development: radii r / sin a, angle 2 pi sin a,
    with sin a = (R - r) / slant (drafting handbooks); of a cylinder, its length 2 pi r."""
    slant = hypot(height, bottom - top)
    wider = [r + offset * height / slant for r in (bottom, top)]
    edges = [edge for edge in found.pieces[0].edges if edge.name.startswith("free")]
    if bottom == top:
        whole = sum(hypot(line.end[0] - line.start[0], line.end[1] - line.start[1])
                    for edge in edges for line in edge.run if isinstance(line, Line))  # fmt: skip
        return abs(whole / 2 - 2 * pi * wider[0]) / (2 * pi)
    sine = (bottom - top) / slant
    arcs = [arc for edge in edges for arc in edge.run if isinstance(arc, Arc)]
    wanted = [radius / sine for radius in wider]
    off = [min(abs(arc.radius - radius) for radius in wanted) for arc in arcs]
    sweep = sum(abs(arc.sweep) for arc in arcs) / 2
    return max([*off, abs(sweep - 360 * sine) * pi / 180 * wanted[0] / (2 * pi)])


def main() -> None:
    """All tables."""
    radii()
    print("\n| form | faces | pieces | mean % | 95th % | worst % | seams apart, mm | flagged | unequal"
          " | CPU s |\n| --- |" + " ---: |" * 9)  # fmt: skip
    for count in (8, 12, 16):
        lines = along_meridians(144, 71, 144 // count, poles=True)
        found, seconds = laid(ball(100, 144, 72), more=lines, shows=None)
        row(f"sphere in {count} gores", found, seconds)
    row("sphere, proposed", *laid(ball(100, 140, 72), along=CutAlong.PROPOSAL))
    row("torus, proposed", *laid(ring(100, 40, 60, 30), along=CutAlong.PROPOSAL))
    row("box", *laid(box(100, 80, 60), along=CutAlong.SHARP, shows=Shown.OUTSIDE))
    for around, rings in ((96, 60), (128, 80)):
        lines = along_meridians(around, rings + 1, around // 8)
        row("torso in 8 panels", *laid(torso(around, rings), more=lines))
    row("torso, proposed", *laid(torso(128, 80), along=CutAlong.PROPOSAL))


if __name__ == "__main__":
    main()
