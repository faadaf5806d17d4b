"""Photos of a guide in → the copies that pages and booklets show out, and how to show them."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, partial

from markupsafe import Markup

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.photos import HAS_AVIF, has_alpha, photo_copy, photo_size
from guidegen.geometry.drawing.svg_picture import clean_picture
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import Links, picture_file

WIDTHS = {480: 24_000, 800: 38_000, 1200: 50_000}
"""Pixels of the copies, and bytes that each may have: a phone; a page; a page on a screen twice as
fine, or a phone on one three times as fine. Our choice: with one of them, the first view of a guide
still has its words, drawing and fonts within 150 kB."""
FORMATS = ("avif", "webp") if HAS_AVIF else ("webp",)
"""Of the copies, the best first: a browser takes the first that it knows."""
PAPER = 1600
"""Pixels of the copy in booklets: 190 mm at some 210 per inch. Our choice."""
STILL = 800
"""Pixels of the copy for browsers that know neither these formats nor choice of sizes."""


@dataclass(frozen=True, slots=True)
class SourceView:
    """Copies of a picture in one format."""

    type: str
    srcset: str
    """Each file with its width: 'front.jpg.480.avif 480w, …'."""


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A picture of the author's."""

    src: str
    alt: str
    caption: str = ""
    width: int = 0
    """CSS pixels of `src`, so that its room is kept while it loads; 0 where unknown."""
    height: int = 0
    sources: tuple[SourceView, ...] = ()
    """Other files of the same, the best format first; empty where there is one only."""


def photo_view(
    file: GuideFile, links: Links, name: str, alt: str, caption: str = "", *, paper: bool = False
) -> PhotoView | None:
    """How one picture is shown; None where the guide has no such file."""
    data = file.pictures.get(name)
    if data is None:
        return None
    if _ending(name) == "svg":
        return PhotoView(links.file(picture_file(file.id, name)), alt, caption)
    wide, high = photo_size(data, _ending(name))
    width = min(PAPER if paper else STILL, wide)
    src = links.file(picture_file(file.id, _still(name, data, width)))
    height = max(1, round(high * width / wide))
    sources = () if paper else tuple(_source(file, links, name, kind, wide) for kind in FORMATS)
    return PhotoView(src, alt, caption, width, height, sources)


def _source(file: GuideFile, links: Links, name: str, kind: str, wide: int) -> SourceView:
    offers = (
        f"{links.file(picture_file(file.id, _modern(name, size, kind)))} {size}w"
        for size in _widths(wide)
    )
    return SourceView(f"image/{kind}", ", ".join(offers))


def photo_html(view: PhotoView) -> Markup:
    """The picture inside a text."""
    size = Markup(' width="{}" height="{}"').format(view.width, view.height) if view.width else ""
    image = Markup('<img src="{}" alt="{}"{} loading="lazy" decoding="async">').format(
        view.src, view.alt, size
    )
    if not view.sources:
        return image
    sources = Markup("").join(
        Markup('<source type="{}" srcset="{}" sizes="{}">').format(
            source.type, source.srcset, SIZES
        )
        for source in view.sources
    )
    return Markup("<picture>{}{}</picture>").format(sources, image)


SIZES = "(min-width: 60rem) 36rem, 94vw"
"""Room of a picture on a page, as browsers must know it before they know the style sheet."""


def site_photos(file: GuideFile, cache: DocumentCache | None = None) -> dict[str, bytes]:
    """All copies that pages may ask for, by path from out/."""
    return dict(_copies(file, cache or DocumentCache(), paper=False))


def paper_photos(file: GuideFile) -> dict[str, bytes]:
    """The copies in booklets, by path from out/."""
    return dict(_copies(file, DocumentCache(), paper=True))


def _copies(file: GuideFile, cache: DocumentCache, *, paper: bool) -> Iterator[tuple[str, bytes]]:
    for name, data in sorted(file.pictures.items()):
        ending = _ending(name)
        if ending == "svg":
            yield picture_file(file.id, name), clean_picture(data, name)
            continue
        wide = photo_size(data, ending)[0]
        width = min(PAPER if paper else STILL, wide)
        still = _still(name, data, width)
        kind = "png" if still.endswith(".png") else "jpeg"
        wanted = [(still, width, kind, 0)]
        if not paper:
            wanted += [
                (_modern(name, size, form), size, form, most)
                for form in FORMATS
                for size, most in _widths(wide).items()
            ]
        for copy, pixels, form, most in wanted:
            path = picture_file(file.id, copy)
            make = partial(photo_copy, data, ending, pixels, form, most)
            yield path, cache.make(path, (data, ending, str(pixels), form, str(most)), make)


def bare_photo(name: str, data: bytes) -> bytes:
    """A picture in its own format and size, without what a camera noted in it."""
    ending = _ending(name)
    if ending == "svg":
        return clean_picture(data, name)
    kind = {"jpg": "jpeg"}.get(ending, ending)
    return photo_copy(data, ending, photo_size(data, ending)[0], kind)


def _ending(name: str) -> str:
    return name.rpartition(".")[2].lower()


def _widths(wide: int) -> dict[int, int]:
    """The widths of copies, none larger than the photo, with the bytes that each may have."""
    return {min(width, wide): most for width, most in WIDTHS.items()}


def _modern(name: str, width: int, kind: str) -> str:
    return f"{name}.{width}.{kind}"


def _still(name: str, data: bytes, width: int) -> str:
    return f"{name}.{width}.{'png' if _clear(name, data) else 'jpg'}"


@cache
def _clear(name: str, data: bytes) -> bool:
    """Photos as JPEG; what may be seen through, or was drawn, as PNG."""
    return has_alpha(data, _ending(name))
