"""Stacks that are bent → how much longer their outer layers are, and those layers so much longer.

A layer whose middle lies at radius R, on one whose middle lies at radius r, is R / r times as long
for the same angle: once around by 2 pi times what the middles are apart. Foam bends about the
middle of its thickness.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import tau

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.guide import Curve, Stack
from guidegen.geometry.drawing.curves import map_segment
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Edge, Measure, Point, Run, Shape
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.pieces.placing import LaidPart
from guidegen.geometry.pieces.point_rows import OnPart
from guidegen.geometry.pieces.records import LayerStack, PointRow, RowPoint
from guidegen.problems import Checked, Problem, collect
from guidegen.units import mm_text

TELLS = 1.0
"""mm that a layer may end short before it is told. Our choice: the knife wanders as much."""
NEAR = 1e-3
"""Factors that differ less are the same."""
SHARPEST = 2.0
"""mm of radius below which nothing bends: foam folds. Our choice."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """By how much a part is longer than as it is drawn."""

    x: float = 1.0
    y: float = 1.0

    def point(self, at: Point) -> Point:
        """Where a point of the flat drawing lies on the longer part."""
        return (at[0] * self.x, at[1] * self.y)


@dataclass(frozen=True, slots=True)
class Bent:
    """A stack on its curve."""

    radius: float
    """mm to the inner face of its first layer."""
    factors: tuple[float, ...]
    """By layer: how much longer than the first."""
    stretches: bool


@dataclass(frozen=True, slots=True)
class Bending:
    """The parts of a size as they are cut for their bends."""

    file: GuideFile
    bent: Mapping[str, Bent]
    longer: Mapping[str, Stretch]
    flat: Mapping[str, Finished]
    """As they would be without."""
    parts: Mapping[str, Finished]

    def carried(self, on_parts: Mapping[str, OnPart]) -> dict[str, OnPart]:
        """What lies on each part, where it comes to lie on the longer one."""
        return {
            part: _stretch_on(one, self.longer[part]) if part in self.longer else one
            for part, one in on_parts.items()
        }

    def stacks(self, stacks: tuple[LayerStack, ...]) -> tuple[LayerStack, ...]:
        """The stacks with their bends: how long each layer is, and how much longer than flat."""
        return tuple(map(self._on_curve, stacks))

    def _on_curve(self, stack: LayerStack) -> LayerStack:
        curve = self.file.guide.stacks[stack.id].curve
        if curve is None or stack.id not in self.bent:
            return stack
        # Measured on the parts as they are cut, not worked out from the factors: a layer that the
        # author keeps as drawn, or that another stack made longer, is told as it is.
        ways = [_side(self.parts[layer.part], curve) for layer in stack.layers]
        layers = tuple(
            replace(layer, way=way, longer=way - _side(self.flat[layer.part], curve))
            for layer, way in zip(stack.layers, ways, strict=True)
        )
        return replace(stack, layers=layers, radius=self.bent[stack.id].radius)


def bend_parts(
    file: GuideFile,
    names: Mapping[str, float],
    thickness: Mapping[str, float],
    flat: Mapping[str, Finished],
    *,
    size: str,
) -> Checked[Bending]:
    """Outer layers of bent stacks made longer; those that the author keeps as drawn are told."""
    bent = yield from _bend_stacks(file, names, thickness)
    # Short layers are looked for on the flat parts: on the longer ones nothing would be short.
    longer = yield from _stretches(file, bent, size)
    yield from _short_layers(file, bent, flat, size)
    parts = {
        part: _stretch_part(one, longer[part]) if part in longer else one
        for part, one in flat.items()
    }
    return Bending(file, bent, longer, flat, parts)


def _bend_stacks(
    file: GuideFile, names: Mapping[str, float], thickness: Mapping[str, float]
) -> Checked[dict[str, Bent]]:
    """Every stack with a curve whose parts and numbers are there, by its id."""
    bent = {}
    for name, stack in file.guide.stacks.items():
        known = all(layer.part in thickness for layer in stack.layers)
        radius = (yield from _radius(file, name, stack, names)) if stack.curve and known else None
        if radius is None or stack.curve is None:
            continue
        foams = [thickness[layer.part] for layer in stack.layers]
        # Outward from the padding: each layer lies on the foam of all before it.
        middles = [radius + sum(foams[:at]) + foam / 2 for at, foam in enumerate(foams)]
        factors = tuple(middle / middles[0] for middle in middles)
        bent[name] = Bent(radius, factors, stack.curve.lengthens)
    return bent


def _radius(
    file: GuideFile, name: str, stack: Stack, names: Mapping[str, float]
) -> Checked[float | None]:
    """mm to the inner face of the first layer; None, and a problem, without one."""
    curve = stack.curve
    if curve is None:
        return None
    key = "radius" if curve.radius is not None else "girth"
    trail = ("stacks", name, "curve", key)
    quantity = curve.radius if curve.radius is not None else curve.girth
    given = None
    if quantity is not None:
        given = yield from evaluate(file, trail, quantity, names)
    # A backing without a value is told where the stack itself is made.
    backing, _ = collect(evaluate(file, ("stacks", name, "backing"), stack.backing, names))
    if given is None or backing is None:
        return None
    radius = (given if key == "radius" else given / tau) + backing
    if radius < SHARPEST:
        message = f"expected a bend of {SHARPEST:g} mm or more, found {radius:.1f} mm"
        yield file.source.problem("bad-curve", trail, message)
        return None
    return radius


def _stretches(file: GuideFile, bent: Mapping[str, Bent], size: str) -> Checked[dict[str, Stretch]]:
    """By how much parts are cut longer; parts of one stack may carry another one."""
    found: dict[str, Stretch] = {}
    owners = _owners(file, bent)
    # A stack may stand on the upper layer of another one that is named after it.
    # Each round carries lengths one stack further, so as many rounds as stacks reach the last; a
    # circle of stacks ends there instead of never.
    for _ in range(len(bent) + 1):
        before = dict(found)
        for name, one in bent.items():
            for layer, wanted in _layers(file.guide.stacks[name], one, found)[1:]:
                if owners.get(layer) == name:
                    found[layer] = wanted
        if before == found:
            break
    for name, one in bent.items():
        # Only once all are settled: while rounds go on, a layer may still wait for the one below.
        for at, (layer, wanted) in enumerate(_layers(file.guide.stacks[name], one, found)):
            if one.stretches and at and not _alike(found.get(layer, Stretch()), wanted):
                where = "" if size == ONE_SIZE else f"in size {size}: "
                message = f"{where}{layer} lies on two curves, which ask for different lengths"
                trail = ("stacks", name, "layers", at, "part")
                yield file.source.problem("bad-curve", trail, message)
    return found


def _owners(file: GuideFile, bent: Mapping[str, Bent]) -> dict[str, str]:
    """By part the first stack in which it lies on another one and is cut longer for it."""
    owners: dict[str, str] = {}
    for name, one in bent.items():
        if one.stretches:
            for layer in file.guide.stacks[name].layers[1:]:
                # The first stack in the file wins: which of two curves is meant cannot be known,
                # but the same one has to win each time, and a difference is told.
                owners.setdefault(layer.part, name)
    return owners


def _layers(stack: Stack, one: Bent, found: Mapping[str, Stretch]) -> list[tuple[str, Stretch]]:
    """Each layer's part with the stretch that it needs on this curve."""
    curve = stack.curve
    base = found.get(stack.layers[0].part, Stretch())
    wide = curve is None or curve.along == "width"
    return [
        (
            layer.part,
            Stretch(base.x * factor, base.y) if wide else Stretch(base.x, base.y * factor),
        )
        for layer, factor in zip(stack.layers, one.factors, strict=True)
    ]


def _alike(one: Stretch, other: Stretch) -> bool:
    return abs(one.x - other.x) < NEAR and abs(one.y - other.y) < NEAR


def _stretch_part(finished: Finished, by: Stretch) -> Finished:
    """The same part, longer: outline, windows, and all lines on it."""
    whole = _shape(finished.whole, by)
    half = _shape(finished.half, by) if finished.half is not None else None
    left, low, right, high = bounds((whole.ring(),))
    measures = (Measure("width", right - left), Measure("height", high - low))
    return replace(finished, whole=whole, half=half, measures=measures)


def _shape(shape: Shape, by: Stretch) -> Shape:
    return replace(
        shape,
        edges=tuple(Edge(edge.name, _run(edge.run, by)) for edge in shape.edges),
        holes=tuple(_run(hole, by) for hole in shape.holes),
        lines=tuple(replace(line, run=_run(line.run, by)) for line in shape.lines),
    )


def _run(run: Run, by: Stretch) -> Run:
    # Straight lines stay lines; arcs become cubics, since a stretched circle is none.
    return tuple(new for one in run for new in map_segment(one, by.point, straight=True))


def _stretch_on(on_part: OnPart, by: Stretch) -> OnPart:
    """What lies on a part, where it comes to lie on the longer one; holes stay round."""
    laid = {number: _laid(one, by) for number, one in on_part.laid.items()}
    return OnPart(laid, tuple(_row(row, by) for row in on_part.rows), on_part.things)


def _laid(one: LaidPart, by: Stretch) -> LaidPart:
    return replace(
        # No motion any more: a stretched outline is no longer the other part moved, so holes that
        # go through both cannot be carried back to it.
        one,
        ring=_run(one.ring, by),
        holes=tuple(_run(hole, by) for hole in one.holes),
        motion=None,
    )


def _row(row: PointRow, by: Stretch) -> PointRow:
    spots = tuple(RowPoint(by.point(spot.at), spot.along) for spot in row.spots)
    # The pitch grows by the stretch along the row. Rows follow one direction closely enough for
    # the words that tell the pitch; the points themselves are moved exactly.
    (dx, dy) = row.spots[0].along if row.spots else (1.0, 0.0)
    factor = (dx * dx * by.x**2 + dy * dy * by.y**2) ** 0.5
    return replace(row, spots=spots, pitch=row.pitch * factor)


def _short_layers(
    file: GuideFile, bent: Mapping[str, Bent], finished: Mapping[str, Finished], size: str
) -> Iterator[Problem]:
    """Layers that are cut as drawn and so end short on their curve."""
    for name, one in bent.items():
        stack = file.guide.stacks[name]
        parts = [layer.part for layer in stack.layers]
        if one.stretches or not set(parts) <= finished.keys() or stack.curve is None:
            continue
        first = _side(finished[parts[0]], stack.curve)
        for at, (part, factor) in enumerate(zip(parts, one.factors, strict=True)):
            own = _side(finished[part], stack.curve)
            short = first * factor - own
            # A layer that is meant to end elsewhere is no longer a layer of the same length.
            if at and abs(own - first) < TELLS and short > TELLS:
                where = "" if size == ONE_SIZE else f"in size {size}: "
                message = (
                    f"{where}{part} is as long as {parts[0]} and lies "
                    f"farther out: bent, it ends {mm_text(short, 1)} mm short"
                )
                trail = ("stacks", name, "layers", at, "part")
                yield file.source.problem("layer-short", trail, message)


def _side(finished: Finished, curve: Curve) -> float:
    """mm of a flat part round the bend."""
    left, low, right, high = bounds((finished.whole.ring(),))
    return right - left if curve.along == "width" else high - low
