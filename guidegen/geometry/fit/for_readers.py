"""What keeps a guide from being made for one body → the same in words for that reader.

Findings speak to authors: of edges, splits and rules of grading. Who measured themselves wants to
know which piece it is, why, and what can be done without the author.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import groupby

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.fit.advice import leading, rank_sizes, size_table
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import Place, Problem, Severity
from guidegen.words import ENGLISH, Words

MOST_TRIED = 4
"""Pieces for which the reason is tried out. Our choice: each takes a kit for each measurement."""

MOST_REASONS = 3
"""Measurements that are named as the reason. Our choice: more is a list, not a reason."""


def for_reader(
    file: GuideFile,
    stock: Stock,
    body: Mapping[str, float],
    errors: Iterable[Problem],
    place: Place,
    *,
    words: Words = ENGLISH,
) -> list[Problem]:
    """One problem for each piece, seam or strap that fails, at `place`, where the reader typed.

    `errors` are those of the kit made for `body` (mm by measurement).
    """
    # By what fails, since groupby sees neighbours alone.
    ordered = sorted(errors, key=lambda problem: (_subject(problem), problem.sort_key))
    outside, nearest = _outside(file, body, words), _nearest(file, body)
    failing = {name: None for kind, name in map(_subject, ordered) if kind == "parts"}
    known = [name for name in failing if name in file.guide.parts][:MOST_TRIED]
    causes = _causes(file, stock, body, outside, known)
    found = []
    for subject, group in groupby(ordered, key=_subject):
        first = next(group)
        reason = _reason(outside, causes.get(subject, ()), words)
        message = f"{_what(file, subject, first, words)}; {reason}"
        found.append(Problem("not-for-body", place, "", message, _cure(first, nearest, words)))
    return found


def _subject(problem: Problem) -> tuple[str, str]:
    """Kind and id of what fails: ('parts', 'cuff')."""
    kind, _, rest = problem.path.partition(".")
    return kind, rest.split(".")[0].split("[")[0]


def _part_words(file: GuideFile, part: str) -> str:
    known = file.guide.parts.get(part)
    return f"{known.name} ({known.label})" if known else part


def _what(file: GuideFile, subject: tuple[str, str], problem: Problem, words: Words) -> str:
    """What fails, in one sentence."""
    kind, name = subject
    guide = file.guide
    if kind == "parts" and problem.code == "too-large":
        return words.say(
            "{piece} does not fit on a sheet: {why}",
            piece=_part_words(file, name),
            why=problem.message.split(": ")[-1],
        )
    if kind == "parts" and (".points" in problem.path or ".placements" in problem.path):
        piece = _part_words(file, name)
        return words.say("{piece} has no room for all that is fastened on it", piece=piece)
    if kind == "parts":
        piece = _part_words(file, name)
        return words.say("{piece} cannot be drawn for these measurements", piece=piece)
    if kind == "seams" and name in guide.seams:
        parts = dict.fromkeys(edge.partition(".")[0] for edge in guide.seams[name].join)
        listed = words.listed(_part_words(file, part) for part in parts)
        return words.say(
            "edges of {pieces} that are joined come out of different lengths", pieces=listed
        )
    if kind == "straps" and name in guide.straps:
        return words.say("{strap} cannot be made to reach", strap=guide.straps[name].name)
    if kind == "linkages" and name in guide.linkages:
        moving = guide.linkages[name].name
        return words.say("{linkage} cannot move as far as it must", linkage=moving)
    if kind == "fits" and name in guide.fits:
        return words.say("this no longer holds: {fit}", fit=guide.fits[name].says)
    return problem.message


def _nearest(file: GuideFile, body: Mapping[str, float]) -> str:
    ranked = rank_sizes(size_table(file), leading(file), body)
    return ranked[0][0] if ranked else ""


@dataclass(frozen=True, slots=True)
class _Outside:
    """A measurement beyond the sizes."""

    name: str
    words: str
    share: float
    """How far, of the size's own measurement."""
    end: float
    """mm that the last size has."""


def _outside(file: GuideFile, body: Mapping[str, float], words: Words) -> list[_Outside]:
    """What lies outside the sizes, the farthest first."""
    table = size_table(file)
    found: list[_Outside] = []
    for name, measurement in file.guide.measurements.items():
        values = [row[name] for row in table.values() if name in row]
        if not values or name not in body:
            continue
        over, under = body[name] - max(values), min(values) - body[name]
        if over > 0:
            said = words.say(
                "{measurement} is {off} mm above the largest size",
                measurement=measurement.name,
                off=words.number(over),
            )
            found.append(_Outside(name, said, over / max(values), max(values)))
        elif under > 0:
            said = words.say(
                "{measurement} is {off} mm below the smallest size",
                measurement=measurement.name,
                off=words.number(under),
            )
            found.append(_Outside(name, said, under / min(values), min(values)))
    return sorted(found, key=lambda one: -one.share)


def _causes(
    file: GuideFile,
    stock: Stock,
    body: Mapping[str, float],
    outside: Iterable[_Outside],
    failing: Collection[str],
) -> dict[tuple[str, str], list[_Outside]]:
    """For each failing part, the measurements any of which would cure it if the last size's were
    taken: tried out, since the arithmetic between them may be anything."""
    causes: dict[tuple[str, str], list[_Outside]] = {}
    for part in failing:
        alone = _alone(file, part)
        for one in outside:
            # One measurement at a time is set back to that of the last size: what cures the piece
            # is to blame.
            _, problems = make_kit(alone, stock, "body", {**body, one.name: one.end})
            if not any(_subject(p) == ("parts", part) and _is_error(p) for p in problems):
                causes.setdefault(("parts", part), []).append(one)
    return causes


def _is_error(problem: Problem) -> bool:
    return problem.severity is Severity.ERROR


def _alone(file: GuideFile, name: str) -> GuideFile:
    """A guide of one part and those that lie on it or under it: quick to make again and again."""
    part = file.guide.parts[name]
    near = {name, part.lining_of, *(placed.part for placed in part.placements)}
    near |= {row.part for row in part.points.values()}
    parts = {key: one for key, one in file.guide.parts.items() if key in near}
    # Seams and stacks would fail for want of the parts that are left out.
    bare: dict[str, object] = {"seams": {}, "stacks": {}, "parts": parts}
    return replace(file, guide=file.guide.model_copy(update=bare))


def _reason(outside: list[_Outside], causes: Iterable[_Outside], words: Words) -> str:
    """'Back length is 55 mm below the smallest size', of its causes, or of all that is outside."""
    if not outside:
        return words.say("the measurements are within the sizes, but no size has them together")
    chosen = list(causes) or outside
    return ", ".join(one.words for one in chosen[:MOST_REASONS])


def _cure(problem: Problem, nearest: str, words: Words) -> str:
    """What a reader can do."""
    size = (
        words.say("size {size}, which is nearest", size=nearest)
        if nearest
        else words.say("the size that is nearest")
    )
    if problem.code == "too-large":
        return words.say(
            "take a larger sheet, or glue two edge to edge before you cut; or print {size}, and "
            "cut this piece longer by hand along a straight line where it hides; or ask the author "
            'for a line where the piece may be cut in two ("splits")',
            size=size,
        )
    return words.say(
        "measure again; if the figures are right, print {size}, try the piece in card and correct "
        "the paper, or leave it out; the author may add a size",
        size=size,
    )
