"""A guide, the stock and one size in → every piece to cut, every seam and layer stack, in mm."""

from collections.abc import Mapping
from functools import partial
from itertools import groupby

from guidegen.buildfile.derive.sizes import BodySide, SizeNumbers, evaluate, size_numbers, uneven
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.drawing.budget import drawn_too_much
from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.parts.finished import Finished, finished_sizes
from guidegen.geometry.parts.lengths import asked_lengths
from guidegen.geometry.parts.outlines import make_outlines
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.audit import (
    SheetRoom,
    audit_darts,
    audit_pictures,
    audit_rims,
    audit_room,
    audit_seams,
    fits_somewhere,
)
from guidegen.geometry.pieces.bending import bend_parts
from guidegen.geometry.pieces.faces import work_faces
from guidegen.geometry.pieces.joining import Joining, join_seams
from guidegen.geometry.pieces.meeting_edges import audit_bevels, audit_layers, audit_meeting
from guidegen.geometry.pieces.pieces import PartCount, count_part, make_pieces
from guidegen.geometry.pieces.point_rows import OnPart, place_on_parts
from guidegen.geometry.pieces.records import JoinedSeam, Kit, LayerPiece, LayerStack, Piece
from guidegen.geometry.pieces.sides import merge_sides
from guidegen.geometry.pieces.splits import SplitParts, split_part
from guidegen.problems import Checked, Problem, collect, has_errors


def make_kit(
    file: GuideFile,
    stock: Stock,
    size: str,
    body: Mapping[str, float] | None = None,
) -> tuple[Kit | None, list[Problem]]:
    """Everything to cut for one size, or for one `body` (mm by measurement) called `size`.

    All problems come together; the kit is None where one of them is an error.
    """
    numbers, problems = size_numbers(file, size, body)
    # Before anything is drawn: this is what keeps a hostile folder from taking hours.
    if too_much := drawn_too_much(file):
        problems.append(too_much)
    if has_errors(problems):
        return None, problems
    kit, found = _make(file, stock, size, numbers)
    problems += found
    if kit is None or not uneven(file, numbers):
        return kit, problems
    sides: list[Kit] = []
    for side in (BodySide.LEFT, BodySide.RIGHT):
        numbers, _ = size_numbers(file, size, body, side)
        own, found = _make(file, stock, size, numbers)
        problems += (problem for problem in found if problem not in problems)
        if own is None:
            return None, problems
        sides.append(own)
    return merge_sides(kit, *sides), problems


def _make(
    file: GuideFile, stock: Stock, size: str, numbers: SizeNumbers
) -> tuple[Kit | None, list[Problem]]:
    """The kit of one set of numbers."""
    problems: list[Problem] = []
    # From here on parts that failed are left out, each with its problem noted by its asker; all
    # that can be made is made, so that one run tells what is wrong with the rest as well.
    made, found = collect(make_outlines(file, stock, size, numbers))
    problems += found
    askers, names, flat, known = made.askers, made.names, made.finished, made.thickness
    asked, found_lengths = collect(asked_lengths(file, names))
    counts = {part: count_part(asker) for part, asker in askers.items()}
    counted = {part: count for part, count in counts.items() if count is not None}
    bending, found = collect(bend_parts(file, names, known, flat, size=size))
    problems += found
    finished = bending.parts
    # After bending: seams and their marks belong to the longer outlines that are cut.
    joining, found = collect(join_seams(file, names, finished, counted, known))
    problems += found + audit_seams(file, size, joining.seams) + audit_pictures(file)
    # Once seams are known: they bevel edges, and draw feet and slots on faces.
    finished, found = collect(work_faces(file, finished, joining.seams))
    problems += found
    # Parts are laid on one another as they lie in their stack; those that are cut longer for its
    # bend then carry everything along.
    on_parts = bending.carried(place_on_parts(askers, flat, stock))
    # Marks and rows have to be known before pieces are made: both are drawn on the template, and
    # allowances move the edges that they count from.
    pieces = _pieces(askers, finished, known, counted, joining, on_parts=on_parts)
    problems += audit_darts(file, pieces, joining.seams)
    problems += audit_rims(file, joining.seams)
    problems += audit_meeting(file, pieces, joining.seams)
    stacks, found = collect(_stacks(file, names, pieces, counted))
    problems += found
    problems += audit_bevels(file, pieces)
    # The flat outlines: bent, an outer layer is longer than what lies below and must be.
    problems += audit_layers(file, flat)
    # Last: allowances, marks and rows belong to whole pieces and are cut along with them.
    cut = _split(askers, stock, pieces)
    problems += _audit_rooms(file, stock, size, cut.pieces)
    problems += (problem for asker in askers.values() for problem in asker.problems)
    # Where no part evaluated them: those that one did are told already, at the same place.
    problems += (problem for problem in found_lengths if problem not in problems)
    if has_errors(problems):
        return None, problems
    kit = Kit(
        guide=file.id,
        size=size,
        measurements=tuple(numbers.measurements.items()),
        values=tuple((name, names[name]) for name in (*numbers.sides, *file.guide.values)),
        asked=asked,
        pieces=cut.pieces,
        seams=(*joining.seams, *cut.seams),
        stacks=bending.stacks(stacks),
        # Drawings of what is built show the piece as one, whatever it was cut from.
        wholes=tuple(piece for piece in pieces if piece not in cut.pieces),
        finished=finished_sizes(finished),
        rows=tuple(row for part in finished for row in on_parts[part].rows),
    )
    return kit, problems


def _pieces(
    askers: Mapping[str, PartAsker],
    finished: Mapping[str, Finished],
    thickness: Mapping[str, float],
    counts: Mapping[str, PartCount],
    joining: Joining,
    *,
    on_parts: Mapping[str, OnPart],
) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for part, outline in finished.items():
        if part in counts:
            marks = tuple(joining.marks.get(part, ()))
            asker = askers[part]
            pieces += make_pieces(
                asker,
                outline,
                thickness[part],
                counts[part],
                marks=marks,
                others=finished,
                on_it=on_parts[part],
            )
    return tuple(pieces)


def _split(askers: Mapping[str, PartAsker], stock: Stock, pieces: tuple[Piece, ...]) -> SplitParts:
    """All pieces, those in sections that fit on no sheet and may be split."""
    cut: list[Piece] = []
    seams: list[JoinedSeam] = []
    # Left and right of a part stand side by side, and both are split where one does not fit.
    for group in groupby(pieces, key=lambda piece: piece.part):
        part, own = group[0], tuple(group[1])
        material = stock.materials[own[0].material]
        fits = partial(fits_somewhere, rooms=sheet_rooms(material), rotation=material.rotation)
        split = split_part(askers[part], own, fits)
        cut += split.pieces if split else own
        seams += split.seams if split else ()
    return SplitParts(tuple(cut), tuple(seams))


def _audit_rooms(
    file: GuideFile, stock: Stock, size: str, pieces: tuple[Piece, ...]
) -> list[Problem]:
    """One piece per part is enough: a mirrored one needs the same room."""
    problems: list[Problem] = []
    for piece in pieces:
        if not piece.mirrored:
            material = stock.materials[piece.material]
            rooms = sheet_rooms(material)
            problems += audit_room(file, size, piece, rooms, material.rotation)
    return problems


def sheet_rooms(material: Material) -> tuple[SheetRoom, ...]:
    """What the sheets of a material offer; sheets whose measures cannot be worked out are left
    out, since the check of the stock tells of them."""
    rooms = []
    for sheet in material.sheets:
        try:
            rim = 2 * material.rim.value({})
            width, height = sheet.usable()
        except ExpressionError:
            continue
        rooms.append(SheetRoom(sheet.name, width - rim, height - rim))
    return tuple(rooms)


def _stacks(
    file: GuideFile,
    names: Mapping[str, float],
    pieces: tuple[Piece, ...],
    counts: Mapping[str, PartCount],
) -> Checked[tuple[LayerStack, ...]]:
    """The layer stacks whose parts could all be made."""
    by_part = {piece.part: piece for piece in reversed(pieces)}
    stacks = []
    for stack_id, stack in file.guide.stacks.items():
        trail = ("stacks", stack_id, "backing")
        backing = yield from evaluate(file, trail, stack.backing, names)
        parts = [layer.part for layer in stack.layers]
        if backing is None or not set(parts) <= by_part.keys():
            continue
        if backing < 0:
            message = f"expected 0 or more, found {backing:g}"
            yield file.source.problem("out-of-range", trail, message)
            continue
        layers = tuple(
            LayerPiece(
                part=layer.part,
                name=by_part[layer.part].name,
                material=by_part[layer.part].material,
                thickness=by_part[layer.part].thickness,
                area=shape_area(by_part[layer.part].shape),
                note=layer.note or "",
            )
            for layer in stack.layers
        )
        # A part that lies in a stack twice serves half as many stacks.
        copies = max(1, min(counts[part].needed // parts.count(part) for part in parts))
        stacks.append(LayerStack(stack_id, stack.name, backing, layers, copies))
    return tuple(stacks)
