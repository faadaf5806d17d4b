"""Search over all pages: an index made at press time, loaded once somebody searches."""

import subprocess
from pathlib import Path

import pytest
from journeys.visits import Browsing

from guidegen.write import search_index
from guidegen.write.staging import staging


def test_search_finds_steps_and_tools(browsing: Browsing, address: str) -> None:
    """Words of a step lead to its page; nothing of the index is asked for before one types."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address)
        page.get_by_label("Show guides with").fill("cement")
        page.get_by_role("link", name="Search all pages").click()
        page.wait_for_selector(".found li")
        assert page.get_by_label("Words in guides").input_value() == "cement"
        page.get_by_label("Words in guides").fill("craft knife")
        page.wait_for_function(
            "() => document.querySelector('[role=status]').textContent.includes('knife')"
        )
        titles = page.locator(".found a").all_inner_texts()
        assert any("steps" in title for title in titles), titles
        page.locator(".found a", has_text="steps").first.click()
        page.wait_for_url("**/steps.html*")
        assert visit.complaints == []
        assert all(url.startswith(address) for url in visit.requests)


def test_search_loads_nothing_before_it_is_used(browsing: Browsing, address: str) -> None:
    """The page for searching asks for no index until somebody types."""
    with browsing.visit() as visit:
        visit.page.goto(f"{address}search.html")
        visit.page.wait_for_selector("form.search:not([hidden])")
        assert not [url for url in visit.requests if "search.files" in url]
        visit.page.get_by_label("Words in guides").fill("zzzqqq <b>x</b>")
        visit.page.wait_for_function("() => document.querySelector('[role=status]').textContent")
        assert visit.page.locator(".search b").count() == 0


def press_pages(folder: Path) -> dict[str, bytes]:
    """The index of two small pages."""
    with staging(folder / "out") as stage:
        for name, words in {"a": "foam and cement", "b": "a craft knife"}.items():
            text = f'<html lang="en"><body><main data-pagefind-body><h1>{name}</h1>{words}</main>'
            stage.write(f"{name}.html", text.encode())
        assert search_index.add_search_index(stage) == ""
        stage.write(".guidegen", b"")
    made = folder / "out" / search_index.FOLDER
    return {p.relative_to(made).as_posix(): p.read_bytes() for p in made.rglob("*") if p.is_file()}


def test_same_pages_same_index(tmp_path: Path) -> None:
    """Two indexes of the same pages have the same bytes."""
    first, second = press_pages(tmp_path / "first"), press_pages(tmp_path / "second")
    assert "pagefind.js" in first
    assert first == second


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (OSError("gone"), "does not run"),
        (subprocess.TimeoutExpired("pagefind", 1), "longer than"),
        (subprocess.CompletedProcess([], 3, b"", b"no room"), "failed: no room"),
    ],
)
def test_failing_tool_is_told_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: object, words: str
) -> None:
    """A tool that is missing, hangs or fails gives words for a warning, and no half index."""

    def run(*_: object, **__: object) -> object:
        if isinstance(fault, Exception):
            raise fault
        return fault

    monkeypatch.setattr(search_index.subprocess, "run", run)
    with staging(tmp_path / "out") as stage:
        assert words in search_index.add_search_index(stage)
        assert not [name for name in stage.sums if name.startswith(search_index.FOLDER)]


def test_the_thing_itself_before_notes_about_it(browsing: Browsing, address: str) -> None:
    """'bevel' gives the technique first, 'self-healing' the mat by its other words; one place is
    told in the singular, and the same in German with its own plural."""
    with browsing.visit() as visit:
        page = visit.page
        page.goto(f"{address}search.html?q=bevels")
        page.wait_for_selector(".texts li")
        first = page.locator(".found a").first
        assert first.inner_text() == "Cutting bevels"
        assert "Technique, chamfering" in page.locator(".things li p").first.inner_text()
        first.click()
        page.wait_for_url("**/tools.html#process-bevel")
        page.goto(f"{address}search.html?q=craft knife")
        page.wait_for_selector(".things li p a")  # in the other guide as well
        page.goto(f"{address}search.html?q=self-healing")
        page.wait_for_selector(".things li")
        assert "Cutting mat" in page.locator(".found a").first.inner_text()
        assert visit.complaints == []
        said = "say('places-found', {count: 1, words: 'x'}) + say('places-found', {count: 2, words: 'x'})"
        assert page.evaluate(said) == "1 place found for “x”2 places found for “x”"
        page.goto(f"{address}de/search.html?q=schneiden")
        page.wait_for_selector(".things li")
        assert page.locator(".found a").first.inner_text() == "Schaumstoff schneiden"
        assert page.evaluate(said) == "1 Stelle zu „x“ gefunden2 Stellen zu „x“ gefunden"
