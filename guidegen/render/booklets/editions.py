"""Plan and drawings of one size in → its booklets in every chosen form, as named files.

Each document is laid out once for all papers that can share a page, A4 and US Letter above all: its
files differ in their page boxes alone, and a page has the same number on both. Copies for print
shops and archives are made from the pages of the booklet for the screen.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.print_profile import press_inks
from guidegen.buildfile.records.site import Edition
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.booklet import USUAL, Form, booklet_files, booklet_html, guide_files
from guidegen.render.booklets.imposition import HALVES, Imposed, impose
from guidegen.render.booklets.imposition_note import NOTE_SIDES, note_html
from guidegen.render.booklets.summary import Density, checklist_html, densities, summary_html
from guidegen.render.pdf.attachments import source_files
from guidegen.render.pdf.finish import (
    Intent,
    Placed,
    SheetSide,
    finish_tags,
    lay_on_paper,
    page_count,
    place_pages,
    seal_archive,
)
from guidegen.render.pdf.html_pdf import screen_profile, write_pdf
from guidegen.render.pdf.print_shop import Press, press_pdf
from guidegen.render.pdf.xmp import Facts, archive_packet
from guidegen.render.text.document_cache import Keeper
from guidegen.render.text.templates_engine import Theme
from guidegen.render.views.scene import size_title
from guidegen.units import PAPERS, group_papers

USUAL_EDITIONS = (Edition.SCREEN, Edition.SUMMARY, Edition.CHECKLIST)
"""What is made where site.yaml does not choose."""

MOST_PAGES_TO_FOLD = 40
"""Pages of a booklet that is made to fold unasked. Our choice: twice as many half pages fill 20
sheets, the most that a hand folds and a stapler holds (imposition.MOST_SHEETS)."""

LARGE_PRINT = Form("large", apart=True)


@dataclass(frozen=True, slots=True)
class EditionFile:
    """One document to take home."""

    name: str
    data: bytes
    kind: str
    """As render.views_downloads knows it."""
    paper: str


def edition_files(
    content: Content,
    plan: GuidePlan,
    size: str,
    pictures: GuidePictures,
    theme: Theme,
    *,
    keeper: Keeper | None = None,
) -> Iterator[EditionFile]:
    """Every chosen document of one size, for each paper of the site."""
    for papers in group_papers(content.site.papers):
        shared = _Layouts(content, plan, size, pictures, theme, papers)
        for paper in papers:
            maker = _Maker(shared, paper, keeper or Keeper())
            for edition in chosen_editions(maker):
                made = _MAKERS[edition](maker)
                if made is not None:
                    yield made


def chosen_editions(maker: "_Maker") -> tuple[Edition, ...]:
    """Editions of the site, in the order of Edition; the usual ones where it chooses none."""
    chosen = maker.shared.content.site.editions
    if chosen:
        return tuple(edition for edition in Edition if edition in chosen)
    folds = page_count(maker.screen) <= MOST_PAGES_TO_FOLD
    return (*USUAL_EDITIONS, Edition.FOLD) if folds else USUAL_EDITIONS


@dataclass(frozen=True)
class _Layouts:
    """Sets the documents of one size, each once for all papers that share a page."""

    content: Content
    plan: GuidePlan
    size: str
    pictures: GuidePictures
    theme: Theme
    papers: tuple[str, ...]
    _set: dict[str, bytes] = field(default_factory=dict)
    """What was set already, by HTML."""

    @cached_property
    def files(self) -> dict[str, bytes]:
        """What documents show."""
        return booklet_files(self.plan, self.pictures)

    @cached_property
    def shown(self) -> tuple[str | bytes, ...]:
        """What a document shows beside its HTML: drawings are named in it by what they show."""
        files = guide_files(self.plan, self.pictures)
        return tuple(part for pair in sorted(files.items()) for part in pair)

    @cached_property
    def usual_html(self) -> str:
        """The booklet in the usual form."""
        return self.html(booklet_html, form=USUAL)

    def html(self, render: Callable[..., str], **how: Form | Density) -> str:
        """The text of one document, by its renderer."""
        at = (self.content, self.plan, self.size, self.papers)
        return render(*at, pictures=self.pictures, theme=self.theme, **how)

    def tagged(self, html: str) -> bytes:
        """The pages of a document on what all papers have in common."""
        if html not in self._set:
            self._set[html] = finish_tags(write_pdf(html, files=self.files, variant="pdf/ua-1"))
        return self._set[html]

    def on_paper(self, html: str, paper: str) -> bytes:
        """The pages of a document on one of its papers."""
        pages = self.tagged(html)
        if len(self.papers) == 1:
            return pages
        return lay_on_paper(pages, PAPERS[paper].width, PAPERS[paper].height)

    @property
    def facts(self) -> Facts:
        """What archives and presses read about the booklet."""
        guide, words = self.plan.file.guide, self.content.words
        return Facts(
            title=words.say(
                "{guide}, {size}: build booklet",
                guide=guide.title,
                size=size_title(self.size, words),
            ),
            author=guide.author,
            subject=guide.summary,
            date=guide.date,
        )


@dataclass(frozen=True)
class _Maker:
    """Makes the documents of one size for one paper."""

    shared: _Layouts
    paper: str
    keeper: Keeper

    @cached_property
    def screen(self) -> bytes:
        """The booklet for the screen, laid out once for all copies of it."""
        return self._kept(f"booklet-{self.paper}.pdf", self.shared.usual_html)

    def _kept(self, name: str, html: str) -> bytes:
        """The document of one HTML text, from the last press where it shows the same."""
        made_from = [html, self.paper, *self.shared.shown]
        return self.keeper.make(name, made_from, lambda: self.shared.on_paper(html, self.paper))

    def make_screen(self) -> EditionFile:
        return EditionFile(f"booklet-{self.paper}.pdf", self.screen, "booklet", self.paper)

    def make_summary(self) -> EditionFile:
        """The most roomy setting that takes one page; the tightest where none does."""
        shared = self.shared
        settings = [
            shared.html(summary_html, density=density)
            for density in densities(shared.plan, shared.size)
        ]

        def make() -> bytes:
            data = b""
            for html in settings:
                data = shared.on_paper(html, self.paper)
                if page_count(data) == 1:
                    break
            return data

        name = f"summary-{self.paper}.pdf"
        data = self.keeper.make(name, [*settings, self.paper, *shared.shown], make)
        return EditionFile(name, data, "summary", self.paper)

    def make_checklist(self) -> EditionFile:
        html = self.shared.html(checklist_html)
        name = f"checklist-{self.paper}.pdf"
        return EditionFile(name, self._kept(name, html), "checklist", self.paper)

    def make_fold(self) -> EditionFile | None:
        """None for a paper that is not folded."""
        half = HALVES.get(self.paper)
        if half is None:
            return None
        shared = self.shared
        html = shared.html(booklet_html, form=Form("fold", half, apart=True))
        title = shared.content.words.say("{title}, to fold", title=shared.facts.title)
        # How many pages there are follows from the HTML; what else the note says shows on any.
        note = self._note_html(impose(1, self.paper, source=1))
        name = f"booklet-{half}-fold-{self.paper}.pdf"
        data = self.keeper.make(
            name, [html, note, title, *shared.shown], lambda: self._folded(html, title)
        )
        return EditionFile(name, data, "booklet-fold", self.paper)

    def _folded(self, html: str, title: str) -> bytes:
        pages = self.shared.tagged(html)
        imposed = impose(page_count(pages), self.paper, source=1)
        note = write_pdf(self._note_html(imposed), files=self.shared.files, variant="pdf/ua-1")
        wide, high = imposed.sides[0].width, imposed.sides[0].height
        leaf = [SheetSide(wide, high, (Placed(0, n, 0, 0),)) for n in range(NOTE_SIDES)]
        return place_pages(
            [note, pages],
            [*leaf, *imposed.sides],
            title=title,
            language=self.shared.content.language,
        )

    def _note_html(self, imposed: Imposed) -> str:
        return note_html(
            self.shared.content,
            self.shared.plan,
            self.shared.size,
            paper=self.paper,
            imposed=imposed,
            theme=self.shared.theme,
        )

    def make_large_print(self) -> EditionFile:
        name = f"booklet-large-print-{self.paper}.pdf"
        data = self._kept(name, self.shared.html(booklet_html, form=LARGE_PRINT))
        return EditionFile(name, data, "booklet-large-print", self.paper)

    def make_print_shop(self) -> EditionFile:
        facts, content = self.shared.facts, self.shared.content
        profile, ink = content.print_profile or b"", content.site.print_profile or ""
        press = Press(profile, press_inks(profile), ink) if profile and ink else None
        name = f"booklet-print-shop-{self.paper}.pdf"
        data = self.keeper.make(
            name,
            [self.screen, repr(facts), profile, ink],
            lambda: press_pdf(self.screen, facts, lights=screen_profile(), press=press),
        )
        return EditionFile(name, data, "booklet-print-shop", self.paper)

    def make_archive(self) -> EditionFile:
        facts, shared = self.shared.facts, self.shared
        files = source_files(shared.content, shared.plan.file)
        name = f"booklet-archive-{self.paper}.pdf"
        data = self.keeper.make(
            name,
            [self.screen, repr(facts), repr(files)],
            lambda: seal_archive(
                self.screen,
                packet=archive_packet(facts),
                info=facts.info,
                intent=Intent(screen_profile(), 3, "sRGB of the ICC"),
                files=files,
            ),
        )
        return EditionFile(name, data, "booklet-archive", self.paper)


_MAKERS = {
    Edition.SCREEN: _Maker.make_screen,
    Edition.SUMMARY: _Maker.make_summary,
    Edition.CHECKLIST: _Maker.make_checklist,
    Edition.FOLD: _Maker.make_fold,
    Edition.LARGE_PRINT: _Maker.make_large_print,
    Edition.PRINT_SHOP: _Maker.make_print_shop,
    Edition.ARCHIVE: _Maker.make_archive,
}
