"""Rates answer what uses ask: areas in m², lengths in m; and foam is replaced by foam."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

STICK = (
    "  stick:\n    name: Glue stick\n    kind: count\n    packs: [{amount: 10, price: 3}]\n"
    "    rate: {per: length, low: 1, likely: 1.5, high: 2, source: test}\n"
)
RATED = changed(STOCK, "  buckle:\n", f"{STICK}  buckle:\n")


def report(folder: Path, use: str, *, guide: str = GUIDE, stock: str = RATED) -> str:
    """All findings where the step that glues uses something else."""
    text = changed(guide, "{material: cement, glue: [cuff-side, badge]}", use)
    content = read_content(write_content(folder, guide=text, stock=stock))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


@pytest.mark.parametrize(
    "use",
    [
        "{material: stick, along: [cuff-side, badge]}",
        "{material: webbing, along: [cuff-side]}",
        "{material: stick, cut: [cuff]}",
        "{material: buckle, cover: [cuff]}",
        "{material: stick, count: 2}",
    ],
)
def test_uses_that_their_rate_answers(tmp_path, use):
    """Sticks along joints, tape along a seam, blades by what they cut, plain counts."""
    assert report(tmp_path, use) == ""


@pytest.mark.parametrize(
    ("use", "words"),
    [
        ("{material: cement, along: [badge]}", "has a rate per area, not per length"),
        ("{material: stick, cover: [cuff]}", "has a rate per length, not per area"),
        ("{material: webbing, cover: [cuff]}", "is sold by length: say along or length"),
        ("{material: buckle, cut: [cuff]}", "has no rate per length"),
        ("{material: stick, along: [cuf-side]}", 'did you mean "cuff-side"?'),
        ("{material: stick, cut: [cufff]}", 'did you mean "cuff"?'),
    ],
)
def test_uses_that_nothing_answers(tmp_path, use, words):
    """A rate of the wrong kind, none at all, or a name that is not there is told."""
    assert words in report(tmp_path, use)


def test_own_rates(tmp_path):
    """A guide's own rate takes the place of the stock's, and has to name a material."""
    own = (
        "rates:\n  cement: {per: length, low: 9, likely: 10, high: 11, source: tried it}\nseams:\n"
    )
    along = "{material: cement, along: [cuff-side]}"
    assert report(tmp_path / "kept", along, guide=changed(GUIDE, "seams:\n", own)) == ""
    wrong = changed(GUIDE, "seams:\n", own.replace("cement:", "cemen:"))
    text = report(tmp_path / "broken", along, guide=wrong)
    assert 'no material "cemen" in stock; did you mean "cement"?' in text


def test_substitutes_are_other_sheets(tmp_path):
    """Foam of another thickness may take the place of foam; glue, itself or nothing may not."""
    line = "    sheets: [{name: sheet, width: 1000, height: 500, price: 8}]\n"
    uses = "{material: stick, count: 2}"
    kept = changed(RATED, line, f"{line}    substitutes: [foam-10]\n")
    assert report(tmp_path / "kept", uses, stock=kept) == ""
    for number, other in enumerate(("cement", "foam-5", "foam-11")):
        stock = changed(RATED, line, f"{line}    substitutes: [{other}]\n")
        text = report(tmp_path / str(number), uses, stock=stock)
        assert f'no other sheet material "{other}" in stock' in text
