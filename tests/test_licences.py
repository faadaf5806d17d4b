"""The list of libraries in the handbook, against what is installed and what is locked."""

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def lister() -> ModuleType:
    """The script that writes the list."""
    spec = importlib.util.spec_from_file_location("licences", ROOT / ".ci" / "licences.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_list_is_what_the_script_writes(lister: ModuleType) -> None:
    """Every library that guidegen runs with is listed, with the licence that it declares."""
    assert lister.PAGE.read_text(encoding="utf-8") == lister.page(), (
        "run: ./start python .ci/licences.py"
    )


def test_every_library_is_locked_by_hash(lister: ModuleType) -> None:
    """What is listed stands in the lock with a version and checksums; nothing else is needed."""
    lock = (ROOT / ".locks" / "requirements.txt").read_text(encoding="utf-8")
    entries = re.split(r"\n(?=\S)", lock)
    hashed = {entry.partition("==")[0] for entry in entries if "--hash=sha256:" in entry}
    names = {re.sub(r"\[.*\]", "", name) for name in hashed}
    assert set(lister.needed()) <= names
    pinned = [entry for entry in entries if re.match(r"[\w.\[\],-]+==", entry)]
    assert all("--hash=sha256:" in entry for entry in pinned)


def test_licences_are_known_and_permit_use(lister: ModuleType) -> None:
    """None is unknown, and none is under the GNU GPL or AGPL alone: a site may be given away."""
    lines = lister.PAGE.read_text(encoding="utf-8").splitlines()
    rows = [line.strip("| ").split(" | ") for line in lines if line.startswith("| ")][2:]
    assert len(rows) > 40
    for name, licence in rows:
        assert licence not in ("UNKNOWN", ""), name
        if re.search(r"\bA?GPL", licence):
            assert re.search("MPL|LGPL|MIT|BSD|Apache", licence), name
