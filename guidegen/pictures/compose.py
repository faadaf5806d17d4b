"""Kits and plans in → all drawings of a size, and of a guide, out (template pages apart)."""

from collections.abc import Callable, Collection, Mapping

from guidegen.assembly.records import NOTHING_SEEN, FinishedSeen, JoinSeen, Seen
from guidegen.buildfile.records.guide import Guide, Stage
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.pictures.bodies.body import draw_body
from guidegen.pictures.bodies.finished import draw_finished
from guidegen.pictures.cutting.cut_lengths import draw_cut_lengths
from guidegen.pictures.cutting.cut_sheets import draw_cut_sheets
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.tints import foam_tint
from guidegen.pictures.pieces.details import draw_details
from guidegen.pictures.pieces.exploded import draw_exploded
from guidegen.pictures.pieces.joins import draw_joins
from guidegen.pictures.pieces.kit import draw_kit
from guidegen.pictures.pieces.pieces import draw_piece
from guidegen.pictures.pieces.sections import draw_section
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.pictures.signs.signs import draw_signs
from guidegen.pictures.steps.steps import draw_step
from guidegen.pictures.times.team_line import draw_team_line
from guidegen.pictures.times.time_line import draw_time_line
from guidegen.words import Words


def draw_size(
    plan: SizePlan,
    guide: Guide,
    stock: Stock,
    lang: Words,
    look: FinishedSeen = NOTHING_SEEN,
) -> SizePictures:
    """All drawings of one size but for its template pages and page maps.

    `look` is what is seen of the finished thing.

    Ids in the drawings begin with the size, so that several sizes may stand in one document.
    """
    kit, prefix = plan.kit, f"size-{plan.size}"
    names = {name: entry.name for name, entry in stock.materials.items()}
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    exploded = {stack.id: draw_exploded(stack, kit, prefix, names, lang) for stack in kit.stacks}
    details = {piece.key: draw_details(piece, kit, lang) for piece in kit.pieces}
    return SizePictures(
        kit=draw_kit(kit, names, lang=lang),
        finished=tuple(draw_finished(view, guide, kit, lang) for view in look.views),
        joined=look.joins,
        pieces={
            piece.key: draw_piece(
                piece, prefix, tint=foam_tint(materials, piece.material), lang=lang
            )
            for piece in kit.pieces
        },
        cut_sheets={
            cut.material: draw_cut_sheets(cut, kit, prefix, names, lang, stock=stock)
            for cut in plan.cut_plans
        },
        cut_lengths={
            lengths.material: drawn
            for lengths in plan.materials.lengths
            if (
                drawn := draw_cut_lengths(
                    lengths, names.get(lengths.material, lengths.material), lang
                )
            )
        },
        sections={stack.id: draw_section(stack, prefix, names, lang) for stack in kit.stacks},
        exploded={key: drawn for key, drawn in exploded.items() if drawn},
        details={key: drawings for key, drawings in details.items() if drawings},
        joins=draw_joins(kit, prefix, lang),
    )


def draw_cover(
    kit: Kit, guide: Guide, stock: Stock, lang: Words, seen: Seen | None
) -> SizePictures:
    """What stands for a size in lists: the finished thing as it is `seen`, and all pieces."""
    names = {name: entry.name for name, entry in stock.materials.items()}
    finished = (draw_finished(seen, guide, kit, lang),) if seen else ()
    return SizePictures(draw_kit(kit, names, lang=lang), finished)


def draw_guide(
    plan: GuidePlan,
    sizes: Mapping[str, SizePictures],
    stock: Stock,
    lang: Words,
    steps: Mapping[str, Drawing] | None = None,
) -> GuidePictures:
    """All drawings of one guide: those of its `sizes`, and what all sizes share.

    `steps` are what `draw_guide_steps` gives, where it is asked elsewhere.
    """
    guide = plan.file.guide
    return GuidePictures(
        sizes=sizes,
        time_line=draw_time_line(plan.time_line, guide, lang, stock.stages),
        teams={
            team.people: draw_team_line(team, guide, lang) for team in plan.teams if team.people > 1
        },
        signs=draw_signs(lang),
        steps=steps
        if steps is not None
        else draw_guide_steps(plan, sizes, stock, lang, lambda size: _joined(sizes, size)),
        body=draw_body(guide.measurements, "measure", lang),
    )


def draw_guide_steps(
    plan: GuidePlan,
    sizes: Collection[str],
    stock: Stock,
    lang: Words,
    joins: Callable[[str], Mapping[str, tuple[JoinSeen, ...]]],
) -> dict[str, Drawing]:
    """The drawing of every step, by its id, in the only one of `sizes` or in the middle one.

    `joins` tells of a size what there is before and after each step that joins.
    """
    kits = [kit for kit in plan.kits if kit.size in sizes] or list(plan.kits)
    # Steps read alike in every size; the pieces of the middle one are nearest to anybody's.
    kit = kits[len(kits) // 2]
    return _draw_steps(plan.file.guide, kit, stock, lang, joins(kit.size))


def _joined(sizes: Mapping[str, SizePictures], size: str) -> Mapping[str, tuple[JoinSeen, ...]]:
    return sizes[size].joined if size in sizes else {}


def _draw_steps(
    guide: Guide,
    kit: Kit,
    stock: Stock,
    lang: Words,
    joined: Mapping[str, tuple[JoinSeen, ...]],
) -> dict[str, Drawing]:
    """The drawing of every step that works on a piece."""
    drawings: dict[str, Drawing] = {}
    before: set[str] = set()
    for step in guide.steps:
        process = stock.processes.get(step.process or "")
        cutting = step.stage is Stage.CUTTING and not (process and process.cuts)
        drawn = draw_step(
            step,
            kit,
            "steps",
            before=before,
            cutting=cutting,
            motion=process.motion if process else None,
            seen=joined.get(step.id, ()),
            lang=lang,
        )
        if drawn:
            drawings[step.id] = drawn
        # Only now: what a step joins itself is not there before it.
        before |= set(step.stacks)
    return drawings
