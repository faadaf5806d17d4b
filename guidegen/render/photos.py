"""Photos of a guide in → the copies that pages and booklets show out, and how to show them."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, partial

from markupsafe import Markup

from guidegen.buildfile.photos import has_alpha, photo_copy, photo_size
from guidegen.buildfile.records import GuideFile
from guidegen.render.keeper import Keeper
from guidegen.render.links import Links, picture_file

WIDTHS = (480, 960, 1600)
"""Pixels of the copies: a phone, a phone with a fine screen or a page, a page with a fine screen.
Our choice."""
PAPER = 1600
"""Pixels of the copy in booklets: 190 mm at some 210 per inch. Our choice."""
STILL = 960
"""Pixels of the copy for browsers that know neither WebP nor choice of sizes."""


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A picture of the author's."""

    src: str
    alt: str
    caption: str = ""
    width: int = 0
    """CSS pixels of `src`, so that its room is kept while it loads; 0 where unknown."""
    height: int = 0
    srcset: str = ""
    """Smaller files of the same, in WebP; empty where there is one only."""


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
    sources = ", ".join(
        f"{links.file(picture_file(file.id, _modern(name, size)))} {size}w"
        for size in _widths(wide)
    )
    height = max(1, round(high * width / wide))
    return PhotoView(src, alt, caption, width, height, "" if paper else sources)


def photo_html(view: PhotoView) -> Markup:
    """The picture inside a text."""
    size = Markup(' width="{}" height="{}"').format(view.width, view.height) if view.width else ""
    image = Markup('<img src="{}" alt="{}"{} loading="lazy" decoding="async">').format(
        view.src, view.alt, size
    )
    if not view.srcset:
        return image
    source = Markup('<source type="image/webp" srcset="{}" sizes="{}">').format(view.srcset, SIZES)
    return Markup("<picture>{}{}</picture>").format(source, image)


SIZES = "(min-width: 60rem) 36rem, 94vw"
"""Room of a picture on a page, as browsers must know it before they know the style sheet."""


def site_photos(file: GuideFile, keeper: Keeper | None = None) -> dict[str, bytes]:
    """All copies that pages may ask for, by path from out/."""
    return dict(_copies(file, keeper or Keeper(), paper=False))


def paper_photos(file: GuideFile) -> dict[str, bytes]:
    """The copies in booklets, by path from out/."""
    return dict(_copies(file, Keeper(), paper=True))


def _copies(file: GuideFile, keeper: Keeper, *, paper: bool) -> Iterator[tuple[str, bytes]]:
    for name, data in sorted(file.pictures.items()):
        ending = _ending(name)
        if ending == "svg":
            yield picture_file(file.id, name), data
            continue
        wide = photo_size(data, ending)[0]
        width = min(PAPER if paper else STILL, wide)
        still = _still(name, data, width)
        kind = "png" if still.endswith(".png") else "jpeg"
        wanted = [(still, width, kind)]
        wanted += [(_modern(name, size), size, "webp") for size in (() if paper else _widths(wide))]
        for copy, pixels, form in wanted:
            path = picture_file(file.id, copy)
            make = partial(photo_copy, data, ending, pixels, form)
            yield path, keeper.make(path, (data, ending, str(pixels), form), make)


def bare_photo(name: str, data: bytes) -> bytes:
    """A picture in its own format and size, without what a camera noted in it."""
    ending = _ending(name)
    if ending == "svg":
        return data
    kind = {"jpg": "jpeg"}.get(ending, ending)
    return photo_copy(data, ending, photo_size(data, ending)[0], kind)


def _ending(name: str) -> str:
    return name.rpartition(".")[2].lower()


def _widths(wide: int) -> tuple[int, ...]:
    """The widths of copies, none larger than the photo."""
    return tuple(dict.fromkeys(min(width, wide) for width in WIDTHS))


def _modern(name: str, width: int) -> str:
    return f"{name}.{width}.webp"


def _still(name: str, data: bytes, width: int) -> str:
    return f"{name}.{width}.{'png' if _clear(name, data) else 'jpg'}"


@cache
def _clear(name: str, data: bytes) -> bool:
    """Photos as JPEG; what may be seen through, or was drawn, as PNG."""
    return has_alpha(data, _ending(name))
