"""Step and kit in → the pieces at hand out, with the edges and faces that get glue."""

from collections.abc import Collection, Mapping, Sequence

from guidegen.assembly.records import JoinSeen
from guidegen.buildfile.records.guide import Stage, Step
from guidegen.buildfile.records.motions import Motion
from guidegen.geometry.outline.measures import (
    bounds,
    point_at_share,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.records import LineKind, Point, Run
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Kit, Piece
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame, frame_into
from guidegen.pictures.pen.hatches import fill_tint, hatch_lines
from guidegen.pictures.pen.inner_lines import draw_inner_lines, draw_marks
from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import write_scale
from guidegen.pictures.pen.tints import STRONG, foam_tint
from guidegen.pictures.pieces.glue_areas import footprints, lay_up
from guidegen.pictures.pieces.rows import (
    FINE_SCALE,
    LABEL,
    Arrangement,
    Cell,
    arrange,
    group_caption,
    group_parts,
)
from guidegen.pictures.pieces.seam_words import seam_letters
from guidegen.pictures.steps.actions import Action, action_of, usual
from guidegen.pictures.steps.below import Below
from guidegen.pictures.steps.motions import (
    BAND,
    Worked,
    WorkingPoint,
    draw_head,
    draw_joins,
    draw_motion,
    draw_motions,
    motion_words,
)
from guidegen.pictures.steps.step_key import (
    ENDS,
    GLUE,
    RING,
    ROW,
    StepKey,
    draw_end,
    draw_key,
    key_entries,
    key_line,
    ring_letter,
)
from guidegen.words import Words

WIDTH = 88.0
"""mm; half a page, so that the lettering prints as it is drawn beside a step's words, and at twice
its size in large print."""
WIDEST = 160.0
"""mm; where many layers lie side by side on one piece."""
SIDE = 6.0
"""mm at the left and right: room for letters beside edges."""
ROOMS = (26.0, 36.0)
"""mm; heights of the room for the pieces: the first in which they are seen."""
TALL = 60.0
"""mm; their room in a drawing that has nothing else to show."""
LEAST_SEEN = 6.0
"""mm; a drawing whose largest piece would be smaller shows specks, no pieces. Our choice."""
SCALE, SCALE_ROOM = 3.6, 19.0
"""mm; letter size of the scale at the upper right, and the room that it takes."""
SCALE_BAND = SCALE + 2
"""mm; height of the head of a drawing that says no motion: its scale alone."""
LETTER_PLACES = ((0.5, 1), (0.2, 1), (0.8, 1), (0.5, -1))
"""Where the letter of an edge may stand: share of its length; outside 1, inside -1."""
MOST_DRAWN = 12
"""Parts of a step that a drawing still shows; with more, each would be too small to tell."""


def draw_step(
    step: Step,
    kit: Kit,
    prefix: str,
    *,
    before: Collection[str] = (),
    cutting: bool = False,
    motion: Motion | None = None,
    seen: Sequence[JoinSeen] = (),
    lang: Words,
) -> Drawing | None:
    """The pieces of a step at one scale; seams lettered on both edges, glued faces hatched; below
    them sections of its bevels, the layers as far as they are built, the thing before and after.

    `motion` is what is done: it stands at the head, and on the pieces where it happens. `seen` is
    the finished thing before and after the step.

    `before` are the stacks that earlier steps have joined; `cutting` tells that the step cuts
    bevels. A step without pieces, or with so many that a drawing would show none, has its motion
    alone; None where it has no motion either.
    """
    groups = _groups(step, kit)
    joined = {seam.id for seam in _joined(step, kit)}
    glued = _glued_faces(step, kit)
    # Without pieces the motion is all there is to show.
    if not groups or len(step.parts) > MOST_DRAWN:
        return _motion_alone(step, usual(motion) if motion else None, lang)
    action = action_of(motion, edges=bool(joined), faces=bool(glued)) if motion else None
    pieces = [group[0] for group in groups]
    captions = {group[0].key: group_caption(group) for group in groups}
    # Letters of the whole kit, cut down to this step: a seam keeps its letter from step to step.
    letters = {name: letter for name, letter in seam_letters(kit).items() if name in joined}
    # Wider only for layers that lie side by side on one piece: they cannot be broken into rows.
    room = (WIDTH - 2 * SIDE, WIDEST - 2 * SIDE)
    below = Below.of(step, kit, before, seen, room=room, lang=lang, cutting=cutting)
    width = below.room + 2 * SIDE
    rows = _rows(pieces, width - 2 * SIDE, ROOMS if action else (*ROOMS, TALL), captions)
    if not (rows.cells or below.words):
        return _motion_alone(step, action, lang)
    entries = key_entries(step, kit, letters, bool(glued), lang)
    key = [key_line(mark, words, width) for mark, words in entries]
    # From the foot up: key, layers and views, bevels, pieces, and the motion at the head.
    below_at = 1 + ROW * sum(len(entry.lines) for entry in key)
    foot = below_at + below.height
    above = _letters_above(rows, kit, letters) if action else 0.0
    height = foot + rows.height + 2 + above + (BAND if action else SCALE_BAND)
    said = f"{motion_words(action, lang)} " if action else ""
    canvas = Canvas(
        width,
        height,
        lang.say("Pieces at hand: {step}", step=step.title),
        f"{said}{_describe(groups, key, lang)}{below.words}",
        lang,
    )
    worked: list[Worked] = []
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    with canvas.group(css="step", id=f"{prefix}-step-{step.id}"):
        for cell in rows.cells:
            place = (cell.x + SIDE, cell.y + foot, cell.width, cell.height)
            frame = frame_into((cell.piece.shape.ring(),), rows.scale, place)
            _draw_piece(canvas, cell, frame, materials)
            _draw_faces(canvas, step, cell.piece, frame, glued)
            _draw_seams(canvas, kit, cell, frame, letters)
            faces, edges = glued.get(cell.piece.part, ()), _joined_edges(step, kit, cell.piece)
            worked.append(Worked(cell.piece, frame, faces, edges))
    draw_key(canvas, key, 0.5)
    below.draw(canvas, (SIDE, below_at), WIDTH - 2 * SIDE, materials)
    if rows.cells:
        middle = height - (BAND if action else SCALE_BAND) / 2
        write_scale(canvas, rows.scale, (width - 1, middle - SCALE * CAP_HEIGHT / 2))
    if action:
        # After all words: arrows and figures keep off what is written, so it must be there.
        _draw_action(canvas, action, _pairs(step, kit, worked), worked)
    return canvas.drawing()


def _draw_action(
    canvas: Canvas,
    action: Action,
    pairs: Sequence[tuple[WorkingPoint, WorkingPoint]],
    worked: Sequence[Worked],
) -> None:
    """What hands do: in words and as a figure at the head, and on the pieces where it happens."""
    head = draw_head(canvas, action, canvas.height, 0, canvas.width - SCALE_ROOM)
    with canvas.group(css="motions"):
        draw_joins(canvas, pairs)
        draw_motions(canvas, action.motion, worked, head)


def _motion_alone(step: Step, action: Action | None, lang: Words) -> Drawing | None:
    title = lang.say("How: {step}", step=step.title)
    return draw_motion(action, title, WIDTH, lang) if action else None


def _rows(
    pieces: Sequence[Piece], width: float, rooms: Sequence[float], captions: Mapping[str, str]
) -> Arrangement:
    """The pieces in the lowest room in which they are seen; none of them where no room does."""
    for room in rooms:
        # Never above 1 : 1.5, chosen: a small piece alone would fill the drawing and look large.
        rows = arrange(pieces, width, room, least=1.5, captions=captions)
        if max(max(cell.width, cell.height) for cell in rows.cells) >= LEAST_SEEN:
            return rows
    return Arrangement((), 1.0, 0.0)


def _letters_above(rows: Arrangement, kit: Kit, letters: Mapping[str, str]) -> float:
    """mm by which letters of seams reach above the rows, where the words of the head would be."""
    highest = 0.0
    for cell in rows.cells:
        place = (cell.x, cell.y, cell.width, cell.height)
        frame = frame_into((cell.piece.shape.ring(),), rows.scale, place)
        for seam in kit.seams:
            if seam.id in letters:
                for ref in (seam.first, seam.second):
                    for run in _edges(cell.piece, ref):
                        highest = max(highest, _letter_centre(run, frame, cell)[1] + RING)
    return max(0.0, highest - rows.height)


def _joined(step: Step, kit: Kit) -> list[JoinedSeam]:
    """The seams that a step joins: those that it names, and those between sections."""
    return [seam for seam in kit.seams if seam.id in step.seams or seam.step == step.id]


def _joined_edges(step: Step, kit: Kit, piece: Piece) -> tuple[Run, ...]:
    refs = [ref for seam in _joined(step, kit) for ref in (seam.first, seam.second)]
    return tuple(run for ref in dict.fromkeys(refs) for run in _edges(piece, ref))


def _pairs(
    step: Step, kit: Kit, worked: Sequence[Worked]
) -> list[tuple[WorkingPoint, WorkingPoint]]:
    """For each seam of the step both edges: the middle on the drawing, and the way out there."""
    pairs: list[tuple[WorkingPoint, WorkingPoint]] = []
    for seam in _joined(step, kit):
        found = [_edge_middle(ref, worked) for ref in (seam.first, seam.second)]
        # A seam of which one piece is not on the drawing has nothing to point at.
        if found[0] and found[1]:
            pairs.append((found[0], found[1]))
    return pairs


def _edge_middle(ref: EdgeRef, worked: Sequence[Worked]) -> WorkingPoint | None:
    for one in worked:
        for run in _edges(one.piece, ref):
            at, along = point_at_share(run, 0.5)
            dx, dy = one.frame.vector(along)
            # Outlines run counter-clockwise: outside is at the right of the way.
            return one.frame.point(at), (dy, -dx)
    return None


def _groups(step: Step, kit: Kit) -> list[list[Piece]]:
    """For each part of a step, its pieces: one, or left and right."""
    parts = list(step.parts)
    for seam in _joined(step, kit):
        parts += [seam.first.part, seam.second.part]
    for stack in kit.stacks:
        if stack.id in step.stacks:
            parts += [layer.part for layer in stack.layers]
    return [group for part in dict.fromkeys(parts) for group in group_parts(kit.pieces_of(part))]


def _draw_piece(canvas: Canvas, cell: Cell, frame: Frame, materials: tuple[str, ...]) -> None:
    piece = cell.piece
    rings = frame.runs((piece.shape.ring(), *piece.shape.holes))
    with canvas.group(css=f"piece piece-{piece.key}", title=f"{piece.label}, {piece.name}"):
        fill_tint(canvas, rings, foam_tint(materials, piece.material))
        if frame.scale > FINE_SCALE:
            draw_inner_lines(canvas, piece.shape, frame)
            draw_marks(canvas, piece.shape, frame)
        canvas.path(rings, Stroke(0.35), css="ink", closed=True)
        at = _caption_at(rings[0])
        canvas.text(at, cell.words, LABEL, anchor="middle", weight=600, css="label strong")


def _glued_faces(step: Step, kit: Kit) -> dict[str, tuple[Run, ...]]:
    """By part, the rings that get glue: footprints of what rests on it; its own outline where it
    is laid on and nothing says where."""
    faces: dict[str, list[Run]] = {}
    for stack in kit.stacks:
        if stack.id not in step.stacks:
            continue
        laid = lay_up(stack, kit)
        for layer in laid[1:]:
            if not layer.sure:
                rings = (layer.piece.shape.ring(), *layer.piece.shape.holes)
                faces.setdefault(layer.piece.part, []).extend(rings)
        for layer, rings in zip(laid, footprints(laid), strict=True):
            # From the lowest layer's coordinates into the piece's own, as it lies on this drawing.
            back = layer.frames[0].inverse()
            faces.setdefault(layer.piece.part, []).extend(back.runs(rings))
    return {part: tuple(rings) for part, rings in faces.items()}


def _draw_faces(
    canvas: Canvas,
    step: Step,
    piece: Piece,
    frame: Frame,
    glued: dict[str, tuple[Run, ...]],
) -> None:
    """Hatch what gets glue, or the texture where the step is about it."""
    rings = frame.runs(glued.get(piece.part, ()))
    if step.stage is Stage.TEXTURING:
        rings = frame.runs(
            tuple(line.run for line in piece.shape.lines if line.kind is LineKind.TEXTURE)
        )
    if rings:
        canvas.path(hatch_lines(rings, 45, 2), GLUE, css="accent")
        canvas.path(rings, GLUE, css="accent", closed=True)


def _draw_seams(
    canvas: Canvas, kit: Kit, cell: Cell, frame: Frame, letters: dict[str, str]
) -> None:
    """Mark the edges of seams with a strong line and the seam's letter."""
    piece = cell.piece
    for seam in kit.seams:
        if seam.id not in letters:
            continue
        for ref in dict.fromkeys((seam.first, seam.second)):
            for run in _edges(piece, ref) or _stood_on(piece, seam, ref):
                canvas.path([frame.run(run)], STRONG, css="accent")
                ring_letter(canvas, _letter_centre(run, frame, cell), letters[seam.id])
                end = _meeting_end(seam, ref, piece, run)
                if end is not None:
                    draw_end(canvas, frame.point(end))


def _meeting_end(seam: JoinedSeam, ref: EdgeRef, piece: Piece, run: Run) -> Point | None:
    """The end of an edge that comes to lie on the dotted end of the other; None where an edge is
    joined to itself, or lies on both sides of a fold: either end may be meant there."""
    if seam.first == seam.second or len(_edges(piece, ref)) > 1:
        return None
    # Both outlines run counter-clockwise, so edges that meet run against one another: the start of
    # one comes to lie on the end of the other. Flipped seams run the same way.
    start, end = segment_start(run[0]), segment_end(run[-1])
    return start if ref == seam.first or seam.flipped else end


def _edges(piece: Piece, ref: EdgeRef) -> list[Run]:
    """The edge, and its mirror image where the part was drawn on the fold."""
    if ref.part != piece.part:
        return []
    # The other half of a part on the fold has the same edge under its second name.
    wanted = {ref.edge, f"{ref.edge}-2"}
    return [edge.run for edge in piece.shape.edges if edge.name in wanted]


def _stood_on(piece: Piece, seam: JoinedSeam, ref: EdgeRef) -> list[Run]:
    """The line on a piece's face on which the first edge of a seam stands; none elsewhere."""
    if seam.standing is None or ref != seam.second or ref.part != piece.part:
        return []
    return [seam.standing.line(mirrored=piece.mirrored)]


def _caption_at(outline: Run) -> Point:
    """The middle of the base line of a piece's name."""
    left, low, right, _ = bounds((outline,))
    return (left + right) / 2, low - 6


def _letter_centre(run: Run, frame: Frame, cell: Cell) -> Point:
    """Outside the middle of an edge; elsewhere along it, or inside, where the piece's name is."""
    middle, base = _caption_at(frame.run(cell.piece.shape.ring()))
    half = text_width(cell.words, LABEL, 600) / 2 + RING
    places = [_beside_edge(run, frame, *place) for place in LETTER_PLACES]
    for x, y in places:
        # A corner of the box that a ring may not enter is farther away: never too near.
        if not (abs(x - middle) < half and base - RING < y < base + LABEL + RING):
            return x, y
    return places[0]


def _beside_edge(run: Run, frame: Frame, share: float, side: float) -> Point:
    at, along = point_at_share(run, share)
    x, y = frame.point(at)
    dx, dy = frame.vector(along)
    # To the right of the way round, which is outside. 3.4 mm: the ring's radius, and a good
    # millimetre in which the edge is still seen.
    return x + side * dy * 3.4, y - side * dx * 3.4


def _describe(groups: list[list[Piece]], key: list[StepKey], lang: Words) -> str:
    pieces = "; ".join(f"{group_caption(group)} {group[0].name}" for group in groups)
    joins = "; ".join(
        f"{entry.mark.replace(ENDS, '')} {' '.join(entry.lines)}".strip() for entry in key
    )
    said = lang.say("Pieces: {list}.", list=pieces)
    return said + (" " + lang.say("Worked on: {list}.", list=joins) if joins else "")
