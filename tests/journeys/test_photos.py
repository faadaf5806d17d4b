"""Photos on pages in a browser: the right copy, no heavier than it must be, nothing but pixels."""

import io
from pathlib import Path

import pytest
from journeys.camera import MAKER
from journeys.small_site import KINDS
from journeys.test_pages import FIRST_VIEW, SETTLED, SHIFTS, STILL, weight
from journeys.visits import Browsing
from PIL import Image

from guidegen.render.views.photos import FORMATS, WIDTHS

SHOWN = """
(image) => image.decode().then(() => ({
  src: image.currentSrc, width: image.clientWidth, height: image.clientHeight,
  wide: Number(image.getAttribute("width")), high: Number(image.getAttribute("height")),
}))
"""
"""What the browser chose for a picture, and how large it shows it."""


@pytest.mark.parametrize(("width", "scale"), [(360, 1), (360, 3), (820, 2), (1440, 1), (1440, 2)])
def test_cover_photo_is_sharp_and_light(
    browsing: Browsing, address: str, site: Path, width: int, scale: int
) -> None:
    """The browser takes the best format, fine enough for the screen, in a first view of 150 kB."""
    with browsing.visit(width, scale=scale) as visit:
        page = visit.page
        page.goto(address + KINDS["guide in one size"])
        page.evaluate(SETTLED)
        shown = page.locator(".cover .photo img").evaluate(SHOWN)
        path = site / shown["src"].removeprefix(address)
        assert path.suffix == f".{FORMATS[0]}"
        with Image.open(path) as copy:
            assert copy.width >= min(scale * shown["width"], max(WIDTHS))
        assert shown["width"] / shown["height"] == pytest.approx(
            shown["wide"] / shown["high"], rel=0.01
        )
        assert len([url for url in visit.requests if "lit.jpg" in url]) == 1
        weights = {url: weight(site, url) for url in dict.fromkeys(visit.requests)}
        print(f"first view with a photo, {width} px × {scale}: {sum(weights.values())} bytes")
        assert sum(weights.values()) <= FIRST_VIEW, weights


def test_photos_further_down_wait(browsing: Browsing, address: str) -> None:
    """A step's photo is asked for when one comes near it, and moves nothing when it is there."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.add_init_script(SHIFTS)
        page.goto(address + KINDS["guide in one size"].replace("index", "steps"))
        page.evaluate(SETTLED)
        assert not [url for url in visit.requests if "cutting.jpg" in url]
        image = page.locator(".step .photo img")
        image.scroll_into_view_if_needed()
        shown = image.evaluate(SHOWN)
        assert f".{FORMATS[0]}" in shown["src"]
        assert sum(page.evaluate("window.shifts")) < STILL
        visit.shoot("step-with-photo-360")


def test_every_copy_is_nothing_but_pixels(site: Path) -> None:
    """Neither place nor camera is in any picture of the site."""
    copies = [path for path in site.rglob("*.jpg.*") if "guide.files" in path.parts]
    assert len(copies) >= 2 * 7 - 2
    for path in copies:
        data = path.read_bytes()
        assert MAKER.encode() not in data and b"Exif" not in data, path
        with Image.open(io.BytesIO(data)) as copy:
            assert not copy.getexif()
            assert not {"exif", "xmp", "comment"} & set(copy.info), path
