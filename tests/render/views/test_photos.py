"""Photos: small copies in modern formats, the same each time, without what a camera noted."""

import io
import re
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image, features
from render.html_reader import Page
from render.page_samples import downloads, sample, theme

from guidegen.buildfile.read.photos import photo_copy, photo_fault, photo_size
from guidegen.buildfile.records.steps import Picture
from guidegen.render.site.pages import render_guide
from guidegen.render.views.photos import FORMATS, bare_photo, paper_photos, site_photos

MAKER = "Optical works of nowhere"
GPS = 0x8825
"""Tag of the place in Exif (JEITA CP-3451)."""


def camera_photo(size=(2400, 1800), orientation=1, kind="JPEG", mode="RGB"):
    """A photo that says who took it, with what, and where; its upper half is white."""
    image = Image.new(mode, size, "black")
    image.paste("white", (0, 0, size[0], size[1] // 2))
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = MAKER
    exif.get_ifd(GPS)[2] = (48.0, 8.0, 0.0)
    stream = io.BytesIO()
    image.save(stream, kind, exif=exif, **({"comment": MAKER.encode()} if kind == "JPEG" else {}))
    return stream.getvalue()


def photo_guide(photo, name="front.jpg"):
    """The sample guide with a photo on its cover and in its overview."""
    content, plan, pictures = sample()
    file = plan.file
    guide = file.guide.model_copy(
        update={
            "picture": Picture(file=name, alt="Cuffs & badge, worn"),
            "overview": f"Like this:\n\n![Seen from above]({name})",
        }
    )
    return content, replace(plan, file=replace(file, guide=guide, pictures={name: photo})), pictures


@pytest.mark.parametrize(("kind", "ending"), [("JPEG", "jpg"), ("PNG", "png"), ("WEBP", "webp")])
def test_copies_hold_nothing_but_pixels(kind, ending):
    """Place, maker and comment are in none of the copies, whichever format they come from."""
    photo = camera_photo(kind=kind)
    assert MAKER.encode() in photo
    name = f"front.{ending}"
    _, plan, _ = photo_guide(photo, name)
    copies = site_photos(plan.file) | paper_photos(plan.file) | {name: bare_photo(name, photo)}
    assert len(copies) >= 5
    for data in copies.values():
        assert MAKER.encode() not in data
        with Image.open(io.BytesIO(data)) as image:
            assert not image.getexif()
            assert not {"exif", "xmp", "comment", "icc_profile"} & set(image.info)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_copies_are_upright(orientation):
    """A camera held aside notes how (Exif, JEITA CP-3451): copies are turned as Exif says."""
    photo = camera_photo((400, 200), orientation)
    size = (200, 400) if orientation > 4 else (400, 200)
    assert photo_size(photo, "jpg") == size
    with Image.open(io.BytesIO(photo_copy(photo, "jpg", 100, "png"))) as image:
        assert image.size == (100, round(size[1] * 100 / size[0]))
        light = {
            side
            for side, at in {
                "top": (50, 3),
                "bottom": (50, image.height - 4),
                "left": (3, image.height // 2),
                "right": (96, image.height // 2),
            }.items()
            if image.getpixel(at)[0] > 200
        }
    # Where the first row of the file is seen, by value of the tag: table in Exif 2.3, 4.6.4.
    row = {
        1: "top",
        2: "top",
        3: "bottom",
        4: "bottom",
        5: "left",
        6: "right",
        7: "right",
        8: "left",
    }
    assert row[orientation] in light
    opposite = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
    assert opposite[row[orientation]] not in light


def test_pages_offer_sizes_and_keep_room():
    """The page names each copy with its width, and width and height of the picture itself."""
    photo = camera_photo()
    content, plan, pictures = photo_guide(photo)
    files = render_guide(content, plan, pictures, theme(), downloads())
    page = files["cuff/index.html"].decode()
    assert page.count("<picture>") == 2
    sources = Page(page).all("source")
    assert [source["type"] for source in sources] == 2 * [f"image/{kind}" for kind in FORMATS]
    for source in sources:
        offers = re.findall(r"(\S+) (\d+)w", source["srcset"])
        assert [int(width) for _, width in offers] == [480, 800, 1200]
        for href, width in offers:
            with Image.open(io.BytesIO(files[f"cuff/{href}"])) as image:
                assert f"image/{(image.format or '').lower()}" == source["type"]
                assert image.size == (int(width), int(width) * 3 // 4)
    images = [image for image in Page(page).all("img") if "front" in image["src"]]
    assert [image["alt"] for image in images] == ["Cuffs & badge, worn", "Seen from above"]
    for image in images:
        with Image.open(io.BytesIO(files[f"cuff/{image['src']}"])) as still:
            assert still.format == "JPEG"
            assert (str(still.width), str(still.height)) == (image["width"], image["height"])
    assert photo not in files.values()


def test_small_photos_are_not_blown_up():
    """A photo of 300 pixels has one copy of 300 pixels for pages."""
    _, plan, _ = photo_guide(camera_photo((300, 200)))
    assert sorted(site_photos(plan.file)) == [
        f"cuff/guide.files/front.jpg.300.{kind}" for kind in sorted(["jpg", *FORMATS])
    ]


def test_copies_keep_to_their_bytes():
    """A photo full of leaves and grain gets coarser until each copy is as light as it is to be."""
    chance = np.random.default_rng(3)
    grain = chance.integers(90, 165, (90, 120, 3), dtype=np.uint8)
    image = Image.fromarray(grain).resize((2400, 1800), Image.Resampling.BICUBIC)
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=90)
    for kind in FORMATS:
        best = photo_copy(stream.getvalue(), "jpg", 1200, kind)
        light = photo_copy(stream.getvalue(), "jpg", 1200, kind, 50_000)
        assert len(light) <= 50_000 < len(best)


def test_formats_follow_what_pillow_writes():
    """AVIF is offered first where this Pillow writes it, as its wheels do."""
    assert (("avif", "webp") if features.check("avif") else ("webp",)) == FORMATS


def test_same_photo_same_bytes():
    """Made twice, a copy is the same."""
    photo = camera_photo()
    for kind in (*FORMATS, "jpeg", "png"):
        first = photo_copy(photo, "jpg", 700, kind)
        photo_copy.cache_clear()
        assert photo_copy(photo, "jpg", 700, kind) == first


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P"])
def test_clear_parts_stay_clear(mode):
    """A picture with parts to see through keeps them, in PNG beside the others."""
    image = Image.new("RGBA", (600, 300), (200, 0, 0, 255))
    image.paste((0, 0, 0, 0), (0, 0, 300, 300))
    stream = io.BytesIO()
    image.convert(mode).save(stream, "PNG")
    _, plan, _ = photo_guide(stream.getvalue(), "front.png")
    for name, data in site_photos(plan.file).items():
        assert name.endswith((".png", ".webp", ".avif"))
        with Image.open(io.BytesIO(data)) as copy:
            clear = copy.convert("RGBA")
            assert clear.getpixel((10, 10))[3] == 0
            assert clear.getpixel((clear.width - 10, 10))[3] == 255


def test_broken_photos_are_told():
    """A photo that ends too soon, or is of another format, has a fault in words."""
    photo = camera_photo((400, 300))
    assert photo_fault(photo, "jpg") == ""
    assert photo_fault(photo[: len(photo) // 2], "jpg")
    assert photo_fault(photo, "png")
