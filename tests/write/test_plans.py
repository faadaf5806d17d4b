"""Cut plans kept beside a guide."""

from pathlib import Path

from guidegen.write.plans import load_plans, plan_file, save_plans


def test_saved_and_read_again(tmp_path: Path) -> None:
    """What is saved is read; where nothing is, the text is empty."""
    path = plan_file(tmp_path, "M")
    assert load_plans(path) == ""
    assert save_plans(path, "{}\n") == ""
    assert load_plans(path) == "{}\n"
    assert [entry.name for entry in path.parent.iterdir()] == ["M.json"]


def test_links_are_neither_read_nor_written(tmp_path: Path) -> None:
    """A guide whose plans lead elsewhere neither shows nor changes what is there."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "M.json").write_text("secret", encoding="utf-8")
    guide = tmp_path / "guide"
    guide.mkdir()
    (guide / "plans").symlink_to(elsewhere)
    path = plan_file(guide, "M")
    assert load_plans(path) == ""
    assert "is a link" in save_plans(path, "{}\n")
    assert (elsewhere / "M.json").read_text(encoding="utf-8") == "secret"


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """The reason is told in words; the press goes on."""
    (tmp_path / "plans").write_text("a file", encoding="utf-8")
    assert "cannot keep the cut plans" in save_plans(plan_file(tmp_path, "M"), "{}\n")
