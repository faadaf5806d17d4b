"""What the lists of a site say of a guide, and a first page of many guides."""

import re
from dataclasses import replace

import pytest
from render.page_samples import sample, theme

from guidegen.render.site.entries import LATEST, GuideEntry, read_entry, site_entries
from guidegen.render.site.home import CARDS, render_home


def entry() -> GuideEntry:
    """The entry of the sample guide."""
    content, plan, pictures = sample()
    (made,) = site_entries(content, [plan], {"cuff": pictures}, theme())
    return made


def many(count: int) -> list[GuideEntry]:
    """Guides of growing age: guide 0 is the newest."""
    one = entry()
    return [
        replace(
            one,
            title=f"Guide {n}",
            date=f"{2026 - n}-01-01",
            card=f'<article class="card" data-words="">Guide {n}</article>',
            row=f'<li data-words="">Guide {n}</li>',
        )
        for n in range(count)
    ]


def home(entries: list[GuideEntry]) -> str:
    """The first page of a site of these guides."""
    return render_home(sample()[0], entries, theme())["index.html"].decode()


def test_an_entry_is_kept_and_read_again() -> None:
    """What was written is what is read: nothing of a guide is lost between two presses."""
    made = entry()
    assert read_entry(made.text()) == made
    assert made.changes
    assert made.feed
    assert "<svg" in made.card
    assert "<svg" not in made.row


@pytest.mark.parametrize("text", ["[]", "{}", '{"title": 1}', "not JSON", '{"changes": [{}]}'])
def test_what_is_no_entry_is_refused(text: str) -> None:
    """A damaged entry is an error that can be told, never a page of half its words."""
    with pytest.raises((ValueError, KeyError, TypeError, AttributeError)):
        read_entry(text.encode())


def test_few_guides_all_have_pictures() -> None:
    """Up to the limit all guides stand in their order, and there are no rows."""
    page = home(many(CARDS))
    assert re.findall(r"Guide \d+", page) == [f"Guide {n}" for n in range(CARDS)]
    assert 'class="rows"' not in page


def test_of_many_guides_the_newest_have_pictures() -> None:
    """The newest come first with their drawings, all others by name in rows, none twice."""
    page = home(many(CARDS + 3)[::-1])
    cards, rows = page.split('<ul class="rows">')
    assert re.findall(r'card" data-words="">Guide (\d+)', cards) == [str(n) for n in range(CARDS)]
    assert re.findall(r"<li data-words=\"\">Guide (\d+)", rows) == ["24", "25", "26"]


def test_first_page_tells_the_latest_changes_of_all() -> None:
    """Changes of all guides stand together, the newest first, and no more than there is room for."""
    page = home([entry()] * LATEST)
    changes = page[page.index('<ul class="changes') :]
    days = re.findall(r'datetime="([\d-]+)"', changes[: changes.index("</ul>")])
    assert len(days) == LATEST
    assert days == sorted(days, reverse=True)
