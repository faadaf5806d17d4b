"""A drawn part at one size in → its shape: read, graded, edges named.

Allowances, bevels, marks and unfolding come later, the same for drawn and computed shapes.
"""

from collections.abc import Mapping

from guidegen.buildfile.derive.sizes import SizeNumbers
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Part
from guidegen.buildfile.yaml.tree import TrailStep
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble, paths_of
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.drawing.scale import scale_problems
from guidegen.geometry.grading.drawn_part import DrawnPart
from guidegen.geometry.grading.edges import name_edges
from guidegen.geometry.grading.grading import grade_piece
from guidegen.geometry.grading.soundness import audit_grading
from guidegen.geometry.outline.records import Shape
from guidegen.geometry.parts.kept_shapes import AskedNames, KeptShapes
from guidegen.problems import Problem, did_you_mean

_KEPT = KeptShapes()


def drawn_shape(
    file: GuideFile,
    part_id: str,
    part: Part,
    numbers: SizeNumbers,
    names: Mapping[str, float] | None = None,
) -> tuple[Shape | None, list[Problem]]:
    """The shape of a drawn part in one size (mm, y upward), or None, and all problems.

    `names` are those of its arithmetic where lengths of other parts are known too.
    """
    names = numbers.names() if names is None else names
    name = part.drawing_per_size.get(numbers.size, part.drawing or "")
    key = (part_id, numbers.size, file.drawings.get(name.partition("#")[0], ""))
    shape = _KEPT.find(key, part, names)
    if shape is not None:
        return shape, []
    asked = AskedNames(names)
    job = DrawnPart(file, part_id, part, numbers, asked)
    shape = _make_shape(job)
    if shape is not None and not job.problems:
        _KEPT.keep(key, part, asked, shape)
    return shape, job.problems


def _make_shape(job: DrawnPart) -> Shape | None:
    piece = _drawn_piece(job)
    if piece is None or job.fails:
        if piece is not None:
            # For what it tells: corners that the build file names and nobody drew.
            name_edges(job, piece)
        return None
    graded = grade_piece(job, piece)
    if graded is None:
        return None
    # Named before it is audited: a rule about an edge needs its length in this size and as drawn.
    edges = name_edges(job, graded.piece)
    if not job.fails:
        # Corners are the same in all three, so are the names and the order of the edges.
        audit_grading(job, name_edges(job, piece), edges, name_edges(job, graded.rough))
    if job.fails:
        return None
    # Spread lines are the author's construction: they have done their work once a size is graded,
    # and mean nothing to someone who cuts foam.
    return Shape(edges, graded.piece.holes, graded.piece.lines)


def _drawn_piece(job: DrawnPart) -> DrawnPiece | None:
    """The piece as drawn, before grading: from the drawing of this size, or the one for all."""
    named = _drawing_of(job)
    if named is None:
        return None
    steps, (name, _, group) = named[0], named[1].partition("#")
    if name not in job.file.drawings:
        job.note("no-drawing", steps, f'no drawing "{name}"{did_you_mean(name, job.file.drawings)}')
        return None
    shown = job.file.drawing_files.get(name, name)
    drawing, found = read_drawing(job.file.drawings[name], shown)
    job.problems.extend(found)
    if drawing is None:
        return None
    job.problems.extend(scale_problems(drawing))
    if group and not paths_of(drawing, group):
        hint = did_you_mean(group, drawing.names)
        job.note("no-piece", steps, f'nothing visible is called "{group}" in {name}{hint}')
        return None
    piece, found = assemble(drawing, group)
    job.problems.extend(found)
    return piece


def _drawing_of(job: DrawnPart) -> tuple[tuple[TrailStep, ...], str] | None:
    """Where the part names the drawing of this size, and the name."""
    per_size = job.part.drawing_per_size
    if job.size in per_size:
        return ("drawing-per-size", job.size), per_size[job.size]
    if job.part.drawing is not None:
        return ("drawing",), job.part.drawing
    if per_size:
        message = f'there is no drawing for the size "{job.size}"; there are: {", ".join(per_size)}'
        cure = 'add it, or a "drawing" that is used for all other sizes'
        job.note("no-drawing", ("drawing-per-size",), message, cure, key=True)
        return None
    job.note("no-drawing", (), 'expected "drawing" with the name of an SVG file', key=True)
    return None
