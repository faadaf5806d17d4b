"""The class command, from the command line to the files."""

from pathlib import Path

import openpyxl
import pikepdf
import pytest
from app.commands.class_papers import pages_of, rows_of
from pdf_oxide import PdfDocument
from pdfua import validate
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.commands import workshop
from guidegen.app.commands.workshop import CUT_PLANS
from guidegen.cli import main
from guidegen.errors import UsageError
from guidegen.render.classes.names import handout_name
from guidegen.render.classes.pages import HANDOUT_PAGES

THEMES = Path(__file__).parents[3] / "themes"
FOUND = Path(__file__).parents[3] / "content" / "slipway-marshal" / "plans" / "M.json"
"""Cut plans as a run keeps them."""


FLAT = unplaced(GUIDE)
"""The sample where a test is about something else than what is drawn of a body."""


def _run(folder: Path, *more: str, guide: str = GUIDE) -> int:
    content = write_content(folder / "content", guide=guide)
    arguments = ["class", "cuff", "--content", str(content), "--out", str(folder / "out")]
    arguments += ["--themes", str(THEMES), "--nesting-time", "0", "--quiet"]
    return main([*arguments, *more])


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A class of three: by size, made to measure, and by count."""
    folder = tmp_path_factory.mktemp("class")
    people = folder / "people.yaml"
    people.write_text(
        "Robin <b>: M\n'Kim: =1+1 ../../x': {forearm: 27 cm, wrist: 165}\n", encoding="utf-8"
    )
    have = folder / "have.yaml"
    have.write_text("foam-10: [{width: 300, height: 200}]\nbuckle: 2\n", encoding="utf-8")
    options = ["--people", str(people), "--count", "S=1", "--hours", "1", "--have", str(have)]
    options += ["--tools", "knife=2", "--helpers", "1"]
    options += ["--start", "9:30", "--break", "9:50-10:00"]
    assert _run(folder, *options) == 0
    return folder


def test_a_class_by_names(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file of names gives one list, numbered people, tools, steps and the cost of each; cut plans
    that a run has searched for are there for the next one."""
    people = tmp_path / "people.yaml"
    people.write_text("Robin: M\nKim: S\n", encoding="utf-8")
    kept = FOUND.read_text(encoding="utf-8")
    monkeypatch.setattr(workshop, "load_plans", {tmp_path / "out" / CUT_PLANS: kept}.__getitem__)
    assert _run(tmp_path, "--people", str(people), "--hours", "1", guide=FLAT) == 0
    assert (tmp_path / "out" / CUT_PLANS).read_text(encoding="utf-8") == kept
    assert "class of 2" in capsys.readouterr().out
    rows = rows_of(tmp_path / "out")
    named = [(row["name"], row["note"]) for row in rows if row["section"] == "person"]
    assert named == [("Robin", "size M, pieces marked 1"), ("Kim", "size S, pieces marked 2")]
    bought = sum(float(row["cost"]) for row in rows if row["section"] == "buy")
    totals = [float(row["cost"]) for row in rows if row["section"] == "total"]
    assert totals == [pytest.approx(bought), pytest.approx(bought / 2, abs=0.005)]
    steps = [row["name"] for row in rows if row["section"] == "step"]
    assert steps[0] == "Cut the pieces"
    assert {row["section"] for row in rows} >= {"tool", "buy"}


def test_cautions_stand_before_their_steps(made: Path) -> None:
    """The list begins with what comes before it, and no step stands before its cautions."""
    rows = rows_of(made / "out")
    assert rows[0]["section"] == "first"
    assert "data sheet" in rows[0]["note"]
    order = [(row["section"], row["name"]) for row in rows]
    cement, glue = (
        order.index(("caution", "DANGER: Flammable vapour")),
        order.index(("step", "Glue the cuff")),
    )
    assert cement == glue - 1
    assert "no flame" in rows[cement]["note"]


def test_same_class_same_bytes(tmp_path: Path) -> None:
    """The same class gives the same files."""
    made = []
    for name in ("a", "b"):
        assert _run(tmp_path / name, "--count", "M=1", guide=FLAT) == 0
        out = tmp_path / name / "out"
        made.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert made[0] == made[1]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ((), "tell who takes part"),
        (("--count", "XM=2"), 'no size "XM"'),
        (("--count", "M=x"), "such as M=5"),
        (("--count", "M=0"), "such as M=5"),
        (("--count", "M=60", "--count", "S=1"), "61 people are too many"),
        (("--count", "M=1", "--tools", "knive=2"), 'no tool "knive"; did you mean "knife"'),
        (("--count", "M=1", "--helpers", "-1"), "from 0 to"),
        (("--count", "M=1", "--tools", "knife"), "such as heat-gun=2"),
        (("--count", "M=1", "--tools", "knife=1001"), "from 0 to"),
        (("--count", "M=1", "--tools", "knife=0"), "take one: cut;"),
        (("--count", "M=1", "--beforehand", "cutt"), 'did you mean "cut"'),
        (("--count", "M=1", "--beforehand", "glue"), "these steps come before it: cut, bend"),
        (("--count", "M=1", "--tools", "knife=1", "knife=2"), "told twice"),
    ],
)
def test_wrong_classes_are_told_in_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...], words: str
) -> None:
    """Unknown sizes and numbers that are none end in status 2 without a traceback."""
    assert _run(tmp_path, *more) == 2
    error = capsys.readouterr().err
    assert words in error
    assert not (tmp_path / "out").exists()


def test_a_wrong_size_in_the_file_has_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The line of the person with an unknown size is told."""
    people = tmp_path / "people.yaml"
    people.write_text("Robin: M\nKim: Q\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people)) == 2
    assert 'people.yaml:2:6  Kim: there is no size "Q"' in capsys.readouterr().err


def test_doubtful_bodies_stop_a_class(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Measurements that look wrong are told with their place, and taken as they are with --sure;
    one that is missing stops even then."""
    people = tmp_path / "people.yaml"
    people.write_text("Kim: {forearm: 170, wrist: 168}\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people)) == 2
    assert "people.yaml:1:6  " in capsys.readouterr().err
    people.write_text("Kim: {forearm: 270}\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people), "--sure") == 2
    assert "wrist" in capsys.readouterr().err


def test_one_person_is_sure(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """--sure with a name waives the doubts about that person, in a table too, and nobody else's;
    a name of nobody and a workbook are told."""
    people = tmp_path / "people.csv"
    people.write_text("name,forearm,wrist\nKim,170,168\nLou,170,168\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people), "--sure", "Kim") == 2
    error = capsys.readouterr().err
    assert "people.csv:3" in error and "people.csv:2" not in error and "--sure NAME" in error
    assert _run(tmp_path, "--people", str(people), "--sure", "Kin") == 2
    assert 'nobody is called "Kin"; did you mean "Kim"?' in capsys.readouterr().err
    assert _run(tmp_path, "--people", str(tmp_path / "people.ods")) == 2
    assert "save it as .xlsx or CSV" in capsys.readouterr().err


def test_workbook_and_list_agree(made: Path) -> None:
    """class.xlsx has the packs, costs and totals of class.csv, its totals as formulas; a name that
    looks like a formula stays a text."""
    rows = rows_of(made / "out")
    path = made / "out" / "class.xlsx"
    values = openpyxl.load_workbook(path, data_only=True)["Shopping"]
    formulas = openpyxl.load_workbook(path)["Shopping"]
    bought = [row for row in rows if row["section"] == "buy"]
    head = next(n for n in range(1, values.max_row) if values.cell(n, 2).value == "Material")
    at = {values.cell(head, n).value: n for n in range(1, values.max_column + 1)}
    for number, row in enumerate(bought, head + 1):
        found = [values.cell(number, at[name]).value for name in ("Material", "Pack", "Buy packs")]
        assert found == [row["name"], row["pack"], float(row["buy"])]
        assert values.cell(number, at["Cost"]).value == pytest.approx(float(row["cost"]))
    totals = [float(row["cost"]) for row in rows if row["section"] == "total"]
    last = head + len(bought) + 1
    assert values.max_row == last + 1
    assert values.cell(last, at["Cost"]).value == pytest.approx(totals[0])
    assert values.cell(last + 1, at["Cost"]).value == pytest.approx(totals[1], abs=0.005)
    cost = values.cell(last, at["Cost"]).column_letter
    assert formulas.cell(last, at["Cost"]).value == f"=SUM({cost}{head + 1}:{cost}{last - 1})"
    assert formulas.cell(last + 1, at["Cost"]).value == f"={cost}{last}/3"
    people = openpyxl.load_workbook(path)["People"]
    assert people.cell(3, 2).value == "Kim: =1+1 ../../x" and people.cell(3, 2).data_type == "s"
    slots = [row for row in rows if row["section"] == "time"]
    assert openpyxl.load_workbook(path)["Time table"].max_row == len(slots) + 1


def test_what_is_at_hand_is_not_bought(made: Path) -> None:
    """Six buckles are needed, two are there: four are bought; all discs come from the offcut."""
    bought = [row for row in rows_of(made / "out") if row["section"] == "buy"]
    buckles = sum(int(row["buy"]) * float(row["pack amount"]) for row in bought
                  if row["name"].startswith("Buckle"))  # fmt: skip
    assert buckles == 4
    assert not [row for row in bought if row["name"].startswith("Foam mat")]


def test_documents_of_a_class(made: Path) -> None:
    """Leader, stations and every person have a document, under names that every system keeps."""
    names = {path.name for path in (made / "out").iterdir()}
    assert {"leader.pdf", "stations.pdf", "consent.pdf", "class.csv", "class.xlsx"} <= names
    handouts = sorted(name for name in names if name.startswith("handout-"))
    assert handouts == ["handout-01-robin-b.pdf", "handout-02-kim-1-1-x.pdf", "handout-03-s-1.pdf"]
    assert all(len(pages_of(made / "out" / name)) <= HANDOUT_PAGES for name in handouts)
    kim = " ".join(pages_of(made / "out" / handouts[1]))
    assert "Kim: =1+1 ../../x" in kim and "made to measure" in kim and "270 mm" in kim
    assert "Robin <b>" in " ".join(pages_of(made / "out" / handouts[0]))
    leader = " ".join(pages_of(made / "out" / "leader.pdf"))
    assert (
        "The class takes 1 h 55 min: 55 min more than its 1 h. By the clock: 9:30 to 11:25."
        in leader
    )
    assert "Paint" in leader and "Tables" in leader and "You answer for the room." in leader


def test_everybody_has_templates(made: Path) -> None:
    """A set for each size, and one for who is made to measure with name, number and table; what is
    done before lists each with its pages and how many to print, one of six spare."""
    out = made / "out"
    sets = sorted(path.name for path in out.glob("templates-*"))
    assert sets == ["templates-02-kim-1-1-x-a4.pdf", "templates-M-a4.pdf", "templates-S-a4.pdf"]
    kim = " ".join(pages_of(out / sets[0]))
    assert "2, Kim: =1+1 ../../x, table 1" in kim
    listed = " ".join(pages_of(out / "beforehand.pdf"))
    for name, printed in zip(sets, ("1 copy", "2 copies, 1 of them spare"), strict=False):
        pages = len(pages_of(out / name))
        assert f"{name} {printed} {pages} pages" in listed.replace("- ", "-")
    assert "Goggles" in listed and "consent.pdf: 3 copies" in listed
    assert "handouts: 3, one sheet each, both sides" in listed


def test_what_a_leader_says_and_looks_at(made: Path) -> None:
    """The time table tells each caution once, in one line, as the step that brings it begins; and
    how it goes when two stay away is told only where enough are left."""
    (page,) = [text for text in pages_of(made / "out" / "leader.pdf") if "What to say" in text]
    said = page[page.index("What to say") :]
    assert said.count("Cut away from yourself, sharp blade only") == 1
    assert said.index("Cut the pieces") < said.index("Cut away from yourself")
    assert "stay away" not in " ".join(pages_of(made / "out" / "leader.pdf"))


def test_a_handout_shows_what_it_will_be(made: Path) -> None:
    """At its head stands the thing in the person's size, with words for those who cannot see it."""
    handouts = sorted((made / "out").glob("handout-*.pdf"))
    assert handouts
    for path in handouts:
        with pikepdf.open(path) as pdf:
            said = [str(one.Alt) for one in pdf.objects if _has_alt(one)]
        assert any("The finished thing as it is worn" in words for words in said), path


def _has_alt(thing: pikepdf.Object) -> bool:
    return isinstance(thing, pikepdf.Dictionary) and "/Alt" in thing


def test_every_caution_stands_before_its_action_in_all_documents(made: Path) -> None:
    """In each handout a step's cautions stand on its page, before it; the leader has all in full;
    a station card begins with them."""
    out = made / "out"
    for path in sorted(out.glob("handout-*.pdf")):
        (page,) = [text for text in pages_of(path) if "Coat both faces, wait, join." in text]
        # The panel at the beginning of the sheet may stand on this page too: the last of each counts.
        action = page.index("Coat both faces, wait, join.")
        at = [page.rindex(part, 0, action) for part in (
            "DANGER", "Solvent vapour burns.", "Flash fire.", "Work outdoors, no flame.",
        )]  # fmt: skip
        assert at == sorted(at)
    leader = " ".join(pages_of(out / "leader.pdf"))
    for part in ("Solvent vapour burns.", "Flash fire.", "Work outdoors, no flame.",
                 "The blade is very sharp.", "Press on the wound"):  # fmt: skip
        assert part in leader
    (card,) = [text for text in pages_of(out / "stations.pdf") if "Coat both faces." in text]
    assert card.index("Work outdoors, no flame.") < card.index("Coat both faces.")


def test_documents_are_accessible(made: Path) -> None:
    """Two checkers of PDF/UA-1 (ISO 14289-1) find nothing in the documents of a class."""
    papers = ("leader", "stations", "consent", "beforehand", "handout-02-kim-1-1-x")
    for name in (f"{paper}.pdf" for paper in papers):
        path = made / "out" / name
        assert [found.message for found in validate(path).findings] == []
        assert PdfDocument(str(path)).validate_pdf_ua()["errors"] == []


def test_a_file_name_for_every_name() -> None:
    """Signs and letters that a system may not keep leave the number alone."""
    assert handout_name(0, "Zoë O'Neil") == "handout-01-zoe-o-neil.pdf"
    assert handout_name(11, "../..") == "handout-12.pdf"
    assert handout_name(1, "李") == "handout-02.pdf"
    assert len(handout_name(1, "x" * 300)) < 60


def test_steps_before_the_class_are_for_the_leader(tmp_path: Path) -> None:
    """A step that the author marks stands in full with its cautions on the sheets for before the
    class, with its time for all kits, and in no handout. In a class of two days each has its times
    on the handout, and its time table and its evening on the leader's sheets."""
    content = write_content(
        tmp_path / "content",
        guide=changed(FLAT, "    stage: cutting\n", "    stage: cutting\n    beforehand: true\n"),
    )
    options = ["class", "cuff", "--content", str(content), "--out", str(tmp_path / "out")]
    options += ["--themes", str(THEMES), "--nesting-time", "0", "--quiet", "--count", "M=1"]
    # On two days: the paint dries in the night between.
    options += ["--day", "Fri 18:00-18:40", "--day", "9:30-12:00"]
    assert main(options) == 0
    handout = " ".join(pages_of(tmp_path / "out" / "handout-01-m-1.pdf"))
    assert "Cut along the lines." not in handout and "Done for you before the class" in handout
    assert handout.index("Fri, 18:00 to 18:40") < handout.index("day 2, 9:30 to 12:00")
    leader = " ".join(pages_of(tmp_path / "out" / "leader.pdf"))
    assert "fits its 2 days" in leader
    evening = leader[leader.index("In the evening") :]
    assert evening.index("Before you lock up") < evening.index("day 2, 9:30 to 12:00")
    assert "Fri: Who does what when" in leader and "day 2: Who does what when" in leader
    pages = pages_of(tmp_path / "out" / "beforehand.pdf")
    (page,) = [text for text in pages if "Cut along the lines." in text]
    assert page.index("The blade is very sharp.") < page.index("Cut along the lines.")
    assert "About 20 min of work for 1 adult" in page
    steps = [row for row in rows_of(tmp_path / "out") if row["section"] == "step"]
    assert [row["note"] for row in steps] == ["before the class", "", "", ""]


def _german(folder: Path) -> Path:
    """The sample with a translation of its title, in a site that speaks German too."""
    site = SITE + "papers: [a4]\nlanguages: [en, de]\n"
    content = write_content(folder / "content", site=site, guide=FLAT)
    (content / "cuff" / "guide.de.yaml").write_text("title: Probestulpe\n", encoding="utf-8")
    return content


def test_a_class_in_another_language(tmp_path: Path) -> None:
    """With --language de the papers of a class are German, down to the heads of its list."""
    _german(tmp_path)
    options = ["class", "cuff", "--content", str(tmp_path / "content"), "--themes", str(THEMES)]
    options += ["--out", str(tmp_path / "out"), "--count", "M=1", "--nesting-time", "0", "--quiet"]
    assert main([*options, "--language", "de"]) == 0
    leader = " ".join(pages_of(tmp_path / "out" / "leader.pdf"))
    assert "Probestulpe" in leader
    assert "Zeitplan" in leader


@pytest.mark.parametrize(
    ("command", "language", "said"),
    [
        (["class", "cuff", "--count", "M=1"], "fr", 'does not speak "fr"; there are: de, en'),
        (["fit", "cuff", "--measure", "upper_girth=27cm"], "dee", 'did you mean "de"?'),
        (["class", "cuff", "--count", "M=1"], "de", '"cuff" has no guide.de.yaml'),
    ],
)
def test_a_language_that_is_not_there(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    command: list[str],
    language: str,
    said: str,
) -> None:
    """A language of no site, or one that the guide lacks, is told in words, and nothing is made."""
    content = _german(tmp_path)
    if "no guide" in said:
        (content / "cuff" / "guide.de.yaml").unlink()
    options = ["--content", str(content), "--themes", str(THEMES), "--out", str(tmp_path / "out")]
    assert main([*command, *options, "--language", language]) == UsageError.status
    assert said in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
