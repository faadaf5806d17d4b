"""Codes of ISO 7010 in → safety signs out, with shapes and colours of ISO 3864, drawn by us.

The signs mean what the standard's referents say; their symbols are our own drawings, not the
standard's artwork.
"""

from collections.abc import Callable
from types import MappingProxyType

from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.signs import mandatory as must
from guidegen.pictures.signs import warning as may
from guidegen.pictures.signs.sign_pen import (
    BLACK,
    BLUE,
    FIELD,
    RED,
    SIDE,
    WHITE,
    YELLOW,
    SignPen,
    ring,
    rounded_triangle,
)
from guidegen.words import Words, msg

sign_names: MappingProxyType[str, str] = MappingProxyType(
    {
        # Referents of ISO 7010:2019 with amendments.
        "M004": msg("Wear eye protection"),
        "M009": msg("Wear protective gloves"),
        "M011": msg("Wash your hands"),
        "M016": msg("Wear a mask"),
        "M017": msg("Wear respiratory protection"),
        "M021": msg("Disconnect before carrying out maintenance or repair"),
        "M055": msg("Keep out of the reach of children"),
        "P002": msg("No smoking"),
        "P003": msg("No open flame"),
        "W001": msg("General warning sign"),
        "W012": msg("Electricity"),
        "W017": msg("Hot surface"),
        "W021": msg("Flammable material"),
        "W022": msg("Sharp element"),
        "W071": msg("Substance or mixture presenting a health hazard"),
    }
)
"""Titles of the signs that we draw, by code."""

_SYMBOLS: dict[str, Callable[[SignPen], None]] = {
    "M004": must.eye_protection,
    "M009": must.gloves,
    "M011": must.wash_hands,
    "M016": must.mask,
    "M017": must.respirator,
    "M021": must.disconnect,
    "M055": must.away_from_children,
    "P002": may.smoking,
    "P003": may.open_flame,
    "W001": may.general,
    "W012": may.electricity,
    "W017": may.hot_surface,
    "W021": may.flammable,
    "W022": may.sharp_element,
    "W071": may.health_hazard,
}

_KINDS = {
    "M": msg("Our own drawing with the meaning of mandatory sign {code} of ISO 7010."),
    "P": msg("Our own drawing with the meaning of prohibition sign {code} of ISO 7010."),
    "W": msg("Our own drawing with the meaning of warning sign {code} of ISO 7010."),
}


def draw_sign(code: str, lang: Words) -> Drawing:
    """The sign of an ISO 7010 code, 24 mm square. Raises KeyError for an unknown code."""
    kind = lang.say(_KINDS[code[0]], code=code)
    canvas = Canvas(SIDE, SIDE, lang.say(sign_names[code]), kind, lang)
    pen = SignPen(canvas)
    if code[0] == "M":
        pen.disc((FIELD / 2, FIELD / 2), 49, BLUE)
        _SYMBOLS[code](pen)
    elif code[0] == "P":
        pen.disc((FIELD / 2, FIELD / 2), 49.5, WHITE)
        _SYMBOLS[code](pen)
        # Over the symbol: a bar behind it would not strike it out.
        _prohibit(pen)
    else:
        pen.fill([rounded_triangle(1, 6)], BLACK)
        pen.fill([rounded_triangle(5.5, 3)], YELLOW)
        _SYMBOLS[code](pen)
    return canvas.drawing()


def draw_signs(lang: Words) -> dict[str, Drawing]:
    """All signs by code."""
    return {code: draw_sign(code, lang) for code in sign_names}


def _prohibit(pen: SignPen) -> None:
    """Ring and bar of ISO 3864-1: a tenth and 0.08 of the diameter, falling from the upper left."""
    centre = (FIELD / 2, FIELD / 2)
    # At 45 degrees, to the middle of the ring between its radii 49 and 39.2: the ring hides both
    # ends.
    reach = 44 * 2**-0.5
    pen.limb([(50 - reach, 50 + reach), (50 + reach, 50 - reach)], 7.8, RED)
    pen.fill([ring(centre, 49), ring(centre, 39.2)], RED)
