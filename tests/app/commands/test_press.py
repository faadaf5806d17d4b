"""The whole way, from a small content folder to the files that readers get."""

import hashlib
import re
import shutil
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.commands.press import PressOptions, PressResult, press
from guidegen.app.commands.proof import proof
from guidegen.cli import main
from guidegen.errors import ContentError
from guidegen.progress import Silent
from guidegen.render.lists.pack import verify_pack
from guidegen.write.index import Counts

THEMES = Path(__file__).parents[3] / "themes"
SMALL = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")
"""The sample in one size: presses in a few seconds."""
FLAT = unplaced(SMALL)
"""The same where a test is about something else than what is drawn of a body."""


FEW = ("summary",)
"""Editions where a test is about something else than booklets: a page is made in no time."""


def _press(content: Path, out: Path, workers: int = 1, editions: tuple[str, ...] = ()) -> None:
    options = PressOptions(
        content=content,
        out=out,
        themes=THEMES,
        nesting_seconds=0,
        workers=workers,
        editions=editions,
    )
    press(options, Silent())


def _sums(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def pressed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The output of the small sample."""
    folder = tmp_path_factory.mktemp("pressed")
    _press(write_content(folder / "content", guide=SMALL), folder / "out")
    return folder / "out"


def test_the_promised_files(pressed: Path) -> None:
    """A press makes the site, and for each size booklets, templates, materials and a pack."""
    names = set(_sums(pressed))
    size = {
        f"cuff/M/{kind}-{paper}.pdf"
        for kind in ("booklet", "templates", "summary", "checklist", "bench-card")
        for paper in ("a4", "letter")
    }
    size |= {"cuff/M/booklet-a5-fold-a4.pdf", "cuff/M/booklet-half-letter-fold-letter.pdf"}
    pages = {
        "index.html",
        "cuff/index.html",
        "cuff/steps.html",
        "cuff/safety.html",
        "cuff/M/index.html",
    }
    assert size | pages | {"cuff/M/materials.csv", "cuff/M/pack.zip"} <= names
    assert {"cuff/M/materials.json", "cuff/materials.xlsx"} <= names


def test_links_lead_somewhere(pressed: Path) -> None:
    """Every link and source of every page is a file of the output; none leaves the site."""
    for page in pressed.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        for target in re.findall(r'(?:href|src)="([^"#?]+)', text):
            assert not target.startswith(("http:", "//")), target
            if not target.startswith(("https:", "mailto:")):
                found = (page.parent / target).resolve()
                assert found.is_file() or (found / "index.html").is_file(), (page.name, target)


def test_cautions_stand_before_the_action(pressed: Path) -> None:
    """On the steps page the danger of the cement is read before the words of its step."""
    text = (pressed / "cuff" / "steps.html").read_text(encoding="utf-8")
    step = text[text.index("Glue the cuff</") :]
    assert step.index("Flash fire") < step.index("Coat both faces, wait, join")


def test_cautions_stand_before_the_action_on_paper(pressed: Path) -> None:
    """In the booklet, caution and action of a step share a page, the caution first."""
    with pypdfium2.PdfDocument(pressed / "cuff" / "M" / "booklet-a4.pdf") as document:
        texts = [page.get_textpage().get_text_bounded() for page in document]
    texts = [re.sub(r"\s+", " ", text) for text in texts]
    (page,) = [text for text in texts if "Coat both faces, wait, join" in text]
    assert -1 < page.index("Flash fire") < page.index("Coat both faces, wait, join")


def test_the_pack_is_whole(pressed: Path) -> None:
    """Every file of a pack agrees with its manifest."""
    assert verify_pack((pressed / "cuff" / "M" / "pack.zip").read_bytes()) == []


def test_errors_leave_the_old_output(pressed: Path, tmp_path: Path) -> None:
    """A press of broken content raises, and the output of the last good press stays."""
    shutil.copytree(pressed.parent, tmp_path / "site")
    content, out = tmp_path / "site" / "content", tmp_path / "site" / "out"
    before = _sums(out)
    write_content(content, guide=changed(SMALL, "material: foam-5", "material: foam-12"))
    with pytest.raises(ContentError, match='did you mean "foam-10"'):
        _press(content, out, editions=FEW)
    assert _sums(out) == before


def test_geometry_is_proofed_too(tmp_path: Path) -> None:
    """Proof finds what only shows when pieces are made: a disc larger than any sheet."""
    guide = changed(SMALL, "diameter: 60", "diameter: 6000")
    codes = {problem.code for problem in proof(write_content(tmp_path, guide=guide)).open}
    assert "too-large" in codes


@pytest.mark.parametrize(
    ("arguments", "status", "words"),
    [
        (["press", "--content", "nowhere"], 2, 'there is no content folder "nowhere"'),
        (["press", "cufff"], 2, 'no guide "cufff" in content; did you mean "cuff"?'),
        (["press", "--themes", "nowhere"], 2, 'there is no folder "nowhere"'),
        (["press", "--out", "content"], 1, "holds files that guidegen did not make"),
        (["fit", "cufff"], 2, 'no guide "cufff" in content; did you mean "cuff"?'),
        (["fit", "cuff", "--measure", "forearm"], 2, "expected a measurement and a length"),
        (["fit", "cuff", "--measure", "forearm=28cm"], 2, "wrist"),
        (["fit", "cuff", "--measure", "forearm=28cm", "--measure", "wrist=30cm"], 2, "add --sure"),
    ],
)  # fmt: skip
def test_slips_of_the_command_line(  # noqa: PLR0917 - three cases, three fixtures
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    arguments: list[str],
    status: int,
    words: str,
) -> None:
    """Each ends in its exit status, with words that cure it and no traceback."""
    write_content(tmp_path / "content", guide=SMALL)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "themes").symlink_to(THEMES)
    assert main([*arguments, "--quiet"]) == status
    error = capsys.readouterr().err
    assert words in error
    assert "Traceback" not in error


def test_content_errors_end_in_status_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All problems are printed with place and caret, and counted."""
    content = write_content(tmp_path, guide=changed(SMALL, "hand: pair", "hand: both"))
    assert main(["press", "--content", str(content), "--quiet"]) == 2
    error = capsys.readouterr().err
    assert "guide.yaml:24:11  parts.cuff.hand: expected one of one, pair" in error
    assert "1 problem; nothing was made" in error


def test_help_answers_without_loading_libraries() -> None:
    """--help imports none of the large libraries, so that it answers at once."""
    code = (
        "import sys; from guidegen.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "print(sorted({'weasyprint', 'shapely', 'pydantic', 'rich'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
    assert "exit status:" in done.stdout


def test_fit_makes_a_pack_for_one_body(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One reader's measurements give a complete pack, and the nearest size is named."""
    content = write_content(
        tmp_path / "content", site=SITE + "papers: [a4]\n", guide=unplaced(GUIDE)
    )
    body = tmp_path / "me.yaml"
    body.write_text("upper_girth: 27 cm\nlower_girth: 17 cm\n", encoding="utf-8")
    out = tmp_path / "mine"
    arguments = ["fit", "cuff", "--content", str(content), "--themes", str(THEMES)]
    arguments += ["--body", str(body), "--out", str(out), "--nesting-time", "0", "--quiet"]
    assert main(arguments) == 0
    assert "nearest size: M" in capsys.readouterr().out
    made = {"booklet-a4.pdf", "templates-a4.pdf", "materials.csv", "pack.zip"}
    assert made <= {path.name for path in out.iterdir()}
    with pypdfium2.PdfDocument(out / "templates-a4.pdf") as document:
        words = " ".join(page.get_textpage().get_text_bounded() for page in document)
    assert "made-to-measure" in words.lower()


def test_nothing_is_made_again_without_a_change(tmp_path: Path) -> None:
    """A second press says that nothing has changed; a change or a damaged file makes all anew."""
    content, out = (
        write_content(tmp_path / "content", site=SITE + "papers: [a4]\n", guide=FLAT),
        tmp_path / "out",
    )
    options = PressOptions(
        content=content, out=out, themes=THEMES, nesting_seconds=0, workers=1, editions=FEW
    )
    first = press(options, Silent())
    again = press(options, Silent())
    assert (first.unchanged, again.unchanged) == (False, True)
    assert again.counts == first.counts
    (out / "index.html").write_text("damaged", encoding="utf-8")
    assert not press(options, Silent()).unchanged
    write_content(content, site=SITE + "papers: [a4]\n", guide=changed(FLAT, "Warm it", "Heat it"))
    changed_press = press(options, Silent())
    assert not changed_press.unchanged
    assert "Heat it" in (out / "cuff" / "steps.html").read_text(encoding="utf-8")
    more = press(replace(options, editions=("summary", "checklist")), Silent())
    assert not more.unchanged
    assert (out / "cuff" / "M" / "checklist-a4.pdf").is_file()


def test_workers_end_with_a_killed_press(tmp_path: Path) -> None:
    """Killed while its workers are busy, a press leaves no process and no output behind."""
    content = write_content(tmp_path / "content", guide=SMALL)
    command = [sys.executable, "-m", "guidegen", "press", "--content", str(content)]
    command += ["--themes", str(THEMES), "--out", str(tmp_path / "out"), "--nesting-time", "0"]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
    assert process.stderr is not None
    assert "planning" in process.stderr.readline()
    workers = _children(process.pid)
    while not workers:
        workers = _children(process.pid)
    process.kill()
    process.wait()
    process.stderr.close()
    deadline = time.monotonic() + 60
    while any(Path(f"/proc/{worker}").exists() for worker in workers):
        assert time.monotonic() < deadline, "a worker outlived the press"
        time.sleep(0.1)
    assert not (tmp_path / "out").exists()


def _children(parent: int) -> list[int]:
    """Process ids whose parent is `parent`."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            if int(stat.read_text().rpartition(")")[2].split()[1]) == parent:
                found.append(int(stat.parent.name))
    return found


def test_template_files_for_every_way_of_working(tmp_path: Path) -> None:
    """Large paper, both hands, card, cutters, and all sizes in one, each listed on the site."""
    content = write_content(
        tmp_path / "content",
        site=SITE + "papers: [a4]\ntemplate-papers: [a0]\n",
        guide=unplaced(GUIDE),
    )
    _press(content, tmp_path / "out", editions=FEW)
    names = {path.name for path in (tmp_path / "out" / "cuff" / "M").iterdir()}
    assert {
        "templates-a0.pdf", "templates-both-hands-a4.pdf", "templates-card-a4.pdf", "cutters.zip"
    } <= names  # fmt: skip
    assert verify_pack((tmp_path / "out" / "cuff" / "M" / "cutters.zip").read_bytes()) == []
    assert (tmp_path / "out" / "cuff" / "templates-all-sizes-a4.pdf").is_file()
    page = (tmp_path / "out" / "cuff" / "index.html").read_text(encoding="utf-8")
    assert "templates-all-sizes-a4.pdf" in page
    assert "PVC" in page


def test_the_closing_words_name_plans_that_may_not_be_the_best() -> None:
    """One line for each guide with such plans, none without."""
    counts = Counts(1, 2, 3, 4, 5)
    gap = "boots: foam at most 1 sheet above the best possible (M)"
    result = PressResult(Path("out"), counts, 1.0, (), gaps=(gap,))
    assert f"\ncut plans of {gap}\n" in result.summary()
    assert "cut plans" not in replace(result, gaps=()).summary()
