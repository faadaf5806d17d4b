"""Booklets against what the standards for screens, archives and presses ask for.

Screen: ISO 14289-1 (PDF/UA-1). Archive: ISO 19005-3 (PDF/A-3u). Press: ISO 15930-7 (PDF/X-4): rules
on boxes and colours as tools for preflight list them (pdfbox-preflight, issue 1: destination
profile of class 'prtr', boxes nested, notes outside of the bleed, trapping, title and dates known).
"""

import io
import re
from functools import cache

import pikepdf
import pytest
from PIL import Image, ImageCms
from render.edition_samples import STEPS, action, cautions_of, edition, hazard, long_sample
from render.page_samples import PIXEL, theme
from render.pdf_reader import read_pages

from guidegen.documents import Edition, Standard, of_standard
from guidegen.render.booklets.booklet import STYLES
from guidegen.render.pdf.html_pdf import screen_profile, write_pdf
from guidegen.render.pdf.print_shop import (
    BLEED,
    MARGIN,
    Press,
    gray_of,
    gray_profile,
    press_pdf,
)
from guidegen.render.pdf.xmp import Facts
from guidegen.units import POINTS_PER_MM

TAGGED = of_standard(Standard.ACCESSIBLE)
"""Editions that are tagged, from the table of documents."""
FACTS = Facts("Mooring cuff, M: build booklet", "A. Builder", "A cuff.", "2026-03-04")


def opened(name):
    """One edition of the long sample, to look into."""
    return pikepdf.open(io.BytesIO(edition(name).data))


# Screen


@pytest.mark.parametrize("name", TAGGED)
def test_every_figure_has_words(name):
    """Each figure in the structure has an alternative text (ISO 14289-1, 7.3)."""
    figures = 0
    with opened(name) as pdf:
        waiting = [pdf.Root.StructTreeRoot]
        while waiting:
            element = waiting.pop()
            if str(element.get("/S", "")) == "/Figure":
                figures += 1
                assert str(element.get("/Alt", "")).strip()
            kids = element.get("/K", [])
            for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
                if isinstance(kid, pikepdf.Dictionary):
                    waiting.append(kid)
    # What has steps shows the drawing of each; a page of boxes to tick may show none.
    assert figures > STEPS or name not in {"screen", "large-print"}


def test_text_is_read_in_the_order_of_work():
    """Extracted in the order of the file, a step gives title, cautions, then action and check."""
    text = " ".join(page.text for page in read_pages(edition("screen").data))
    text = text[text.index("Read a step to its end") :]
    place = 0
    for step in range(STEPS):
        words = [
            f"Do number {step}",
            *(
                hazard(step, n)
                for n in range(cautions_of(step))
                if f"Hazard {step}-{n} cuts" in text
            ),
            action(step),
            "It holds.",
        ]
        place = text.index(words[0], place)
        order = [text.index(one, place) for one in words]
        assert order[0] < min(order[1:])
        assert order[-2] < order[-1]
        assert all(one < order[-2] for one in order[:-2])


@pytest.mark.parametrize("name", list(Edition))
def test_fonts_are_embedded_with_their_letters(name):
    """Every font is in the file, with a map from its glyphs to Unicode (ISO 19005-3, 6.2.11)."""
    fonts = 0
    with opened(name) as pdf:
        for thing in pdf.objects:
            if not isinstance(thing, pikepdf.Dictionary) or thing.get("/Type") != "/Font":
                continue
            if thing.get("/Subtype") == "/Type0":
                fonts += 1
                assert "/ToUnicode" in thing
                descriptor = thing.DescendantFonts[0].FontDescriptor
                assert {"/FontFile2", "/FontFile3"} & set(descriptor.keys())
    assert fonts >= 3


# Archive


def test_archive_holds_the_sources():
    """Build files are attached to the document with their kinds and the relationship Source."""
    content, plan, _ = long_sample()
    with opened("archive") as pdf:
        assert set(pdf.attachments) == {
            "site.yaml", "stock.yaml", "guide.yaml", "strap photo.png",
        }  # fmt: skip
        photo = pdf.attachments["strap photo.png"].get_file().read_bytes()
        # Written anew without what a camera notes; the picture is the same.
        attached, given = (Image.open(io.BytesIO(one)) for one in (photo, PIXEL))
        assert attached.convert("RGBA").tobytes() == given.convert("RGBA").tobytes()
        names = set()
        for spec in pdf.Root.AF:
            assert spec.AFRelationship == "/Source"
            assert str(spec.UF) == str(spec.F)
            assert "/Subtype" in spec.EF.F
            assert str(spec.EF.F.Params.ModDate).startswith("D:20260304")
            names.add(str(spec.UF))
        assert names == set(pdf.attachments)
    assert plan.file.source.lines == ()
    assert content.site_source.lines == ()


def test_archive_looks_like_the_booklet():
    """Page by page, the archive has the words of the booklet for the screen."""
    screen, archive = (read_pages(edition(name).data) for name in ("screen", "archive"))
    assert [page.text for page in archive] == [page.text for page in screen]


# Press


def test_boxes_lie_in_one_another():
    """The trim is the paper's size; the bleed is 3 mm larger, the sheet 10 mm, on every side."""
    with opened("print-shop") as pdf:
        assert pdf.pdf_version == "1.6"
        for page in pdf.pages:
            trim, bleed, media = (
                [float(side) for side in box]
                for box in (page.TrimBox, page.BleedBox, page.MediaBox)
            )
            assert (trim[2] - trim[0]) / POINTS_PER_MM == pytest.approx(210, abs=0.1)
            assert (trim[3] - trim[1]) / POINTS_PER_MM == pytest.approx(297, abs=0.1)
            for box, by in ((bleed, BLEED), (media, MARGIN)):
                grown = [
                    (out - inner) / POINTS_PER_MM for inner, out in zip(trim, box, strict=True)
                ]
                assert grown == pytest.approx([-by, -by, by, by], abs=0.01)
            assert "/Annots" not in page
            assert "/ArtBox" not in page


def test_press_file_has_no_use_for_screens():
    """No actions, forms, tags or bookmarks; title, dates and trapping are known."""
    with opened("print-shop") as pdf:
        assert set(pdf.Root.keys()) <= {"/Type", "/Pages", "/Metadata", "/OutputIntents", "/Lang"}
        for key in ("/Title", "/CreationDate", "/ModDate"):
            assert str(pdf.docinfo[key])
        assert pdf.docinfo["/Trapped"] == "/False"


def colours(pdf):
    """Colour operators of pages and of what is drawn on them, with their operands."""
    drawn = [
        thing
        for thing in pdf.objects
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form"
    ]
    return {
        (str(operator).lower(), *(round(float(one), 2) for one in operands))
        for content in (*pdf.pages, *drawn)
        for operands, operator in pikepdf.parse_content_stream(content, "rg RG g G k K")
    }


def test_press_file_without_a_profile_is_black():
    """Without a print shop's profile every colour is a grey, and the output intent is black ink."""
    with opened("print-shop") as pdf:
        used = colours(pdf)
        assert {name for name, *_ in used} == {"g"}
        assert len(used) > 5
        (intent,) = pdf.Root.OutputIntents
        assert (intent.S, intent.DestOutputProfile.N) == ("/GTS_PDFX", 1)
        assert intent.DestOutputProfile.read_bytes() == gray_profile()


def test_press_file_for_four_inks_keeps_its_colours():
    """With a profile of four inks, safety colours stay, and what is nearly grey is black alone."""
    # The header of a profile for four inks: enough to see where it goes, not to convert with.
    profile = b"\0" * 12 + b"prtrCMYKLab " + b"\0" * 12 + b"acsp" + b"\0" * 92
    data = press_pdf(
        edition("screen").data, FACTS, lights=screen_profile(), press=Press(profile, 4, "Press")
    )
    with pikepdf.open(io.BytesIO(data)) as pdf:
        used = colours(pdf)
        left = {tuple(values) for name, *values in used if name == "rg"}
        assert (0.98, 0.66, 0.0) in left
        assert all(max(values) - min(values) > 0.08 for values in left)
        assert ("g", round(gray_of(0x1D / 255, 0x23 / 255, 0x27 / 255), 2)) in used
        (intent,) = pdf.Root.OutputIntents
        assert intent.DestOutputProfile.N == 4
        lights = pdf.pages[0].Resources.ColorSpace.DefaultRGB
        assert lights[0] == "/ICCBased"
        assert lights[1].read_bytes() == screen_profile()


def test_gray_profile_is_of_an_output_device():
    """Little CMS reads the profile: an output device with one ink, white and black as sRGB's."""
    profile = ImageCms.ImageCmsProfile(io.BytesIO(gray_profile()))
    assert profile.profile.device_class == "prtr"
    assert profile.profile.xcolor_space.strip() == "GRAY"
    screen = ImageCms.createProfile("sRGB")
    turn = ImageCms.buildTransform(profile, screen, "L", "RGB")
    from PIL import Image  # noqa: PLC0415 - only this test draws

    for grey in (0, 64, 128, 200, 255):
        (shown,) = ImageCms.applyTransform(Image.new("L", (1, 1), grey), turn).get_flattened_data()
        assert shown == pytest.approx((grey, grey, grey), abs=2)


def test_greys_have_the_luminance_of_their_colours():
    """Primaries of sRGB turn to the greys that CIE luminance gives (L* 53.2, 87.7 and 32.3).

    Bruce Lindbloom's and others' tables of sRGB primaries in CIELAB (D65); a grey of lightness L*
    has the relative luminance ((L* + 16) / 116)³.
    """
    for colour, lightness in (((1, 0, 0), 53.24), ((0, 1, 0), 87.73), ((0, 0, 1), 32.30)):
        luminance = ((lightness + 16) / 116) ** 3
        grey = gray_of(*colour)
        light = ((grey + 0.055) / 1.055) ** 2.4
        assert light == pytest.approx(luminance, abs=0.002)
    assert gray_of(1, 1, 1) == pytest.approx(1)
    assert gray_of(0, 0, 0) == 0


def test_marks_lie_outside_of_the_bleed():
    """Nothing of the marks is nearer to the page than the bleed, and every corner has two."""
    with opened("print-shop") as pdf:
        page = pdf.pages[0]
        _, _, width, height = (float(side) / POINTS_PER_MM for side in page.TrimBox)
        content = b"\n".join(part.read_bytes() for part in page.Contents)
    lines = re.findall(rb"^(-?[\d.]+) (-?[\d.]+) m (-?[\d.]+) (-?[\d.]+) l S$", content, re.M)
    assert len(lines) == 8
    for line in lines:
        x, y, to_x, to_y = (float(side) / POINTS_PER_MM for side in line)
        for px, py in ((x, y), (to_x, to_y)):
            outside = max(-px, px - width, -py, py - height)
            assert BLEED - 0.01 <= outside < MARGIN


@cache
def photo_page():
    """A page with a photo of colours."""
    html = (
        '<html lang="en"><head><title>T</title></head><body><img alt="x" src="p.png"></body></html>'
    )
    return write_pdf(html, files={"p.png": PIXEL}, variant="pdf/ua-1")


def test_same_pages_same_copies():
    """Copies of the same pages have the same bytes."""
    first, again = (press_pdf(photo_page(), FACTS, lights=screen_profile()) for _ in range(2))
    assert first == again


# In grey


SIGNALS = {"#9b2423": "#ffffff", "#d05d29": "#111111", "#f9a800": "#111111", "#005387": "#ffffff"}
"""Panels of signal words with the ink of their words (themes/workshop/booklet-lists.css)."""

FACES = ("#f1ede3", "#d3dcd9", "#b4bfc4", "#e4d8c4", "#c8c3d2", "#dfe5c9")
"""Faces of foam in drawings (themes/workshop/tokens.css)."""


def luminance(colour):
    """Relative luminance after WCAG 2.2 of the grey that a colour is printed in."""
    grey = gray_of(*(int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)))
    return grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4


def contrast(one, other):
    """Contrast ratio after WCAG 2.2 of two colours that are printed as greys."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_nothing_is_lost_in_grey():
    """Words and lines keep 4.5 : 1 (WCAG 2.2, 1.4.3) on all they stand on when printed in grey."""
    booklet, tokens = "".join(map(theme().text, STYLES)), theme().text("tokens.css")
    for panel, ink in SIGNALS.items():
        assert panel in booklet
        assert contrast(panel, ink) >= 4.5
    for ink in ("#1d2327", "#5b6469"):
        assert ink in booklet
        assert contrast(ink, "#ffffff") >= 4.5
    for face in FACES:
        assert face in tokens
        assert contrast("#1d2327", face) >= 4.5
