"""Pieces, cut plans and layer stacks of one size in → tables and drawings ready to print."""

from dataclasses import dataclass
from math import radians, tan

from guidegen.geometry.records import Kit, LayerStack, Piece, Side
from guidegen.layout.records import CutPlan, SizePlan
from guidegen.pictures.records import SizePictures
from guidegen.render.views import DrawingView, LinkView, Scene, drawing, step_links
from guidegen.render.views_templates import PiecePages, piece_pages
from guidegen.render.views_words import (
    SPACE,
    capital,
    count_words,
    inch_words,
    length_words,
    times_words,
)

_SIDES = {Side.ANY: "", Side.LEFT: "left", Side.RIGHT: "right"}


@dataclass(frozen=True, slots=True)
class MeasureView:
    """A length that a reader can check with a tape."""

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
    """Bevels, grooves and texture in words."""
    note: str
    drawing: DrawingView | None
    details: tuple[DrawingView, ...]
    steps: tuple[LinkView, ...]
    pages: tuple[PiecePages, ...]
    """Pages of its template."""


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
    scene: Scene, kit: Kit, plan: SizePlan, pictures: SizePictures, paper: str = ""
) -> tuple[PieceView, ...]:
    """The pieces of a kit by part, in the author's order; template pages of `paper`, or of all."""
    parts = dict.fromkeys(piece.part for piece in kit.pieces)
    return tuple(
        _piece_view(
            scene,
            tuple(kit.pieces_of(part)),
            pictures,
            piece_pages(plan, kit, part, paper),
        )
        for part in parts
    )


def _piece_view(
    scene: Scene,
    pieces: tuple[Piece, ...],
    pictures: SizePictures,
    pages: tuple[PiecePages, ...],
) -> PieceView:
    first, part = pieces[0], pieces[0].part
    material = scene.content.stock.materials.get(first.material)
    name = material.name if material else first.material
    thickness = length_words(first.thickness)
    drawn = next((p for p in pieces if p.key in pictures.pieces), None)
    return PieceView(
        id=part,
        labels=tuple(piece.label for piece in pieces),
        name=first.name,
        count=_count_words(pieces),
        material=LinkView(name, scene.links.to("material", first.material)),
        thickness="" if thickness.replace(SPACE, " ") in name else thickness,
        on_fold=bool(first.fold),
        measures=tuple(
            MeasureView(capital(m.name), length_words(m.value), inch_words(m.value))
            for m in first.measures
        ),
        features=tuple(_features(first)),
        note=first.note,
        drawing=drawing(scene, pictures.pieces[drawn.key]) if drawn else None,
        details=tuple(
            drawing(scene, svg)
            for piece in pieces[:1]
            for svg in pictures.details.get(piece.key, ())
        ),
        steps=step_links(scene, _steps_of(scene, part)),
        pages=pages,
    )


def _steps_of(scene: Scene, part: str) -> tuple[str, ...]:
    return tuple(step.id for step in scene.guide.steps if part in step.parts)


def _count_words(pieces: tuple[Piece, ...]) -> str:
    words = []
    for piece in pieces:
        number = f"{piece.copies - piece.spares} {_SIDES[piece.side]}".strip()
        words.append(f"{number} + {piece.spares} spare" if piece.spares else number)
    return " + ".join(words)


def _features(piece: Piece) -> list[str]:
    """What the knife has to do beside cutting square, with the measures to check."""
    words = []
    for bevel in piece.shape.bevels:
        run = piece.thickness * tan(radians(abs(bevel.angle)))
        smaller = "inner" if bevel.direction == "inward" else "outer"
        words.append(
            f"Bevel at {bevel.edge.replace('-', ' ')}: {bevel.angle:g}° from square, "
            f"the {smaller} face ends {length_words(run)} smaller"
        )
    for groove in piece.grooves:
        words.append(
            f"V-groove on the back: {groove.fold:g}° wide, {length_words(groove.depth)} deep, "
            f"mouth {length_words(groove.mouth)}, {length_words(groove.floor)} left"
        )
    if piece.texture:
        words.append(f"Texture: {piece.texture}")
    return words


def cut_plan_views(scene: Scene, plan: SizePlan, pictures: SizePictures) -> tuple[CutPlanView, ...]:
    """The cut plans of one size, one a material."""
    return tuple(_cut_plan_view(scene, cut, pictures) for cut in plan.cut_plans if cut.sheets)


def _cut_plan_view(scene: Scene, plan: CutPlan, pictures: SizePictures) -> CutPlanView:
    material = scene.content.stock.materials.get(plan.material)
    count = len(plan.sheets)
    summary = f"{count_words(count, 'sheet')}, {plan.used:.0%} of the foam becomes pieces."
    if 0 < plan.least == count:
        summary += " No plan can do with fewer sheets."
    drawn = pictures.cut_sheets.get(plan.material, ())
    sheets = []
    for number, (sheet, svg) in enumerate(zip(plan.sheets, drawn, strict=False), 1):
        pieces = count_words(len(sheet.placed), "piece")
        sheets.append(drawing(scene, svg, f"Sheet {number} of {count}: {sheet.name}, {pieces}"))
    return CutPlanView(
        id=f"cut-{plan.material}",
        material=material.name if material else plan.material,
        thickness=length_words(plan.thickness),
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
                thickness=length_words(layer.thickness),
                total=length_words(total),
                note=layer.note,
            )
        )
    section, exploded = pictures.sections.get(stack.id), pictures.exploded.get(stack.id)
    uses = tuple(step.id for step in scene.guide.steps if stack.id in step.stacks)
    return StackView(
        id=stack.id,
        name=stack.name,
        copies=times_words(stack.copies),
        layers=tuple(layers),
        backing=length_words(stack.backing) if stack.backing else "",
        section=drawing(scene, section, "Cut through, with thicknesses") if section else None,
        exploded=drawing(scene, exploded, "Pulled apart, body side at the bottom")
        if exploded
        else None,
        steps=step_links(scene, uses),
    )
