"""What workers lay down for passing is gone when the pool ends, though they are ended at once."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from guidegen.app.workers.local import local_pool


def test_files_for_passing_end_with_the_pool(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that a worker makes and never removes lies in one of the pool's, and goes with it."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    with local_pool(2) as pool:
        made = Path(pool.submit(tempfile.mkdtemp).result())
        assert made.is_dir()
        assert made.parent.parent == tmp_path
    assert not made.parent.exists()


def test_workers_start_where_the_folder_for_passing_files_has_a_long_name(tmp_path: Path) -> None:
    """No process can listen on a path of more than 107 bytes: each worker starts afresh there."""
    passing = tmp_path / ("long-" * 30)
    passing.mkdir()
    code = "from guidegen.app.workers.local import local_pool\nwith local_pool(2) as pool:\n"
    done = subprocess.run(
        [sys.executable, "-c", code + "    print(pool.submit(abs, -3).result())"],
        env={**os.environ, "TMPDIR": str(passing)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout.strip(), done.stderr) == ("3", "")
    assert list(passing.iterdir()) == []
