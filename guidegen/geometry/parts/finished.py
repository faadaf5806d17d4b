"""A part and the numbers of one size in → its finished outline, before allowances."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from guidegen.buildfile.derive.sizes import SizeNumbers
from guidegen.buildfile.records.vocabulary import DRAWING, LINING, SHAPES
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.bevels import EdgeBevel
from guidegen.geometry.outline.insets import inset_template, inset_whole
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.outline.records import Edge, InnerLine, Measure, Run, Shape
from guidegen.geometry.outline.transforms import move_shape
from guidegen.geometry.outline.unfold import FoldError, drawn_edge, unfold
from guidegen.geometry.parts.darts import DartPlace
from guidegen.geometry.parts.drawn import drawn_shape
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.shapes.building import NetFold, ShapeError
from guidegen.geometry.shapes.registry import BUILDERS
from guidegen.problems import did_you_mean, has_errors
from guidegen.units import mm_text

FOLD = "centre"
"""Edge of a computed half template that lies on the fold."""

LARGEST = 20_000.0
"""mm; larger dimensions are slips, and outlines of them would take long to work out. Our choice:
ten times a person."""

WIDEST_INSET = 200.0
"""mm by which a lining may be smaller. Our choice: more leaves nothing of what a person wears."""


@dataclass(frozen=True, slots=True)
class FaceWork:
    """What edges that stand on faces ask of a part: on its own face, and of its own edges."""

    lines: tuple[InnerLine, ...] = ()
    """Feet of what stands on it, on the whole outline."""
    slots: tuple[Run, ...] = ()
    """Closed rings, clockwise, on the template: cut through for what stands in it."""
    tabs: Mapping[str, float] = field(default_factory=dict)
    """mm by which edges of its template go into the slots of others."""


@dataclass(frozen=True, slots=True)
class Finished:
    """A part's finished outline at one size. Its origin is the middle of its bounding box."""

    part: str
    whole: Shape
    half: Shape | None = None
    """The half template, in the same place as the whole; None where the template is whole."""
    fold: str = ""
    """Edge of the half on the fold."""
    measures: tuple[Measure, ...] = ()
    bevels: Mapping[str, EdgeBevel] = field(default_factory=dict)
    """Bevels that make the shape, by edge of the template."""
    folds: tuple[NetFold, ...] = ()
    """V-grooves that belong to the shape."""
    faces: FaceWork = field(default_factory=FaceWork)
    """Known once seams are."""
    darts: tuple[DartPlace, ...] = ()
    """Darts on its template: they take of its edges when they are sewn."""

    @property
    def template(self) -> Shape:
        """What is drawn on paper."""
        return self.half or self.whole

    def crosses_fold(self, edge: str) -> bool:
        """True for an edge of the whole that is its own mirror image across the fold."""
        if self.half is None:
            return False
        names = {own.name for own in self.whole.edges}
        return f"{edge}-2" not in names and not drawn_edge(edge, self.half)[1]


@dataclass(frozen=True, slots=True)
class FinishedSize:
    """What a tape finds on a finished part, allowances left out."""

    part: str
    width: float
    height: float
    """mm of the whole part lying flat, as drawn."""
    edges: tuple[tuple[str, float], ...]
    """Names and mm of the edges as drawn: on a half template those of one half."""
    halves: int = 1
    """2 where the part is drawn to its fold."""
    outline: tuple[Edge, ...] = ()
    """The edges themselves, where the part's rows of points lie."""
    lines: tuple[tuple[str, float], ...] = ()
    """Names and mm of lines that its drawing gives a name."""

    def run(self, edge: str) -> Run | None:
        """The edge called `edge`, as drawn; None without one."""
        return next((own.run for own in self.outline if own.name == edge), None)


def make_finished(asker: PartAsker, thickness: float, numbers: SizeNumbers) -> Finished | None:
    """The finished outline of the asker's part; None, and problems, where there is none."""
    if asker.part.shape == DRAWING:
        return _from_drawing(asker, numbers)
    return _from_dimensions(asker, thickness)


def make_lining(asker: PartAsker, finished: Mapping[str, Finished]) -> Finished | None:
    """The finished outline of a lining; None, and problems, where it has none.

    Its edges keep the names of the lined part's; where that part is drawn to its fold, so is the
    lining. Where the part is narrower than twice the inset nothing is lined.
    """
    part, lined = asker.part, asker.part.lining_of
    parts = asker.file.guide.parts
    if lined is None:
        asker.refuse("bad-lining", 'needs "lining-of": the part that it lines', "shape")
        return None
    if lined not in parts:
        asker.refuse("unknown-name", f'no part "{lined}"{did_you_mean(lined, parts)}', "lining-of")
        return None
    if parts[lined].shape == LINING:
        asker.refuse("bad-lining", f"{lined} is a lining itself", "lining-of")
        return None
    inset = asker.between(part.inset, 0, WIDEST_INSET, "inset")
    if inset is None or lined not in finished:
        return None
    # From the finished outline, without allowances: lining meets where the foam's faces meet.
    source = finished[lined]
    # First edge by edge, which keeps their names and the fold; where an edge vanishes on the way,
    # the outline as a whole is made smaller, which knows no edges.
    moved = inset_template(source.template, source.fold, inset)
    if moved is not None:
        return _folded(asker, moved, source.fold, None)
    left = inset_whole(source.whole, inset)
    if len(left) == 1:
        return _folded(asker, left[0], "", None)
    says = f"falls into {len(left)} pieces" if left else "has nothing left"
    message = f"{lined} {says} when it is {mm_text(inset, 1)} mm smaller all round"
    cure = "Give a smaller inset, or line only the parts that are wide enough"
    asker.refuse("bad-lining", message, "inset", cure=cure)
    return None


def _from_drawing(asker: PartAsker, numbers: SizeNumbers) -> Finished | None:
    shape, problems = drawn_shape(asker.file, asker.part_id, asker.part, numbers, asker.names)
    asker.problems.extend(problems)
    if shape is None or has_errors(problems):
        return None
    return _folded(asker, shape, asker.part.on_fold or "", None)


def _from_dimensions(asker: PartAsker, thickness: float) -> Finished | None:
    part = asker.part
    kind, builder = SHAPES.get(part.shape), BUILDERS.get(part.shape)
    if kind is None or builder is None:
        hint = did_you_mean(part.shape, [DRAWING, LINING, *SHAPES])
        asker.refuse("unknown-name", f'no shape "{part.shape}"{hint}', "shape")
        return None
    dimensions = _dimensions(asker)
    if dimensions is None:
        return None
    make = builder.whole
    if part.on_fold is not None:
        if builder.half is None or part.on_fold != FOLD:
            expected = f'expected "{FOLD}"' if builder.half else "this shape has no half template"
            asker.refuse("bad-fold", f"{expected}, found {part.on_fold}", "on-fold")
            return None
        make = builder.half
    try:
        shape = make(dimensions, thickness)
        measures = builder.measures(dimensions, thickness)
    except ShapeError as error:
        steps = ("dimensions", error.dimension) if error.dimension else ("shape",)
        asker.refuse("bad-shape", str(error), *steps)
        return None
    finished = _folded(asker, shape, part.on_fold or "", measures)
    if finished is None:
        return None
    bevels = builder.bevels(dimensions, thickness) if builder.bevels else {}
    known = {edge.name for edge in finished.template.edges}
    folds = builder.folds(dimensions, thickness) if builder.folds else ()
    # A half template lacks some edges of the whole, and its bevels come back by unfolding.
    return replace(finished, bevels={k: v for k, v in bevels.items() if k in known}, folds=folds)


def _dimensions(asker: PartAsker) -> dict[str, float] | None:
    """Numbers of all dimensions, defaults filled in."""
    part = asker.part
    known = {dimension.name: dimension for dimension in SHAPES[part.shape].dimensions}
    numbers: dict[str, float] = {}
    complete = True
    # All slips of a part are told at once, so nothing returns before the end.
    for name in part.dimensions.keys() - known.keys():
        hint = did_you_mean(name, known)
        asker.refuse("unknown-name", f'no dimension "{name}"{hint}', "dimensions", name)
        complete = False
    for name, dimension in known.items():
        quantity = part.dimensions.get(name)
        value = dimension.default
        if quantity is not None:
            value = asker.number(quantity, "dimensions", name)
        elif value is None:
            asker.refuse("missing-dimension", f'needs the dimension "{name}"', "dimensions")
        if value is None:
            complete = False
        elif abs(value) > LARGEST:
            message = f"expected less than {LARGEST / 1000:g} m, found {value / 1000:g} m"
            asker.refuse("out-of-range", message, "dimensions", name)
            complete = False
        else:
            numbers[name] = value
    return numbers if complete else None


def _folded(
    asker: PartAsker, template: Shape, fold: str, measures: tuple[Measure, ...] | None
) -> Finished | None:
    """The outline checked, unfolded and moved so that its middle is in the origin."""
    # The half first: a crossing in it would be told at both sides of the fold otherwise.
    if not _sound(asker, template):
        return None
    whole = template
    if fold:
        try:
            whole = unfold(template, fold)
        except FoldError as error:
            asker.refuse("bad-fold", str(error), "on-fold")
            return None
        if not _sound(asker, whole):
            return None
    half = template if fold else None
    if measures is not None:
        # Computed shapes have their middle in the origin already.
        return Finished(asker.part_id, whole, half, fold, measures)
    left, low, right, high = bounds((whole.ring(),))
    # Placements, rows and grooves count from the middle, so that numbers of the build file mean
    # the same whatever corner of the page the piece was drawn in.
    shift = (-(left + right) / 2, -(low + high) / 2)
    measures = (Measure("width", right - left), Measure("height", high - low))
    half = move_shape(half, *shift) if half else None
    return Finished(asker.part_id, move_shape(whole, *shift), half, fold, measures)


def _sound(asker: PartAsker, shape: Shape) -> bool:
    fault = fault_of(shape)
    if fault is not None:
        words, point = fault
        where = f" near {point[0]:.0f} mm right, {point[1]:.0f} mm up" if point else ""
        asker.refuse("bad-outline", f"{words}{where}", "shape")
    return fault is None


def named_lines(shape: Shape) -> Iterator[tuple[str, Run]]:
    """Lines inside an outline that their drawing gives a name, such as engrave-keel: keel."""
    seen: set[str] = set()
    for line in shape.lines:
        if line.label and line.label not in seen:
            seen.add(line.label)
            yield line.label, line.run


def finished_sizes(finished: Mapping[str, Finished]) -> tuple[FinishedSize, ...]:
    """Measures of all parts, in their order."""
    sizes = []
    for part, one in finished.items():
        left, low, right, high = bounds((one.whole.ring(),))
        edges = tuple((edge.name, run_length(edge.run)) for edge in one.template.edges)
        halves = 2 if one.half is not None else 1
        outline = one.template.edges
        lines = tuple((name, run_length(run)) for name, run in named_lines(one.template))
        size = FinishedSize(part, right - left, high - low, edges, halves, outline, lines)
        sizes.append(size)
    return tuple(sizes)
