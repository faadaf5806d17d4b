"""Codes, titles, shapes and colours of safety signs against the published standards."""

from typing import get_args

import pytest
from pictures.drawing_lint import SVG, elements, parse
from pictures.english import draw_sign

from guidegen.buildfile.records.safety.cautions import SignCode
from guidegen.pictures.signs.signs import sign_names

TITLES = {
    # ISO 7010:2019 with amendments; titles as listed in lbize/iso-7010, lib.typ, commit e3e37610
    # (from Wikimedia). M016, P003 and W017 as in the same list, without a second source.
    "M004": "Wear eye protection",
    "M009": "Wear protective gloves",
    "M011": "Wash your hands",
    "M016": "Wear a mask",
    "M017": "Wear respiratory protection",
    "M021": "Disconnect before carrying out maintenance or repair",
    "M055": "Keep out of the reach of children",
    "P002": "No smoking",
    "P003": "No open flame",
    "W001": "General warning sign",
    "W012": "Electricity",
    "W017": "Hot surface",
    "W021": "Flammable material",
    "W022": "Sharp element",
    "W071": "Substance or mixture presenting a health hazard",
}

# ISO 3864-4 colours as sRGB approximations of RAL 1003, 3001, 5005, 9004 and 2010
# (en.wikipedia.org/wiki/ISO_3864).
YELLOW, RED, BLUE, BLACK, ORANGE = "#F9A800", "#9B2423", "#005387", "#2B2B2C", "#D05D29"


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(first: str, second: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    high, low = sorted((luminance(first), luminance(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def fills(svg: str) -> list[str]:
    """Fill colours in the order in which they are drawn."""
    found = (e.get("fill") for e in parse(svg).iter() if e.tag != SVG + "svg")
    return [colour for colour in found if colour and colour != "none"]


def test_signs_have_the_published_codes_and_titles():
    """Every code that a caution may name is drawn, under the title of the standard."""
    assert dict(sign_names) == TITLES
    assert set(sign_names) == set(get_args(SignCode))


@pytest.mark.parametrize("code", TITLES)
def test_each_sign_has_the_shape_and_colours_of_its_kind(code):
    """ISO 3864-1: blue disc with white symbol; red ring over black on white; black on yellow."""
    svg = draw_sign(code)
    colours = fills(svg)
    kind = code[0]
    if kind == "M":
        assert colours[0] == BLUE
        assert set(colours) <= {BLUE, "#FFFFFF"}
        disc = elements(svg, "circle", "sign-blue")[0]
        assert float(disc.get("r", 0)) == pytest.approx(0.49 * 24)
    elif kind == "P":
        assert set(colours) <= {"#FFFFFF", BLACK, RED}
        assert colours[-1] == RED
        (bar,) = elements(svg, "path", "sign-red-line")
        assert float(bar.get("stroke-width", 0)) / 24 == pytest.approx(0.08, abs=0.003)
    else:
        assert colours[:2] == [BLACK, YELLOW]
        assert set(colours) <= {BLACK, YELLOW}


def test_contrast_is_worked_out_as_published():
    """The ratios that are published for pure black on the colours of CAUTION and WARNING."""
    assert contrast("#000000", YELLOW) == pytest.approx(10.63, abs=0.01)
    assert contrast("#000000", ORANGE) == pytest.approx(5.28, abs=0.01)
