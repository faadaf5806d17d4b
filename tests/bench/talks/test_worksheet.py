"""Talks become worksheets: nothing is lost, little is wrong, nothing is published by mistake."""

from pathlib import Path

import pytest
from benchmarks.score_talks import score_talk, talks_in, together
from samples import GUIDE, SITE, changed, write_content

from guidegen.app.commands.bench.worksheet import WorksheetOptions, make_worksheet
from guidegen.bench.talks.captions import Cue, read_cues
from guidegen.bench.talks.hearing import Heard, hear
from guidegen.bench.talks.lexicon import Lexicon, length_at, make_lexicon, plain, words_of
from guidegen.bench.talks.worksheet import make_steps
from guidegen.bench.talks.writing import worksheet_text
from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.read.trade import trade_stock
from guidegen.checks.steps.open_lines import check_open_lines
from guidegen.cli import main
from guidegen.errors import UsageError
from guidegen.problems import Severity

SPOKEN = Path(__file__).parent / "spoken"
TALKS = talks_in(SPOKEN)
SECOND = talks_in(SPOKEN / "second-writer")
LATER = talks_in(SPOKEN / "development")
THIRD = talks_in(SPOKEN / "third-writer")
UNREAD = talks_in(SPOKEN / "unread")
ANY = float("-inf")
"""No certainty is asked for: examples of a line or two show what words mean."""


@pytest.fixture(scope="module")
def lexicon() -> Lexicon:
    """The phrases of the shipped stock."""
    return make_lexicon(trade_stock())


def _heard(lexicon: Lexicon, *words: str) -> list[Heard]:
    cues = [Cue(number * 5, number * 5 + 5, said) for number, said in enumerate(words)]
    return hear(cues, lexicon, ANY)


def _things(lexicon: Lexicon, *words: str) -> list[list[str]]:
    return [[*one.materials, *one.tools] for one in _heard(lexicon, *words)]


@pytest.mark.parametrize(
    "talks",
    [TALKS, SECOND, LATER, THIRD],
    ids=["first writer", "second writer", "in eleven voices", "in thirty voices"],
)
def test_little_is_named_wrongly_and_most_is_named(talks: list[Path]) -> None:
    """Once for a talk, on talks of four writers: precision 0.95 and recall 0.7, the aims for any.

    The first five were written before the rules, by the hand that wrote the rules. The second
    five were written and annotated by another hand that knew no rules; the rules were then bettered
    on them, so neither is a measure for talks unseen. The eleven and thirty later ones stand in as
    many voices; rules were bettered on them too, and weights learned. The second writer annotates
    what is refused ("dont use scissors on this") as named; the rules leave it out, and it counts as
    missed. Line by line fewer are right: a line may name in passing what another uses.
    """
    score = together([score_talk(path) for path in talks])
    assert len(talks) in {5, 11, 30}
    assert score.by_ids.precision >= 0.95, score
    assert score.by_ids.recall >= 0.7, score
    assert score.offered.recall >= 0.9, score
    assert score.by_cue.precision >= 0.88, score
    assert score.by_cue.recall >= 0.7, score


def test_a_talk_that_no_rule_was_made_for_is_heard_as_well() -> None:
    """Once for a talk, on ten talks by a fourth hand: precision 0.95 and recall 0.7.

    Whoever makes rules or words, or learns weights, does so without these ten, and reads none of
    their mistakes: once they are read they measure nothing, and ten others are needed.
    """
    score = together([score_talk(path) for path in UNREAD])
    assert len(UNREAD) == 10
    assert score.by_ids.precision >= 0.95, score
    assert score.by_ids.recall >= 0.7, score


@pytest.mark.parametrize("talk", [*TALKS, SECOND[-1]], ids=lambda path: path.stem)
def test_no_cue_is_lost(talk: Path, lexicon: Lexicon, tmp_path: Path) -> None:
    """Each cue stands in the build file with its words and time, open where nothing was known or
    several things are possible, with those."""
    cues = read_cues(talk.read_text(encoding="utf-8"))
    heard, stock = hear(cues, lexicon), trade_stock()
    text = worksheet_text(make_steps(cues, heard, stock), stock, talk.name)
    guide = _read(tmp_path, text).guides[0].guide
    kept = [line for step in guide.steps for line in step.heard]
    assert [line.said for line in kept] == [cue.words for cue in cues]
    assert [line.open for line in kept] == [one.open for one in heard]
    assert [line.which for line in kept] == [tuple(one.maybe) for one in heard]


def _read(folder: Path, guide: str) -> Content:
    write_content(folder, site=SITE, stock="extends: trade\n", guide=guide)
    content, problems = read_what_holds(folder)
    assert content is not None, problems
    assert problems == []
    return content


def test_cautions_come_from_the_stock_alone(lexicon: Lexicon, tmp_path: Path) -> None:
    """What a talk says of danger, or that there is none, changes no caution."""
    said = ["Now the craft knife.", "No danger at all, you need no glove and no caution."]
    cues = [Cue(n * 5, n * 5 + 5, words) for n, words in enumerate([*said, "Cut along the line."])]
    stock = trade_stock()
    text = worksheet_text(make_steps(cues, hear(cues, lexicon), stock), stock, "talk.vtt")
    (first, cut) = _read(tmp_path, text).guides[0].guide.steps
    assert (first.cautions, first.waive, cut.cautions, cut.waive) == ((), (), (), ())
    assert "blade" in step_cautions(first, stock)


def test_press_and_proof_refuse_a_worksheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A worksheet is an error until nothing in it is open; errors stop a press."""
    site = write_content(tmp_path / "site", stock="extends: trade\n", guide=GUIDE)
    talk = SPOKEN / "brisk-leader.vtt"
    film = "https://video.example/bracer"
    assert main(["worksheet", str(talk), "--site", str(site), "--video", film]) == 0
    said = capsys.readouterr().out
    assert "22 lines of the talk" in said
    assert "it is a worksheet, no guide" in said
    text = (site / "brisk-leader" / "guide.yaml").read_text(encoding="utf-8")
    assert 'at: "0:36"}' in text and film in text
    content, _ = read_what_holds(site, ["brisk-leader"])
    assert content is not None
    found = [*check_open_lines(content, content.guides[0])]
    assert {problem.severity for problem in found} == {Severity.ERROR}
    told = "\n".join(map(str, found))
    assert "still to be written: Measurements and sizes" in told
    assert "of the talk open, at 0:00: Right, everybody" in told


def test_a_guide_without_open_lines_is_not_refused(tmp_path: Path) -> None:
    """Lines of a talk that were dealt with may stay beside their step."""
    line = '    heard: [{at: "0:05", said: Cut it}]\n'
    guide = changed(GUIDE, "    text: Cut along", f"{line}    text: Cut along")
    for marked, told in (
        (guide, 0),
        (changed(guide, "said: Cut it", "said: Cut it, open: true"), 1),
    ):
        content = _read(
            tmp_path, marked.replace("foam-5", "foam-6").replace("cement", "contact-cement")
        )
        assert len([*check_open_lines(content, content.guides[0])]) == told


def test_words_of_a_talk_stay_words(lexicon: Lexicon, tmp_path: Path) -> None:
    """Quotes, YAML, links and holes in a caption are kept as they were said, and do nothing."""
    said = ['"}, open: false}', "- &a [*a]: !!python/object", "[x](javascript:alert(1)) {forearm}"]
    cues = [Cue(0, 1, words) for words in said]
    stock = trade_stock()
    text = worksheet_text(make_steps(cues, hear(cues, lexicon), stock), stock, "a\nsteps: []")
    (step,) = _read(tmp_path, text).guides[0].guide.steps
    assert [line.said for line in step.heard] == said


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    """A folder of that name, and a name that leads elsewhere, are refused."""
    site = write_content(tmp_path)
    talk = SPOKEN / "plain-joiner.vtt"
    with pytest.raises(UsageError, match="is there already"):
        make_worksheet(WorksheetOptions(talk, site, "cuff"))
    with pytest.raises(UsageError, match="expected a name"):
        make_worksheet(WorksheetOptions(talk, site, "../out"))
    with pytest.raises(UsageError, match="no file"):
        make_worksheet(WorksheetOptions(tmp_path / "none.vtt", site))


@pytest.mark.parametrize(
    ("said", "things"),
    [
        ("Take the six millimetre foam.", ["foam-6"]),
        ("Take the 10mm foam.", ["foam-10"]),
        ("Take the three mil foam.", []),
        ("Take some foam.", []),
        ("Twenty-five mil webbing and a buckle, fifty.", ["webbing-25", "buckle-50"]),
        ("Two hundred and forty grit paper.", ["abrasive-240"]),
        ("Never use a heat gun here.", []),
        ("Not with scissors but with a craft knife.", ["craft-knife"]),
        ("Sew the cloth with pins in the seam, then pin the rest.", ["pins"]),
        ("Cut two millimetres off the edge of the foam.", []),
        ("Two inch webbing, and one inch elastic.", ["webbing-50", "elastic-25"]),
        ("A quarter inch of gap, half inch foam, quarter inch foam.", ["foam-6"]),
        ("Spread it with a gift card on a floor mat.", []),
        ("A knitting needle, a butter knife, a glue stick and a paint can holder.", []),
        ("The paint can dry. Brush the dust off. I felt it.", ["paint"]),
        ("Chalk is nicer on cloth. Chalk the seam, then sew.", ["tailors-chalk"]),
        ("Chalk is nicer on wood.", []),
        ("Do not pin canvas.", ["canvas"]),
        ("The lid clips on. A felt hat.", []),
        ("The belt and a fifty mil buckle.", ["buckle-50"]),
        ("Bevel is fine. Brush it.", []),
        ("Heat gun on, gloves on.", ["heat-gun", "heat-gloves"]),
        ("A knife, and gloves.", ["craft-knife", "cut-glove"]),
        ("Trim the seam with scissors.", ["fabric-scissors"]),
        ("Trim the paper with scissors.", ["paper-scissors"]),
        ("A screw driver, a gluegun.", ["screwdriver", "hot-glue-gun"]),
        ("Sand it, one twenty, then two forty.", ["abrasive-120", "abrasive-240"]),
        ("Set the rivet with a hammer, then hang the hammer up.", ["rivet-setter"]),
        ("The blade is thin.", []),
        ("The pocket knife, a knife roll, then the sharp knife.", ["craft-knife"]),
        ("Light as a feather, sharp as a needle, it cuts like a knife.", []),
        ("I like a sharp knife.", ["craft-knife"]),
        ("Do I need a screwdriver, no.", []),
        ("Do not forget the clamps.", ["clamps"]),
        ("Two layers of foam, five pieces.", []),
        ("An inch and a half of webbing. Three quarter inch foam.", []),
        ("Overlap the foam by six millimetres.", []),
        ("Pour it from a big bottle.", []),
        ("Bend it over a big bottle.", ["round-former"]),
        ("Use the brush on kind.", []),
    ],
)
def test_only_what_is_certain_is_named(lexicon: Lexicon, said: str, things: list[str]) -> None:
    """A size decides between things of one name; without one, and after a refusal, none is named."""
    assert _things(lexicon, said) == [things]


def test_a_talk_explains_itself(lexicon: Lexicon) -> None:
    """A kind that was said once is meant where its name stands alone; cues may break names."""
    assert _things(lexicon, "Now the contact", "cement, please.")[0] == ["contact-cement"]
    assert _things(lexicon, "The water-based contact cement.", "More cement.")[1] == [
        "contact-cement-water"
    ]


def test_a_size_that_is_not_said_leaves_the_line_open(lexicon: Lexicon) -> None:
    """Talks go from one foam to the other: a foam without a size may be any, likeliest the one
    that was named. A size alone means the sheets that the talk speaks of."""
    six, bare, alone = _heard(
        lexicon, "Six mil foam.", "Warm the foam.", "And a bit of the two mil."
    )
    assert (six.materials, six.open) == (["foam-6"], False)
    assert (bare.materials, bare.open) == ([], True)
    assert bare.maybe == ["foam-6", "foam-10", "foam-2", "foam-5"]
    assert alone.materials == ["foam-2"]


def test_what_is_used_tells_the_work(lexicon: Lexicon) -> None:
    """To glue is a different work with each glue; to cut without a word of the material is open."""
    heard = _heard(lexicon, "Wood glue.", "Glue the feet on.")
    assert heard[1].process == "glue-wood"
    assert _heard(lexicon, "Glue it.")[0].process == ""


def test_figures_are_heard_as_they_are_said() -> None:
    """Words and digits, tens with ones, hundreds as grits are said."""
    cases = {
        "five millimetres": 5, "10 mm": 10, "twenty five mil": 25, "one twenty grit": 120,
        "hundred mm": 100, "two hundred and forty grit": 240, "a centimetre": 10,
    }  # fmt: skip
    for said, mm in cases.items():
        length = length_at(words_of(said), 0)
        assert length is not None, said
        assert length[0] == mm, said
    assert length_at(["five", "people"], 0) is None
    assert [plain(word) for word in ("clamping", "clamped", "clamps")] == ["clamp"] * 3
