"""What a guide's page offers a reader whose measurements are in no size table."""

from dataclasses import dataclass

from guidegen.geometry.pieces.records import Side
from guidegen.render.site.frame import MEASURED_SCRIPT, asset_addresses
from guidegen.render.text.links import MEASURED_INDEX, THEME_FOLDER, guide_page
from guidegen.render.text.templates_engine import Theme
from guidegen.render.views.scene import Scene
from guidegen.units import PAPERS


@dataclass(frozen=True, slots=True)
class MeasuredOffer:
    """Templates made to measure in the reader's browser."""

    file: str
    """Name of the order's file in the guide's folder."""
    order: bytes
    """What the program there is handed."""
    papers: tuple[str, ...]
    """For which templates can be made, by id."""


def order_file(guide: str, offer: MeasuredOffer | None) -> dict[str, bytes]:
    """The file of an offer, by path from out/."""
    return {f"{guide}/{offer.file}": offer.order} if offer else {}


@dataclass(frozen=True, slots=True)
class PaperChoice:
    """A paper to choose."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class MeasuredView:
    """What the page says of it and where its files lie."""

    order: str
    """Address of the order."""
    index: str
    """Address of the file that tells where the program lies."""
    papers: tuple[PaperChoice, ...]
    both_hands: bool
    """Whether some pieces have a hand."""
    script: str
    """Address of what the page does with it."""


def measured_view(scene: Scene, offer: MeasuredOffer, theme: Theme) -> MeasuredView:
    """The offer on the guide's own page."""
    content, plan = scene.content, scene.plan
    # The program lies in the folder of the site's first language alone.
    first = content.language == next(iter(content.languages), content.language)
    papers = tuple(PaperChoice(paper, PAPERS[paper].title) for paper in offer.papers)
    sided = any(piece.side is Side.RIGHT for kit in plan.kits[:1] for piece in kit.pieces)
    index = ("" if first else "../") + scene.links.file(MEASURED_INDEX)
    order = scene.links.file(f"{plan.file.id}/{offer.file}")
    script = asset_addresses(theme, guide_page(plan.file.id))[f"{THEME_FOLDER}/{MEASURED_SCRIPT}"]
    return MeasuredView(order, index, papers, sided, script)
