"""Licences are called by names that readers can look up."""

import pytest
from packaging.licenses import canonicalize_license_expression
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.checks.texts.licence import NAMES, OTHERS


def told(folder, licence):
    """What is said of a licence."""
    guide = changed(GUIDE, "licence: CC BY 4.0", f'licence: "{licence}"')
    content = read_content(write_content(folder, guide=guide))
    return [problem.message for problem in run_checks(content) if problem.code == "unknown-licence"]


@pytest.mark.parametrize(
    "licence", ["CC BY-NC-SA 4.0", "cc by 3.0", "CC-BY-SA-4.0", "CC0 1.0", "All rights reserved"]
)
def test_names_and_ids_are_known(tmp_path, licence):
    """The name in use and the SPDX id are both right, in any case of letters."""
    assert told(tmp_path, licence) == []


@pytest.mark.parametrize(
    "licence", ["MIT", "MIT-0", "mit-0", "GFDL-1.3-only", "LAL-1.3", "Unlicense"]
)
def test_licences_that_are_no_creative_commons_are_known(tmp_path, licence):
    """SPDX ids of further licences for texts and drawings, in any case of letters."""
    assert told(tmp_path, licence) == []


def test_a_slip_is_told_with_the_nearest_name(tmp_path):
    """A missing hyphen makes another name, and the right one is offered."""
    (message,) = told(tmp_path, "CC BY SA 4.0")
    assert 'did you mean "CC BY-SA 4.0"?' in message


@pytest.mark.parametrize("name", sorted({*NAMES.values(), *OTHERS}))
def test_ids_are_on_the_published_list(name):
    """Each id is one of the SPDX License List, as the library packaging carries it."""
    assert canonicalize_license_expression(name) == name
