"""Living numbers in a small guide: filled in each size, dead ones told with their place."""

import json
from types import SimpleNamespace

import pytest
from samples import GUIDE, changed, write_content

from guidegen.app.jobs.findings import find_problems
from guidegen.buildfile.living.holes import parse_living
from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.checks.texts.living import dead_ask
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.schedules import Schedule
from guidegen.problems import Severity, collect
from guidegen.render.text.living import guide_in_size, plan_for_all, settle, settle_plain
from guidegen.words import ENGLISH, SPACE

TEXT = "Warm it and bend it."


def findings(tmp_path, text, guide=GUIDE):
    """Findings of a guide whose second step has `text`."""
    content, read = read_what_holds(
        write_content(tmp_path, guide=changed(guide, TEXT, json.dumps(text)))
    )
    kits, problems = find_problems(content, read)
    return content, kits, problems


def test_words_have_the_numbers_of_their_size(tmp_path):
    """A value, an edge and a count are each size's own; the length of an edge is the finished."""
    text = "{top} wide, {edge(cuff, top) : bare} to {edge(cuff, bottom)}, {pieces(plate) : count} plates"
    content, kits, problems = findings(tmp_path, text)
    assert [str(p) for p in problems if p.severity is Severity.ERROR] == []
    said = [
        guide_in_size(content.guides[0].guide, kit, ENGLISH).steps[1].text for kit in kits["cuff"]
    ]
    # girth + 2 pi (3 + 2.5) + 20 of ease: 34.56 + 20 = 54.56 mm more than the dimension.
    assert said == [
        f"270{SPACE}mm wide, 325 to 215{SPACE}mm, 2 plates",
        f"300{SPACE}mm wide, 355 to 235{SPACE}mm, 2 plates",
    ]


def test_a_page_of_all_sizes_names_the_size_of_each_number(tmp_path):
    """Spans carry the sizes, for the script; in attributes and titles stand plain words."""
    content, kits, _ = findings(tmp_path, "{top}, {room}")
    sizes = tuple(SizePlan(kit) for kit in kits["cuff"])
    plan = GuidePlan(content.guides[0], sizes, (), Schedule(1, ()))
    text = plan_for_all(plan, ENGLISH).file.guide.steps[1].text
    assert settle_plain(text, ENGLISH) == (f"270{SPACE}mm (S), 300{SPACE}mm (M), 20{SPACE}mm")
    page = settle(f'<p title="{text}">{text}</p>', ENGLISH)
    assert f'title="270{SPACE}mm (S), 300{SPACE}mm (M), 20{SPACE}mm"' in page
    assert (
        f'<span data-in-sizes="M"><span class="length" data-mm="300">300{SPACE}mm</span>'
        '<span class="of-size"> (M)</span></span></span>, 20' in page
    )
    assert "\ue000" not in page


OTHERS = ("strips", "linkages", "circuits", "casings")
"""Tables of a guide that no question of the test below names by itself."""


@pytest.mark.parametrize(
    ("asked", "kind", "what"),
    [
        ("width(cuf)", "part", "cuff"),
        ("marks(closin)", "seam", "closing"),
        ("post(rivet)", "fastening", "rivets"),
        ("cut(strp)", "strap", "strop"),
        ("strip(tap)", "strip", "tape"),
        ("opens(elbo)", "linkage", "elbow"),
        ("ohms(lam)", "circuit", "lamp"),
    ],
)
def test_each_question_looks_in_its_own_table(asked, kind, what):
    """A thing of a guide that is not there, with the nearest of its kind."""
    names = {"part": "parts", "seam": "seams", "fastening": "fastenings", "strap": "straps"}
    guide = SimpleNamespace(**{table: {} for table in (*names.values(), *OTHERS)})
    setattr(guide, names.get(kind, f"{kind}s"), {what: None})
    (ask,) = parse_living(asked).asks
    assert dead_ask(ask, guide) == f'no {kind} "{ask.names[0]}"; did you mean "{what}"?'
    setattr(guide, names.get(kind, f"{kind}s"), {ask.names[0]: None})
    assert dead_ask(ask, guide) == ""


def test_dead_names_are_errors_with_a_place(tmp_path):
    """A name that is none, a part that is none and an edge that is none: one message each."""
    for text, code, message in (
        ("{tup}", "living-number", 'no measurement or value "tup"; did you mean "top"?'),
        ("{edge(cuf, top)}", "living-number", 'no part "cuf"; did you mean "cuff"?'),
        ("{edge(cuff, tap)}", "living-value", 'no edge of cuff "tap"; did you mean "top"?'),
        ("{top/40 : count}", "living-value", "expected a whole number, found 6.75"),
    ):
        _, _, problems = findings(tmp_path, text)
        (found,) = [p for p in problems if p.severity is Severity.ERROR]
        assert (found.code, found.path) == (code, "steps[1].text")
        assert message in found.message


def test_a_title_holds_no_number(tmp_path):
    """Titles stand in lists of all sizes; a brace that means nothing may stand there."""
    guide = changed(GUIDE, "title: Bend the cuff", 'title: "Bend to {top}"')
    _, _, problems = findings(tmp_path, TEXT, guide)
    (found,) = [p for p in problems if p.severity is Severity.ERROR]
    assert (found.code, found.path) == ("living-number", "steps[1].title")


def test_a_bare_length_that_is_right_in_one_size_is_listed(tmp_path):
    """270 mm is the value in S only; what is equal in every size, or in none, is not told."""
    _, _, problems = findings(tmp_path, "Bend it to 270 mm, 20 mm more than 111 mm.")
    (found,) = [p for p in problems if p.code == "bare-number"]
    assert found.message == "270 mm is {top} in size S only"
    assert found.severity is Severity.ADVICE


def test_a_translation_has_living_numbers_of_its_own(tmp_path):
    """The holes of a translation are read and checked in its own file."""
    folder = write_content(tmp_path, site="title: T\npublisher: P\nlanguages: [en, de]\n")
    (folder / "cuff" / "guide.de.yaml").write_text(
        "steps: {bend: {text: 'Auf {tup} biegen.'}}\n", encoding="utf-8"
    )
    for name in ("site", "stock"):
        (folder / f"{name}.de.yaml").write_text("{}\n", encoding="utf-8")
    content, found = read_what_holds(folder)
    content, more = collect(read_translations(folder, content))
    _, problems = find_problems(content, found + more)
    (found,) = [p for p in problems if p.code == "living-number"]
    assert found.place.file.endswith("guide.de.yaml")
    assert found.path == "steps.bend.text"
