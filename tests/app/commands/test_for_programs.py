"""The command line for programs and shells: completion, JSON results, logs, pipes that close."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from guidegen import cli
from guidegen.app.commands.completion import SHELLS, completion_script
from guidegen.app.commands.options import WORKERS, build_parser
from guidegen.app.commands.results import press_json, sizes_json
from guidegen.app.commands.sizes import SizesResult
from guidegen.app.jobs.press_state import PressResult
from guidegen.cli import main
from guidegen.errors import UsageError
from guidegen.geometry.fit.records import Coverage, SizeShare
from guidegen.progress import terminal_progress
from guidegen.write.index import Counts


@pytest.mark.parametrize("shell", SHELLS)
def test_completion_knows_every_command_and_option(shell: str) -> None:
    """The script names every command, and is the same every time."""
    script = completion_script(build_parser(), shell)
    for word in ("press", "proof", "fit", "class", "sizes", "theme", "afresh", "nesting-time"):
        assert word in script
    assert script == completion_script(build_parser(), shell)


@pytest.mark.skipif(not shutil.which("bash"), reason="needs bash")
def test_bash_completes() -> None:
    """Bash itself offers what begins with what is typed."""
    ask = (
        f"{completion_script(build_parser(), 'bash')}\n"
        'COMP_WORDS=(guidegen pr); COMP_CWORD=1; _shtab_guidegen; echo "${COMPREPLY[@]}"'
    )
    done = subprocess.run(["bash", "-c", ask], capture_output=True, text=True, check=True)
    assert set(done.stdout.split()) == {"press", "proof"}


def test_the_name_alone_tells_what_it_does(capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever types `guidegen` and nothing else reads all commands, and how to begin."""
    assert main([]) == UsageError.status
    told = capsys.readouterr().out
    assert "guidegen begin FOLDER, then guidegen show" in told
    assert "make everything in out/" in told


@pytest.mark.parametrize("verbose", [False, True])
def test_a_defect_is_told_in_words(
    verbose: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What nobody foresaw ends in status 70 and a sentence; its whole way is shown when asked for."""

    def broken() -> int:
        raise KeyError("sleeve")

    monkeypatch.setattr(cli, "main", broken)
    monkeypatch.setattr(sys, "argv", ["guidegen", "press", *(["--verbose"] if verbose else [])])
    with pytest.raises(SystemExit) as end:
        cli.run()
    told = capsys.readouterr().err
    assert end.value.code == 70
    assert "a defect of guidegen, not of your files: KeyError: 'sleeve', cli.py line" in told
    assert ("Traceback" in told) == verbose


def test_a_press_as_json() -> None:
    """Counts and documents under names of their own; a name that steers a terminal is escaped."""
    result = PressResult(
        Path("out"), Counts(1, 2, 30, 40, 5000), 1.26, (), made=("a\x1b[2J",), kept=3
    )
    text = press_json(result)
    told = json.loads(text)
    assert (told["guides"], told["sizes"], told["pdf_pages"], told["bytes"]) == (1, 2, 30, 5000)
    assert told["seconds"] == 1.3 and told["made"] == ["a\x1b[2J"] and told["version"] == 1
    assert text.isascii() and "\x1b" not in text


def test_sizes_as_json() -> None:
    """The share of each size from 0 to 1, and none where no population was given."""
    coverage = Coverage(10, (SizeShare("M", 6, 0.6),), too_small=1, too_large=2, mixed=1)
    told = json.loads(sizes_json(SizesResult(Path("sizes/index.html"), coverage)))
    assert told["coverage"]["sizes"] == {"M": 0.6} and told["coverage"]["people"] == 10
    assert json.loads(sizes_json(SizesResult(Path("x"), None)))["coverage"] is None


def test_a_log_has_a_line_for_each_thing(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """Quiet on the terminal, all in the file, each line with its time; a second run goes on."""
    log = tmp_path / "press.log"
    for _ in range(2):
        with terminal_progress(quiet=True, log=log) as progress:
            progress.stage("documents", 2)
            progress.step("cuff M")
    lines = log.read_text(encoding="utf-8").splitlines()
    assert [re.sub(r"^\S+ ", "", line) for line in lines] == ["documents: 2", "  cuff M"] * 2
    assert all(re.match(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d ", line) for line in lines)
    assert capfd.readouterr().err == ""
    with terminal_progress(quiet=False, verbose=True) as progress:
        progress.step("cuff L")
    assert "cuff L" in capfd.readouterr().err
    with (
        pytest.raises(UsageError, match="cannot be written"),
        terminal_progress(quiet=True, log=tmp_path),
    ):
        pass


def test_workers_from_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    """The environment gives the number of processes, and an option wins over it."""
    monkeypatch.setenv(WORKERS, "3")
    assert build_parser().parse_args(["press"]).workers == 3
    assert build_parser().parse_args(["press", "--workers", "1"]).workers == 1


def test_whoever_reads_along_may_stop() -> None:
    """`guidegen proof --explain | head -1` ends without a complaint."""
    done = subprocess.run(
        ["bash", "-c", f"'{sys.executable}' -m guidegen proof --explain | head -1"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == "" and done.stdout
