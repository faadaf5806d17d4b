"""A Saturday class of twelve, made by the command and read as its leader does: from papers alone.

Aged 14 to 60, one beyond the chart, two of uneven arms, 2 heat guns, 3 knives, 7 hours with an
hour's break, on the sample with a pair of measurements of its own for each side.
"""

import re
from collections import defaultdict
from itertools import pairwise
from math import ceil
from pathlib import Path

import pytest
from app.commands.class_papers import pages_of, rows_of
from samples import GUIDE, STOCK, changed, unplaced, write_content

from guidegen.cli import main
from guidegen.render.classes.names import handout_name
from guidegen.render.classes.pages import HANDOUT_PAGES

THEMES = Path(__file__).parents[3] / "themes"

SIDED = changed(
    changed(
        changed(
            changed(unplaced(GUIDE), "time: 20 min", "time: 40 min"), "time: 10 min", "time: 25 min"
        ),
        "  upper_girth: {name: Forearm girth, take: Around the widest part., least: 150, most: 500}\n",
        "  upper_left: {name: 'Forearm girth, left', take: Around it., least: 150, most: 500}\n"
        "  upper_right: {name: 'Forearm girth, right', take: Around it., least: 150, most: 500}\n",
    ),
    "sizes:\n",
    "sides: {upper_girth: [upper_left, upper_right]}\nsizes:\n",
)
HOT = """\
  hot:
    word: WARNING
    title: Hot air
    short: Nozzle moving, never at a hand
    hazard: The air is several hundred degrees hot.
    consequence: Burns.
    avoid: Keep the nozzle moving, never towards a hand.
    young: adults
"""
SHARED = changed(
    changed(
        changed(
            STOCK,
            "knife: {name: Craft knife, cautions: [blade]}",
            "knife: {name: Craft knife, shared-by: 2, turns: true, cautions: [blade]}\n"
            "  gun: {name: Heat gun, shared-by: 6, turns: true, cautions: [hot]}",
        ),
        "how: Warm and bend.",
        "how: Warm and bend., tools: [gun]",
    ),
    "cautions:\n  blade:",
    f"cautions:\n{HOT}  blade:",
)
PEOPLE = """\
Ada: {size: M, age: 14, brings: [apron]}
Ben: {size: S, age: 60}
Cleo: {upper_left: 262, upper_right: 281, lower_girth: 165, age: 31}
Dora: {upper_left: 272, upper_right: 254, lower_girth: 170, age: 33}
Emil: {upper_girth: 330, lower_girth: 205, age: 45}
Finn: {size: M, age: 17}
Gwen: M
Hugo: S
Ines: {size: M, age: 52}
Jonas: S
Kim: M
Lou: {size: S, age: 20}
"""
NAMES = tuple(line.split(":")[0] for line in PEOPLE.splitlines())
YOUNG = ("Ada", "Finn")
OWN = {"Cleo": (262, 281), "Dora": (272, 254), "Emil": (330, 330)}
"""Girths of the left and the right arm of those who are made to measure."""
BREAK = (180, 240)
"""minutes from 9:00."""
STEPS = {
    "Cut the pieces": ("knife", "Cut along the lines.", {"Sharp blade"}),
    "Bend the cuff": ("gun", "Warm it and bend it.", {"Hot air"}),
    "Glue the cuff": ("", "Coat both faces, wait, join.", {"Flammable vapour"}),
    "Paint": ("", "Two thin coats.", {"Wet paint"}),
}
"""Title: the tool that is kept through it, its action, and the cautions that the stock brings."""
SHORT = {
    "Sharp blade": "Cut away from yourself, sharp blade only",
    "Hot air": "Nozzle moving, never at a hand",
    "Flammable vapour": "Work outdoors, no flame",
    "Wet paint": "Keep paint off your face",
}
"""What stands with a step of a caution whose full words stand before it."""


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The papers. Cutting and bending take long enough that work goes on after the break."""
    folder = tmp_path_factory.mktemp("twelve")
    content = write_content(folder / "content", guide=SIDED, stock=SHARED)
    (folder / "people.yaml").write_text(PEOPLE, encoding="utf-8")
    options = ["class", "cuff", "--content", str(content), "--out", str(folder / "out")]
    options += ["--themes", str(THEMES), "--nesting-time", "0", "--quiet"]
    options += ["--people", str(folder / "people.yaml"), "--sure", "Emil"]
    options += ["--tools", "gun=2", "knife=3", "--helpers", "1"]
    options += ["--start", "9:00", "--end", "16:00", "--break", "12:00-13:00"]
    assert main(options) == 0
    return folder / "out"


def test_a_class_of_twelve_runs_from_its_papers(out: Path) -> None:
    """Nobody is in two places or works in the break, no tool is used by more than there are of it,
    nobody young does an adult's step, every kit gets every step after the one before it; all
    cautions stand before their actions on every paper that has the action; and everybody has
    templates: a set for each size with spares, an own set for who is beyond the chart and for the
    two whose arms differ, with both sides of their own."""
    _assert_times_hold(out)
    _assert_cautions_in_place(out)
    _assert_templates_there(out)


def _assert_times_hold(out: Path) -> None:
    rows = rows_of(out)
    lanes: dict[str, list[tuple[int, int]]] = defaultdict(list)
    done: dict[tuple[str, str], tuple[int, int]] = {}
    for row in (row for row in rows if row["section"] == "time"):
        who, span = row["name"], (int(row["start min"]), int(row["end min"]))
        told = re.fullmatch(r"(.+?)(?: \(helps (\d+)\))?", row["note"])
        assert told is not None
        step, whose = told[1], NAMES[int(told[2]) - 1] if told[2] else who
        lanes[who].append(span)
        assert (whose, step) not in done
        done[whose, step] = span
        if step == "Bend the cuff":
            assert who not in YOUNG
        assert span[1] <= BREAK[0] or span[0] >= BREAK[1]
        assert span[1] <= 7 * 60
    assert any(start >= BREAK[1] for start, _ in done.values())
    assert set(done) == {(name, step) for name in NAMES for step in STEPS}
    for spans in lanes.values():
        assert all(one[1] <= after[0] for one, after in pairwise(sorted(spans)))
    for name in NAMES:
        # All steps of the sample are on the cuff: each is over when the next begins.
        in_order = [done[name, step] for step in STEPS]
        assert all(one[1] <= after[0] for one, after in pairwise(in_order))
    for tool, count in (("knife", 3), ("gun", 2)):
        using = [span for (_, step), span in done.items() if STEPS[step][0] == tool]
        most = max(sum(one[0] <= start < one[1] for one in using) for start, _ in using)
        # As many as there are: the class would use more at once.
        assert most == count


def _assert_cautions_in_place(out: Path) -> None:
    order = [(row["section"], row["name"].split(": ")[-1]) for row in rows_of(out)]
    for step, (_, _, cautions) in STEPS.items():
        at = order.index(("step", step))
        before = order[at - len(cautions) : at]
        assert set(before) == {("caution", title) for title in cautions}
    for number, name in enumerate(NAMES):
        pages = pages_of(out / handout_name(number, name))
        assert len(pages) <= HANDOUT_PAGES
        for _, action, cautions in STEPS.values():
            (page,) = [text for text in pages if action in text]
            said = page[: page.index(action)]
            assert all(SHORT[title] in said or _full(title) in said for title in cautions), name
    leader = " ".join(pages_of(out / "leader.pdf"))
    assert all(_full(title) in leader for title in SHORT)
    cards = pages_of(out / "stations.pdf")
    for step, (_, _, cautions) in STEPS.items():
        (card,) = [text for text in cards if step in text]
        # Its steps are listed at its foot.
        assert all(card.index(_full(title)) < card.rindex(step) for title in cautions)
    consent = " ".join(pages_of(out / "consent.pdf"))
    assert all(title in consent for title in SHORT)


def _full(title: str) -> str:
    """What to do, as the full caution says it."""
    found = re.search(rf"title: {title}\n.*?avoid: (.*?)\n", SHARED, re.S)
    assert found is not None
    return found[1]


def _assert_templates_there(out: Path) -> None:
    sets = {path.name: pages_of(path) for path in out.glob("templates-*.pdf")}
    own = {name: f"templates-{NAMES.index(name) + 1:02}-{name.lower()}-a4.pdf" for name in OWN}
    assert set(sets) == {"templates-M-a4.pdf", "templates-S-a4.pdf", *own.values()}
    listed = " ".join(pages_of(out / "beforehand.pdf")).replace("- ", "-")
    for file, pages in sets.items():
        text = " ".join(pages)
        assert "Cuff" in text and "Plate" in text and "50 mm" in text
        copies = re.search(rf"{file} (\d+) cop", listed)
        assert copies is not None
        # One of a size for each who builds it and one spare for six; of an own kit one.
        size = file.split("-")[1]
        builders = len(re.findall(rf": (?:{{size: )?{size}\b", PEOPLE))
        assert int(copies[1]) == (builders + ceil(builders / 6) if builders else 1)
    for name, (left, right) in OWN.items():
        number = NAMES.index(name) + 1
        text = " ".join(sets[own[name]])
        assert f"{number}, {name}, table {(number - 1) // 6 + 1}" in text
        handout = " ".join(pages_of(out / handout_name(number - 1, name)))
        assert f"{left} mm" in handout and f"{right} mm" in handout
        # Left and right are listed apart where they differ.
        cuffs = re.findall(r"(AL, AR|AL|AR) Cuff Foam", handout)
        assert cuffs == (["AL", "AR"] if left != right else ["AL, AR"])
