"""What becomes of a version that was published when a newer one comes."""

import json
import shutil
from pathlib import Path

import pytest
from samples import GUIDE, SITE, STOCK, changed, unplaced

from guidegen.app.commands.press import PressOptions, PressResult, press
from guidegen.app.jobs.opening import open_content
from guidegen.app.jobs.versions import stored_versions, unkept_versions
from guidegen.app.preview.builder import PreviewBuilder
from guidegen.buildfile.read.content import GuideFile
from guidegen.problems import collect
from guidegen.progress import Silent
from guidegen.render.site.versions import former_versions
from guidegen.render.text.links import version_folder

THEMES = Path(__file__).parents[3] / "themes"
KEEPING = SITE + "papers: [a4]\neditions: [checklist]\nkeep-versions: true\n"
FIRST = unplaced(changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")) + (
    "changes:\n  - {version: '1.0', date: 2026-11-01, text: First edition.}\n"
)
SECOND = changed(changed(FIRST, "version: 1.0", "version: 1.1"), "date: 2026-11-01", "date: 2026-12-01") + (
    "  - {version: '1.1', date: 2026-12-01, text: The cuff was 4 mm short., parts: [cuff]}\n"
)  # fmt: skip
FORMER = "formerly: {guides: [band], sizes: {medium: M}}\n"
OLD = "cuff/1.0/M/templates-a4.pdf"


def pressed(site: Path, guides: dict[str, str] | None = None) -> PressResult:
    """A press of the site, with these guides where they are given."""
    content = site / "content"
    content.mkdir(exist_ok=True)
    (content / "site.yaml").write_text(KEEPING, encoding="utf-8")
    (content / "stock.yaml").write_text(STOCK, encoding="utf-8")
    for name, text in (guides or {}).items():
        (content / name).mkdir(exist_ok=True)
        (content / name / "guide.yaml").write_text(text, encoding="utf-8")
    options = PressOptions(
        content=content, out=site / "out", themes=THEMES, nesting_seconds=0, workers=1
    )
    return press(options, Silent())


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, bytes]:
    """A site whose guide was published as 1.0, then as 1.1; and the templates of 1.0."""
    folder = tmp_path_factory.mktemp("versions")
    pressed(folder, {"cuff": FIRST})
    first = (folder / "out/cuff/M/templates-a4.pdf").read_bytes()
    pressed(folder, {"cuff": SECOND + FORMER})
    return folder, first


def test_an_old_version_stays_reachable(site: tuple[Path, bytes]) -> None:
    """Booklets and templates of 1.0 lie below the guide, the same bytes, without the packs."""
    folder, first = site
    assert (folder / "out" / OLD).read_bytes() == first
    assert (folder / "out/cuff/M/templates-a4.pdf").read_bytes() != first
    assert (folder / "out/cuff/1.0/M/checklist-a4.pdf").is_file()
    assert not list((folder / "out/cuff/1.0").rglob("pack.zip"))
    kept = folder / "content/versions.kept/cuff/1.0"
    assert json.loads((kept / "version.json").read_text("utf-8"))["version"] == "1.0"
    assert (kept / "M/templates-a4.pdf").read_bytes() == first


def test_its_page_says_that_it_is_old(site: tuple[Path, bytes]) -> None:
    """A banner, what has changed, what to print again, the files; nobody finds it by searching."""
    out = site[0] / "out"
    page = (out / "cuff/1.0/index.html").read_text("utf-8")
    for words in (
        'class="old-note"', "This is an old version.", 'href="../index.html"',
        "The cuff was", "Print again:", 'href="M/templates-a4.pdf"',
    ):  # fmt: skip
        assert words in page, words
    assert "First edition." not in page
    assert "data-pagefind-body" not in page
    assert 'href="1.0/index.html"' in (out / "cuff/index.html").read_text("utf-8")
    assert "cuff/1.0" not in (out / "cuff/offline.json").read_text("utf-8")
    assert not (out / "sitemap.xml").exists() or "1.0" not in (out / "sitemap.xml").read_text()


def test_a_press_without_change_has_it_too(site: tuple[Path, bytes]) -> None:
    """The kept version counts as part of what was made: nothing has to be made again."""
    assert pressed(site[0]).unchanged
    (site[0] / "out" / OLD).unlink()
    assert not pressed(site[0]).unchanged
    assert (site[0] / "out" / OLD).read_bytes() == site[1]


def read(content: Path) -> GuideFile:
    """The guide of a content folder."""
    (file,) = open_content(content).whole().guides
    return file


@pytest.mark.parametrize("former", ["band/M", "band/medium", "cuff/medium"])
def test_documents_keep_their_former_addresses(site: tuple[Path, bytes], former: str) -> None:
    """A booklet or template that somebody linked to before a renaming is there, as it is today."""
    out = site[0] / "out"
    assert (out / former / "templates-a4.pdf").samefile(out / "cuff/M/templates-a4.pdf")
    assert "M/index.html" in (out / former / "index.html").read_text("utf-8")


@pytest.fixture
def content(site: tuple[Path, bytes], tmp_path: Path) -> Path:
    """A copy of what the author has, to change."""
    shutil.copytree(site[0] / "content", tmp_path / "content")
    return tmp_path / "content"


def test_a_renamed_guide_takes_its_versions_along(content: Path) -> None:
    """What was kept under a former name is published below the new one, and its page leads on."""
    (content / "cuff").rename(content / "band")
    text = SECOND + "formerly: {guides: [cuff]}\n"
    (content / "band" / "guide.yaml").write_text(text, encoding="utf-8")
    ((stored,), problems) = collect(stored_versions(content, "", read(content)))
    assert not problems
    assert "M/templates-a4.pdf" in stored.files
    assert list(former_versions("band", [stored.kept])) == [
        ("cuff/1.0/index.html", "band/1.0/index.html")
    ]


def test_what_was_changed_by_hand_is_left_out(content: Path) -> None:
    """A file that is not the one that was published is told with its place, and not published."""
    kept = content / "versions.kept/cuff/1.0/M/templates-a4.pdf"
    kept.unlink()  # it may be the same file as another one
    kept.write_bytes(b"another")
    ((stored,), (told,)) = collect(stored_versions(content, "", read(content)))
    assert "versions.kept/cuff/1.0" in str(told)
    assert "M/templates-a4.pdf is missing or was changed" in str(told)
    assert "M/templates-a4.pdf" not in stored.files
    assert "M/checklist-a4.pdf" in stored.files


@pytest.mark.parametrize(
    "name", ["../../site.yaml", "/etc/passwd", "M/../x.pdf", "page.html", "M\\\\x.pdf"]
)
def test_a_list_leads_nowhere_else(content: Path, name: str) -> None:
    """Names that leave the folder, and what is no document, make the whole version a fault."""
    path = content / "versions.kept/cuff/1.0/version.json"
    text = changed(path.read_text("utf-8"), '"M/checklist-a4.pdf"', f'"{name}"')
    path.unlink()
    path.write_text(text, encoding="utf-8")
    stored, (told,) = collect(stored_versions(content, "", read(content)))
    assert not stored
    assert told.code == "version-fault"


def test_a_version_without_files_is_told(content: Path) -> None:
    """A version that the log tells of and of which nothing is kept is worth knowing."""
    file = read(content)
    stored, _ = collect(stored_versions(content, "", file))
    assert not list(unkept_versions(file, stored))
    (told,) = unkept_versions(file, [])
    assert "nothing is kept of version 1.0" in str(told)
    assert told.place.line


def test_a_preview_has_them_too(content: Path) -> None:
    """While one writes, the old version can be looked at as it will be published."""
    builder = PreviewBuilder(content, THEMES, run=lambda job, *args, **kwargs: job(*args, **kwargs))
    draft = builder.draft()
    page = (draft.file("cuff/1.0/index.html") or b"").decode()
    assert "This is an old version." in page
    assert (draft.file(OLD) or b"").startswith(b"%PDF")
    assert 'href="1.0/index.html"' in (draft.file("cuff/index.html") or b"").decode()


@pytest.mark.parametrize(
    ("version", "folder"),
    [("1.0", "1.0"), ("2", "version.2"), ("2nd edition, spring", "version.2nd-edition-spring"),
     ("../..", "version.none"), ("1.0.files", "version.1.0.files"), ("9" * 200, f"version.{'9' * 60}")],
)  # fmt: skip
def test_folders_of_versions_are_no_sizes(version: str, folder: str) -> None:
    """Every version has a folder that no size, no page and no other file of a guide can have."""
    assert version_folder(version) == folder
