"""HTML text and named files in → PDF bytes out.

The only module that imports WeasyPrint. Nothing is read but the files that are handed over: no
network, no disk. The same input gives the same bytes: no dates are written.
"""

import logging
import ssl
import sys
import warnings
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import lru_cache
from importlib.resources import files as package_files
from types import ModuleType
from typing import Any, Protocol
from urllib.parse import unquote, urlsplit

from guidegen.errors import MissingLibrary, OutputError
from guidegen.render.fonts.fallback_fonts import fallback_fonts
from guidegen.render.fonts.fonts import font_files
from guidegen.render.pdf.completed_tags import complete_tags
from guidegen.render.pdf.finish import page_count
from guidegen.render.pdf.font_folders import remove_at_end
from guidegen.render.pdf.mended.asked_of_lines import mend_asked_of_lines
from guidegen.render.pdf.mended.drawn_lines import mend_drawn_lines
from guidegen.render.pdf.mended.kept_paths import mend_paths
from guidegen.render.pdf.mended.kept_sheets import mend_sheets
from guidegen.render.pdf.mended.kept_styles import mend_styles
from guidegen.render.pdf.mended.laid_blocks import mend_blocks
from guidegen.render.pdf.mended.named_pages import mend_named_pages
from guidegen.render.pdf.mended.normal_flow import mend_normal_flow
from guidegen.render.pdf.mended.page_references import mend_page_references
from guidegen.render.pdf.mended.plain_html import mend_reading
from guidegen.render.pdf.mended.plain_values import mend_plain_values, without_notes
from guidegen.render.pdf.mended.quick_drawings import mend_drawings, mend_painting
from guidegen.render.pdf.mended.text_lines import mend_text_lines
from guidegen.render.pdf.mended.used_lengths import mend_used_lengths
from guidegen.render.pdf.paged_file import PagedFile

__all__ = ["LaidOut", "lay_out", "page_count", "screen_profile", "write_pdf"]

BASE = "http://guide.invalid/"
"""Address that relative names hang on. RFC 2606: .invalid never leads anywhere."""

MEDIA_TYPES = {
    "css": "text/css",
    "gif": "image/gif",
    "jpeg": "image/jpeg",
    "jpg": "image/jpeg",
    "otf": "font/otf",
    "png": "image/png",
    "svg": "image/svg+xml",
    "ttf": "font/ttf",
    "webp": "image/webp",
    "woff2": "font/woff2",
    "yaml": "application/yaml",
}

FACES = tuple(f".{name}" for name, kind in MEDIA_TYPES.items() if kind.startswith("font/"))

WITHOUT_GLYPH = ".notdef glyph rendered"
"""How WeasyPrint begins to tell of a letter that no font has. Proof tells it with its place
in the build file; it stops no press."""

INSTALL = """\
making PDF files needs Pango and HarfBuzz, which come with the system. Install them:
    Debian, Ubuntu:  sudo apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0
    Fedora:          sudo dnf install pango
    Arch:            sudo pacman -S pango
    macOS:           brew install pango
    Windows:         install MSYS2, then: pacman -S mingw-w64-ucrt-x86_64-pango"""


class _Element(Protocol):
    def get(self, name: str, default: str) -> str: ...


class _Box(Protocol):
    element: _Element | None

    def descendants(self) -> Iterator["_Box"]: ...


class _Page(Protocol):
    _page_box: _Box


class _Document(Protocol):
    """WeasyPrint's pages of a document."""

    pages: Sequence[_Page]

    def write_pdf(self, *, finisher: Callable[[object, Any], None], **options: object) -> bytes:
        """Draw them, hand over what was drawn, and write it."""


class LaidOut:
    """A document in pages, not written yet: how many it takes is known before it is drawn."""

    def __init__(self, document: _Document, options: Mapping[str, object], found: "_Found") -> None:
        """`document` is WeasyPrint's, `options` are those for writing it. Use `lay_out`."""
        self._document = document
        self._options = options
        self._found = found

    @property
    def pages(self) -> int:
        """How many pages it takes."""
        return len(self._document.pages)

    def begun(self, css_class: str) -> int:
        """How many elements of a class begin on the first page."""
        boxes = self._document.pages[0]._page_box.descendants()
        elements = {id(box.element): box.element for box in boxes if box.element is not None}
        classes = (one.get("class", "") for one in elements.values())
        return sum(css_class in names.split() for names in classes)

    def draw(self) -> PagedFile:
        """The pages as a PDF, for papers of any size. Raises OutputError as `lay_out` does."""
        drawn: list[PagedFile] = []

        def finish(_: object, pdf: Any) -> None:  # noqa: ANN401 - objects of the library
            if self._options["pdf_tags"]:
                complete_tags(pdf)
            # What the library does last is done by PagedFile in its place.
            pdf.write = lambda _output, version, *_: drawn.append(PagedFile(pdf, version))

        with self._found.gathered():
            self._document.write_pdf(finisher=finish, **self._options)
        return drawn[0]

    def write(self) -> bytes:
        """The pages as a PDF. Raises OutputError as `lay_out` does."""
        return self.draw().data


def lay_out(
    html: str,
    *,
    files: Mapping[str, bytes],
    variant: str | None = None,
    tagged: bool = False,
    messages: list[str] | None = None,
) -> LaidOut:
    """The pages of a document.

    Relative addresses in `html` name entries of `files`, or font files of render.fonts. `variant`
    is one of WeasyPrint's ('pdf/ua-1', 'pdf/a-3u', 'pdf/x-4', …); `tagged` adds a structure tree
    without one. What WeasyPrint warns about is added to `messages` where a list is given, else
    it is an OutputError. Raises MissingLibrary where a system library is not installed, and
    OutputError for an address that is not among the files.
    """
    weasyprint = _weasyprint()
    found = _Found(messages)
    drawings = (data.decode() for name, data in files.items() if name.endswith(".svg"))
    fallback = fallback_fonts((html, *drawings))
    if fallback.css:
        html = html.replace("</head>", f"<style>{fallback.css}</style></head>", 1)
    served = {**font_files(), **fallback.files, **files}
    options = {
        "pdf_variant": variant,
        "pdf_tags": tagged or (variant or "").startswith("pdf/ua"),
        "pdf_identifier": b"guidegen",
    }
    with found.gathered():
        fetcher = _make_fetcher(weasyprint, served, found.missing)
        source = weasyprint.HTML(string=html, base_url=BASE, url_fetcher=fetcher)
        sheets = [without_notes(sheet, html) for sheet in source._ua_stylesheets()]
        source._ua_stylesheets = lambda forms=False: sheets
        faces = [one for one in sorted(served.items()) if one[0].endswith(FACES)]
        document = source.render(font_config=_fonts(tuple(faces)), **options)
    return LaidOut(document, options, found)


def write_pdf(
    html: str,
    *,
    files: Mapping[str, bytes],
    variant: str | None = None,
    tagged: bool = False,
    messages: list[str] | None = None,
) -> bytes:
    """The PDF of a document, laid out as `lay_out` does and written."""
    return lay_out(html, files=files, variant=variant, tagged=tagged, messages=messages).write()


def screen_profile() -> bytes:
    """The sRGB profile of the International Color Consortium, as it comes with WeasyPrint."""
    _weasyprint()
    return (package_files("weasyprint.pdf") / "sRGB2014.icc").read_bytes()


def _weasyprint() -> ModuleType:
    """WeasyPrint, loaded when first needed: it fails without its system libraries."""
    try:
        import weasyprint  # noqa: PLC0415 - its system libraries may be missing
    except OSError as error:
        raise MissingLibrary(f"{INSTALL}\n({error})") from None
    mend_reading(weasyprint)
    mend_sheets(weasyprint.css)
    mend_plain_values(weasyprint.css)
    mend_styles(weasyprint.css)
    mend_page_references(weasyprint.css.targets, weasyprint.layout.page)
    layout = (weasyprint.layout.inline, weasyprint.layout.preferred)
    mend_text_lines(weasyprint.text.line_break, layout, weasyprint.svg)
    mend_drawn_lines(weasyprint.text.line_break, weasyprint.draw.text)
    mend_asked_of_lines(weasyprint.layout.inline, weasyprint.layout.preferred)
    users = ("absolute", "block", "column", "float", "grid", "inline", "page", "table")
    mend_used_lengths(
        weasyprint.layout.percent,
        weasyprint.formatting_structure.boxes,
        tuple(getattr(weasyprint.layout, name) for name in users),
    )
    mend_named_pages(weasyprint.formatting_structure.boxes)
    mend_normal_flow(weasyprint.formatting_structure.boxes)
    mend_paths(weasyprint.svg, weasyprint.pdf.pydyf)
    # Functions of `weasyprint.svg` hide the modules of their names.
    readers = tuple(sys.modules[f"weasyprint.svg.{name}"] for name in ("path", "shapes", "text"))
    mend_drawings(weasyprint.svg, readers, weasyprint.pdf.pydyf)
    mend_painting(weasyprint.draw, weasyprint.draw.border, weasyprint.pdf.stream)
    mend_blocks(weasyprint.layout.block, weasyprint.layout, weasyprint.css.targets)
    return weasyprint  # type: ignore[no-any-return]


@lru_cache(maxsize=2)
def _fonts(faces: tuple[tuple[str, bytes], ...]) -> object:
    """The library's fonts of documents that are served these `faces`, set up once; all lines that
    were measured are kept with them.
    """
    del faces
    fonts = _weasyprint().text.fonts.FontConfiguration()
    remove_at_end(fonts)
    return fonts


def _make_fetcher(
    weasyprint: ModuleType, served: Mapping[str, bytes], missing: list[str]
) -> object:
    """A fetcher that knows `served` and images inside the document, and notes what else is asked.

    Its base class would open files and network addresses: only data: addresses reach it.
    """

    class Fetcher(weasyprint.urls.URLFetcher):  # type: ignore[name-defined,misc]
        def fetch(self, url: str, headers: object = None) -> object:
            if url.startswith("data:"):
                return super().fetch(url, headers)
            name = unquote(urlsplit(url).path).removeprefix("/")
            if not url.startswith(BASE) or name not in served:
                missing.append(name if url.startswith(BASE) else url)
                raise ValueError("not among the files of the document")
            kind = MEDIA_TYPES.get(name.rpartition(".")[2].lower(), "application/octet-stream")
            return weasyprint.urls.URLFetcherResponse(url, served[name], {"Content-Type": kind})

    # By default each fetcher reads all certificates of the system, for connections never made.
    no_certificates = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    return Fetcher(allowed_protocols={"data"}, ssl_context=no_certificates)


class _Found:
    """What WeasyPrint warns about while it works on a document, and what that asks for in vain."""

    def __init__(self, messages: list[str] | None) -> None:
        """`messages` takes the warnings; without it they are errors."""
        self._messages = messages
        self.missing: list[str] = []

    @contextmanager
    def gathered(self) -> Iterator[None]:
        """Nothing reaches the screen. Raises OutputError at the end for what was found."""
        with _collected() as found, warnings.catch_warnings():
            # WeasyPrint leaves its colour profile to the garbage collector.
            warnings.simplefilter("ignore", ResourceWarning)
            yield
        if self.missing:
            names = ", ".join(sorted(set(self.missing)))
            raise OutputError(f"a document asks for what is not among its files: {names}")
        if self._messages is not None:
            self._messages.extend(found)
        elif found:
            raise OutputError("a document could not be set as written: " + "; ".join(found))


@contextmanager
def _collected() -> Iterator[list[str]]:
    """Warnings of WeasyPrint as a list; nothing reaches the screen."""
    found: list[str] = []

    class Collector(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            if not record.getMessage().startswith(WITHOUT_GLYPH):
                found.append(record.getMessage())

    logger = logging.getLogger("weasyprint")
    handler = Collector(logging.WARNING)
    before = (logger.handlers[:], logger.propagate, logger.level)
    logger.handlers, logger.propagate = [handler], False
    logger.setLevel(logging.WARNING)
    try:
        yield found
    finally:
        logger.handlers, logger.propagate, level = before
        logger.setLevel(level)
