"""What the library that sets documents lays down for passing is gone when a process ends."""

import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

SETS = """
import sys
from multiprocessing import get_context
from pathlib import Path
from tempfile import gettempdir

from guidegen.render.fonts.fonts import font_css
from guidegen.render.pdf.html_pdf import write_pdf


def set_one() -> None:
    style = font_css() + "p { font-family: 'Atkinson Hyperlegible' }"
    html = f"<html lang=en><title>T</title><style>{style}</style><p>Read"
    write_pdf(html, files={})
    print(len(list(Path(gettempdir()).glob("weasyprint-*"))))


if __name__ == "__main__":
    if sys.argv[1] == "itself":
        set_one()
    else:
        worker = get_context(sys.argv[1]).Process(target=set_one)
        worker.start()
        worker.join()
"""


@pytest.mark.parametrize("who", ["itself", "spawn", "forkserver"])
def test_no_folder_of_fonts_is_left(who: str, tmp_path: Path) -> None:
    """One is there while documents are set, by a process itself or by a worker; none at its end."""
    script = tmp_path / "sets.py"
    script.write_text(SETS, encoding="utf-8")
    # A short path: the process that is copied listens on one below it.
    with TemporaryDirectory(prefix="sets-") as name:
        _set_with_passing_files_in(Path(name), script, who)


def _set_with_passing_files_in(passing: Path, script: Path, who: str) -> None:
    done = subprocess.run(
        [sys.executable, str(script), who],
        env={**os.environ, "TMPDIR": str(passing)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == "1"
    assert list(passing.glob("weasyprint-*")) == []
    assert done.stderr == ""
