"""One browser for all tests of a process, since there can be no second one; scripts asked in it;
and no test passed over where none may be.
"""

import json
import os
from collections.abc import Callable, Generator, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from journeys.visits import Browsing, open_browser

# How long an example takes says something of the machine, not of what is tested.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")

THEME_FOLDER = Path(__file__).parent.parent / "themes" / "workshop"

type Asking = Callable[[str, str, list[Any]], list[Any]]
"""(script, what it is asked for each `item`, items) → the answers."""

ALL_RUN = "GUIDEGEN_ALL_TESTS"
"""Environment variable that the gate sets: what a machine lacks for a test is a failure there."""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """A test that is passed over fails, with the reason, where all are wanted."""
    report = yield
    if report.skipped and ALL_RUN in os.environ:
        reason = report.longrepr[-1] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"{reason}; {ALL_RUN} is set, so that none may be passed over"
    return report


@pytest.fixture(scope="session")
def browsing() -> Iterator[Browsing]:
    """One browser for all tests; each visit has a profile of its own."""
    with open_browser() as browsing:
        yield browsing


@pytest.fixture(scope="session")
def ask_script(browsing: Browsing) -> Asking:
    """Asks a script of the theme, loaded as a module: `script` in the question is what it gives."""
    page = browsing.browser.new_page()

    def ask(name: str, question: str, items: list[Any]) -> list[Any]:
        code = (THEME_FOLDER / name).read_text(encoding="utf-8")
        load = (
            "([code, items]) => { const module = { exports: {} };"
            " new Function('module', code)(module); const script = module.exports;"
            f" return JSON.stringify(items.map((item) => {question})); }}"
        )
        answers: list[Any] = json.loads(page.evaluate(load, [code, items]))
        return answers

    return ask
