"""What it takes seconds to make → made once, and kept in the cache beside the packages."""

import hashlib
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

from guidegen.app.measured.packages import PINS, cache_folder, keep_file

MOST = 4
"""Files of one name that stay: a machine has one version of guidegen or two."""

_RECIPE = ("bundle.py", "compile.mjs", "compiled.py", "left_out.txt")
"""What has a say in what is made, beside what it is made from and Pyodide itself."""


def made_once(name: str, sources: Mapping[str, bytes], make: Callable[[], bytes]) -> bytes:
    """What `make` gives for these sources: read again where it was made before."""
    file = f"{name}-{_digest(sources)}.made"
    try:
        told, _, data = (cache_folder() / file).read_bytes().partition(b"\n")
    except OSError:
        told = data = b""
    if told and told == _sum(data):
        return data
    data = make()
    keep_file(file, _sum(data) + b"\n" + data)
    _forget_older(name)
    return data


def _sum(data: bytes) -> bytes:
    return hashlib.sha256(data).hexdigest().encode()


def _digest(sources: Mapping[str, bytes]) -> str:
    here = Path(__file__).parent
    sums = hashlib.sha256(PINS.read_bytes())
    for file in _RECIPE:
        sums.update((here / file).read_bytes())
    sums.update(b"compiled" if shutil.which("node") else b"as it is")
    for path, data in sorted(sources.items()):
        sums.update(b"%s %s\n" % (path.encode(), _sum(data)))
    return sums.hexdigest()[:32]


def _forget_older(name: str) -> None:
    try:
        found = [(path.stat().st_mtime, path) for path in cache_folder().glob(f"{name}-*.made")]
        for _, path in sorted(found)[:-MOST]:
            path.unlink()
    except OSError:
        return
