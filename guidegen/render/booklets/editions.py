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
from guidegen.documents import BY_EDITION, DOCUMENTS, Document, Edition
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.booklet import USUAL, Form, booklet_files, booklet_html, guide_files
from guidegen.render.booklets.imposition import HALVES, Imposed, impose
from guidegen.render.booklets.imposition_note import NOTE_SIDES, note_html
from guidegen.render.booklets.summary import (
    CARD_FITS,
    CAUTION,
    WORST,
    Density,
    PageFit,
    caution_count,
    densities,
    last_that_fits,
    one_page_html,
    summary_html,
)
from guidegen.render.pdf.attachments import source_files
from guidegen.render.pdf.finish import (
    Intent,
    PlacedPage,
    SheetSide,
    page_count,
    place_pages,
    seal_archive,
)
from guidegen.render.pdf.html_pdf import lay_out, screen_profile, write_pdf
from guidegen.render.pdf.paged_file import PagedFile
from guidegen.render.pdf.print_shop import Press, press_pdf
from guidegen.render.pdf.xmp import Facts, archive_packet
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.templates_engine import Theme
from guidegen.render.views.scene import size_title
from guidegen.units import PAPERS, common_page, group_papers

LARGE_PRINT = Form("large", linear=True)


type How = Form | Density | Document | PageFit | int
"""What a document's renderer is told of its form."""


@dataclass(frozen=True, slots=True)
class EditionFile:
    """One document to take home."""

    name: str
    data: bytes
    kind: str
    """Id of its document."""
    paper: str


def edition_files(
    content: Content,
    plan: GuidePlan,
    size: str,
    pictures: GuidePictures,
    theme: Theme,
    *,
    cache: DocumentCache | None = None,
) -> Iterator[EditionFile]:
    """Every chosen document of one size, for each paper of the site."""
    for papers in group_papers(content.site.papers):
        shared = _Layouts(content, plan, size, pictures, theme, papers)
        for paper in papers:
            maker = _Maker(shared, paper, cache or DocumentCache())
            for edition in chosen_editions(maker):
                document = BY_EDITION[edition]
                file = MAKERS.get(edition, _Maker.make_one_page)(maker, document)
                if file is not None:
                    yield file


def chosen_editions(maker: "_Maker") -> tuple[Edition, ...]:
    """Editions of the site, in the order of Edition; the usual ones where it chooses none."""
    chosen = maker.shared.content.site.editions
    if chosen:
        return tuple(edition for edition in Edition if edition in chosen)
    pages = page_count(maker.screen)
    return tuple(
        edition
        for edition, document in BY_EDITION.items()
        if document.usual and pages <= (document.most_pages or pages)
    )


def expected_files(content: Content) -> Iterator[tuple[str, Document, str]]:
    """Files of one size that are made in any case: name, document, and paper if it has one.

    What depends on how many pages a booklet has is left out, and what lists of templates add.
    """
    chosen = content.site.editions
    for document in DOCUMENTS:
        sure = document.edition in chosen if chosen else document.usual and not document.most_pages
        if document.all_sizes or not document.sure or (document.edition and not sure):
            continue
        for paper in content.site.papers if "{paper}" in document.file else ("",):
            half = HALVES.get(paper, "")
            if half or "{half}" not in document.file:
                yield file_name(document, paper), document, paper


def file_name(document: Document, paper: str = "") -> str:
    """Name of a document for one paper."""
    return document.file.format(paper=paper, half=HALVES.get(paper, ""))


@dataclass(frozen=True, slots=True)
class _Tried:
    """What a document takes that was laid out."""

    pages: int
    cautions: int
    """How many begin on its first page."""


@dataclass(frozen=True)
class _Layouts:
    """Sets the documents of one size, each once for all papers that share a page."""

    content: Content
    plan: GuidePlan
    size: str
    pictures: GuidePictures
    theme: Theme
    papers: tuple[str, ...]
    _texts: dict[tuple[object, ...], str] = field(default_factory=dict)
    """HTML by renderer and form."""
    _set: dict[str, PagedFile] = field(default_factory=dict)
    """What was set already, by HTML."""
    _tried: dict[str, "_Tried"] = field(default_factory=dict)
    """What was laid out to see whether it takes one page, by HTML."""

    @cached_property
    def files(self) -> dict[str, bytes]:
        """What documents show."""
        return booklet_files(self.plan, self.pictures)

    @cached_property
    def shown(self) -> tuple[str | bytes, ...]:
        """What a document shows beside its HTML: drawings are named in it by what they show."""
        files = guide_files(self.plan, self.pictures)
        return tuple(part for pair in sorted(files.items()) for part in pair)

    @property
    def halves(self) -> tuple[str, ...]:
        """The pages of a folded booklet: one layout serves all papers that are folded."""
        return tuple(HALVES[paper] for paper in self.papers if paper in HALVES)

    @cached_property
    def usual_html(self) -> str:
        """The booklet in the usual form."""
        return self.html(booklet_html, form=USUAL)

    def html(self, render: Callable[..., str], **how: How) -> str:
        """The text of one document, by its renderer: once for all papers that share a page."""
        key = (render, *how.items())
        if key not in self._texts:
            at = (self.content, self.plan, self.size, self.papers)
            self._texts[key] = render(*at, pictures=self.pictures, theme=self.theme, **how)
        return self._texts[key]

    def drawn(self, html: str) -> PagedFile:
        """A document on what all papers have in common."""
        if html not in self._set:
            self._set[html] = lay_out(html, files=self.files, variant="pdf/ua-1").draw()
        return self._set[html]

    def takes_one_page(self, html: str) -> bool:
        """Whether a document takes one page: what takes more is laid out and never drawn."""
        return self._try(html).pages == 1

    def cautions_begun(self, html: str) -> int:
        """How many cautions begin on the first page of a document."""
        return self._try(html).cautions

    def _try(self, html: str) -> "_Tried":
        if html not in self._tried:
            laid = lay_out(html, files=self.files, variant="pdf/ua-1")
            self._tried[html] = _Tried(laid.pages, laid.begun(CAUTION))
            if laid.pages == 1:
                self._set[html] = laid.draw()
        return self._tried[html]

    def on_paper(self, html: str, paper: str) -> bytes:
        """The pages of a document on one of its papers."""
        drawn = self.drawn(html)
        if len(self.papers) == 1:
            return drawn.data
        return drawn.on_paper(PAPERS[paper].width, PAPERS[paper].height)

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
    cache: DocumentCache

    @cached_property
    def screen(self) -> bytes:
        """The booklet for the screen, laid out once for all copies of it."""
        document = BY_EDITION[Edition.SCREEN]
        return self._kept(file_name(document, self.paper), self.shared.usual_html)

    def _kept(self, name: str, html: str) -> bytes:
        """The document of one HTML text, from the last press where it shows the same."""
        made_from = [html, self.paper, *self.shared.shown]
        return self.cache.make(name, made_from, lambda: self.shared.on_paper(html, self.paper))

    def _file(self, document: Document, data: bytes) -> EditionFile:
        return EditionFile(file_name(document, self.paper), data, document.id, self.paper)

    def make_screen(self, document: Document) -> EditionFile:
        return self._file(document, self.screen)

    def make_summary(self, document: Document) -> EditionFile:
        """The most roomy setting that takes one page, with as many cautions as it has room for; the
        tightest where none does.
        """
        shared = self.shared
        whole = caution_count(shared.plan)

        def setting(density: Density, most: int) -> str:
            return shared.html(summary_html, density=density, most=most)

        # Of each setting the texts with all cautions and the fewest: they tell of all between.
        settings = [
            (density, least, setting(density, max(whole, least)), setting(density, least))
            for density, least in ((one, WORST[one]) for one in densities(shared.plan, shared.size))
        ]
        fits = shared.takes_one_page

        def fullest(density: Density, least: int, guess: int) -> int:
            return last_that_fits(least, whole, lambda count: fits(setting(density, count)), guess)

        def make() -> bytes:
            for density, least, full, few in settings:
                if fits(full):
                    return shared.on_paper(full, self.paper)
                begun = shared.cautions_begun(full)
                # A setting is chosen with its fewest cautions: lines that can be read come first.
                if begun <= least and not fits(few):
                    continue
                most = fullest(density, least, begun)
                if most > least:
                    return shared.on_paper(setting(density, most), self.paper)
                if fits(few):
                    break
            return shared.on_paper(few, self.paper)

        name = file_name(document, self.paper)
        texts = [html for _, _, *htmls in settings for html in htmls]
        data = self.cache.make(name, [*texts, self.paper, *shared.shown], make)
        return self._file(document, data)

    def make_bench_card(self, document: Document) -> EditionFile:
        """The fullest setting that takes one page; the shortest where none does."""
        shared = self.shared
        settings = [shared.html(one_page_html, document=document, fit=fit) for fit in CARD_FITS]
        return self._on_one_page(document, settings)

    def _on_one_page(self, document: Document, settings: list[str]) -> EditionFile:
        """The first of several texts that takes one page; the last where none does."""
        shared = self.shared

        def make() -> bytes:
            fitting = (html for html in settings if shared.takes_one_page(html))
            return shared.on_paper(next(fitting, settings[-1]), self.paper)

        made_from = [*settings, self.paper, *shared.shown]
        return self._file(
            document, self.cache.make(file_name(document, self.paper), made_from, make)
        )

    def make_one_page(self, document: Document) -> EditionFile:
        """A document that its template alone makes, from what every page knows."""
        html = self.shared.html(one_page_html, document=document)
        return self._file(document, self._kept(file_name(document, self.paper), html))

    def make_fold(self, document: Document) -> EditionFile | None:
        """None for a paper that is not folded."""
        if self.paper not in HALVES:
            return None
        shared = self.shared
        html = shared.html(booklet_html, form=Form("fold", shared.halves))
        title = shared.content.words.say("{title}, to fold", title=shared.facts.title)
        # How many pages there are follows from the HTML; what else the note says shows on any.
        note = self._note_html(self._imposed(1))
        name = file_name(document, self.paper)
        data = self.cache.make(
            name, [html, note, title, *shared.shown], lambda: self._folded(html, title)
        )
        return self._file(document, data)

    def _folded(self, html: str, title: str) -> bytes:
        drawn = self.shared.drawn(html)
        imposed = self._imposed(drawn.pages)
        note = write_pdf(self._note_html(imposed), files=self.shared.files, variant="pdf/ua-1")
        wide, high = imposed.sides[0].width, imposed.sides[0].height
        leaf = [SheetSide(wide, high, (PlacedPage(0, n, 0, 0),)) for n in range(NOTE_SIDES)]
        return place_pages(
            [note, drawn.data],
            [*leaf, *imposed.sides],
            title=title,
            language=self.shared.content.language,
        )

    def _imposed(self, pages: int) -> Imposed:
        return impose(pages, self.paper, common_page(self.shared.halves), source=1)

    def _note_html(self, imposed: Imposed) -> str:
        return note_html(
            self.shared.content,
            self.shared.plan,
            self.shared.size,
            paper=self.paper,
            imposed=imposed,
            theme=self.shared.theme,
        )

    def make_large_print(self, document: Document) -> EditionFile:
        html = self.shared.html(booklet_html, form=LARGE_PRINT)
        return self._file(document, self._kept(file_name(document, self.paper), html))

    def make_print_shop(self, document: Document) -> EditionFile:
        facts, content = self.shared.facts, self.shared.content
        profile, ink = content.print_profile or b"", content.site.print_profile or ""
        press = Press(profile, press_inks(profile), ink) if profile and ink else None
        data = self.cache.make(
            file_name(document, self.paper),
            [self.screen, repr(facts), profile, ink],
            lambda: press_pdf(self.screen, facts, lights=screen_profile(), press=press),
        )
        return self._file(document, data)

    def make_archive(self, document: Document) -> EditionFile:
        facts, shared = self.shared.facts, self.shared
        files = source_files(shared.content, shared.plan.file)
        data = self.cache.make(
            file_name(document, self.paper),
            [self.screen, repr(facts), repr(files)],
            lambda: seal_archive(
                self.screen,
                packet=archive_packet(facts),
                info=facts.info,
                intent=Intent(screen_profile(), 3, "sRGB of the ICC"),
                files=files,
            ),
        )
        return self._file(document, data)


MAKERS: dict[Edition, Callable[[_Maker, Document], EditionFile | None]] = {
    Edition.SCREEN: _Maker.make_screen,
    Edition.SUMMARY: _Maker.make_summary,
    Edition.BENCH_CARD: _Maker.make_bench_card,
    Edition.FOLD: _Maker.make_fold,
    Edition.LARGE_PRINT: _Maker.make_large_print,
    Edition.PRINT_SHOP: _Maker.make_print_shop,
    Edition.ARCHIVE: _Maker.make_archive,
}
"""Of documents that take more than a template."""
