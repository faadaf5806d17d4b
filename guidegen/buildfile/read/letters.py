"""Words that parts bear, and shipped fonts, in → their outlines as commands and numbers.

A text is a run of commands, each followed by its coordinates: M and L with a point, Q with a
control point and a point, Z closes. Capitals are 1 high, the base line is 0, y upward. Pairs of
letters are kerned as the font says; both families have the SIL Open Font License 1.1, whose
outlines may be used in any work.
"""

import io
from collections.abc import Sequence
from functools import cache
from importlib.resources import files

from fontTools.pens.basePen import decomposeQuadraticSegment
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from guidegen.buildfile.read.kerning import PairTables, kerning, pair_tables
from guidegen.buildfile.records.constructions.inscriptions import letters_key
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.yaml.tree import Source
from guidegen.problems import Checked

FACES = {
    "condensed": ("fontpkg_barlow_condensed", "BarlowCondensed-Regular.ttf"),
    "condensed-bold": ("fontpkg_barlow_condensed", "BarlowCondensed-Bold.ttf"),
    "legible": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    "legible-bold": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Bold.ttf"),
}
"""Package and file of each face."""
MOST_LETTERS = 2000
"""Letters on all parts of a guide, equal texts once. Our choice: a page of a book."""
DIGITS = 5
"""Decimals of a coordinate: on letters of 1 m a hundredth of a mm."""


def read_letters(guide: Guide, source: Source) -> Checked[dict[str, str]]:
    """The outlines of every text on a part; letters that a font lacks are told and left out."""
    found: dict[str, str] = {}
    letters = 0
    for part_id, part in guide.parts.items():
        for number, one in enumerate(part.inscriptions):
            if one.text is None or letters_key(one.face, one.text) in found:
                continue
            letters += len(one.text)
            if letters > MOST_LETTERS:
                message = f"its parts bear more than {MOST_LETTERS} letters"
                trail = ("parts", part_id, "inscriptions", number, "text")
                yield source.problem("letters-many", trail, message)
                return found
            outlines, missing = outline_text(one.face, one.text)
            if missing:
                message = f'the font "{one.face}" has no letter {" ".join(sorted(missing))}'
                trail = ("parts", part_id, "inscriptions", number, "text")
                yield source.problem("no-letter", trail, message)
            found[letters_key(one.face, one.text)] = outlines
    return found


@cache
def _font(face: str) -> TTFont:
    package, name = FACES[face]
    return TTFont(io.BytesIO((files(package) / "files" / name).read_bytes()), lazy=True)


def outline_text(face: str, text: str) -> tuple[str, frozenset[str]]:
    """The outlines of a text, and the letters of it that the font lacks."""
    font = _font(face)
    known, glyphs = font.getBestCmap(), font.getGlyphSet()
    capital = float(font["OS/2"].sCapHeight)
    place, before, commands = 0.0, "", []
    for letter in text:
        name = known.get(ord(letter))
        if name is None:
            continue
        place += kerning(_pairs(face), before, name) if before else 0.0
        before = name
        pen = DecomposingRecordingPen(glyphs)
        glyphs[name].draw(pen)
        commands += _commands(pen.value, place, capital)
        place += glyphs[name].width
    return " ".join(commands), frozenset(one for one in text if ord(one) not in known)


@cache
def _pairs(face: str) -> PairTables:
    return pair_tables(_font(face))


type _Place = tuple[float, float] | None


def _commands(
    recorded: Sequence[tuple[str, tuple[_Place, ...]]], place: float, capital: float
) -> list[str]:
    def at(point: _Place) -> str:
        x, y = point or (0.0, 0.0)
        return f"{round((x + place) / capital, DIGITS):g} {round(y / capital, DIGITS):g}"

    found: list[str] = []
    for operator, points in recorded:
        if operator == "moveTo":
            found.append(f"M {at(points[0])}")
        elif operator == "lineTo":
            found.append(f"L {at(points[0])}")
        elif operator == "qCurveTo":
            bends = points
            if points[-1] is None:
                # A contour without a point on it begins half way between two of its controls.
                bends = (*points[:-1], _between(points[-2], points[0]))
                found.append(f"M {at(bends[-1])}")
            for control, end in decomposeQuadraticSegment(bends):
                found.append(f"Q {at(control)} {at(end)}")
        elif operator in {"closePath", "endPath"}:
            found.append("Z")
        else:
            raise ValueError(f"a TrueType outline has no {operator}")
    return found


def _between(one: _Place, other: _Place) -> _Place:
    (ax, ay), (bx, by) = one or (0.0, 0.0), other or (0.0, 0.0)
    return ((ax + bx) / 2, (ay + by) / 2)
