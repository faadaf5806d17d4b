"""Packages and our own modules in → the files that a page loads to make templates, out.

Two folders, each named by the hash of what is in it, so that a server may let browsers keep them
for a year: `core-…` is Python and GEOS, `own-…` is guidegen with the libraries that it imports.
What is large is sent compressed and unpacked by the worker, whatever the server does. The same
packages give the same bytes.
"""

import gzip
import hashlib
import json
import re
import tarfile
import zipfile
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.metadata import distribution, packages_distributions
from importlib.resources import files
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

from guidegen.app.measured.compiled import compile_modules
from guidegen.app.measured.kept import made_once
from guidegen.app.measured.packages import package_files
from guidegen.render.fonts.fonts import FAMILIES
from guidegen.shipped import MEASURED_FILES

MODULES = Path(__file__).parent / "modules.txt"
"""What making templates imports; tests/measured_modules.py writes it."""

LEFT_OUT = Path(__file__).parent / "left_out.txt"
"""Of Python's own modules: what is not sent. Nothing listed in MODULES imports one."""

WORKER = "worker.mjs"
LIBRARY, STANDARD = "library.tar.gz", "python_stdlib.zip.gz"
FACES = ("Regular", "SemiBold", "Bold")
"""Of the family in which templates are lettered."""

_STAMP = (1980, 1, 1, 0, 0, 0)
"""Of files in archives: the first that zip can hold, so that bytes follow from the content."""


@dataclass(frozen=True, slots=True)
class Bundle:
    """What the site serves, and where pages find it."""

    core: str
    """Folder from out/."""
    own: str
    """Folder from out/."""
    files: Mapping[str, bytes]
    """By path from out/."""
    geos_licence: bytes = b""

    @property
    def bytes(self) -> int:
        """What a first visit loads, without what is only there to be read."""
        return sum(len(data) for path, data in self.files.items() if not path.endswith(".txt"))


def make_bundle(languages: Collection[str]) -> Bundle:
    """Everything, for pages in these languages. Raises NotToBeHad."""
    core = _core_files()
    sources = dict(_library(languages))
    own = {
        LIBRARY: made_once(
            "library", sources, lambda: _packed(_one_file(compile_modules(sources)))
        ),
        WORKER: (Path(__file__).parent / WORKER).read_bytes(),
    }
    folders = {name: f"{MEASURED_FILES}/{name}-{_mark(one)}" for name, one in _named(core, own)}
    found = {
        f"{folders[name]}/{path}": data
        for name, one in _named(core, own)
        for path, data in one.items()
    }
    licence = package_files("geos-wasm")["LICENSE.md"]
    return Bundle(folders["core"], folders["own"], found, licence)


def library_licences() -> bytes:
    """Licences of all libraries in the archive, guidegen's own too, as text."""
    tops = {name.partition(".")[0] for name in _modules()}
    known = packages_distributions()
    names = sorted({known[top][0] for top in tops if top in known})
    said = [f"Libraries in {LIBRARY}, unchanged but for what templates do not use.\n"]
    for name in names:
        one = distribution(name)
        texts = [
            Path(file.locate()).read_text(encoding="utf-8", errors="replace")
            for file in one.files or ()
            if "dist-info" in str(file) and re.search(r"(?i)licen[cs]e|copying", file.name)
        ]
        about = one.metadata.get("License-Expression") or one.metadata.get("License") or "see below"
        said.append(f"{one.name} {one.version}: {about}\n\n" + "\n".join(texts))
    return ("\n" + "=" * 96 + "\n\n").join(said).encode()


def _named(
    core: Mapping[str, bytes], own: Mapping[str, bytes]
) -> tuple[tuple[str, Mapping[str, bytes]], ...]:
    return (("core", core), ("own", own))


def _mark(one: Mapping[str, bytes]) -> str:
    sums = hashlib.sha256()
    for path, data in sorted(one.items()):
        sums.update(f"{path} {hashlib.sha256(data).hexdigest()}\n".encode())
    return sums.hexdigest()[:16]


@cache
def _core_files() -> dict[str, bytes]:
    python, geos = package_files("pyodide"), package_files("geos-wasm")
    lock = json.loads(python["pyodide-lock.json"])
    # Of hundreds of packages that it could fetch from elsewhere none is named to it.
    bare = {"info": lock["info"], "packages": {}}
    script, wasm = python["pyodide.asm.mjs"], python["pyodide.asm.wasm"]
    library, topology = python["python_stdlib.zip"], geos["build/package/geos.esm.js"]
    # The packages are pinned: their names stand for what is in them.
    return {
        "pyodide.mjs": _without_map(python["pyodide.mjs"]),
        "pyodide.asm.mjs.gz": made_once("script", {}, lambda: _packed(script)),
        "pyodide.asm.wasm.gz": made_once("wasm", {}, lambda: _packed(wasm)),
        STANDARD: made_once("standard", {}, lambda: _packed(_standard_library(library))),
        "pyodide-lock.json": json.dumps(bare, sort_keys=True).encode(),
        "geos.mjs.gz": made_once("geos", {}, lambda: _packed(topology)),
    }


def _without_map(script: bytes) -> bytes:
    """A script without the address of its map, which browsers would ask for."""
    lines = script.splitlines(keepends=True)
    return b"".join(line for line in lines if not line.startswith(b"//# sourceMappingURL"))


def _packed(data: bytes) -> bytes:
    return gzip.compress(data, 9, mtime=0)


def _library(languages: Collection[str]) -> Iterator[tuple[str, bytes]]:
    """Files below a folder of Python packages."""
    for name in [*_modules(), *_STANDINS]:
        spec = find_spec(name)
        if spec is None or spec.origin is None:
            raise ModuleNotFoundError(f"{name} is listed in {MODULES.name} and not installed")
        path = name.replace(".", "/")
        ending = "/__init__.py" if spec.submodule_search_locations is not None else ".py"
        yield path + ending, Path(spec.origin).read_bytes()
    yield from _fonts()
    yield from _locales(languages)


def _modules() -> list[str]:
    """Names of the modules that a browser loads, but for those that something stands in for."""
    names = MODULES.read_text(encoding="utf-8").split()
    return [name for name in names if name.partition(".")[0] not in _STOOD_IN]


_STOOD_IN = frozenset(
    {"annotated_types", "pydantic", "pydantic_core", "typing_extensions", "typing_inspection"}
)

_STANDINS = (
    "guidegen.app.measured.standins",
    "guidegen.app.measured.standins.geos",
    "guidegen.app.measured.standins.models",
    "guidegen.app.measured.standins.recorded",
    "guidegen.app.measured.standins.replacing",
    "markupsafe._native",
)
"""Modules that are imported in a browser alone: ours, and what libraries have instead of C."""


def _fonts() -> Iterator[tuple[str, bytes]]:
    package, stem = FAMILIES["Barlow Condensed"]
    for face in FACES:
        name = f"files/{stem}-{face}.ttf"
        yield f"{package}/{name}", (files(package) / name).read_bytes()


def _locales(languages: Collection[str]) -> Iterator[tuple[str, bytes]]:
    """CLDR data of the languages, and of those that they build on."""
    names = {"root", "en"}
    for language in languages:
        parts = language.split("-")
        names |= {"_".join(parts[:count]) for count in range(1, len(parts) + 1)}
    folder = files("babel")
    yield "babel/global.dat", (folder / "global.dat").read_bytes()
    for name in sorted(names):
        file = folder / "locale-data" / f"{name}.dat"
        if file.is_file():
            yield f"babel/locale-data/{name}.dat", file.read_bytes()


_WESTERN = ("ascii", "charmap", "cp1252", "cp437", "latin_1", "mac_roman")
_ENCODINGS = (*_WESTERN, "__init__", "aliases", "idna", "punycode", "raw_", "un", "utf_")
"""Beginnings of names of those that stay."""


def _is_kept(name: str) -> bool:
    top, _, rest = name.partition("/")
    if top == "encodings":
        return rest.startswith(_ENCODINGS)
    return not name.endswith("/") and top.removesuffix(".py") not in left_out()


@cache
def left_out() -> frozenset[str]:
    """Modules of Python's own that are not sent: servers, terminals, debuggers."""
    return frozenset(LEFT_OUT.read_text(encoding="utf-8").split())


def _standard_library(archive: bytes) -> bytes:
    """Python's own modules, compiled; not packed one by one, since the whole is."""
    with zipfile.ZipFile(BytesIO(archive)) as given:
        names = [name for name in given.namelist() if _is_kept(name)]
        made = compile_modules({name: given.read(name) for name in names})
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archived:
        for path, data in sorted(made.items()):
            entry = zipfile.ZipInfo(path, _STAMP)
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            archived.writestr(entry, data)
    return out.getvalue()


def _one_file(inside: Mapping[str, bytes]) -> bytes:
    """A tar archive (POSIX.1-1988), which a script takes apart in a few lines."""
    out = BytesIO()
    with tarfile.open(fileobj=out, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for path, data in sorted(inside.items()):
            entry = tarfile.TarInfo(path)
            entry.size = len(data)
            archive.addfile(entry, BytesIO(data))
    return out.getvalue()
