"""One guide in → what is the same in all sizes: its pieces by name, its materials by use."""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.buildfile.records.materials import Material
from guidegen.layout.records import MaterialLine
from guidegen.quantities import length_words
from guidegen.render.views.counts import row_words
from guidegen.render.views.scene import LinkView, Scene, step_links
from guidegen.words import SPACE, Words


@dataclass(frozen=True, slots=True)
class PieceRow:
    """One part in the guide's list of pieces."""

    id: str
    labels: str
    name: str
    count: str
    """With its spares, in every size."""
    material: LinkView
    steps: tuple[LinkView, ...]
    also: tuple[str, ...] = ()
    """Other words for it."""


@dataclass(frozen=True, slots=True)
class SupplyView:
    """A material with what matters when buying it, and the steps that use it."""

    id: str
    name: str
    thickness: str
    shops: str
    """Where it is sold, in words; empty for wherever."""
    alternative: str
    note: Markup
    cautions: tuple[LinkView, ...]
    steps: tuple[LinkView, ...]
    also: tuple[str, ...] = ()
    """Other words for it."""


def guide_pieces(scene: Scene) -> tuple[PieceRow, ...]:
    """The parts of the guide in the author's order."""
    kit = scene.plan.usual.kit
    materials = scene.content.stock.materials
    rows = []
    for part in dict.fromkeys(piece.part for piece in kit.pieces):
        pieces = tuple(kit.built(part))
        known = materials.get(pieces[0].material)
        steps = tuple(step.id for step in scene.guide.steps if part in step.parts)
        rows.append(
            PieceRow(
                id=part,
                labels=", ".join(piece.label for piece in pieces),
                name=pieces[0].name,
                count=row_words(scene, part),
                material=LinkView(
                    known.name if known else pieces[0].material,
                    scene.links.to("material", pieces[0].material),
                ),
                steps=step_links(scene, steps),
                also=scene.guide.parts[part].also,
            )
        )
    return tuple(rows)


def supply_views(scene: Scene) -> tuple[SupplyView, ...]:
    """The materials of the guide in the order of its buying list."""
    stock = scene.content.stock
    lines = {line.material: line for size in scene.plan.sizes for line in size.materials.lines}
    return tuple(
        SupplyView(
            id=name,
            name=line.name,
            thickness=_thickness(stock.materials[name], line.name, scene.words),
            shops=_shops(line, scene.words),
            alternative=line.alternative,
            note=scene.prose(line.note),
            cautions=tuple(
                LinkView(stock.cautions[caution].title, scene.links.to("caution", caution))
                for caution in stock.materials[name].cautions
                if caution in stock.cautions
            ),
            steps=step_links(scene, line.steps),
            also=stock.materials[name].also,
        )
        for name, line in lines.items()
        if name in stock.materials
    )


def _shops(line: MaterialLine, words: Words) -> str:
    """'Hardware shop or Haberdashery'."""
    return words.either(name for name in (line.shop, *line.other_shops) if name)


def _thickness(material: Material, name: str, words: Words) -> str:
    """How thick a material is; empty where its name says so already."""
    if not material.thickness:
        return ""
    thick = length_words(material.thickness.value({}), words)
    return "" if thick.replace(SPACE, " ") in name else thick
