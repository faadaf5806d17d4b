"""A finished outline and its part in → pieces ready to cut: allowances, bevels, grooves, hands."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.buildfile.derive.linings import copies_of, hand_of
from guidegen.buildfile.records.guide import Groove, Hand
from guidegen.geometry.outline.allowances import add_allowances
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.bevels import (
    bevelled_edges,
    stop_at_folds,
)
from guidegen.geometry.outline.distances import lie_alike
from guidegen.geometry.outline.grain import grain_lines
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.offsets import OffsetError
from guidegen.geometry.outline.records import InnerLine, LineKind, MatchMark, Run, Shape
from guidegen.geometry.outline.transforms import (
    mirror_across,
    mirror_shape,
    transform_run,
)
from guidegen.geometry.outline.unfold import FoldError, fold_line, unfold
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.inscriptions import inscribe
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.edge_work import WIDEST_ALLOWANCE, edge_allowances, edge_bevels
from guidegen.geometry.pieces.grooves import (
    WIDEST_FOLD,
    GrooveLine,
    cut_groove,
    mirror_grooves,
    net_groove,
)
from guidegen.geometry.pieces.placements import (
    LEAST_OVERHANG,
    clip_to_half,
    clip_to_outline,
    lies_on,
    stands_out,
    tell_crossings,
    texture_line,
    tolerated,
)
from guidegen.geometry.pieces.placing import LaidPart
from guidegen.geometry.pieces.point_rows import (
    OnPart,
    holed,
    row_lines,
    row_rings,
    thing_lines,
)
from guidegen.geometry.pieces.records import GrooveCut, Piece, Side
from guidegen.geometry.pieces.seams import template_marks
from guidegen.geometry.pieces.sewn.casings import (
    casing_edges,
    draw_casings,
    draw_gathers,
    gathered_edges,
)
from guidegen.geometry.pieces.sewn.sewing import sew_up
from guidegen.problems import has_errors
from guidegen.units import mm_text

MAX_COPIES = 500
"""Copies of one part. Our choice: ten times what any costume needs of its studs."""
FITS = 0.05
"""mm by which flattened outlines may differ from true ones where they are compared."""


@dataclass(frozen=True, slots=True)
class PartCount:
    """How many pieces of a part are cut."""

    copies: int
    """Of each hand, spares left out."""
    spares: int
    """Of each hand."""
    hands: int
    """1, or 2 for a pair."""

    @property
    def needed(self) -> int:
        """Pieces in the finished thing."""
        return self.copies * self.hands


def count_part(asker: PartAsker) -> PartCount | None:
    """How often a part is cut; None, and problems, where its counts are none."""
    part = asker.part
    guide = asker.file.guide
    copies = asker.count(copies_of(guide, part), 1, MAX_COPIES, "copies")
    spares = asker.count(part.spare, 0, MAX_COPIES, "spare")
    if copies is None or spares is None:
        return None
    return PartCount(copies, spares, 2 if hand_of(guide, part) is Hand.PAIR else 1)


def make_pieces(
    asker: PartAsker,
    finished: Finished,
    thickness: float,
    count: PartCount,
    *,
    marks: tuple[MatchMark, ...],
    others: Mapping[str, Finished],
    on_it: OnPart,
) -> tuple[Piece, ...]:
    """The pieces of a part: one, or left and right. Empty, and problems, where they fail."""
    # The asker may hold problems of the outline or the counts already; only those of this work
    # decide whether there is a piece.
    before = len(asker.problems)
    template = _cut_template(asker, finished, thickness)
    if template is None:
        return ()
    template = draw_casings(template, finished.template, casing_edges(asker))
    template = draw_gathers(template, finished.template, gathered_edges(asker))
    # Holes are cut on the template, so that unfolding brings those of the other half.
    template = _with_rows(asker, template, on_it, others)
    template = replace(template, holes=template.holes + finished.faces.slots)
    folded, paired = finished.half is not None, count.hands == 2
    template, inscribed = inscribe(asker, template, folded=folded, paired=paired)
    whole = _unfolded(asker, finished, template)
    if whole is None:
        return ()
    # On the whole piece: a groove that crosses the fold is one cut, not two halves.
    grooves = _grooves(asker, finished, whole, thickness)
    extra = [*_groove_lines(grooves), *_placements(asker, finished, whole, on_it)]
    extra += finished.faces.lines
    extra += grain_lines(whole, asker.grain)
    template = _dressed(asker, finished, template, extra, template_marks(finished, marks))
    whole = _dressed(asker, None, whole, extra, marks)
    template, whole, taken = sew_up(asker, finished, template, whole)
    if has_errors(asker.problems[before:]):
        return ()
    part = asker.part
    piece = Piece(
        part=asker.part_id,
        label=part.label,
        name=part.name,
        side=Side.ANY,
        copies=count.copies + count.spares,
        spares=count.spares,
        material=part.material,
        thickness=thickness,
        template=template,
        shape=whole,
        fold=finished.fold,
        grooves=grooves,
        note=part.note or "",
        texture=part.texture or "",
        measures=finished.measures,
        allowed=bool(part.allowances or finished.faces.tabs or taken or casing_edges(asker)),
        taken=taken,
        inscribed=inscribed,
    )
    return _hands(piece) if count.hands == 2 else (piece,)


def _unfolded(asker: PartAsker, finished: Finished, template: Shape) -> Shape | None:
    """The whole piece of a template; None, and a problem, where it is not sound."""
    whole = template
    if finished.half is not None:
        try:
            whole = unfold(template, finished.fold)
        except FoldError as error:
            asker.refuse("bad-fold", f"with its allowances, {error}", "allowances")
            return None
    # Once more after the allowances: they may cross where the finished outline did not.
    fault = fault_of(whole)
    if fault is None:
        return whole
    says = "with its slots" if finished.faces.slots else "with its allowances"
    key = "lines" if finished.faces.slots else "allowances"
    asker.refuse("bad-outline", f"{says}, {fault[0]}", key)
    return None


def _hands(piece: Piece) -> tuple[Piece, Piece]:
    """Left as drawn, right mirrored; both are cut with the same template."""
    left = replace(piece, label=f"{piece.label}L", side=Side.LEFT)
    right = replace(
        piece,
        label=f"{piece.label}R",
        side=Side.RIGHT,
        # The template stays as it is: it is flipped on the foam, not printed twice.
        shape=mirror_shape(piece.shape),
        grooves=mirror_grooves(piece.grooves),
        mirrored=True,
    )
    return left, right


def _cut_template(asker: PartAsker, finished: Finished, thickness: float) -> Shape | None:
    """The template with its allowances and the far faces of its bevels."""
    template = finished.template
    allowances = edge_allowances(asker, finished)
    bevels = edge_bevels(asker, finished)
    try:
        template = add_allowances(template, allowances, finished.fold, sewn=asker.sewn)
    except OffsetError as error:
        asker.refuse("bad-allowance", str(error), "allowances", error.edge)
        return None
    try:
        # Bevels are measured from the cut line, so allowances come first.
        far = bevelled_edges(template, bevels, thickness, finished.fold)
    except OffsetError as error:
        message = f"the smaller face would vanish: {error}"
        asker.refuse("bad-bevel", message, "bevels", error.edge)
        return None
    folds = [fold.run for fold in finished.folds]
    return replace(template, bevels=tuple(stop_at_folds(bevel, folds) for bevel in far))


def _grooves(
    asker: PartAsker, finished: Finished, whole: Shape, thickness: float
) -> tuple[GrooveCut, ...]:
    """Grooves of the shape itself and of the part, on both halves of a folded part."""
    cuts = [
        net_groove(whole, fold.run, fold.fold, fold.floor, thickness) for fold in finished.folds
    ]
    for number, groove in enumerate(asker.part.grooves):
        line = _groove_line(asker, number, groove, thickness)
        if line is None:
            continue
        found = cut_groove(whole, line, thickness)
        if not found:
            asker.refuse("bad-groove", "the groove misses the piece", "grooves", number, "at")
        cuts.extend(found)
        # The author gives one groove of a half; one on the fold itself is its own mirror image and
        # must not be cut twice.
        mirrored = [_mirrored_groove(finished, cut) for cut in found]
        cuts.extend(cut for cut in mirrored if not any(_alike(cut.run, c.run) for c in found))
    return tuple(cuts)


def _groove_line(
    asker: PartAsker, number: int, groove: Groove, thickness: float
) -> GrooveLine | None:
    place = ("grooves", number)
    fold = asker.between(groove.fold, 1, WIDEST_FOLD, *place, "fold")
    floor = asker.number(groove.floor, *place, "floor")
    at = asker.number(groove.at, *place, "at")
    angle = asker.number(groove.angle, *place, "angle")
    if fold is None or floor is None or at is None or angle is None:
        return None
    if not 0 <= floor < thickness:
        message = f"expected less than the foam's {thickness:g} mm, found {floor:g}"
        asker.refuse("bad-groove", message, *place, "floor")
        return None
    return GrooveLine(fold, floor, at, angle)


def _mirrored(finished: Finished, run: Run) -> Run:
    """The run on the other side of the fold; itself on a part without one."""
    if finished.half is None:
        return run
    return transform_run(run, mirror_across(*fold_line(finished.half, finished.fold)))


def _mirrored_groove(finished: Finished, groove: GrooveCut) -> GrooveCut:
    rims = tuple(_mirrored(finished, rim) for rim in groove.rims)
    return replace(groove, run=_mirrored(finished, groove.run), rims=rims)


def _alike(first: Run, second: Run) -> bool:
    # mm; five times what flattening may move a line, and less than a knife's width.
    return lie_alike(flatten(first), flatten(second), 0.1)


def _groove_lines(grooves: tuple[GrooveCut, ...]) -> list[InnerLine]:
    middles = [
        InnerLine(LineKind.GROOVE, groove.run, f"V-groove, fold {mm_text(groove.fold, 1)}°")
        for groove in grooves
    ]
    return middles + [InnerLine(LineKind.RIM, rim) for groove in grooves for rim in groove.rims]


def _with_rows(
    asker: PartAsker, template: Shape, on_it: OnPart, others: Mapping[str, Finished]
) -> Shape:
    """The template with its rows of points: holes are cut, studs and things drawn."""
    parts = asker.file.guide.parts
    for row in on_it.rows:
        label = parts[row.laid].label if row.laid in parts else ""
        thing = on_it.things.get(row.name) if row.thing else None
        lines = row_lines(row, others, label) if thing is None else thing_lines(row, thing)
        template = holed(template, row_rings(row), lines)
    return template


def _placements(
    asker: PartAsker, finished: Finished, whole: Shape, on_it: OnPart
) -> list[InnerLine]:
    """Placement lines, on both halves of a folded part."""
    lines: list[InnerLine] = []
    for number, laid in on_it.laid.items():
        label = asker.file.guide.parts[laid.part].label
        line = InnerLine(LineKind.PLACEMENT, laid.ring, label)
        # Against the piece with its allowances: a part may lie on an overlap.
        if not lies_on(line.run, whole):
            message = f"here {label} lies beside the piece, not on it"
            asker.refuse("bad-placement", message, "placements", number, "at")
        else:
            _tell_overhang(asker, number, laid, whole)
        lines.append(line)
        mirrored = _mirrored(finished, line.run)
        if not _alike(mirrored, line.run):
            lines.append(replace(line, run=mirrored))
    # Once for the drawn half: its mirror image crosses in the same places.
    tell_crossings(asker, on_it.laid)
    return lines


def _tell_overhang(asker: PartAsker, number: int, laid: LaidPart, whole: Shape) -> None:
    """A warning where a part stands out over the edge of the one that it lies on."""
    given = asker.part.placements[number].overhang
    place = ("placements", number, "overhang")
    # Without a word of the author's only what bending explains is allowed (see placements.py).
    allowed = tolerated(laid.ring)
    if given is not None:
        meant = asker.between(given, 0, WIDEST_ALLOWANCE, *place)
        allowed = allowed if meant is None else max(LEAST_OVERHANG, meant)
    out = stands_out(laid.ring, whole)
    if out > allowed + FITS:
        guide = asker.file.guide
        message = (
            f"{guide.parts[laid.part].label} stands {mm_text(out, 1)} mm out over the edge of "
            f"{asker.part.label}"
        )
        asker.refuse("layer-overhangs", message, "placements", number)


def _dressed(
    asker: PartAsker,
    half_of: Finished | None,
    shape: Shape,
    extra: list[InnerLine],
    marks: tuple[MatchMark, ...],
) -> Shape:
    """A cut shape with marks and lines; on a half template only what lies on the drawn half.

    On paper a placement line ends at the outline. The piece as cut keeps it whole, since that says
    how the part on it lies.
    """
    lines: list[InnerLine] = []
    for line in extra:
        if half_of is None:
            lines.append(line)
        elif half_of.half is not None:
            lines += clip_to_half(line, shape)
        else:
            placed = line.kind is LineKind.PLACEMENT
            lines += clip_to_outline(line, shape) if placed else (line,)
    texture = asker.part.texture
    # An area that the author drew says where the texture is; else it covers the whole face.
    if texture and not any(line.kind is LineKind.TEXTURE for line in shape.lines):
        lines.append(texture_line(shape, texture))
    return replace(shape, lines=(*shape.lines, *lines), marks=marks)
