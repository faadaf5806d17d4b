"""Templates written by five general programs, read back and compared with what was meant.

    ./start python tests/benchmarks/vector_writers.py [--keep FOLDER]

prints for each program and each form how far the drawing is from the truth at worst, in mm. Programs
that are not here are said to be missing. `--keep` keeps the files.
"""

import argparse
import io
import subprocess
import tempfile
from collections.abc import Callable, Iterable
from math import radians, tan
from pathlib import Path

import ezdxf
import weasyprint
from benchmarks.vector_forms import FORMS, Form, is_ring
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from guidegen.bench.vectors.naming import read_stated
from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Wishes, redraw
from guidegen.geometry.drawing.curves import as_cubics, enlarge_segment
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.outline.distances import farthest_apart
from guidegen.geometry.outline.measures import bounds, flatten, segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run

WIDTH, HEIGHT = 420.0, 300.0
"""mm of the page."""

FINE = 0.001
"""mm; how far the points that are compared may leave their curves."""

# --- programs ---


def by_reportlab(form: Form) -> bytes:
    """Its own circles and rounded corners where it has them, else curves."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(WIDTH * mm, HEIGHT * mm), invariant=1)
    for run in form:
        if len(run) == 1 and isinstance(run[0], Arc) and abs(run[0].sweep) >= 360:
            (x, y), radius = run[0].centre, run[0].radius
            canvas.circle(x * mm, y * mm, radius * mm)
            continue
        path = canvas.beginPath()
        x, y = segment_start(run[0])
        path.moveTo(x * mm, y * mm)
        for segment in run:
            match segment:
                case Line(end=end):
                    path.lineTo(end[0] * mm, end[1] * mm)
                case Arc(centre=(cx, cy), radius=r, start_angle=first, sweep=sweep):
                    box = ((cx - r) * mm, (cy - r) * mm, (cx + r) * mm, (cy + r) * mm)
                    path.arcTo(*box, startAng=first, extent=sweep)
                case Cubic(control1=a, control2=b, end=end):
                    path.curveTo(*(value * mm for point in (a, b, end) for value in point))
        if is_ring(run):
            path.close()
        canvas.drawPath(path)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def svg_of(form: Form) -> str:
    """The form as SVG, y downward, with circles as circles."""

    def at(point: tuple[float, float]) -> str:
        return f"{point[0]!r},{HEIGHT - point[1]!r}"

    shapes: list[str] = []
    for run in form:
        if len(run) == 1 and isinstance(run[0], Arc) and abs(run[0].sweep) >= 360:
            (x, y), radius = run[0].centre, run[0].radius
            shapes.append(f'<circle cx="{x!r}" cy="{HEIGHT - y!r}" r="{radius!r}"/>')
            continue
        data = [f"M{at(segment_start(run[0]))}"]
        for segment in run:
            match segment:
                case Line(end=end):
                    data.append(f"L{at(end)}")
                case Arc(radius=r, sweep=sweep):
                    large, turn = int(abs(sweep) > 180), int(sweep < 0)
                    data.append(f"A{r!r} {r!r} 0 {large} {turn} {at(segment_end(segment))}")
                case Cubic(control1=a, control2=b, end=end):
                    data.append(f"C{at(a)} {at(b)} {at(end)}")
        shapes.append(f'<path d="{"".join(data)}{"Z" if is_ring(run) else ""}"/>')
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}mm" height="{HEIGHT}mm" '
        f'viewBox="0 0 {WIDTH} {HEIGHT}" fill="none" stroke="black" stroke-width="0.3">'
        f"{''.join(shapes)}</svg>"
    )


def html_of(form: Form) -> str:
    """A page of that size with the drawing on it."""
    style = (
        f"@page {{ size: {WIDTH}mm {HEIGHT}mm; margin: 0 }} body {{ margin: 0 }} "
        "svg { display: block }"
    )
    return f"<!doctype html><title>t</title><style>{style}</style><body>{svg_of(form)}</body>"


def by_weasyprint(form: Form) -> bytes:
    """A page with an SVG in it."""
    return weasyprint.HTML(string=html_of(form)).write_pdf()


def by_chromium(form: Form) -> bytes:
    """The same page, printed by a browser."""
    with tempfile.TemporaryDirectory() as name:
        page, out = Path(name) / "a.html", Path(name) / "a.pdf"
        page.write_text(html_of(form), encoding="utf-8")
        subprocess.run(
            [
                "chromium", "--headless", "--no-sandbox", "--disable-gpu",
                "--disable-background-networking", f"--user-data-dir={name}/profile",
                "--no-pdf-header-footer", f"--print-to-pdf={out}", page.as_uri(),
            ],
            check=True, capture_output=True, timeout=60,
        )  # fmt: skip
        return out.read_bytes()


def by_matplotlib(form: Form) -> bytes:
    """A figure without axes; its own circles and arcs."""
    # Of no use to anything else here, and large: whoever wants its files anew installs it.
    from matplotlib.figure import Figure  # noqa: PLC0415 - large and rare
    from matplotlib.patches import Circle, PathPatch  # noqa: PLC0415 - large and rare
    from matplotlib.path import Path as Curve  # noqa: PLC0415 - large and rare

    figure = Figure(figsize=(WIDTH / 25.4, HEIGHT / 25.4))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, WIDTH)
    axes.set_ylim(0, HEIGHT)
    axes.axis("off")
    for run in form:
        if len(run) == 1 and isinstance(run[0], Arc) and abs(run[0].sweep) >= 360:
            axes.add_patch(Circle(run[0].centre, run[0].radius, fill=False))
            continue
        points, codes = [segment_start(run[0])], [Curve.MOVETO]
        for segment in run:
            if isinstance(segment, Line):
                points.append(segment.end)
                codes.append(Curve.LINETO)
                continue
            for cubic in as_cubics(segment):
                points += [cubic.control1, cubic.control2, cubic.end]
                codes += [Curve.CURVE4] * 3
        if is_ring(run):
            points.append(points[0])
            codes.append(Curve.CLOSEPOLY)
        axes.add_patch(PathPatch(Curve(points, codes), fill=False))
    out = io.BytesIO()
    figure.savefig(out, format="pdf", metadata={"CreationDate": None})
    return out.getvalue()


def by_ezdxf(version: str, unit: int = 4) -> Callable[[Form], bytes]:
    """Polylines with bulges, circles, ellipses and splines, as far as the version has them."""

    def write(form: Form) -> bytes:
        document = ezdxf.new(version, units=unit)
        space = document.modelspace()
        for run in form:
            add_run(space, run, version)
        out = io.StringIO()
        document.write(out)
        return out.getvalue().encode()

    return write


def add_run(space, run: Run, version: str) -> None:
    """One run as the entities that a cutter's shop would use."""
    if len(run) == 1 and isinstance(run[0], Arc) and abs(run[0].sweep) >= 360:
        space.add_circle(run[0].centre, run[0].radius)
    elif any(isinstance(segment, Cubic) for segment in run):
        for segment in run:
            if isinstance(segment, Cubic) and version == "R12":
                # It has no splines: programs write many short lines.
                space.add_polyline2d(flatten((segment,), 0.002))
            elif isinstance(segment, Cubic):
                spline = space.add_open_spline(
                    [segment.start, segment.control1, segment.control2, segment.end], degree=3
                )
                spline.dxf.flags |= 8
            else:
                space.add_line(segment_start(segment), segment_end(segment))
    else:
        halves = [half for segment in run for half in half_turns(segment)]
        points = [
            (*segment_start(s), tan(radians(s.sweep) / 4) if isinstance(s, Arc) else 0.0)
            for s in halves
        ]
        ring = is_ring(run)
        if not ring:
            points.append((*segment_end(halves[-1]), 0.0))
        add = space.add_polyline2d if version == "R12" else space.add_lwpolyline
        add(points, format="xyb", close=ring)


def half_turns(segment: Line | Arc | Cubic) -> Iterable[Line | Arc | Cubic]:
    """An arc of more than a half turn as two."""
    if not isinstance(segment, Arc) or abs(segment.sweep) <= 180:
        yield segment
        return
    for number in range(2):
        half = segment.sweep / 2
        yield Arc(segment.centre, segment.radius, segment.start_angle + half * number, half)


WRITERS: dict[str, tuple[str, Callable[[Form], bytes]]] = {
    "ReportLab": (".pdf", by_reportlab),
    "WeasyPrint": (".pdf", by_weasyprint),
    "Chromium": (".pdf", by_chromium),
    "matplotlib": (".pdf", by_matplotlib),
    "ezdxf R12": (".dxf", by_ezdxf("R12")),
    "ezdxf R2000": (".dxf", by_ezdxf("R2000")),
    "ezdxf R2018, inches": (".dxf", by_ezdxf("R2018", 1)),
}


# --- comparing ---


def worst(form: Form, data: bytes, unit_given: bool = True) -> float:
    """mm between the lines of a form and of what is read of its file. Raises VectorError."""
    left, _, right, _ = bounds(form)
    lengths = () if unit_given else (read_stated(f"width={right - left:.3f} mm"),)
    drawn = redraw(data, "a", "a.svg", Wishes(lengths=lengths))
    drawing, _ = read_drawing(drawn.svg, "a.svg")
    assert drawing is not None
    runs = [
        stroke.run for path in drawing.paths if path.role != "scale" for stroke in path.subpaths
    ]
    wanted = [flatten(run, FINE) for run in form]
    found = [flatten(run, FINE) for run in runs]
    # The drawing has a page of its own: lower left corners of both are laid on each other.
    shift = [
        min(p[i] for one in wanted for p in one) - min(p[i] for one in found for p in one)
        for i in (0, 1)
    ]
    found = [[(x + shift[0], y + shift[1]) for x, y in one] for one in found]
    assert len(wanted) == len(found), f"{len(found)} lines instead of {len(wanted)}"
    return max(farthest_apart(line, nearest(line, found)) for line in wanted)


def nearest(line: list[Point], others: list[list[Point]]) -> list[Point]:
    """The line whose box is most like that of a line."""

    def box(points: list[Point]) -> tuple[float, ...]:
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)

    own = box(line)
    return min(others, key=lambda o: max(abs(a - b) for a, b in zip(own, box(o), strict=True)))


def inches(form: Form) -> Form:
    """The form in inches, for files in inches."""
    return tuple(tuple(enlarge_segment(s, 1 / 25.4) for s in run) for run in form)


def main() -> None:
    """Write, read and compare all."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--only", default="")
    options = parser.parse_args()
    count, close = 0, 0
    for writer, (ending, write) in WRITERS.items():
        if options.only and options.only not in writer:
            continue
        results: list[str] = []
        for name, make in FORMS.items():
            form = make()
            try:
                data = write(inches(form) if "inches" in writer else form)
            except (ImportError, FileNotFoundError) as missing:
                results.append(f"missing ({missing})")
                break
            if options.keep:
                stem = f"{writer.split(',')[0].lower().replace(' ', '-')}-{name}"
                (options.keep / f"{stem}{ending}").write_bytes(data)
            count += 1
            try:
                gap = worst(form, data, unit_given="R12" not in writer)
            except VectorError as error:
                results.append(f"{name} refused: {error}")
                close += 1
                continue
            close += gap <= 0.01
            results.append(f"{name} {gap:.4f}")
        print(f"{writer:20} {'  '.join(results)}")
    print(f"{count} files, {close} within 0.01 mm or refused")


if __name__ == "__main__":
    main()
