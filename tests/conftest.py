"""One browser for all tests of a process: there can be no second one."""

from collections.abc import Iterator

import pytest
from journeys.visits import Browsing, open_browser


@pytest.fixture(scope="session")
def browsing() -> Iterator[Browsing]:
    """One browser for all tests; each visit has a profile of its own."""
    with open_browser() as browsing:
        yield browsing
