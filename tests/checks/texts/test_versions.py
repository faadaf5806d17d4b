"""The log of changes tells of the version that a guide has."""

import pytest
from samples import GUIDE, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

LOG = 'changes:\n  - {version: "%s", date: 2026-11-01, text: First edition.}\n'


@pytest.mark.parametrize(
    ("log", "told"),
    [
        ("", []),
        (LOG % "1.0", []),
        (LOG % "0.9", ["version 1.0 is not in changes, whose newest entry tells of 0.9"]),
    ],
)
def test_a_version_beyond_the_log_is_told(tmp_path, log, told):
    """A version without an entry is told where there is a log; a first version needs none."""
    problems = run_checks(read_content(write_content(tmp_path, guide=GUIDE + log)))
    assert [problem.message for problem in problems] == told
