"""Fonts of the site."""

import io
import re
from base64 import b64decode

from cut_faces import cut
from fontTools.ttLib import TTFont

from guidegen.render.fonts.webfonts import CUT, FACES, cut_face, web_fonts


def _faces() -> list[bytes]:
    """Every face that a site serves, in a file of its own or in a style sheet."""
    found = []
    for path, data in web_fonts().items():
        if path.endswith(".css"):
            found += [b64decode(one) for one in re.findall(rb"base64,([A-Za-z0-9+/=]+)", data)]
        else:
            found.append(data)
    assert len(found) == len(FACES)
    return found


def test_fonts_are_small_and_whole():
    """Each face is WOFF2, well under 25 kB, with the letters and signs that guides use."""
    for data in _faces():
        assert data[:4] == b"wOF2"
        assert len(data) < 25_000
        letters = TTFont(io.BytesIO(data)).getBestCmap()
        assert {ord(letter) for letter in "AZaz09äßéñøœŁ×°²½–—“”…€ "} <= set(letters)


def test_licence_stays_in_the_font():
    """The name table keeps copyright and licence, as the SIL Open Font License asks."""
    for data in _faces():
        names = TTFont(io.BytesIO(data))["name"]
        assert names.getDebugName(0)
        assert "Open Font License" in (names.getDebugName(13) or "")


def test_faces_are_those_of_the_font_packages():
    """What comes with guidegen is what cutting the packages gives (run cut_faces.py anew)."""
    for face in ("label-600.woff2", "text-italic.woff2"):
        assert cut_face(face) == cut(face)
    assert {path.name for path in CUT.iterdir()} == set(FACES)
