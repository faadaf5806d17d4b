"""Words that parts bear, and shipped fonts, in → their outlines as commands and numbers.

A text is a run of commands, each followed by its coordinates: M and L with a point, Q with a
control point and a point, Z closes. Capitals are 1 high, the base line is 0, y upward. Pairs of
letters are kerned as the font says (GPOS of OpenType, pair adjustment); both families have the SIL
Open Font License 1.1, whose outlines may be used in any work.
"""

import io
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from itertools import chain
from typing import Any

from fontTools.pens.basePen import decomposeQuadraticSegment
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

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
PAIRS = 2
"""Type of a lookup that moves pairs of letters (OpenType, GPOS)."""
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
        place += kerning(face, before, name) if before else 0.0
        before = name
        pen = DecomposingRecordingPen(glyphs)
        glyphs[name].draw(pen)
        commands += _commands(pen.value, place, capital)
        place += glyphs[name].width
    return " ".join(commands), frozenset(one for one in text if ord(one) not in known)


def kerning(face: str, first: str, second: str) -> float:
    """Units of the font by which the second of two glyphs stands nearer to the first, or farther
    off: of each lookup the first of its tables that tells of the pair."""
    return float(sum(_pair_value(tables, first, second) for tables in _kern_tables(face)))


@cache
def _kern_tables(face: str) -> tuple[tuple[Any, ...], ...]:
    """The tables of pairs of each lookup that the font kerns Latin letters with."""
    font = _font(face)
    if "GPOS" not in font:
        return ()
    table = font["GPOS"].table
    scripts = {one.ScriptTag: one.Script for one in table.ScriptList.ScriptRecord}
    script = scripts.get("latn") or scripts.get("DFLT")
    language = script.DefaultLangSys if script is not None else None
    if language is None:
        return ()
    features = [table.FeatureList.FeatureRecord[number] for number in language.FeatureIndex]
    used = [one.Feature.LookupListIndex for one in features if one.FeatureTag == "kern"]
    lookups = [table.LookupList.Lookup[number] for number in sorted({*chain(*used)})]
    # Large tables lie behind an extension, which holds the table itself.
    found = [[getattr(one, "ExtSubTable", one) for one in lookup.SubTable] for lookup in lookups]
    return tuple(tuple(one for one in own if one.LookupType == PAIRS) for own in found)


def _pair_value(tables: Sequence[Any], first: str, second: str) -> float:
    for table in tables:
        if first not in table.Coverage.glyphs:
            continue
        if table.Format == 1:
            pairs = table.PairSet[table.Coverage.glyphs.index(first)].PairValueRecord
            value = next((one.Value1 for one in pairs if one.SecondGlyph == second), None)
            if value is None:
                continue  # a later table may have the pair by its classes
        else:
            own = table.Class1Record[table.ClassDef1.classDefs.get(first, 0)]
            value = own.Class2Record[table.ClassDef2.classDefs.get(second, 0)].Value1
        return float(getattr(value, "XAdvance", 0) or 0)
    return 0.0


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
