"""Addresses of pages and things."""

import posixpath

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError
from render.page_samples import sample

from guidegen.buildfile.yaml.fields import Id, SizeId
from guidegen.render.text import links
from guidegen.render.text.links import BookletLinks, SiteLinks, described_things, relative

PATHS = st.lists(st.sampled_from(["a", "b-c", "index.html", "X1"]), min_size=1, max_size=4).map(
    "/".join
)


@given(PATHS, PATHS)
def test_relative_addresses_lead_back(origin, target):
    """Following a relative address from its page gives the page that was meant."""
    address = relative(origin, target)
    assert posixpath.normpath(posixpath.join(posixpath.dirname(origin), address)) == target


def test_addresses_are_quoted():
    """Spaces and marks in file names are written so that browsers find the file."""
    assert (
        relative("a/index.html", "a/guide.files/my photo#1.png") == "guide.files/my%20photo#1.png"
    )
    assert relative("index.html", "a/b.html#x") == "a/b.html#x"
    assert relative("a/b.html", "a/b.html#x") == "#x"


def test_own_folders_cannot_be_guides():
    """No guide or size can be called like a folder of the site's own."""
    for folder in (links.THEME_FOLDER, links.PICTURE_FOLDER, links.SIGN_FOLDER):
        for names in (Id, SizeId):
            with pytest.raises(ValidationError):
                TypeAdapter(names).validate_python(folder)


@pytest.mark.parametrize(
    ("scheme", "name", "address"),
    [
        ("step", "glue", "steps.html#step-glue"),
        ("piece", "cuff", "#piece-cuff"),
        ("caution", "blade", "safety.html#caution-blade"),
        ("tool", "knife", "tools.html#tool-knife"),
        ("material", "cement", "tools.html#material-cement"),
        ("term", "bevel", "../glossary.html#term-bevel"),
        ("tool", "unused", ""),
        ("step", "none", ""),
    ],
)
def test_things_have_places(scheme, name, address):
    """Each thing is found on the page that describes it; an unknown one has no address."""
    content, plan, _ = sample()
    things = described_things(content, plan)
    page = SiteLinks("cuff/index.html", things, "cuff", frozenset({"piece"}))
    assert page.to(scheme, name) == address
    booklet = BookletLinks(things).to(scheme, name)
    assert booklet == (f"#{scheme}-{name}" if address else "")
