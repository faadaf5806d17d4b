"""A plugin of pytest: which test runs which lines of guidegen, and how long it takes.

Lines come from `sys.monitoring` (PEP 669): each fires once a test, so a recorded run is hardly
slower than a plain one. `GUIDEGEN_LINES` names the file that they are written to.
"""

import json
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from types import CodeType
from typing import Any

import pytest
from hypothesis import settings

TOOL = 4
"""Of six; debuggers, coverage, profilers and optimisers have 0, 1, 2 and 5."""
EVERY = 100
"""Tests after which everything is written: a long run may be stopped."""
PACKAGE = str(Path(__file__).resolve().parents[2] / "guidegen")


class Recorder:
    """Lines by test: a number for each file, whose bits are its lines."""

    def __init__(self) -> None:
        """Ask for lines of code that is run."""
        self.now: dict[str, int] = {}
        self.found: dict[str, tuple[float, dict[str, str]]] = {}
        self.failed: set[str] = set()
        sys.monitoring.use_tool_id(TOOL, "guidegen lines")
        sys.monitoring.register_callback(TOOL, sys.monitoring.events.LINE, self._line)
        sys.monitoring.set_events(TOOL, sys.monitoring.events.LINE)

    def _line(self, code: CodeType, line: int) -> object:
        name = code.co_filename
        if name.startswith(PACKAGE):
            self.now[name] = self.now.get(name, 0) | 1 << line
        return sys.monitoring.DISABLE

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[Any]:
        """A test begins: all lines fire anew."""
        self.now = {}
        sys.monitoring.restart_events()
        start = time.perf_counter()
        result = yield
        seconds = time.perf_counter() - start
        lines = {name[len(PACKAGE) + 1 :]: f"{bits:x}" for name, bits in self.now.items()}
        if item.nodeid not in self.failed:
            self.found[item.nodeid] = (round(seconds, 3), lines)
        if len(self.found) % EVERY == 0:
            self.pytest_sessionfinish()
        return result

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test that fails as things are would seem to find every fault."""
        if report.failed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        """Write what was found, beside what earlier runs did."""
        path = Path(os.environ["GUIDEGEN_LINES"])
        known = json.loads(path.read_text("utf-8")) if path.exists() else {}
        path.write_text(json.dumps(known | self.found), encoding="utf-8")

    def pytest_unconfigure(self) -> None:
        """Ask for nothing more."""
        sys.monitoring.set_events(TOOL, sys.monitoring.events.NO_EVENTS)


def pytest_collection_finish() -> None:
    """A few examples of a property show which lines it runs."""
    settings.register_profile("few", deadline=None, max_examples=5)
    settings.load_profile("few")


def pytest_configure(config: pytest.Config) -> None:
    """Take part in the run."""
    config.pluginmanager.register(Recorder(), "guidegen-lines")
