"""The summary on one page names as many cautions as it has room for."""

import pytest
from render.page_samples import sample, theme

from guidegen.render.booklets.summary import (
    WORST,
    Density,
    caution_counts,
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


@pytest.mark.parametrize("density", list(Density))
def test_all_are_tried_first_and_the_least_last(density: Density) -> None:
    """Settings are tried from all cautions of the guide down to the fewest that may stand there."""
    _, plan, _ = sample()
    counts = caution_counts(plan, density)
    whole = len({name for step in plan.cautions for name in step.cautions})
    assert counts[0] == max(whole, WORST[density])
    assert counts[-1] == WORST[density]
    assert list(counts) == sorted(counts, reverse=True)


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
