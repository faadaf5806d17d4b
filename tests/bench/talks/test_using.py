"""What a talk names is told from what its maker uses: denials, others' ways, words that stand in."""

import pytest
from benchmarks.score_talks import Counts, Score, together

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.certainty import certainty, counted_words, trust
from guidegen.bench.talks.hearing import Heard, hear, signs_by_thing
from guidegen.bench.talks.lexicon import Lexicon, make_lexicon
from guidegen.bench.talks.phrases import find_mentions
from guidegen.bench.talks.settling import said_things
from guidegen.bench.talks.spoken import talk_of
from guidegen.buildfile.read.trade import trade_stock

ANY = float("-inf")
"""No certainty is asked for: examples of a line or two show what words mean."""


@pytest.fixture(scope="module")
def lexicon() -> Lexicon:
    """The phrases of the shipped stock."""
    return make_lexicon(trade_stock())


def _heard(lexicon: Lexicon, said: str) -> list[Heard]:
    """What each cue names; a stroke ends a cue."""
    cues = [Cue(n * 5, n * 5 + 5, words.strip()) for n, words in enumerate(said.split("|"))]
    return hear(cues, lexicon, ANY)


def _named(lexicon: Lexicon, said: str) -> list[list[str]]:
    return [sorted([*one.materials, *one.tools]) for one in _heard(lexicon, said)]


@pytest.mark.parametrize(
    "said",
    [
        "Some people use hot glue for this.",
        "A lot of makers swear by | a heat gun | for that step.",
        "My husband uses a scalpel.",
        "I tried hot glue.",
        "I used to use a rotary tool for this bit.",
        "The last one I made with PVA and it peeled.",
        "I was going to use a heat gun, but I bent it cold.",
        "Hot glue would be faster.",
        "Hot glue won't hold here.",
        "I find hot glue too messy.",
        "You could use a rotary tool, but I just sand it by hand.",
        "Normally you'd use a heat gun.",
        "Someone asked whether I use a rotary tool.",
        "Can I use hot glue? You can, and it melts.",
        "Superglue works too.",
        "A friend of mine does hers with canvas.",
        "In the old days we did this with white glue.",
        "Hot glue hisses. I don't care for it.",
        "Some of you will say use a heat gun.",
    ],
)
def test_what_is_only_spoken_of_is_left_open(lexicon: Lexicon, said: str) -> None:
    """Others' ways, what was given up, what would be and what is dismissed name nothing; the author
    is asked."""
    heard = _heard(lexicon, said)
    assert not any([*one.materials, *one.tools] for one in heard)
    assert any(one.maybe for one in heard)


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("You don't need a sewing machine, a heat gun or any special glue.", []),
        ("Do I need a heat gun? No.", []),
        ("Don't even think about using super glue.", []),
        ("Nobody needs a rotary tool for this.", []),
        ("I don't bother with | a cutting mat.", []),
        ("Use clamps instead of tape.", ["clamps"]),
        ("Instead I grab the cutting mat.", ["cutting-mat"]),
        ("No, I mean the primer.", ["primer"]),
        ("I couldn't do this without my sanding block.", ["sanding-block"]),
        ("Don't just use the filler, sand it.", ["filler"]),
        ("If you haven't got a heat gun, wait.", ["heat-gun"]),
        ("We're going to use the coping saw.", ["coping-saw"]),
        ("My mum gave me these fabric scissors.", ["fabric-scissors"]),
        ("It's not paint, it's primer.", ["primer"]),
    ],
)
def test_a_denial_reaches_over_its_sentence_and_no_further(
    lexicon: Lexicon, said: str, named: list[str]
) -> None:
    """What is refused is not named, over the end of a cue too; what is asked for is."""
    assert sorted(name for one in _named(lexicon, said) for name in one) == named


def test_use_is_a_property_of_the_talk(lexicon: Lexicon) -> None:
    """What is used somewhere is named there, and not where it is doubted or refused."""
    assert _named(lexicon, "People say use primer first. | I use primer. | No primer here.") == [
        [],
        ["primer"],
        [],
    ]


def test_captions_without_stops_end_sentences_at_cues(lexicon: Lexicon) -> None:
    """A way of others ends with its cue where no full stop tells, unless the cue ends in a word
    that wants another."""
    assert _named(lexicon, "my wife does this step | super glue on the edge") == [
        [],
        ["instant-glue"],
    ]
    assert _named(lexicon, "people use the | super glue on the edge") == [[], []]


@pytest.mark.parametrize(
    ("said", "named"),
    [
        # The noun stands in the later cue.
        ("Six mil | foam for the base.", [[], ["foam-6"]]),
        ("I need webbing | twenty-five mil wide.", [["webbing-25"], []]),
        ("Foam. | It's six mil.", [[], ["foam-6"]]),
        ("Foam. | A sheet of the six, please.", [[], ["foam-6"]]),
    ],
)
def test_a_size_and_its_noun_may_stand_in_two_cues(
    lexicon: Lexicon, said: str, named: list[list[str]]
) -> None:
    """The end of a cue parts no size from its noun."""
    assert _named(lexicon, said) == named


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("White glue. Super glue. | Put the glue on.", [["instant-glue", "white-glue"], []]),
        ("Acrylics. | A coat of black.", [["paint"], ["paint"]]),
        ("Acrylics. | Three coats of white glue.", [["paint"], ["white-glue"]]),
        ("Drape it hot over a soup bowl. | Eat from a soup bowl.", [["round-former"], []]),
        ("Six mil plywood. | Then varnish, two coats.", [["plywood-6"], ["wood-varnish"]]),
    ],
)
def test_colours_and_bowls_stand_for_what_they_are_used_for(
    lexicon: Lexicon, said: str, named: list[list[str]]
) -> None:
    """A colour means the paint, a bowl what something is bent over, varnish that of the material at
    hand; a noun for several things none."""
    assert _named(lexicon, said) == named


@pytest.mark.parametrize(
    "said",
    [
        "Today we're making a mask. | Sand the mask.",
        "Trim the seam of the gloves.",
        "Put the drill battery on the shelf.",
        "Two snips and it's done.",
        "The lining is an old t-shirt.",
        "He keeps fruit in a metal tin.",
    ],
)
def test_the_same_word_for_another_thing_is_not_named(lexicon: Lexicon, said: str) -> None:
    """A mask that is made protects no lungs; words of the household want company."""
    assert not any(_named(lexicon, said))


def test_a_score_counts_cues_and_ids() -> None:
    """A thing named wrongly in two cues is one wrong id; several talks add up in both."""
    score = together([Score(Counts(3, 2, 1), Counts(2, 1, 1)), Score(Counts(1), Counts(1))])
    assert (score.by_cue, score.by_ids) == (Counts(4, 2, 1), Counts(3, 1, 1))
    assert (score.by_cue.precision, score.by_ids.recall) == (pytest.approx(4 / 6), 3 / 4)


def _certainty(lexicon: Lexicon, said: str) -> dict[str, float]:
    cues = [Cue(n * 5, n * 5 + 5, words.strip()) for n, words in enumerate(said.split("|"))]
    mentions = find_mentions(talk_of(cues, frozenset()), lexicon)
    found = signs_by_thing(said_things(mentions, lexicon), {"hot glue": (20, 8)})
    return {meant.id: certainty(signs) for meant, signs in found.items()}


def test_a_second_place_makes_certain_and_a_doubt_less(lexicon: Lexicon) -> None:
    """A thing that is named again, or with its work, is more certain; one that the talk speaks
    against somewhere, or by a word that other talks seldom mean, is less."""
    once = _certainty(lexicon, "White glue here.")["white-glue"]
    again = _certainty(lexicon, "White glue here. | Then more white glue.")["white-glue"]
    doubted = _certainty(lexicon, "White glue here. | I tried white glue.")["white-glue"]
    assert doubted < once < again
    assert _certainty(lexicon, "Hot glue here.")["hot-glue"] < once
    brush = _certainty(lexicon, "A glue brush.")["glue-brush"]
    assert brush < _certainty(lexicon, "Join it with white glue. | A glue brush.")["glue-brush"]


def test_what_is_not_certain_enough_is_offered(lexicon: Lexicon) -> None:
    """Hot glue is spoken of more often than it is used: named once, it is left to the author."""
    once, twice = (
        hear([Cue(n, n + 1, words) for n, words in enumerate(said)], lexicon)
        for said in (
            ["Hot glue here."],
            ["Stick it with hot glue.", "Hot glue again.", "Hot glue."],
        )
    )
    assert (once[0].materials, once[0].maybe) == ([], ["hot-glue"])
    assert twice[0].materials == ["hot-glue"]


def test_a_counted_word_is_trusted_as_far_as_talks_use_it() -> None:
    """An uncounted word stands at nought; many talks that use it raise it, those that do not lower
    it, and few talks move it little."""
    assert trust(0, 0) == 0
    assert trust(20, 8) < trust(2, 1) < 0 < trust(2, 2) < trust(20, 20)
    assert all(0 <= used <= said for said, used in counted_words().values())
