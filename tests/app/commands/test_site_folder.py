"""Where commands find the site, and what they take from its folder."""

from pathlib import Path

import pytest
from samples import write_content

from guidegen.app.commands.site_folder import find_site, out_folder, theme_folder
from guidegen.buildfile.read.fingerprint import read_fingerprints
from guidegen.buildfile.read.theme import BASE_THEME, own_theme, read_theme, shipped_themes
from guidegen.cli import main
from guidegen.errors import UsageError


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A site's folder with site.yaml in it, as `begin` writes one."""
    return write_content(tmp_path / "mine")


def test_the_nearest_site_upwards_is_found(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From the site's folder and from one inside it; output and themes belong to that site."""
    monkeypatch.chdir(site)
    assert find_site(None) == Path()
    assert out_folder(Path()) == Path("out")
    inside = site / "cuff"
    assert find_site(None, inside) == site
    assert (out_folder(site), theme_folder(site)) == (site / "out", site / "themes")


def test_content_beside_out_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The layout of a checkout: content/ holds the site, out/ and themes/ stand beside it."""
    write_content(tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    assert find_site(None) == Path("content")
    assert (out_folder(Path("content")), theme_folder(Path("content"))) == (
        Path("out"),
        Path("themes"),
    )
    assert find_site(tmp_path) == tmp_path / "content"


def test_no_site_is_told_with_what_to_type(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where no folder upwards is a site, the message names the two ways to one."""
    monkeypatch.chdir(tmp_path)
    assert main(["press"]) == 2
    told = capsys.readouterr().err
    assert "there is no site.yaml" in told
    assert "guidegen begin FOLDER" in told and "--site FOLDER" in told
    assert main(["proof", "--explain"]) == 0  # what needs no site asks for none


def test_own_files_lie_over_the_theme(site: Path) -> None:
    """A file of theme/ takes the place of one that comes with guidegen; all others stay."""
    (site / "theme").mkdir()
    (site / "theme" / "own.css").write_text(":root { --accent: #123456 }", encoding="utf-8")
    base = read_theme(site / "themes", BASE_THEME)
    files = read_theme(site / "themes", BASE_THEME, own_theme(site))
    assert base.keys() == files.keys()
    assert {name for name in base if base[name] != files[name]} == {"own.css"}


def test_a_theme_of_the_site_goes_before_one_that_is_shipped(site: Path) -> None:
    """themes/harbour beside the content is meant, not the one of that name in the package."""
    folder = site / "themes" / "harbour"
    folder.mkdir(parents=True)
    (folder / "own.css").write_text("/* mine */", encoding="utf-8")
    assert read_theme(site / "themes", "harbour")["own.css"] == b"/* mine */"
    assert read_theme(shipped_themes(), "harbour")["own.css"] != b"/* mine */"
    with pytest.raises(UsageError, match='did you mean "harbour"'):
        read_theme(site / "themes", "harbor")


def test_a_theme_that_leads_out_is_refused(site: Path, tmp_path: Path) -> None:
    """theme/ that is a link to another folder shows nothing of that folder; a guide may be theme."""
    (tmp_path / "secret").mkdir()
    (site / "theme").symlink_to(tmp_path / "secret")
    with pytest.raises(UsageError, match="leads out of the content folder"):
        own_theme(site)
    assert own_theme(site / "cuff") is None


def test_output_in_the_folder_of_the_site_is_no_guide(site: Path) -> None:
    """What lies in out/ changes no hash of what is read; a change of theme/ does."""
    before = read_fingerprints(site, site / "themes")
    (site / "out" / "cuff").mkdir(parents=True)
    (site / "out" / "cuff" / "sign.svg").write_text("<svg/>", encoding="utf-8")
    assert read_fingerprints(site, site / "themes") == before
    (site / "theme").mkdir()
    (site / "theme" / "own.css").write_text("/* mine */", encoding="utf-8")
    assert read_fingerprints(site, site / "themes").themes != before.themes
