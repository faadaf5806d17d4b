"""What workers lay down for passing is gone when the pool ends, though they are ended at once."""

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
