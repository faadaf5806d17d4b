"""A font that is open in → by how much each of its pairs of letters stands nearer.

Kerning is the pair adjustment of the table GPOS (OpenType, ISO/IEC 14496-22).
"""

from itertools import chain
from typing import Any

PAIRS = 2
"""Type of a lookup that moves pairs of letters (OpenType, GPOS)."""

type PairTables = tuple[tuple[Any, ...], ...]
"""Tables of pairs by lookup, as fontTools reads them, which has no types for them."""


def pair_tables(font: Any) -> PairTables:  # noqa: ANN401 - of fontTools, see letters.py
    """The tables of pairs of each lookup with which a font kerns Latin letters."""
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


def kerning(tables: PairTables, first: str, second: str) -> float:
    """Units of the font by which the second of two glyphs stands nearer to the first where it is
    negative: of each lookup the first of its tables that tells of the pair."""
    return float(sum(_pair_value(lookup, first, second) for lookup in tables))


def _pair_value(lookup: tuple[Any, ...], first: str, second: str) -> float:
    for table in lookup:
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
