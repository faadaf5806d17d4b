"""Former names: what proof says of those that cannot be kept alive."""

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

KEPT = "formerly:\n  guides: [old-cuff]\n  sizes: {small: S}\n  steps: {trim: cut}\n"


def _found(tmp_path, guide, site=SITE):
    content = read_content(write_content(tmp_path, guide=guide, site=site))
    return [str(problem) for problem in run_checks(content)]


def test_former_names_of_what_is_gone_are_fine(tmp_path):
    """A former folder, size and step that lead to what is there give nothing to tell."""
    assert _found(tmp_path, GUIDE + KEPT) == []


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("old-cuff", "cuff", 'formerly.guides[0]: "cuff" is the name of a guide that is there'),
        ("old-cuff", "old-cuff, old-cuff", '"old-cuff" is a former name of cuff as well'),
        ("{small: S}", "{m: S}", 'formerly.sizes.m: "m" is the name of a size that is there'),
        ("{small: S}", "{small: S, SMALL: M}", '"SMALL" is the name of a size that is there'),
        ("{small: S}", "{small: X}", 'formerly.sizes.small: no size "X" in this guide'),
        ("{trim: cut}", "{glue: cut}", 'formerly.steps.glue: "glue" is the name of a step'),
        ("{trim: cut}", "{trim: cutt}", 'no step "cutt" in this guide; did you mean "cut"?'),
    ],
)
def test_former_names_that_lead_two_ways(tmp_path, old, new, message):
    """What lives under the name, two claims on one, and an aim that is not there, are errors."""
    found = "\n".join(_found(tmp_path, GUIDE + changed(KEPT, old, new)))
    assert message in found


def test_a_language_is_no_former_guide(tmp_path):
    """A folder in which a language stands leads nowhere else."""
    guide = GUIDE + changed(KEPT, "old-cuff", "de")
    found = _found(tmp_path, guide, site=SITE + "languages: [en, de]\n")
    assert any('"de" is the name of a language' in line for line in found)
