"""A piece in → the drawing that guides read, in mm, out."""

from collections.abc import Iterator

from guidegen.bench.forms.pieces import FormPiece, corner_places
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Line, Run
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.pictures.pen.records import Circle, Drawing, Group, Item, Path, Stroke
from guidegen.words import Words

LINE, THIN = Stroke(0.3), Stroke(0.2)
MARGIN = 8.0
"""mm of page around the piece."""
FOOT = 8.0
"""mm below it for the line that tells how large the drawing is."""
SCALE = 50.0
"""mm of that line."""


def piece_drawing(piece: FormPiece, words: Words) -> Drawing:
    """Outline, windows, folds, corners and a scale line, with layers as the handbook names them."""
    whole: Run = tuple(segment for edge in piece.edges for segment in edge.run)
    left, low, right, high = bounds((whole,))
    motion = RigidMotion(MARGIN - left, MARGIN + FOOT - low)

    def moved(run: Run) -> Run:
        return transform_run(run, motion)

    items: list[Item] = [
        Group((Path((moved(whole),), LINE, closed=True, css="outline"),), id="outline")
    ]
    if piece.holes:
        rings = tuple(Path((moved(one),), LINE, closed=True, css="hole") for one in piece.holes)
        items.append(Group(rings, id="holes"))
    if piece.folds:
        folds = tuple(Path((moved(one),), THIN, css="fold") for one in piece.folds)
        items.append(Group(folds, id="fold-lines"))
    if piece.proposal is not None:
        seam = moved((Line(piece.proposal.start, piece.proposal.end),))
        items.append(Group((Path((seam,), THIN, css="note"),), id="note-one-more-seam"))
    items += _corners(piece, motion)
    ruler = Line((MARGIN, MARGIN / 2), (MARGIN + SCALE, MARGIN / 2))
    items.append(Group((Path(((ruler,),), THIN),), id=f"scale-{SCALE:.0f}-mm"))
    width, height = right - left + 2 * MARGIN, high - low + 2 * MARGIN + FOOT
    title = words.say("{name}, laid flat", name=piece.name)
    return Drawing(max(width, SCALE + 2 * MARGIN), height, title, "", tuple(items))


def _corners(piece: FormPiece, motion: RigidMotion) -> Iterator[Item]:
    for name, place in corner_places(piece):
        yield Group((Circle(motion.point(place), 0.6, THIN),), id=f"corner-{name}")
