"""Texts of a guide and its kits in → numbers in words that have no value, or are right in one
size only."""

import re
from collections.abc import Iterator, Sequence

from guidegen.buildfile.living.holes import HoleError, find_holes, parse_living
from guidegen.buildfile.living.lengths import find_lengths
from guidegen.buildfile.living.texts import living_texts
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.vocabulary import LINING
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.geometry.fastening.answers import living_value
from guidegen.geometry.fastening.series import Series, is_count, of_parts, of_step, of_values
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Problem

EQUAL = 0.5
"""mm; a typed length that is nearer to a value may be that value. Our choice: a tape's half mm."""
LEAST = 10.0
"""mm; what is shorter in some size is no length to compare. Our choice."""
LEAST_LENGTH = 40
"""A value from here on is a length, below it may be a count. Our choice."""
NUMBER_WORDS = {
    word: number
    for row in (
        "two three four five six seven eight nine ten eleven twelve",
        "zwei drei vier fünf sechs sieben acht neun zehn elf zwölf",
    )
    for number, word in enumerate(row.split(), 2)
}
"""Counts as authors write them out, in the languages that guidegen speaks."""
TIMES = "seconds?|minutes?|hours?|days?|Sekunden?|Minuten?|Stunden?|Tagen?"
"""Words after numbers of time, which are no counts of things."""
_COUNT = re.compile(
    rf"(?<![\w.,/×·-])(\d{{1,3}}|{'|'.join(NUMBER_WORDS)})(?![\w.,/×-]*\d|\s?(?:mm|cm|m|min|h|d|ml|g|°|%|in|{TIMES})\b)\b",
    re.IGNORECASE,
)

_RANGE = re.compile(r"\s(?:to|bis|or|oder)\s")
"""After the first number of a range: '5 to 20 seconds'."""


def audit_living(file: GuideFile, kits: Sequence[Kit]) -> list[Problem]:
    """Living numbers without a value in some size; bare ones that equal a value in one only."""
    if not kits:
        return []
    problems = list(_without_value(file, kits))
    if len(kits) > 1:
        problems += _bare(file, kits)
    return problems


def _places(file: GuideFile) -> Iterator[tuple[Source, Trail, str]]:
    """Texts that may hold living numbers, in every language, with their places."""
    numbers = {step.id: number for number, step in enumerate(file.guide.steps)}
    living = dict(living_texts(file.guide))
    for trail, text in living.items():
        place: Trail = trail
        if trail[0] == "steps":
            place = ("steps", numbers[str(trail[1])], *trail[2:])
        yield file.source, place, text
    for made in file.translations.values():
        for trail, text in made.texts.items():
            # Translations are looked up by the place of the original: the field says what may
            # live, whatever the language.
            if trail in living:
                yield made.source, trail, text


def _without_value(file: GuideFile, kits: Sequence[Kit]) -> Iterator[Problem]:
    guide = file.guide
    known = {*guide.measurements, *guide.sides, *guide.values}
    things = {*guide.parts, *guide.seams, *guide.fastenings, *guide.straps, *guide.strips}
    for source, trail, text in _places(file):
        for hole in find_holes(text):
            try:
                living = parse_living(hole.text) if hole.text else None
            except HoleError:
                # Here and below: what a check without geometry has told is not told twice.
                continue  # the check of texts has told of it
            if living is None or not living.names <= known:
                continue
            if not {ask.names[0] for ask in living.asks} <= things:
                continue
            for kit in kits:
                try:
                    living_value(kit, living)
                except ExpressionError as error:
                    size = "" if kit.size == ONE_SIZE else f"in size {kit.size}: "
                    message = f'{size}"{{{living.text}}}": {error}'
                    # The first size is enough: the same hole fails in most.
                    yield source.problem("living-value", trail, message)
                    break


def _lines(file: GuideFile, part: str) -> bool:
    return part in file.guide.parts and file.guide.parts[part].shape == LINING


def _bare(file: GuideFile, kits: Sequence[Kit]) -> Iterator[Problem]:
    steps: dict[object, Step] = {}
    for number, step in enumerate(file.guide.steps):
        steps |= {step.id: step, number: step}
    named = of_values(kits)
    for source, trail, text in _places(file):
        own = steps.get(trail[1]) if trail[0] == "steps" else None
        # No author counts on the sides of a lining: what they equal is chance.
        listed = [part for part in own.parts if not _lines(file, part)] if own else []
        near = {**named, **of_parts(kits, listed), **(of_step(kits, own) if own else {})}
        typed = _without_holes(text)
        told = [*_lengths(typed, near, kits), *_counts(typed, near, kits)]
        if told:
            message = "; ".join(dict.fromkeys(told))
            yield source.problem("bare-number", trail, message)


def _without_holes(text: str) -> str:
    """The text with blanks for its living numbers, which nobody typed."""
    for hole in find_holes(text):
        # As many blanks as letters, so that places found in the text still hold.
        text = text[: hole.start] + " " * (hole.end - hole.start) + text[hole.end :]
    return text


def _lengths(text: str, series: Series, kits: Sequence[Kit]) -> Iterator[str]:
    for found in find_lengths(text):
        for name, values in series.items():
            sizes = _some_sizes(found.mm, values, kits, EQUAL)
            # Counts and changes from size to size are no lengths that words may mean.
            if sizes and not is_count(name) and min(values) >= LEAST:
                yield f"{text[found.start : found.end]} is {{{name}}} in {sizes} only"


def _counts(text: str, series: Series, kits: Sequence[Kit]) -> Iterator[str]:
    lengths = [(found.start, found.end) for found in find_lengths(text)]
    for match in _COUNT.finditer(text):
        if any(start <= match.start() < end for start, end in lengths):
            continue
        if _is_item(text, match) or _RANGE.match(text, match.end()):
            continue
        count = NUMBER_WORDS.get(match[1].lower()) or float(match[1])
        for name, values in series.items():
            # A value of the author's may be a count, an edge's length never.
            own = is_count(name) or "(" not in name
            counts = own and all(value % 1 == 0 and 1 <= value < LEAST_LENGTH for value in values)
            sizes = _some_sizes(count, values, kits, 1e-6) if counts else ""
            if sizes:
                yield f"{match[1]} is {{{name} : count}} in {sizes} only"


def _is_item(text: str, match: re.Match[str]) -> bool:
    """Whether a number is that of an entry of a list: alone before a point."""
    line = text.rfind("\n", 0, match.start()) + 1
    return not text[line : match.start()].strip() and text[match.end() : match.end() + 1] == "."


def _some_sizes(number: float, values: Sequence[float], kits: Sequence[Kit], near: float) -> str:
    """The sizes in which a series has `number`, in words; empty where all have it, or none."""
    sizes = [
        kit.size for kit, value in zip(kits, values, strict=True) if abs(value - number) < near
    ]
    # Right in every size it is no slip; right in none it means something else.
    if len(sizes) in {0, len(kits)}:
        return ""
    return f"size {sizes[0]}" if len(sizes) == 1 else f"sizes {', '.join(sizes)}"
