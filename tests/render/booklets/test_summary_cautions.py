"""The summary on one page names as many cautions as it has room for."""

import pytest
from render.page_samples import sample, theme

from guidegen.render.booklets.summary import (
    caution_count,
    last_that_fits,
    second_pass,
    summary_html,
)
from guidegen.render.site.frame import site_links
from guidegen.render.views.cautions import all_cautions
from guidegen.render.views.scene import Scene


@pytest.mark.parametrize(
    ("title", "again", "said"),
    [
        ("Paint blue: second coat", "second coat", ""),
        ("Paint blue", "second coat", "second coat"),
        ("Second coat", "second coat", ""),
        ("Paint blue", None, ""),
    ],
)
def test_a_second_pass_is_said_once(title: str, again: str | None, said: str) -> None:
    """On lists of steps the name of a second pass stands beside a title that does not have it."""
    step = sample()[1].file.guide.steps[0]
    assert second_pass(step.model_copy(update={"title": title, "again": again})) == said


@pytest.mark.parametrize("room", range(5, 16))
@pytest.mark.parametrize(("off", "most"), [(0, 2), (1, 3), (-1, 3), (6, 6), (-6, 6)])
def test_the_last_room_is_used(room: int, off: int, most: int) -> None:
    """Whatever room a page has for 5 to 15 of 16 cautions is found, in few tries from a good guess."""
    tried: list[int] = []

    def fits(count: int) -> bool:
        tried.append(count)
        return count <= room

    assert last_that_fits(5, 16, fits, room + off) == room
    assert len(tried) <= most
    assert last_that_fits(5, 5, fits, 5) == 5


def test_the_cautions_of_a_guide_are_counted_once() -> None:
    """A caution of several steps is one."""
    content, plan, pictures = sample()
    links = site_links(content, plan, "cuff/index.html")
    assert caution_count(plan) == len(all_cautions(Scene(content, plan, pictures, links)))


def test_with_all_of_them_nothing_is_said_to_be_missing() -> None:
    """With room for all, lighter ones follow the grave ones, and no word sends to the booklet for more."""
    content, plan, pictures = sample()
    links = site_links(content, plan, "cuff/index.html")
    titles = [view.title for view in all_cautions(Scene(content, plan, pictures, links))]
    assert len(titles) > 1
    size = plan.sizes[0].size

    def made(most: int) -> str:
        return summary_html(
            content, plan, size, ("a4",), pictures=pictures, theme=theme(), most=most
        )

    assert all(title in made(len(titles)) for title in titles)
    assert "more in the booklet" not in made(len(titles))
    assert "more in the booklet" in made(1)
