"""The one walk over the models: what a text means is said on the type of its field."""

from pathlib import Path
from typing import Annotated

import pytest
from demo_content import read_demo
from pydantic import Field

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import (
    FileKind,
    FileName,
    Named,
    PartRef,
    Prose,
    Refers,
    Translated,
    Wording,
)
from guidegen.buildfile.records.walk import fields_of, keys_from_files, rebuilt, walk
from guidegen.buildfile.yaml.fields import Id, Line, Model

DEMO = Path(__file__).parents[3] / "content"


def models(kind: type[Model] = Model) -> list[type[Model]]:
    """All models of build files."""
    return [found for below in kind.__subclasses__() for found in (below, *models(below))]


@pytest.mark.parametrize(
    "model", [m for m in models() if m.__module__.startswith("guidegen.")], ids=lambda m: m.__name__
)
def test_every_text_says_what_it_means(model):
    """A field of text that is no name, file, code or wording of a known kind is refused."""
    assert fields_of(model)


def test_a_field_that_says_nothing_is_named():
    """Whoever adds a plain line learns which field it is and where the types stand."""

    class Forgotten(Model):
        name: Translated
        place: Line | None = None

    with pytest.raises(TypeError, match=r"Forgotten\.place does not say .*records/meanings\.py"):
        fields_of(Forgotten)


def test_meanings_are_found_at_any_depth():
    """In optional fields, lists and mappings, on keys and values, under Field or without."""

    class Deep(Model):
        plain: Translated
        maybe: Prose | None = Field(None, description="x")
        several: tuple[PartRef, ...] = ()
        named: dict[PartRef, Annotated[Translated, Field(max_length=9)]] = Field(
            default_factory=dict
        )
        own: Id = "x"

    plain, maybe, several, named, own = fields_of(Deep)
    assert isinstance(plain.texts, Wording)
    assert isinstance(maybe.texts, Wording)
    assert several.texts == Refers(Named.PART)
    assert (named.keys, type(named.texts)) == (Refers(Named.PART), Wording)
    assert (own.texts, own.keys) == (None, None)
    deep = Deep(plain="a", several=("b", "c"), named={"d": "e"})
    found = [(leaf.trail, leaf.text, leaf.key) for leaf in walk(deep)]
    assert found == [
        (("plain",), "a", False),
        (("several", 0), "b", False),
        (("several", 1), "c", False),
        (("named", "d"), "d", True),
        (("named", "d"), "e", False),
    ]


def test_the_walk_visits_the_demo_and_changes_only_what_it_is_asked_to():
    """Texts come with the place in the file and a lasting one; the record stays where they do."""
    guide = read_demo("quay-lamp").guides[0].guide
    leaves = {leaf.trail: leaf for leaf in walk(guide)}
    first = leaves["steps", 0, "title"]
    assert first.lasting == ("steps", guide.steps[0].id, "title")
    assert first.text == guide.steps[0].title
    assert rebuilt(guide, lambda leaf: leaf.text) is guide
    upper = rebuilt(guide, lambda leaf: leaf.text.upper() if leaf == first else leaf.text)
    assert upper.steps[0].title == guide.steps[0].title.upper()
    assert upper.steps[1:] == guide.steps[1:]
    assert upper.parts is guide.parts
    files = {leaf.meaning for leaf in walk(guide) if isinstance(leaf.meaning, FileName)}
    assert files <= {FileName(FileKind.DRAWING), FileName(FileKind.PICTURE)}


def test_long_texts_may_lie_in_files():
    """Which keys may name a Markdown file is said on their types."""
    assert keys_from_files(Guide) == ("overview", "wearing", "care")
