"""What every page needs: its frame, its title block, and the scene from which views are made.

View records are frozen and hold words, addresses and drawings that are ready to print: a template
only walks through them.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.buildfile.read.content import ONE_SIZE, Content
from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.records import GuidePictures
from guidegen.render.text.links import Links, drawing_file, resolver
from guidegen.render.text.markdown import render_inline, render_markdown
from guidegen.render.text.report_address import ReportView
from guidegen.render.text.svg import page_svg, svg_file
from guidegen.render.text.templates_engine import in_language
from guidegen.render.views.photos import PhotoView, photo_html, photo_view
from guidegen.words import Words, language_of


@dataclass(frozen=True)
class Scene:
    """One guide as seen from one page or booklet: all that a view is made from."""

    content: Content
    plan: GuidePlan
    pictures: GuidePictures
    links: Links
    paper: bool = False
    """True for a booklet: references print their page, drawings are files."""
    size: str = ""
    """The size that a document is for; empty for a page for all sizes."""

    @property
    def kits(self) -> tuple[Kit, ...]:
        """Kits of the sizes that are shown: what is counted has to hold in each."""
        return tuple(one.kit for one in self.plan.sizes if self.size in ("", one.size))

    @property
    def kit(self) -> Kit:
        """The kit of the size; that of the usual one where there is none."""
        return self.kits[0] if self.size else self.plan.usual.kit

    @property
    def words(self) -> Words:
        """How the page's language says what guidegen adds."""
        return self.content.words

    @property
    def guide(self) -> Guide:
        """The guide as its author wrote it."""
        return self.plan.file.guide

    def prose(self, text: str | None, heading: int = 3) -> Markup:
        """A CommonMark text with its references; empty for none."""
        if not text:
            return Markup()
        file = self.plan.file
        resolve = resolver(self.content, file, self.links, paper=self.paper)

        def show(name: str, alt: str) -> Markup | None:
            view = self.photo(name, alt)
            return photo_html(view) if view else None

        html = render_markdown(text, resolve, heading=heading, show=show, lengths=not self.paper)
        return in_language(html, text, "div")

    def photo(self, name: str, alt: str, caption: str = "") -> PhotoView | None:
        """One of the guide's pictures; None where it has no such file."""
        return photo_view(self.plan.file, self.links, name, alt, caption, paper=self.paper)

    def line(self, text: str | None) -> Markup:
        """One line with its references; empty for none."""
        if not text:
            return Markup()
        resolve = resolver(self.content, self.plan.file, self.links, paper=self.paper)
        return in_language(render_inline(text, resolve, lengths=not self.paper), text)


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
    """A drawing of ours, with words under it: in the page itself, or as a file beside it."""

    svg: Markup
    """Empty where the drawing is a file."""
    caption: str = ""
    src: str = ""
    """Address of the file; empty where the drawing stands in the page."""
    alt: str = ""
    said: str = ""
    """What the drawing says, in words, for those who cannot read its lettering."""


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
    creator_in: str = ""
    """BCP 47 tag of the language of the creator's name, where it is not the document's."""
    approved_in: str = ""
    """The same of the approver's."""


@dataclass(frozen=True, slots=True)
class LanguageView:
    """A page in another language."""

    language: str
    """BCP 47 tag."""
    name: str
    """What its speakers call the language."""
    direction: str
    """'ltr' or 'rtl'."""
    href: str
    """Address of the same page; of the first page where that one has no translation."""
    address: str
    """Full address of the same page; empty where there is none or the site knows no address."""
    same: bool = True
    """False where `href` leads to the first page: this one has no translation."""


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
    touch: str
    """Address of the icon for telephones."""
    manifest: str
    card: str
    """Full address of the picture that previews show; empty where the site knows no address."""
    card_alt: str
    trail: tuple[LinkView, ...]
    """Pages above this one, home first."""
    menu: tuple[LinkView, ...]
    """Pages of this guide; the current one has no address."""
    glossary: str
    """Address of the glossary; empty where there are no terms."""
    block: TitleBlock | None = None
    canonical: str = ""
    """Full address, where the site knows its own."""
    feed: str = ""
    """Address of the feed of changes."""
    search: str = ""
    """Address of the page for searching; empty on that page."""
    licences: str = ""
    """Address of the page of licences; empty on that page."""
    data: Markup | None = None
    """What the page is about, as JSON-LD."""
    said: str = "{}"
    """What the scripts say, as JSON by name."""
    direction: str = "ltr"
    """'ltr' or 'rtl'."""
    languages: tuple[LanguageView, ...] = ()
    """The other languages of the site."""
    gaps: str = ""
    """Name of the language in which texts without a translation are shown; empty for none."""
    guide: str = ""
    """Id of the guide that the page belongs to; empty for none."""
    sizes: tuple[str, ...] = ()
    """Its sizes."""
    size: str = ""
    """The size that the page is about; empty for none."""
    fonts: tuple[str, ...] = ()
    """Addresses of the style sheets that hold the faces of every first view."""
    report: ReportView | None = None
    """Where a mistake on the page is reported; None where the site has no address for it."""


def drawing(scene: Scene, drawn: Drawing, caption: str = "") -> DrawingView:
    """A drawing made by the pictures stage.

    On screen it stands in the page, where style sheet and scripts reach it; on paper it is a
    file, which is set many times faster.
    """
    if scene.paper:
        said = drawn.description
        alt = f"{drawn.title}. {said}" if said else drawn.title
        return DrawingView(Markup(), caption, drawing_file(svg_file(drawn)), alt, said)
    return DrawingView(Markup(page_svg(drawn)), caption)  # noqa: S704 - escaped by its writer


def size_title(size: str, words: Words) -> str:
    """A size as readers see it."""
    return words.say("One size") if size == ONE_SIZE else size


def title_block(scene: Scene, kind: str, size: str = "", sheet: str = "") -> TitleBlock:
    """The title block of a document about the guide."""
    guide, file, content = scene.guide, scene.plan.file, scene.content
    return TitleBlock(
        owner=content.site.publisher,
        title=guide.title,
        number=f"{file.id}-{size}" if size else file.id,
        version=guide.version,
        date=guide.date,
        creator=guide.author,
        approved=guide.approved_by or scene.words.say("not yet"),
        kind=scene.words.say(kind),
        sheet=sheet,
        size=size_title(size, scene.words) if size else "",
        language=content.language,
        # Names that have no translation stay as they are, and say in which language that is.
        creator_in=language_of(guide.author),
        approved_in=language_of(guide.approved_by or ""),
    )


def step_numbers(guide: Guide) -> dict[str, int]:
    """Numbers of the steps by id, from 1, in the author's order."""
    return {step.id: number for number, step in enumerate(guide.steps, 1)}


def former_steps(scene: Scene, step: str) -> tuple[str, ...]:
    """Old ids of a step, whose addresses lead to it; paper leads nowhere by old ones."""
    if scene.paper:
        return ()
    return tuple(old for old, new in scene.guide.formerly.steps.items() if new == step)


def step_links(scene: Scene, ids: tuple[str, ...]) -> tuple[LinkView, ...]:
    """Links to steps by number, in order; three or more in a row as one: 4–9."""
    steps = scene.guide.steps
    known = sorted({n for n, step in enumerate(steps, 1) if step.id in ids})
    return tuple(
        LinkView(
            str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}",
            scene.links.to("step", steps[run[0] - 1].id),
            steps[run[0] - 1].title if len(run) == 1 else "",
        )
        for run in number_runs(known)
    )


def number_runs(numbers: Sequence[int]) -> list[list[int]]:
    """Numbers in runs: three or more in a row stay together, others stand alone."""
    rows: list[list[int]] = []
    for number in numbers:
        if rows and number == rows[-1][-1] + 1:
            rows[-1].append(number)
        else:
            rows.append([number])
    return [run for row in rows for run in ([row] if len(row) > 2 else [[n] for n in row])]
