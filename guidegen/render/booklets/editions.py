"""Plan and drawings of one size in → its booklets in every chosen form, as named files.

Each document is laid out once: copies for print shops and archives are made from the pages of the
booklet for the screen.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
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
    for paper in content.site.papers:
        maker = _Maker(content, plan, size, pictures, theme, paper, keeper or Keeper())
        for edition in chosen_editions(maker):
            made = _MAKERS[edition](maker)
            if made is not None:
                yield made


def chosen_editions(maker: "_Maker") -> tuple[Edition, ...]:
    """Editions of the site, in the order of Edition; the usual ones where it chooses none."""
    chosen = maker.content.site.editions
    if chosen:
        return tuple(edition for edition in Edition if edition in chosen)
    folds = page_count(maker.screen) <= MOST_PAGES_TO_FOLD
    return (*USUAL_EDITIONS, Edition.FOLD) if folds else USUAL_EDITIONS


@dataclass(frozen=True)
class _Maker:
    """Makes the documents of one size for one paper."""

    content: Content
    plan: GuidePlan
    size: str
    pictures: GuidePictures
    theme: Theme
    paper: str
    keeper: Keeper

    @cached_property
    def files(self) -> dict[str, bytes]:
        """What documents show."""
        return booklet_files(self.plan, self.pictures)

    @cached_property
    def screen(self) -> bytes:
        """The booklet for the screen, laid out once for all copies of it."""
        return self._kept(f"booklet-{self.paper}.pdf", self._booklet_html(USUAL))

    @cached_property
    def _shown(self) -> tuple[str | bytes, ...]:
        """What a document shows beside its HTML: drawings are named in it by what they show."""
        files = guide_files(self.plan, self.pictures)
        return tuple(part for pair in sorted(files.items()) for part in pair)

    @property
    def _facts(self) -> Facts:
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

    def _html(self, render: Callable[..., str], **how: Form | Density) -> str:
        """The text of one document of this size, by its renderer."""
        at = (self.content, self.plan, self.size, self.paper)
        return render(*at, pictures=self.pictures, theme=self.theme, **how)

    def _booklet_html(self, form: Form) -> str:
        return self._html(booklet_html, form=form)

    def _kept(self, name: str, html: str) -> bytes:
        """The document of one HTML text, from the last press where it shows the same."""
        return self.keeper.make(name, [html, *self._shown], lambda: self._tagged(html))

    def _tagged(self, html: str) -> bytes:
        return finish_tags(write_pdf(html, files=self.files, variant="pdf/ua-1"))

    def make_screen(self) -> EditionFile:
        return EditionFile(f"booklet-{self.paper}.pdf", self.screen, "booklet", self.paper)

    def make_summary(self) -> EditionFile:
        """The most roomy setting that takes one page; the tightest where none does."""
        settings = [
            self._html(summary_html, density=density) for density in densities(self.plan, self.size)
        ]

        def make() -> bytes:
            data = b""
            for html in settings:
                data = self._tagged(html)
                if page_count(data) == 1:
                    break
            return data

        name = f"summary-{self.paper}.pdf"
        data = self.keeper.make(name, [*settings, *self._shown], make)
        return EditionFile(name, data, "summary", self.paper)

    def make_checklist(self) -> EditionFile:
        html = self._html(checklist_html)
        name = f"checklist-{self.paper}.pdf"
        return EditionFile(name, self._kept(name, html), "checklist", self.paper)

    def make_fold(self) -> EditionFile | None:
        """None for a paper that is not folded."""
        half = HALVES.get(self.paper)
        if half is None:
            return None
        html = self._booklet_html(Form("fold", half, apart=True))
        title = self.content.words.say("{title}, to fold", title=self._facts.title)
        # How many pages there are follows from the HTML; what else the note says shows on any.
        note = self._note_html(impose(1, self.paper, source=1))
        name = f"booklet-{half}-fold-{self.paper}.pdf"
        data = self.keeper.make(
            name, [html, note, title, *self._shown], lambda: self._folded(html, title)
        )
        return EditionFile(name, data, "booklet-fold", self.paper)

    def _folded(self, html: str, title: str) -> bytes:
        pages = self._tagged(html)
        imposed = impose(page_count(pages), self.paper, source=1)
        note = write_pdf(self._note_html(imposed), files=self.files, variant="pdf/ua-1")
        wide, high = imposed.sides[0].width, imposed.sides[0].height
        leaf = [SheetSide(wide, high, (Placed(0, n, 0, 0),)) for n in range(NOTE_SIDES)]
        return place_pages(
            [note, pages],
            [*leaf, *imposed.sides],
            title=title,
            language=self.content.language,
        )

    def _note_html(self, imposed: Imposed) -> str:
        return note_html(
            self.content,
            self.plan,
            self.size,
            paper=self.paper,
            imposed=imposed,
            theme=self.theme,
        )

    def make_large_print(self) -> EditionFile:
        name = f"booklet-large-print-{self.paper}.pdf"
        data = self._kept(name, self._booklet_html(LARGE_PRINT))
        return EditionFile(name, data, "booklet-large-print", self.paper)

    def make_print_shop(self) -> EditionFile:
        facts = self._facts
        profile, ink = self.content.print_profile or b"", self.content.site.print_profile or ""
        press = Press(profile, press_inks(profile), ink) if profile and ink else None
        name = f"booklet-print-shop-{self.paper}.pdf"
        data = self.keeper.make(
            name,
            [self.screen, repr(facts), profile, ink],
            lambda: press_pdf(self.screen, facts, lights=screen_profile(), press=press),
        )
        return EditionFile(name, data, "booklet-print-shop", self.paper)

    def make_archive(self) -> EditionFile:
        facts, files = self._facts, source_files(self.content, self.plan.file)
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
