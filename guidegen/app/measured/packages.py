"""Pinned packages in → their files out: fetched once, kept in a cache, held against their hashes.

Python and GEOS for browsers come from the registry of npm, through npm itself. `packages.json` pins
name, version and hash of each.
"""

import base64
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

PINS = Path(__file__).parent / "packages.json"
SECONDS = 240
"""For one package. Our choice: 7 MB on a slow line."""
SECONDS_TO_ANSWER = 10
"""For the registry to say that it has a package. Our choice: who has no network soon knows."""


class NotToBeHad(Exception):
    """A package that is not here and cannot be fetched; the message says why."""


@dataclass(frozen=True, slots=True)
class Package:
    """One package as it is pinned."""

    name: str
    version: str
    licence: str
    """SPDX expression."""
    sha512: str
    """Of its file, base64."""

    @property
    def file(self) -> str:
        """Its name in the cache."""
        return f"{self.name}-{self.version}.tgz"


@cache
def pinned() -> dict[str, Package]:
    """All packages by name."""
    rows = json.loads(PINS.read_text(encoding="utf-8"))
    return {row["name"]: Package(**row) for row in rows["npm"]}


def cache_folder() -> Path:
    """Where packages are kept from one press to the next."""
    if own := os.environ.get("GUIDEGEN_PACKAGES"):
        return Path(own)
    shared = os.environ.get("XDG_CACHE_HOME")
    try:
        return (Path(shared) if shared else Path.home() / ".cache") / "guidegen"
    except RuntimeError:  # an account without a home: kept until the system clears it away
        return Path(tempfile.gettempdir()) / "guidegen"


def at_hand() -> bool:
    """Whether all packages are in the cache, so that nothing has to be fetched."""
    return all(_kept(package) is not None for package in pinned().values())


def package_files(name: str) -> dict[str, bytes]:
    """Files of a pinned package by their path in it. Raises NotToBeHad."""
    package, folder = pinned()[name], cache_folder()
    data = _kept(package)
    if data is None:
        if folder in _REFUSED:  # asked once in a run: it takes seconds to learn it again
            raise NotToBeHad(_REFUSED[folder])
        try:
            data = _fetch(package)
        except NotToBeHad as error:
            _REFUSED[folder] = str(error)
            raise
        keep_file(package.file, data)
    return _unpacked(data)


_REFUSED: dict[Path, str] = {}
"""Why packages could not be had, by the folder in which they are missing."""


def _sound(package: Package, data: bytes) -> bool:
    return base64.b64encode(hashlib.sha512(data).digest()).decode() == package.sha512


def _kept(package: Package) -> bytes | None:
    try:
        data = (cache_folder() / package.file).read_bytes()
    except OSError:
        return None
    return data if _sound(package, data) else None


def keep_file(name: str, data: bytes) -> None:
    """Put a file into the cache, whole or not at all; a press does without a cache as well."""
    try:
        folder = cache_folder()
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=folder, delete=False) as written:
            written.write(data)
        Path(written.name).replace(folder / name)
    except OSError:
        return


def _fetch(package: Package) -> bytes:
    npm = shutil.which("npm")
    if npm is None:
        raise NotToBeHad("npm, which fetches it, is not installed")
    wanted = f"{package.name}@{package.version}"
    with tempfile.TemporaryDirectory(prefix="guidegen-") as folder:
        how = ["--ignore-scripts", "--silent", "--cache", f"{folder}/npm-cache"]
        # A small question first: without a network npm would try again and again.
        once = ["--fetch-retries=0", f"--fetch-timeout={SECONDS_TO_ANSWER}000"]
        _run([npm, "view", wanted, "version", *how, *once], package, SECONDS_TO_ANSWER)
        _run([npm, "pack", wanted, *how, "--pack-destination", folder], package, SECONDS)
        ending = Path(package.file).suffix
        found = sorted(Path(folder).glob(f"*{ending}"))
        if len(found) != 1:
            raise NotToBeHad(f"{package.name} {package.version} did not arrive")
        data = found[0].read_bytes()
    if not _sound(package, data):
        raise NotToBeHad(f"{package.name} {package.version} is another file than the pinned one")
    return data


def _run(command: list[str], package: Package, seconds: float) -> None:
    try:
        subprocess.run(  # noqa: S603 - a fixed program with pinned names
            command,
            check=True,
            timeout=seconds,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            cwd=tempfile.gettempdir(),
        )
    except subprocess.CalledProcessError as error:
        said = error.stderr.decode(errors="replace").strip().splitlines()
        why = said[-1] if said else "the registry does not answer"
        raise NotToBeHad(f"{package.name} {package.version} could not be fetched: {why}") from None
    except (OSError, subprocess.TimeoutExpired) as error:
        kind = type(error).__name__
        raise NotToBeHad(f"{package.name} {package.version} could not be fetched: {kind}") from None


def _unpacked(data: bytes) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    with tarfile.open(fileobj=BytesIO(data), mode="r:gz") as archive:
        for member in archive.getmembers():
            content = archive.extractfile(member) if member.isfile() else None
            if content is not None:
                files[member.name.removeprefix("package/")] = content.read()
    return files


def fetch_all() -> str:
    """Bring all packages into the cache; what kept one away, or nothing."""
    try:
        for name in pinned():
            package_files(name)
    except NotToBeHad as error:
        return str(error)
    return ""


if __name__ == "__main__":
    sys.exit(fetch_all() or None)
