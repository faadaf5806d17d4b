"""What a press says of addresses that the last one published and that are gone."""

import pytest

from guidegen.app.jobs.lost import lost_addresses, lost_pages, step_ids

BEFORE = ("index.html", "lamp/index.html", "lamp/steps.html", "lamp/M/index.html", "lamp/M/booklet-a4.pdf",
          "lamp/L/index.html", "de/lamp/index.html", "de/lamp/L/index.html", "de/index.html")  # fmt: skip


@pytest.mark.parametrize(
    ("gone", "told"),
    [
        ((), ()),
        (("lamp/L/index.html", "de/lamp/L/index.html"), ("lamp/L/",)),
        (("lamp/steps.html",), ("lamp/steps.html",)),
        (tuple(name for name in BEFORE if "lamp" in name), ("lamp/",)),
        (tuple(name for name in BEFORE if name.startswith("de/")), ("de/",)),
        (("lamp/M/booklet-a4.pdf",), ()),
    ],
)
def test_lost_pages_are_told_by_their_folder(gone, told):
    """A size, a guide or a language that is gone is told once; its translations are not repeated."""
    assert lost_pages(BEFORE, [name for name in BEFORE if name not in gone]) == told


def test_ids_of_steps_are_those_that_links_lead_to():
    """Steps and former ids count; headings of steps and other things do not."""
    page = '<span id="step-trim"></span><article id="step-cut"><h3 id="step-cut-name"></h3>'
    assert step_ids(page + '<p id="stage-cutting">') == {"trim", "cut"}


def _told(tmp_path, before, now, old_page="", new_page=""):
    for folder, page in (("out", old_page), ("new", new_page)):
        (tmp_path / folder / "lamp").mkdir(parents=True)
        (tmp_path / folder / "lamp" / "steps.html").write_text(page)
    found = lost_addresses(
        (tmp_path / "out", tmp_path / "new"), before, now, {"lamp": "content/lamp/guide.yaml"}, "content"
    )  # fmt: skip
    return [str(problem) for problem in found]


def test_a_renamed_guide_is_told_with_its_cure(tmp_path):
    """Deleted or renamed without `formerly`, a guide is named with the line that keeps it alive."""
    (told,) = _told(tmp_path, ("lamp/index.html", "lamp/steps.html"), ("light/index.html",))
    assert told.startswith("content  warning: lamp/ was published with the last press and is gone")
    assert "formerly: {guides: [lamp]}" in told


def test_a_renamed_size_is_told_at_its_guide(tmp_path):
    """A size that is gone is told at the guide that had it."""
    (told,) = _told(
        tmp_path, ("lamp/index.html", "lamp/L/index.html"), ("lamp/index.html", "lamp/M/index.html")
    )
    assert told.startswith("content/lamp/guide.yaml  warning: lamp/L/ was published")
    assert "formerly: {sizes: {L: " in told


def test_renamed_steps_are_told_and_former_ids_are_not(tmp_path):
    """A step that is gone is told; one whose id lives on as a former one is not."""
    names = ("lamp/index.html", "lamp/steps.html")
    (told,) = _told(
        tmp_path,
        names,
        names,
        '<article id="step-cut"><article id="step-glue"><article id="step-trim">',
        '<article id="step-cut"><span id="step-trim"></span><article id="step-join">',
    )
    assert "lamp/steps.html#step-glue was published" in told
    assert "formerly: {steps: {glue: " in told
