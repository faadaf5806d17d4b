"""What every page needs: its frame, its title block, and the scene from which views are made.

View records are frozen and hold words, addresses and drawings that are ready to print: a template
only walks through them.
"""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.buildfile.guide import Guide
from guidegen.buildfile.records import ONE_SIZE, Content
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.links import Links, picture_file, resolver
from guidegen.render.markdown import render_inline, render_markdown


@dataclass(frozen=True)
class Scene:
    """One guide as seen from one page or booklet: all that a view is made from."""

    content: Content
    plan: GuidePlan
    pictures: GuidePictures
    links: Links
    reference_css: str = ""
    """Class of references in texts."""

    @property
    def guide(self) -> Guide:
        """The guide as its author wrote it."""
        return self.plan.file.guide

    def prose(self, text: str | None, heading: int = 3) -> Markup:
        """A CommonMark text with its references; empty for none."""
        if not text:
            return Markup()
        file = self.plan.file
        resolve = resolver(self.content, file, self.links, self.reference_css)
        pictures = {
            name: self.links.file(picture_file(file.id, name)) for name in sorted(file.pictures)
        }
        return render_markdown(text, resolve, heading=heading, pictures=pictures)

    def line(self, text: str | None) -> Markup:
        """One line with its references; empty for none."""
        if not text:
            return Markup()
        resolve = resolver(self.content, self.plan.file, self.links, self.reference_css)
        return render_inline(text, resolve)


@dataclass(frozen=True, slots=True)
class LinkView:
    """Words that may lead somewhere."""

    words: str
    href: str = ""
    """Empty where the words stand alone."""
    note: str = ""
    """Smaller words after it."""


@dataclass(frozen=True, slots=True)
class DrawingView:
    """A drawing of ours, with words under it."""

    svg: Markup
    caption: str = ""
    id: str = ""


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A picture of the author's."""

    src: str
    alt: str
    caption: str = ""


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """Data fields of ISO 7200:2004 that concern a guide."""

    owner: str
    title: str
    number: str
    """Identification number: guide and size."""
    version: str
    date: str
    """ISO 8601 date of issue."""
    creator: str
    approved: str
    kind: str
    """Document type."""
    sheet: str = ""
    """Which page of how many, where the medium can tell."""
    size: str = ""
    language: str = "en"


@dataclass(frozen=True, slots=True)
class PageView:
    """The frame around one page of the site."""

    path: str
    title: str
    description: str
    language: str
    site: str
    """Name of the site."""
    root: str
    """Address of the home page."""
    css: str
    script: str
    icon: str
    trail: tuple[LinkView, ...]
    """Pages above this one, home first."""
    menu: tuple[LinkView, ...]
    """Pages of this guide; the current one has no address."""
    glossary: str
    """Address of the glossary; empty where there are no terms."""
    block: TitleBlock | None = None
    canonical: str = ""
    """Full address, where the site knows its own."""


def drawing(text: str, caption: str = "", id: str = "") -> DrawingView:
    """A drawing made by the pictures stage."""
    return DrawingView(Markup(text), caption, id)  # noqa: S704 - drawn and escaped by the pictures stage


def size_title(size: str) -> str:
    """A size as readers see it."""
    return "One size" if size == ONE_SIZE else size


def title_block(scene: Scene, kind: str, size: str = "", sheet: str = "") -> TitleBlock:
    """The title block of a document about the guide."""
    guide, file = scene.guide, scene.plan.file
    return TitleBlock(
        owner=scene.content.site.publisher,
        title=guide.title,
        number=f"{file.id}-{size}" if size else file.id,
        version=guide.version,
        date=guide.date,
        creator=guide.author,
        approved=guide.approved_by or "not yet",
        kind=kind,
        sheet=sheet,
        size=size_title(size) if size else "",
        language=scene.content.site.language,
    )


def usual_size(plan: GuidePlan) -> int:
    """Number of the size that stands for all, the middle one: in facts and on the cover."""
    return len(plan.kits) // 2 if len(plan.kits) > 2 else 0


def step_numbers(guide: Guide) -> dict[str, int]:
    """Numbers of the steps by id, from 1, in the author's order."""
    return {step.id: number for number, step in enumerate(guide.steps, 1)}


def step_links(scene: Scene, ids: tuple[str, ...]) -> tuple[LinkView, ...]:
    """Links to steps by number, in order."""
    numbers = step_numbers(scene.guide)
    titles = {step.id: step.title for step in scene.guide.steps}
    known = sorted({name for name in ids if name in numbers}, key=numbers.__getitem__)
    return tuple(
        LinkView(str(numbers[name]), scene.links.to("step", name), titles[name]) for name in known
    )
