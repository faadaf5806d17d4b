"""Labels of parts are told where readers would take them for something else."""

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks


@pytest.mark.parametrize(("label", "told"), [("A4", 1), ("a4", 1), ("A41", 0), ("C", 0)])
def test_a_piece_is_not_called_like_a_paper_of_the_site(tmp_path, label, told):
    """A site that prints on A4 has no piece A4: the page would say 'A4' of both."""
    guide = changed(GUIDE, "label: A\n", f"label: {label}\n")
    site = SITE if "a4" in SITE else SITE + "papers: [a4]\n"
    content = read_content(write_content(tmp_path, guide=guide, site=site))
    found = [p.path for p in run_checks(content) if p.code == "label-like-paper"]
    assert found == ["parts.cuff.label"] * told
