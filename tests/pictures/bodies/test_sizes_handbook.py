"""The handbook's chapter on sizes tells what the program does, with figures drawn today."""

import re

import pytest
from pictures.drawing_lint import check_drawing
from pictures.english import share_words
from pictures.size_figures import (
    COLUMNS,
    FOLDER,
    coverage,
    demo,
    figures,
    most_missed_pair,
    people,
)

from guidegen.buildfile.read.body import read_body
from guidegen.buildfile.read.population import MAX_PEOPLE
from guidegen.cli import build_parser
from guidegen.geometry.fit.advice import advise_size, count_served, serve_people
from guidegen.geometry.fit.doubts import FAR_OUTSIDE, doubt_body
from guidegen.problems import collect

CHAPTER = (FOLDER.parent / "sizes.md").read_text("utf-8")
PLAIN = " ".join(CHAPTER.split())


def test_figures_are_current():
    """Each committed figure is the one that the program draws, sound, and shown in the chapter."""
    drawn = figures()
    assert len(drawn) == 3
    for name, svg in drawn.items():
        check_drawing(svg)
        assert (FOLDER / name).read_text("utf-8") == svg, (
            "./start python tests/pictures/size_figures.py"
        )
        assert f"(pictures/{name})" in CHAPTER


def test_numbers_of_the_coverage_are_current():
    """Shares and counts in the text are those of the chart."""
    served = coverage()
    last = served.served[-1]
    assert f"The five sizes serve {share_words(served.share)} of them." in PLAIN
    assert f"{served.too_small} people are smaller than the sizes" in PLAIN
    assert f"and {served.too_large} are larger" in PLAIN
    assert f"size {last.size} serves {last.people} people" in PLAIN
    assert most_missed_pair() == ("chest", "waist")


def test_shares_of_arm_and_body_are_current():
    """By two measurements the sizes serve as many as the text says."""
    for first, second, words in (
        ("chest", "waist", "By chest and waist, which lead, the sizes serve {}"),
        ("forearm", "wrist", "by forearm and wrist alone {}"),
    ):
        some = [{name: person[name] for name in (first, second)} for person in people()]
        file = demo().guides[0]
        share = count_served(tuple(file.guide.sizes), serve_people(file, some)).share
        assert words.format(share_words(share)) in PLAIN


def test_the_body_of_the_example_fits(tmp_path):
    """The example's measurements raise no doubt, and are sent where the chapter says."""
    body = tmp_path / "me.yaml"
    examples = re.findall(r"```yaml\n(.*?)```", CHAPTER, re.DOTALL)
    (text,) = (example for example in examples if example.startswith("chest:"))
    body.write_text(text, encoding="utf-8")
    lengths, _ = collect(read_body(body))
    file = demo().guides[0]
    assert list(lengths) == list(file.guide.measurements)
    assert doubt_body(file, lengths) == []
    advice = advise_size(file, lengths)
    assert advice is not None
    worst = advice.misfits[0]
    assert f"the size for this reader: size {advice.size}" in PLAIN
    assert (worst.measurement, worst.difference) == ("neck", pytest.approx(-25))
    assert "the neck is off by 25 mm" in PLAIN


def test_commands_of_the_chapter_are_understood():
    """Every command line in the chapter is one that the program takes."""
    lines = re.findall(r"^    \./start guidegen ((?:.*\\\n)*.*)$", CHAPTER, re.MULTILINE)
    assert len(lines) == 3
    for line in lines:
        options = build_parser().parse_args(line.replace("\\\n", " ").split())
        assert options.guide == "slipway-marshal"
    assert options.column == [f"{name}={column}" for name, column in COLUMNS.items()]


def test_limits_of_the_chapter_are_those_of_the_program():
    """Rows of a table and size steps beyond the sizes are stated as they are."""
    assert f"up to {MAX_PEOPLE} rows" in PLAIN
    assert "more than one and a half size steps beyond" in PLAIN
    assert FAR_OUTSIDE == 1.5
