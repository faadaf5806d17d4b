"""Template sets of one size in → page maps, and the pages to print for one piece alone."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from guidegen.geometry.pieces.records import Piece
from guidegen.layout.records import SizePlan, TemplateSet
from guidegen.pictures.records import SizePictures
from guidegen.render.views.scene import DrawingView, Scene, drawing, number_runs
from guidegen.units import PAPERS


@dataclass(frozen=True, slots=True)
class TemplateView:
    """The template sheets for one paper."""

    paper: str
    pages: str
    sheets: tuple[DrawingView, ...]


@dataclass(frozen=True, slots=True)
class PiecePages:
    """Where the template of a part is printed."""

    paper: str
    pages: str


def template_views(
    scene: Scene, plan: SizePlan, pictures: SizePictures, papers: Collection[str] = ()
) -> tuple[TemplateView, ...]:
    """Page maps of every paper, or of `papers` alone."""
    return tuple(
        _template_view(scene, templates, pictures)
        for templates in plan.templates
        if templates.paper in pictures.page_maps and (not papers or templates.paper in papers)
    )


def _template_view(scene: Scene, templates: TemplateSet, pictures: SizePictures) -> TemplateView:
    maps = pictures.page_maps[templates.paper]
    sheets = []
    for sheet, svg in zip(templates.sheets, maps, strict=True):
        numbers = [page.number for page in templates.pages if page.sheet == sheet.number]
        words, pages = scene.words, _number_words(numbers)
        caption = (
            words.say("Page {pages}", pages=pages)
            if len(numbers) == 1
            else words.say("Pages {pages}", pages=pages)
        )
        sheets.append(drawing(scene, svg, caption))
    return TemplateView(
        paper=paper_title(templates.paper),
        pages=scene.words.many("{n} page", "{n} pages", len(templates.pages)),
        sheets=tuple(sheets),
    )


def piece_pages(
    plan: SizePlan, pieces: Iterable[Piece], papers: Collection[str] = ()
) -> tuple[PiecePages, ...]:
    """The pages that show the template of some pieces, by paper; of `papers` alone where given."""
    keys = {piece.key for piece in pieces}
    found = []
    for templates in plan.templates:
        numbers = sorted({p.number for p in templates.pages if keys & set(p.pieces)})
        if numbers and (not papers or templates.paper in papers):
            found.append(PiecePages(paper_title(templates.paper), _number_words(numbers)))
    return tuple(found)


def paper_title(paper: str) -> str:
    """A paper as readers call it."""
    return PAPERS[paper].title if paper in PAPERS else paper


def _number_words(numbers: list[int]) -> str:
    """'1–4, 6'."""
    runs = number_runs(numbers)
    return ", ".join(str(r[0]) if len(r) == 1 else f"{r[0]}–{r[-1]}" for r in runs)
