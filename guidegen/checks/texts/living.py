"""Living numbers of texts: each can be read, asks for what there is, and stands where it may."""

from collections.abc import Iterator, Mapping

from guidegen.buildfile.living.holes import (
    ASKS,
    MOST_HOLES,
    Ask,
    Hole,
    HoleError,
    Living,
    find_holes,
    parse_living,
)
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.checks.texts.text_places import PlacedText, guide_texts
from guidegen.problems import Problem, did_you_mean


def check_living(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every hole in every text of a guide and of its translations."""
    known = (*file.guide.measurements, *file.guide.sides, *file.guide.values)
    for words in living_words(file):
        holes = [hole for hole in find_holes(words.text) if hole.text]
        if len(holes) > MOST_HOLES:
            message = f"expected at most {MOST_HOLES} living numbers in one text"
            yield words.problem("living-number", 0, f"{message}, found {len(holes)}")
            continue
        for hole in holes:
            fault = _fault(hole, file.guide, known, lives=words.wording.living)
            if fault:
                line = words.text.count("\n", 0, hole.start)
                message = f'"{{{hole.text[:60]}}}": {fault}'
                yield words.problem("living-number", line, message)


def living_words(file: GuideFile) -> Iterator[PlacedText]:
    """Texts of a guide and its translations, each with its place."""
    return (text for text in guide_texts(file) if text.wording.translated)


def _fault(hole: Hole, guide: Guide, known: tuple[str, ...], *, lives: bool) -> str:
    """What is wrong with a hole, in words; empty for nothing. `lives`: its text may have one."""
    try:
        living = parse_living(hole.text)
    except HoleError as error:
        return str(error) if lives else ""
    if not lives:
        # A brace in a title may be meant; a number of the guide in it cannot be.
        meant = living.asks or (living.names and living.names <= set(known))
        return (
            "a title or name stands in lists of all sizes, so it holds no number" if meant else ""
        )
    return _dead_name(living, known) or next(
        (fault for ask in living.asks if (fault := dead_ask(ask, guide))), ""
    )


def _dead_name(living: Living, known: tuple[str, ...]) -> str:
    for name in sorted(living.names):
        if name not in known:
            return f'no measurement or value "{name}"{did_you_mean(name, known)}'
    return ""


def dead_ask(ask: Ask, guide: Guide) -> str:
    """A question about something that the guide does not have; edges are known to geometry."""
    tables: Mapping[str, Mapping[str, object]] = {
        "part": guide.parts,
        "seam": guide.seams,
        "fastening": guide.fastenings,
        "strap": guide.straps,
        "strip": guide.strips,
        "linkage": guide.linkages,
        "circuit": guide.circuits,
        "casing": guide.casings,
    }
    what, name = ASKS[ask.about][0], ask.names[0]
    table = tables[what]
    return "" if name in table else f'no {what} "{name}"{did_you_mean(name, table)}'
