"""Pinned packages in → their files out: fetched once, kept in a cache, held against their hashes.

Python and GEOS for browsers come from registries, through the registries' own programs: npm, and
pip of the environment in which guidegen runs. `packages.json` pins name, version and hash of each.
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
import zipfile
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

PINS = Path(__file__).parent / "packages.json"
SECONDS = 240
"""For one package. Our choice: 7 MB on a slow line."""


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
    platform: str = ""
    """Of a wheel: what it is built for; empty for a package of npm."""
    python: str = ""

    @property
    def file(self) -> str:
        """Its name in the cache."""
        return f"{self.name}-{self.version}.{'whl' if self.platform else 'tgz'}"


@cache
def pinned() -> dict[str, Package]:
    """All packages by name."""
    rows = json.loads(PINS.read_text(encoding="utf-8"))
    return {row["name"]: Package(**row) for kind in ("npm", "wheels") for row in rows[kind]}


def cache_folder() -> Path:
    """Where packages are kept from one press to the next."""
    if own := os.environ.get("GUIDEGEN_PACKAGES"):
        return Path(own)
    shared = os.environ.get("XDG_CACHE_HOME")
    try:
        return (Path(shared) if shared else Path.home() / ".cache") / "guidegen"
    except RuntimeError:  # an account without a home: kept until the system clears it away
        return Path(tempfile.gettempdir()) / "guidegen"


def package_files(name: str) -> dict[str, bytes]:
    """Files of a pinned package by their path in it. Raises NotToBeHad."""
    package = pinned()[name]
    data = _kept(package)
    if data is None:
        data = _fetch(package)
        _keep(package, data)
    return _unpacked(package, data)


def _sound(package: Package, data: bytes) -> bool:
    return base64.b64encode(hashlib.sha512(data).digest()).decode() == package.sha512


def _kept(package: Package) -> bytes | None:
    try:
        data = (cache_folder() / package.file).read_bytes()
    except OSError:
        return None
    return data if _sound(package, data) else None


def _keep(package: Package, data: bytes) -> None:
    """Put a file into the cache, whole or not at all; a press does without a cache as well."""
    try:
        folder = cache_folder()
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=folder, delete=False) as written:
            written.write(data)
        Path(written.name).replace(folder / package.file)
    except OSError:
        return


def _fetch(package: Package) -> bytes:
    with tempfile.TemporaryDirectory(prefix="guidegen-") as folder:
        _run(_command(package, folder), package)
        ending = Path(package.file).suffix
        found = sorted(Path(folder).glob(f"*{ending}"))
        if len(found) != 1:
            raise NotToBeHad(f"{package.name} {package.version} did not arrive")
        data = found[0].read_bytes()
    if not _sound(package, data):
        raise NotToBeHad(f"{package.name} {package.version} is another file than the pinned one")
    return data


def _command(package: Package, folder: str) -> list[str]:
    if package.platform:
        wanted = f"{package.name}=={package.version}"
        how = ["--no-deps", "--only-binary=:all:", "--disable-pip-version-check", "--quiet"]
        built = ["--platform", package.platform, "--python-version", package.python]
        return [sys.executable, "-m", "pip", "download", *how, *built, "--dest", folder, wanted]
    npm = shutil.which("npm")
    if npm is None:
        raise NotToBeHad("npm, which fetches it, is not installed")
    wanted = f"{package.name}@{package.version}"
    how = ["--ignore-scripts", "--silent", "--cache", f"{folder}/npm-cache"]
    return [npm, "pack", wanted, *how, "--pack-destination", folder]


def _run(command: list[str], package: Package) -> None:
    try:
        subprocess.run(  # noqa: S603 - a fixed program with pinned names
            command,
            check=True,
            timeout=SECONDS,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            cwd=tempfile.gettempdir(),
        )
    except subprocess.CalledProcessError as error:
        said = error.stderr.decode(errors="replace").strip().splitlines()
        why = said[-1] if said else "no reason given"
        raise NotToBeHad(f"{package.name} {package.version} could not be fetched: {why}") from None
    except (OSError, subprocess.TimeoutExpired) as error:
        kind = type(error).__name__
        raise NotToBeHad(f"{package.name} {package.version} could not be fetched: {kind}") from None


def _unpacked(package: Package, data: bytes) -> dict[str, bytes]:
    if package.platform:
        with zipfile.ZipFile(BytesIO(data)) as wheel:
            return {name: wheel.read(name) for name in wheel.namelist() if not name.endswith("/")}
    files: dict[str, bytes] = {}
    with tarfile.open(fileobj=BytesIO(data), mode="r:gz") as archive:
        for member in archive.getmembers():
            content = archive.extractfile(member) if member.isfile() else None
            if content is not None:
                files[member.name.removeprefix("package/")] = content.read()
    return files
