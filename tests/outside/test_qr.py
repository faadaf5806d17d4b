"""QR codes on printed pages, read back by a decoder that knows nothing of ours (ZXing-C++).

ISO/IEC 18004:2015. Time in a video: Media Fragments URI 1.0 (W3C Recommendation, 2012), 4.2.1:
'#t=' and seconds.
"""

from functools import cache

import pypdfium2
import pytest
import zxingcpp
from render.edition_samples import ADDRESS, STEPS, VIDEO, action, edition

from guidegen.errors import OutputError
from guidegen.render.text.qr import QUIET_ZONE, code_view

LEAST_MODULE = 0.33
"""mm; smallest square of a code that common telephones read. Common practice, no source."""


@cache
def pages(name):
    """(Words, addresses of its codes, smallest module in mm) of every page."""
    found = []
    with pypdfium2.PdfDocument(edition(name, "a4", ADDRESS).data) as document:
        for page in document:
            words = " ".join(page.get_textpage().get_text_range().split())
            image = page.render(scale=200 / 72).to_pil().convert("L")
            codes = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
            found.append((words, [code.text for code in codes]))
    return found


@pytest.mark.parametrize("name", ["screen", "fold", "large-print"])
def test_every_step_leads_to_its_place_on_the_site(name):
    """Each step's code is its address on the steps page; it stands where the step's action is.

    In large print it may follow on the next page.
    """
    further = 2 if name == "large-print" else 1
    decoded = [code for _, codes in pages(name) for code in codes]
    for step in range(STEPS):
        address = f"{ADDRESS}cuff/steps.html#step-step-{step}"
        assert decoded.count(address) == 1
        (here,) = [n for n, (words, _) in enumerate(pages(name)) if action(step) in words]
        assert address in [
            code for _, found in pages(name)[here : here + further] for code in found
        ]


def test_addresses_stand_in_words():
    """Who has no telephone can type: the page of steps at the head of the chapter, a video beside."""
    chapter = next(words for words, _ in pages("screen") if "on the web, at" in words)
    for words, codes in pages("screen"):
        for code in codes:
            address = code.removeprefix("https://")
            if code.startswith(VIDEO):
                assert address in words.replace(" ", "")
            else:
                assert address.partition("#")[0] in chapter.replace(" ", "")


def test_video_begins_at_its_time():
    """A step that names 3:20 in the author's video has a code that leads to second 200 of it."""
    decoded = [code for _, codes in pages("screen") for code in codes]
    assert decoded.count(f"{VIDEO}#t=200") == 1
    (words,) = [words for words, codes in pages("screen") if f"{VIDEO}#t=200" in codes]
    assert "Video, from 3:20" in words


def test_no_codes_without_an_address():
    """A site that does not know its address prints no code to it; the video's is still there."""
    with pypdfium2.PdfDocument(edition("screen").data) as document:
        codes = [
            code.text
            for page in document
            for code in zxingcpp.read_barcodes(page.render(scale=150 / 72).to_pil())
        ]
    assert codes == [f"{VIDEO}#t=200"]


def test_modules_are_large_enough():
    """A code is printed 17 mm wide or more, and every square of it 0.33 mm or more."""
    for address in ("https://a.example/", ADDRESS + "a" * 40 + "#step-" + "b" * 48):
        modules = code_view(address).modules
        assert modules > 2 * QUIET_ZONE + 20
        assert max(modules * 0.42, 17) / modules >= LEAST_MODULE


def test_an_address_that_no_code_holds_is_refused():
    """Level M takes 2331 bytes in the largest code (ISO/IEC 18004:2015, table 7)."""
    start = "https://a.example/"
    assert code_view(start + "a" * (2331 - len(start))).modules == 177 + 2 * QUIET_ZONE
    with pytest.raises(OutputError, match="too long for a QR code"):
        code_view(start + "a" * (2332 - len(start)))
