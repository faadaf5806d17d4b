"""Pages of a finished site in → an index that a browser searches without any server out.

The only module that runs pagefind. It reads the pages in a process of its own, with a time limit;
the same pages give the same index.
"""

import os
import subprocess
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from guidegen.shipped import SEARCH_FILES, SEARCHING
from guidegen.write.staging import Staging

type SearchFiles = dict[str, bytes]

FOLDER = SEARCH_FILES
"""Where the index lies, from out/."""
SECONDS = 120
"""Longest time for an index. Our choice: a thousand pages take some seconds."""
PARTS = ("*.pf_meta", "wasm.*.pagefind", "fragment/*", "index/*")
NAMES = ("pagefind.js", "pagefind-worker.js", "pagefind-entry.json")
"""What searching needs; the tool's own boxes and styles are left out."""


def add_search_index(stage: Staging, seconds: float = SECONDS) -> str:
    """Index every page that was written. Why there is no index, in words; empty where there is one.

    Raises OutputError where the index cannot be written.
    """
    files, failure = index_folder(stage.folder, seconds)
    for path, data in files.items():
        stage.write(path, data)
    return failure


def index_pages(pages: Mapping[str, bytes], seconds: float = SECONDS) -> tuple[SearchFiles, str]:
    """The index of pages that are not written anywhere: as `index_folder`."""
    with TemporaryDirectory() as name:
        for path, data in pages.items():
            file = Path(name) / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(data)
        return index_folder(Path(name), seconds)


def index_folder(folder: Path, seconds: float = SECONDS) -> tuple[SearchFiles, str]:
    """The index of all pages in a folder, by path from it, and why there is none, in words."""
    try:
        import pagefind_bin  # type: ignore[import-untyped] # noqa: PLC0415 - may be missing

        tool = pagefind_bin.get_executable()
    except (ImportError, OSError) as error:
        return {}, f"the index tool pagefind is not installed ({error})"
    with TemporaryDirectory() as name:
        made = Path(name) / "index"
        command = [str(tool), "--site", str(folder), "--output-path", str(made)]
        command += [
            "--keep-index-url",
            "--silent",
            "--exclude-selectors",
            "svg, form, .offline, h2 .small-print, h3 .small-print",
        ]
        try:
            done = subprocess.run(  # noqa: S603 - our own arguments, no shell
                command,
                cwd=name,
                env=_environment(os.environ),
                capture_output=True,
                timeout=seconds,
                check=False,
            )
        except subprocess.TimeoutExpired:
            return {}, f"the index tool pagefind took longer than {seconds:g} s"
        except OSError as error:
            return {}, f"the index tool pagefind does not run: {error.strerror}"
        if done.returncode or not (made / NAMES[0]).is_file():
            words = " ".join(done.stderr.decode(errors="replace").split())[:200]
            return {}, f"the index tool pagefind failed: {words or done.returncode}"
        return _files_of(made) | {SEARCHING.text: SEARCHING.data}, ""


def _environment(ours: Mapping[str, str]) -> dict[str, str]:
    """What a program of another maker is told: nothing, but where Windows itself lies, without
    which no program begins there.
    """
    return {name: ours[name] for name in ("SYSTEMROOT", "TEMP", "TMP") if name in ours}


def _files_of(made: Path) -> SearchFiles:
    found = [made / one for one in NAMES]
    found += [path for part in PARTS for path in made.glob(part)]
    return {
        f"{FOLDER}/{path.relative_to(made).as_posix()}": path.read_bytes()
        for path in sorted(found)
        if path.is_file() and path.name != "wasm.unknown.pagefind"
    }
