"""Pieces, cut plans and layer stacks of one size in → tables and drawings ready to print."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.pieces.records import Kit, LayerStack, Piece, Side
from guidegen.layout.nesting.bounds import gap_words
from guidegen.layout.records import CutPlan, SizePlan
from guidegen.pictures.pieces.seam_words import edge_name, named_edges
from guidegen.pictures.records import SizePictures
from guidegen.quantities import (
    capital,
    inch_words,
    length_words,
    times_words,
)
from guidegen.render.text.piece_features import piece_features, piece_holds
from guidegen.render.text.report_address import ReportView
from guidegen.render.views.report import piece_report
from guidegen.render.views.scene import DrawingView, LinkView, Scene, drawing, step_links
from guidegen.render.views.templates import PiecePages, piece_pages
from guidegen.words import SPACE, Words, msg


@dataclass(frozen=True, slots=True)
class MeasureView:
    """A length that a reader can check with a tape, or an angle."""

    name: str
    mm: str
    inches: str
    """Empty for an angle."""


@dataclass(frozen=True, slots=True)
class EdgeView:
    """An edge with its length, as cut."""

    edge: str
    """As its line in the drawing is called."""
    name: str
    mm: str
    inches: str


@dataclass(frozen=True, slots=True)
class PieceView:
    """One part of the kit with its pieces: one, or left and right."""

    id: str
    """Id of the part."""
    labels: tuple[str, ...]
    name: str
    count: str
    """'2', '1 left + 1 right', '64 + 7 spare'."""
    material: LinkView
    thickness: str
    """Empty where the material's name says it."""
    on_fold: bool
    measures: tuple[MeasureView, ...]
    features: tuple[str, ...]
    """Bevels, grooves, texture, holes, and what lies over it, in words."""
    note: str
    drawing: DrawingView | None
    details: tuple[DrawingView, ...]
    steps: tuple[LinkView, ...]
    pages: tuple[PiecePages, ...]
    """Pages of its template."""
    edges: tuple[EdgeView, ...] = ()
    report: ReportView | None = None
    """On a page, where a mistake in it is reported; None where the site has no address for it."""


@dataclass(frozen=True, slots=True)
class CutPlanView:
    """Sheets of one material."""

    id: str
    material: str
    thickness: str
    summary: str
    sheets: tuple[DrawingView, ...]


@dataclass(frozen=True, slots=True)
class LayerView:
    """One layer of a stack."""

    number: int
    part: LinkView
    material: str
    thickness: str
    total: str
    """Thickness so far, from the body outward."""
    note: str


@dataclass(frozen=True, slots=True)
class StackView:
    """Pieces glued over one another."""

    id: str
    name: str
    copies: str
    layers: tuple[LayerView, ...]
    backing: str
    section: DrawingView | None
    exploded: DrawingView | None
    steps: tuple[LinkView, ...]


def piece_views(
    scene: Scene, kit: Kit, plan: SizePlan, pictures: SizePictures, papers: Collection[str] = ()
) -> tuple[PieceView, ...]:
    """The pieces of a kit by part and section, in the author's order; template pages of `papers`,
    or of all."""
    groups: dict[tuple[str, int], list[Piece]] = {}
    for piece in kit.pieces:
        groups.setdefault((piece.part, piece.section), []).append(piece)
    return tuple(
        replace(
            _piece_view(scene, kit, tuple(group), pictures, piece_pages(plan, group, papers)),
            report=piece_report(scene, kit.size, tuple(group)),
        )
        for group in groups.values()
    )


def _piece_view(
    scene: Scene,
    kit: Kit,
    pieces: tuple[Piece, ...],
    pictures: SizePictures,
    pages: tuple[PiecePages, ...],
) -> PieceView:
    first, part = pieces[0], pieces[0].part
    material = scene.content.stock.materials.get(first.material)
    name = material.name if material else first.material
    thickness = length_words(first.thickness, scene.words)
    drawn = next((p for p in pieces if p.key in pictures.pieces), None)
    return PieceView(
        id=first.family,
        labels=tuple(piece.label for piece in pieces),
        name=first.name,
        count=_count_words(pieces, scene.words),
        material=LinkView(name, scene.links.to("material", first.material)),
        thickness="" if thickness.replace(SPACE, " ") in name else thickness,
        on_fold=bool(first.fold),
        measures=tuple(_all_measures(pieces, scene.words)),
        features=(
            *piece_features(first, scene.words),
            *piece_holds(first, kit, scene.words, scene.content.stock.materials),
        ),
        note=first.note,
        drawing=drawing(scene, pictures.pieces[drawn.key]) if drawn else None,
        details=tuple(
            drawing(scene, svg)
            for piece in pieces[:1]
            for svg in pictures.details.get(piece.key, ())
        ),
        steps=step_links(scene, _steps_of(scene, part)),
        pages=pages,
        edges=tuple(_edges(drawn or first, scene.words)),
    )


def _edges(piece: Piece, words: Words) -> Iterator[EdgeView]:
    """Each edge once, in the order of the outline."""
    seen = set()
    for name, edge in named_edges(piece):
        if name not in seen:
            seen.add(name)
            length = run_length(edge.run)
            mm, inches = length_words(length, words), inch_words(length, words)
            yield EdgeView(name, edge_name(name, words), mm, inches)


def _steps_of(scene: Scene, part: str) -> tuple[str, ...]:
    return tuple(step.id for step in scene.guide.steps if part in step.parts)


def _count_words(pieces: tuple[Piece, ...], words: Words) -> str:
    said = []
    for piece in pieces:
        count = piece.copies - piece.spares
        number = {
            Side.ANY: f"{count}",
            Side.LEFT: words.say("{count} left", count=count),
            Side.RIGHT: words.say("{count} right", count=count),
        }[piece.side]
        spare = words.many("{n} spare", "{n} spare", piece.spares) if piece.spares else ""
        said.append(f"{number} + {spare}" if spare else number)
    return " + ".join(said)


def _all_measures(pieces: tuple[Piece, ...], words: Words) -> Iterator[MeasureView]:
    """Those of the first piece, which both hands share; of both where each is its own."""
    if not pieces[0].own:
        yield from _measures(pieces[0], words)
        return
    for piece in pieces:
        for one in _measures(piece, words):
            yield replace(one, name=f"{piece.label}: {one.name}")


def _measures(piece: Piece, words: Words) -> Iterator[MeasureView]:
    """Its finished measures; where allowances make it larger, what it is cut to as well."""
    for m in piece.measures:
        name = capital(words.say(m.name))
        if piece.allowed and not m.angle:
            name = words.say("{measure}, finished", measure=name)
        length = f"{words.number(m.value, 1)}°" if m.angle else length_words(m.value, words)
        yield MeasureView(name, length, "" if m.angle else inch_words(m.value, words))
    if piece.allowed:
        left, low, right, high = bounds((piece.shape.ring(),))
        cut = ((msg("Width, as cut"), right - left), (msg("Height, as cut"), high - low))
        for name, value in cut:
            yield MeasureView(words.say(name), length_words(value, words), inch_words(value, words))


def cut_plan_views(scene: Scene, plan: SizePlan, pictures: SizePictures) -> tuple[CutPlanView, ...]:
    """The cut plans of one size, one a material."""
    return tuple(_cut_plan_view(scene, cut, pictures) for cut in plan.cut_plans if cut.sheets)


def _cut_plan_view(scene: Scene, plan: CutPlan, pictures: SizePictures) -> CutPlanView:
    material = scene.content.stock.materials.get(plan.material)
    count = len(plan.sheets)
    words = scene.words
    summary = words.many(
        "{n} sheet, {share} of the foam becomes pieces.",
        "{n} sheets, {share} of the foam becomes pieces.",
        count,
        share=words.percent(plan.used),
    )
    if 0 < plan.least == count:
        summary += " " + words.say("No plan can do with fewer sheets.")
    elif plan.least:
        summary += " " + words.say("This plan is {gap}.", gap=gap_words(plan, words))
    drawn = pictures.cut_sheets.get(plan.material, ())
    sheets = []
    for number, (sheet, svg) in enumerate(zip(plan.sheets, drawn, strict=False), 1):
        caption = words.many(
            "Sheet {number} of {count}: {sheet}, {n} piece",
            "Sheet {number} of {count}: {sheet}, {n} pieces",
            len(sheet.placed),
            number=number,
            count=count,
            sheet=sheet.name,
        )
        sheets.append(drawing(scene, svg, caption))
    return CutPlanView(
        id=f"cut-{plan.material}",
        material=material.name if material else plan.material,
        thickness=length_words(plan.thickness, scene.words),
        summary=summary,
        sheets=tuple(sheets),
    )


def stack_views(scene: Scene, kit: Kit, pictures: SizePictures) -> tuple[StackView, ...]:
    """The layer stacks of a kit."""
    return tuple(_stack_view(scene, stack, pictures) for stack in kit.stacks)


def _stack_view(scene: Scene, stack: LayerStack, pictures: SizePictures) -> StackView:
    layers, total = [], stack.backing
    materials = scene.content.stock.materials
    for number, layer in enumerate(stack.layers, 1):
        total += layer.thickness
        known = materials.get(layer.material)
        layers.append(
            LayerView(
                number=number,
                part=LinkView(layer.name, scene.links.to("piece", layer.part)),
                material=known.name if known else layer.material,
                thickness=length_words(layer.thickness, scene.words),
                total=length_words(total, scene.words),
                note=layer.note,
            )
        )
    section, exploded = pictures.sections.get(stack.id), pictures.exploded.get(stack.id)
    uses = tuple(step.id for step in scene.guide.steps if stack.id in step.stacks)
    return StackView(
        id=stack.id,
        name=stack.name,
        copies=times_words(stack.copies, scene.words),
        layers=tuple(layers),
        backing=length_words(stack.backing, scene.words) if stack.backing else "",
        section=drawing(scene, section, scene.words.say("Cut through, with thicknesses"))
        if section
        else None,
        exploded=drawing(scene, exploded, scene.words.say("Pulled apart, body side at the bottom"))
        if exploded
        else None,
        steps=step_links(scene, uses),
    )
