"""Where cautions stand: whatever the order of steps, none is lost, and lines follow their panels."""

from itertools import groupby
from pathlib import Path

import pytest
from demo_content import read_demo
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.derive.caution_places import (
    MOST_LETTERS,
    builder_cautions,
    caution_places,
    in_one_line,
    sheet_places,
)
from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.read.translated import translated
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.buildfile.records.safety.cautions import Reader, SignalWord
from guidegen.problems import collect
from guidegen.words import read_words

ROOT = Path(__file__).parents[3]
DEMO = read_demo()
STEPS = [step for file in DEMO.guides for step in file.guide.steps]
STAGES = sorted({step.stage for step in STEPS})
WORDS = st.dictionaries(st.sampled_from(sorted(DEMO.stock.cautions)), st.sampled_from(SignalWord))


def moved(order, stages):
    """Steps in another order, in other stages."""
    return [
        STEPS[number].model_copy(update={"stage": stage})
        for number, stage in zip(order, stages, strict=False)
    ]


def with_words(words):
    """The demo's stock with other signal words, and with some short forms taken away."""
    cautions = dict(DEMO.stock.cautions)
    for number, (name, word) in enumerate(words.items()):
        short = None if number % 3 == 2 else cautions[name].short
        cautions[name] = cautions[name].model_copy(update={"word": word, "short": short})
    return DEMO.stock.model_copy(update={"cautions": cautions})


@settings(deadline=None)
@given(
    order=st.permutations(range(len(STEPS))),
    stages=st.lists(st.sampled_from(STAGES), min_size=1, max_size=30),
    words=WORDS,
)
def test_moved_steps_lose_no_caution(order, stages, words):
    """Each hazard is named in its step; what is one line there was in full before, in the same stage;
    DANGER is always in full in its step."""
    steps, stock = moved(order, stages), with_words(words)
    places = caution_places(steps, stock)
    for _, group in groupby(zip(steps, places, strict=True), key=lambda pair: pair[0].stage):
        shown = set()
        for step, place in group:
            shown |= set(place.panels)
            assert sorted(place.full + place.lines) == sorted(builder_cautions(step, stock))
            assert set(place.lines) <= shown
            known = [stock.cautions[name] for name in place.lines]
            assert all(in_one_line(caution) for caution in known)
            assert SignalWord.DANGER not in {caution.word for caution in known}


@settings(deadline=None)
@given(order=st.permutations(range(len(STEPS))), count=st.integers(1, 20))
def test_a_sheet_has_each_panel_once(order, count):
    """On a paper that stands alone the first step is preceded by every panel, and no other is."""
    steps = [STEPS[number] for number in order[:count]]
    first, *rest = sheet_places(steps, DEMO.stock)
    assert len(first.panels) == len(set(first.panels))
    assert set(first.panels) == {n for step in steps for n in builder_cautions(step, DEMO.stock)}
    assert not any(place.panels for place in rest)


def test_panels_come_again_where_the_hazard_changes():
    """The marshal's gluing stage: cement at its head, blade where strips are trimmed, cement again."""
    (file,) = [file for file in DEMO.guides if file.id == "slipway-marshal"]
    places = dict(
        zip(
            [step.id for step in file.guide.steps],
            caution_places(file.guide.steps, DEMO.stock),
            strict=True,
        )
    )
    heads = [set(place.panels) for place in places.values()]
    assert any(panels >= {"solvent-adhesive", "ignition", "blade"} for panels in heads)
    assert places["glue-keel"].panels == ()
    assert places["trim-strips"].panels == ("blade", "spent-blade")
    assert places["glue-strips"].panels == ("solvent-adhesive", "ignition")


def test_a_leader_is_not_addressed_in_steps():
    """A caution for the leader reaches a step, and stands neither in nor before it."""
    leaders = {n for n, c in DEMO.stock.cautions.items() if c.reader is Reader.LEADER}
    reached = {name for step in STEPS for name in step_cautions(step, DEMO.stock)}
    assert leaders & reached
    for place in caution_places(STEPS, DEMO.stock):
        assert not leaders & {*place.panels, *place.full, *place.lines}


@pytest.mark.parametrize("folder", ["content", "guidegen/starter"])
def test_short_forms_are_short(folder):
    """Every caution that we ship has a short form of at most 60 letters, in every language."""
    content = read_content(ROOT / folder)
    stocks = [content.stock]
    if folder == "content":
        content, _ = collect(read_translations(ROOT / folder, content))
        stocks.append(translated(content, read_words("de")).stock)
    for stock in stocks:
        for name, caution in stock.cautions.items():
            assert caution.short and len(caution.short) <= MOST_LETTERS, (name, caution.short)
