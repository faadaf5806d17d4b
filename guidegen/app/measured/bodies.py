"""What commands for given people share: doubts about bodies, what is at hand, when to stop."""

from collections.abc import Iterable, Mapping
from pathlib import Path

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.on_hand import NOTHING, OnHand, read_on_hand
from guidegen.buildfile.records.stock import Stock
from guidegen.errors import ContentError
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.fit.doubts import ADD_SURE, doubt_body, measure_again
from guidegen.geometry.fit.for_readers import for_reader
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Place, Problem, Severity, collect
from guidegen.words import ENGLISH, Words

MADE = "made-to-measure"
"""Name of the size of one reader."""


def stop_on_errors(problems: Iterable[Problem]) -> None:
    """Raise ContentError where one of the problems is an error."""
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if errors:
        raise ContentError(errors)


def whole_kit(
    file: GuideFile,
    stock: Stock,
    size: str,
    body: Mapping[str, float] | None = None,
    *,
    words: Words,
    place: Place | None = None,
    reader: Words = ENGLISH,
) -> Kit:
    """The kit of one size, or of a body. Raises ContentError where geometry finds an error: of a
    body in words for its reader, at `place`, where its measurements stand, in the language of
    `reader`."""
    kit, problems = make_whole_kit(file, stock, size, body, words=words)
    if body is not None and place is not None:
        errors = [problem for problem in problems if problem.severity is Severity.ERROR]
        stop_on_errors(for_reader(file, stock, body, errors, place, words=reader))
    stop_on_errors(problems)
    if kit is None:
        raise AssertionError("a kit without errors is made")
    return kit


def on_hand_from(path: Path | None, stock: Stock) -> OnHand:
    """What a file says is at hand; nothing without one. Raises ContentError."""
    if path is None:
        return NOTHING
    on_hand, problems = collect(read_on_hand(path, stock))
    stop_on_errors(problems)
    return on_hand


def judge_body(
    file: GuideFile,
    body: Mapping[str, float],
    place: Place,
    *,
    sure: bool,
    words: Words = ENGLISH,
    insist: str = ADD_SURE,
) -> tuple[list[Problem], tuple[str, ...]]:
    """Problems of a body's measurements at `place`, and words of the doubts that are waived.

    With `sure` only what makes the work impossible is a problem. `insist` tells how one is sure.
    """
    doubts = doubt_body(file, body, words)
    open_doubts = [doubt for doubt in doubts if doubt.stops or not sure]
    cure = measure_again(file, body, words, insist)
    problems = [
        Problem(
            "body" if doubt.stops else "doubtful-body",
            place,
            doubt.measurement,
            doubt.message,
            "" if doubt.stops else cure,
        )
        for doubt in open_doubts
    ]
    return problems, tuple(doubt.message for doubt in doubts if doubt not in open_doubts)
