"""The size finder of the guide page: the script's answers are those of the program."""

import html
import json
import random
import re

import pytest
from geometry.kit_samples import graded_cuff, guide_file
from render.page_samples import downloads, sample, theme

from guidegen.geometry.fit.advice import advise_size, size_table
from guidegen.render.site.pages import render_guide

GUIDE = graded_cuff("""\
  S: {forearm: 250, wrist: 160, arm_length: 240}
  M: {forearm: 280, wrist: 171, arm_length: 240}
  L: {forearm: 310, wrist: 190, arm_length: 240}
""")
"""Sizes that differ unevenly, and in one measurement not at all."""


def bodies():
    """Bodies around and between the sizes, with all or some of their measurements."""
    chance = random.Random(5)
    ranges = {"forearm": (200, 400), "wrist": (130, 250), "arm_length": (200, 300)}
    found = [{"forearm": 265.0}, {"forearm": 295.0}, {}]  # halfway between two sizes; nothing
    for number in range(300):
        names = [name for place, name in enumerate(ranges) if (number % 7 + 1) >> place & 1]
        found.append({name: round(chance.uniform(*ranges[name]), 1) for name in names})
    return found


@pytest.mark.parametrize("leads", [[], ["forearm"], ["forearm", "wrist"]], ids=str)
def test_script_finds_the_size_that_the_program_advises(ask_script, leads):
    """Size, score, what is too small and misfits in order are the same for every body, with and
    without leading measurements."""
    text = GUIDE
    for name in leads:
        text = text.replace(f"{name}: {{name", f"{name}: {{leads: true, name")
    file = guide_file(text)
    sizes = [{"name": n, "href": "", "values": row} for n, row in size_table(file).items()]
    items = [[sizes, body, leads] for body in bodies()]
    answers = ask_script("finder.js", "script.adviseSize(item[0], item[1], item[2])", items)
    for body, answer in zip(bodies(), answers, strict=True):
        advice = advise_size(file, body)
        if advice is None:
            assert answer is None
            continue
        assert answer["size"]["name"] == advice.size, body
        assert answer["score"] == pytest.approx(advice.score)
        assert answer["short"] == list(advice.short)
        found = [(m["name"], m["difference"], m["steps"]) for m in answer["misfits"]]
        assert [m[0] for m in found] == [m.measurement for m in advice.misfits]
        assert [m[1:] for m in found] == [
            pytest.approx((m.difference, m.steps)) for m in advice.misfits
        ]
    assert len({a["size"]["name"] for a in answers if a}) == 3


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("34.5", "cm", 345), ("34,5", "cm", 345), (" 18 ", "cm", 180), ("10", "in", 254),
        ("13 3/8", "in", 339.725), ("3/4", "in", 19.05), ("", "cm", None), ("ten", "cm", None),
        ("0", "cm", None), ("-3", "cm", None), ("1 2/0", "in", None), ("133/8", "in", None),
        ("1e3", "cm", None), ("1000", "mm", 1000), ("345,5", "mm", 345.5),
    ],
)  # fmt: skip
def test_lengths_are_read_as_people_write_them(ask_script, text, unit, mm):
    """Decimal point or comma, and inches with fractions; an inch is 25.4 mm (yard agreement of 1959)."""
    (found,) = ask_script("finder.js", "script.readLength(item[0], item[1])", [[text, unit]])
    assert found == (None if mm is None else pytest.approx(mm))


def test_page_hands_the_size_table_to_the_script():
    """The form holds the sizes in mm and one field for each measurement, hidden without script."""
    content, plan, pictures = sample()
    page = render_guide(content, plan, pictures, theme(), downloads())["cuff/index.html"].decode()
    form = re.search(r'<form [^>]*data-sizes="([^"]*)"[^>]* hidden>', page)
    assert json.loads(html.unescape(form[1])) == [
        {"name": "S", "href": "S/index.html", "values": {"wrist": 160}},
        {"name": "M", "href": "M/index.html", "values": {"wrist": 180}},
    ]
    assert re.findall(r'data-measure="([^"]*)"', page) == ["wrist"]
