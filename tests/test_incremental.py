"""What a press makes after an edit, and that it is what a fresh press makes."""

import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from samples import GUIDE, SITE, STOCK, changed, unplaced

from guidegen.app.commands.press import PressOptions, PressResult, press
from guidegen.app.jobs import findings, finished
from guidegen.app.jobs.site import SiteMaker
from guidegen.assembly.records import Assembly
from guidegen.buildfile.read import reader
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.fingerprint import read_fingerprints
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.errors import OutputError
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.progress import Silent
from guidegen.render.booklets import editions
from guidegen.render.text.templates_engine import Engine
from guidegen.write.index import KeptFiles, load_index

THEMES = Path(__file__).parent.parent / "themes"
WORN = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")
SMALL = unplaced(WORN)
BOOKLET = "cuff/M/booklet-a4.pdf"
SHOWING = ["cuff/index.html", "cuff/steps.html"]
"""Pages that show the text of a step."""
LISTED = {"home-card.html.j2", "home-row.html.j2", "home-change.html.j2"}
"""What the site's lists say of a guide, made with its pages."""
ALWAYS = {"summary.html.j2", "worker.js.j2", "feed.xml.j2", *LISTED}
"""Rendered on each press: the key of a document that is set is its text, and lists are short."""
PAPER = SITE + "papers: [a4]\n"


def write(content: Path, guides: dict[str, str], site: str = PAPER, stock: str = STOCK) -> None:
    """The content folder with these guides and no others."""
    kept = set(guides)
    content.mkdir(exist_ok=True)
    for folder in content.iterdir():
        if folder.is_dir() and folder.name not in kept:
            shutil.rmtree(folder)
    (content / "site.yaml").write_text(site, encoding="utf-8")
    (content / "stock.yaml").write_text(stock, encoding="utf-8")
    for name, text in guides.items():
        (content / name).mkdir(exist_ok=True)
        (content / name / "guide.yaml").write_text(text, encoding="utf-8")


def pressed(
    content: Path,
    out: Path,
    themes: Path = THEMES,
    editions: str = "summary",
    *,
    seconds: float = 0,
    guides: str = "",
) -> PressResult:
    """A press of few editions in this process."""
    return press(
        PressOptions(
            content=content,
            out=out,
            themes=themes,
            nesting_seconds=seconds,
            workers=1,
            editions=tuple(editions.split(",")),
            guides=tuple(guides.split()),
        ),
        Silent(),
    )


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file with its bytes, the index included."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two guides, pressed once."""
    folder = tmp_path_factory.mktemp("base")
    write(folder / "content", {"cuff": SMALL, "other": changed(WORN, "Test cuff", "Other cuff")})
    result = pressed(folder / "content", folder / "out")
    assert len(result.made) == len(load_index(folder / "out").sources) > 0
    return folder


@pytest.fixture
def site(base: Path, tmp_path: Path) -> Path:
    """A copy of that, to change."""
    shutil.copytree(base, tmp_path / "site")
    return tmp_path / "site"


def edit(site: Path, before: str, after: str, guide: str = "cuff") -> None:
    """Change one text of a guide."""
    file = site / "content" / guide / "guide.yaml"
    file.write_text(changed(file.read_text(encoding="utf-8"), before, after), encoding="utf-8")


def test_a_step_changes_only_what_shows_it(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another word in a step's text: what does not show it is neither rendered nor set again.

    Overview and steps show it: the one tells search engines of each step.
    """
    content, out = site / "content", site / "out"
    rendered: list[str] = []
    real = Engine.render

    def render(engine: Engine, name: str, **views: object) -> str:
        rendered.append(name)
        return real(engine, name, **views)

    monkeypatch.setattr(Engine, "render", render)
    edit(site, "Warm it and bend it.", "Heat it and bend it.")
    assert sorted(pressed(content, out).made) == SHOWING
    assert "Heat it" in (out / "cuff" / "steps.html").read_text(encoding="utf-8")
    assert set(rendered) - ALWAYS == {"guide.html.j2", "steps.html.j2"}
    pressed(content, out, editions="screen", guides="cuff")
    edit(site, "Heat it and bend it.", "Heat it, then bend it.")
    made = pressed(content, out, editions="screen", guides="cuff").made
    assert {BOOKLET} <= set(made) <= {BOOKLET, *SHOWING}


def test_a_stopped_press_goes_on(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stopped before its pages, a press has published nothing; the next sets nothing again that
    was set, and publishes what a press in one go does."""
    content, out = site / "content", tmp_path / "new" / "out"
    out.parent.mkdir()

    def stop(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(SiteMaker, "finish_documents", stop)
        with pytest.raises(KeyboardInterrupt) as stopped:
            pressed(content, out)
    assert "documents were made and kept" in stopped.value.__notes__[0]
    assert not out.exists()
    with monkeypatch.context() as patch:
        patch.setattr(editions, "write_pdf", stop)
        pressed(content, out)
    assert files_of(out) == files_of(site / "out")
    assert not list(out.parent.glob(".guidegen/*begun*"))


def test_views_of_the_finished_thing_are_taken_over(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After an edit of words nothing is put together again; after one of a piece it is, and its
    views are other ones."""
    put: list[str] = []
    real = finished.make_assembly

    def make(guide: Guide, kit: Kit, stock: Stock) -> Assembly:
        put.append(guide.title)
        return real(guide, kit, stock)

    def views() -> list[bytes]:
        names = ("finished.json", "all-sides.svg")
        return [(site / "out" / "other" / "M" / name).read_bytes() for name in names]

    monkeypatch.setattr(finished, "make_assembly", make)
    before = views()
    edit(site, "Warm it and bend it.", "Heat it and bend it.", "other")
    pressed(site / "content", site / "out")
    assert put == []
    assert views() == before
    edit(site, "length: 200", "length: 150", "other")
    pressed(site / "content", site / "out")
    assert put == ["Other cuff"]
    assert all(one != other for one, other in zip(before, views(), strict=True))


def test_guides_that_have_not_changed_are_not_read(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After an edit of one guide no other is read, planned or drawn; the lists have both."""
    read: list[str] = []
    kits: list[str] = []
    real_read, real_kit = reader.read_guide, findings.make_whole_kit

    def read_guide(folder: Path, *more: object) -> object:
        read.append(folder.name)
        return real_read(folder, *more)

    def make_kit(file: GuideFile, *more: object, **words: object) -> object:
        kits.append(file.id)
        return real_kit(file, *more, **words)

    monkeypatch.setattr(reader, "read_guide", read_guide)
    monkeypatch.setattr(findings, "make_whole_kit", make_kit)
    edit(site, "title: Test cuff", "title: Best cuff")
    result = pressed(site / "content", site / "out")
    assert (read, set(kits)) == (["cuff"], {"cuff"})
    assert (result.counts.guides, result.counts.sizes) == (2, 2)
    home = (site / "out" / "index.html").read_text(encoding="utf-8")
    assert "Best cuff" in home
    assert "Other cuff" in home


def test_what_was_told_of_a_guide_is_told_again(site: Path) -> None:
    """Warnings and notes of guides that are taken over are the same as when they were read."""
    with (site / "content" / "other" / "guide.yaml").open("a", encoding="utf-8") as file:
        file.write("suppress: [{code: order-rule, reason: it dries outside}]\n")
    first = pressed(site / "content", site / "out")
    edit(site, "Warm it and bend it.", "Heat it and bend it.")
    again = pressed(site / "content", site / "out")
    told = [problem for problem in first.problems if "/other/" in problem.place.file]
    assert told, "the sample is without notes"
    assert [problem for problem in again.problems if "/other/" in problem.place.file] == told


def test_series_of_edits_gives_what_a_fresh_press_gives(site: Path, tmp_path: Path) -> None:
    """After each of several seeded edits, every byte is that of a press into an empty folder."""
    chance = random.Random(8)
    content, out = site / "content", site / "out"
    edits = [
        lambda: edit(site, "copies: 2", f"copies: {chance.randint(3, 9)}"),
        lambda: edit(site, "title: Other cuff", f"title: Cuff {chance.randint(2, 99)}", "other"),
        lambda: shutil.rmtree(content / "other"),
    ]
    for change in edits:
        change()
        assert pressed(content, out).kept
    stock = changed(STOCK, "price: 5}", f"price: {chance.randint(6, 9)}}}")
    (content / "stock.yaml").write_text(stock, encoding="utf-8")
    made = pressed(content, out).made
    assert "cuff/M/summary-a4.pdf" in made
    assert "cuff/M/templates-a4.pdf" not in made  # no template tells a price
    pressed(content, tmp_path / "fresh")
    assert files_of(out) == files_of(tmp_path / "fresh")


def test_a_theme_change_sets_all_and_nests_nothing(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A new colour renders every document again; cut plans are those that are kept."""
    content = site / "content"
    shutil.rmtree(content / "other")
    themes = tmp_path / "themes"
    shutil.copytree(THEMES, themes)
    searched: list[object] = []
    assert plan_cuts.__kwdefaults__ is not None
    real = plan_cuts.__kwdefaults__["solver"]

    def search(*given: object, **more: object) -> object:
        searched.append(given)
        return real(*given, **more)

    edit(site, "copies: 2", "copies: 38")
    edit(site, "diameter: 60", "diameter: 120")
    monkeypatch.setitem(plan_cuts.__kwdefaults__, "solver", search)
    pressed(content, site / "out", themes, seconds=1)
    assert searched, "the sample no longer needs a search"
    searched.clear()
    css = themes / "workshop" / "booklet.css"
    css.write_text(css.read_text(encoding="utf-8") + "\nbody { color: #111 }\n", encoding="utf-8")
    result = pressed(content, site / "out", themes, seconds=1)
    assert set(result.made) == set(load_index(site / "out").sources)
    assert searched == []


def test_an_unused_theme_changes_nothing(site: Path, tmp_path: Path) -> None:
    """A theme that the site does not use may change: all documents are taken over."""
    themes = tmp_path / "themes"
    shutil.copytree(THEMES, themes)
    pressed(site / "content", site / "out", themes)
    (themes / "quiet").mkdir()
    (themes / "quiet" / "site.css").write_text("body { color: #222 }", encoding="utf-8")
    result = pressed(site / "content", site / "out", themes)
    assert not result.unchanged
    assert result.made == ()


@pytest.mark.parametrize("how", ["tampered", "gone", "linked"])
def test_what_is_damaged_is_made_again(site: Path, base: Path, tmp_path: Path, how: str) -> None:
    """A document that somebody changed, removed or led elsewhere is not taken over."""
    target = site / "out" / "cuff" / "M" / "summary-a4.pdf"
    right = target.read_bytes()
    target.unlink()
    if how == "tampered":
        target.write_bytes(right.replace(b"PDF", b"PDG", 1))
    if how == "linked":
        (tmp_path / "elsewhere").write_bytes(right + b" ")
        target.symlink_to(tmp_path / "elsewhere")
    result = pressed(site / "content", site / "out")
    assert result.made in (("cuff/M/summary-a4.pdf",), ())
    assert target.read_bytes() == right
    assert not target.is_symlink()
    assert files_of(site / "out") == files_of(base / "out")


def test_an_index_that_leads_out_is_not_believed(site: Path, tmp_path: Path) -> None:
    """Somebody who may write in out/ cannot make a press read or take files from elsewhere."""
    (tmp_path / "secret").write_bytes(b"secret")
    marker = site / "out" / ".guidegen"
    text = marker.read_text(encoding="utf-8")
    marker.write_text(
        changed(text, '"cuff/M/pack.zip"', '"cuff/../../../secret"'), encoding="utf-8"
    )
    assert load_index(site / "out").files == {}
    # Without an index that can be believed nothing in out/ is known to be guidegen's own.
    with pytest.raises(OutputError, match="is not from guidegen"):
        pressed(site / "content", site / "out", guides="cuff")
    assert (site / "out" / "cuff" / "M" / "pack.zip").is_file()


def test_keys_are_the_same_in_every_process(site: Path) -> None:
    """Neither the order of hashes nor addresses in memory have a say in what is found again."""
    code = (
        "import sys; from pathlib import Path; from test_incremental import pressed\n"
        "print(*sorted(pressed(Path(sys.argv[1]) / 'content', Path(sys.argv[1]) / 'out').made))"
    )
    edit(site, "Warm it and bend it.", "Heat it and bend it.")
    environment = {"PYTHONHASHSEED": "7", "PYTHONPATH": ":".join(sys.path)}
    done = subprocess.run(
        [sys.executable, "-c", code, str(site)],
        capture_output=True,
        text=True,
        check=True,
        env=environment,
    )
    assert done.stdout.split() == SHOWING


def test_an_edit_while_pressing_is_seen_by_the_next_press(base: Path) -> None:
    """What is noted is what was read when the press began."""
    before = read_fingerprints(base / "content", THEMES)
    assert before.with_kept(base / "content") == before


def test_nothing_is_found_for_another_key(base: Path) -> None:
    """A document is found for the key that it was made from, and for no other."""
    index = load_index(base / "out")
    files = KeptFiles(base / "out", index)
    path, key = sorted(index.sources.items())[0]
    assert files.find(path, key) == (base / "out" / path).read_bytes()
    assert files.find(path, key[::-1]) is None
    assert files.find("../" + path, key) is None


def test_every_page_knows_what_it_came_from(base: Path) -> None:
    """No page shows a record that cannot be told from another one: all have keys."""
    index = load_index(base / "out")
    pages = {name for name in index.files if name.endswith(".html")}
    assert len(pages) > 10
    assert pages <= set(index.sources)
