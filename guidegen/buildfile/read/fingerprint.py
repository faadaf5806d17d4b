"""Everything that a press reads → hashes, so that what has not changed is known."""

import ctypes
import hashlib
import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.buildfile.read.file_names import leads_out
from guidegen.buildfile.read.theme import OWN_THEME

READ = (".yaml", ".md", ".svg", ".png", ".jpg", ".jpeg", ".webp", ".icc")
"""Endings of the files of a content folder that a press may read."""

OWN = (".py", ".po", ".json", ".svg", ".png", ".yaml")
"""Endings of the package's own files that have a say in the output."""

KEPT = ("plans", "translated")
"""Folders for what a press keeps beside the build files: it may write there itself."""

KEPT_VERSIONS = "versions.kept"
"""Folder beside the guides for what was published of older versions. A guide, which may come from
a stranger, cannot have this name."""
VERSION_FILE = "version.json"
"""What an old version consists of, in its folder there."""

_LIBRARIES = {
    "pango_version_string": ("libpango-1.0.so.0", "libpango-1.0.0.dylib", "libpango-1.0-0.dll"),
    "hb_version_string": ("libharfbuzz.so.0", "libharfbuzz.0.dylib", "libharfbuzz-0.dll"),
}
"""Functions of the system's libraries that set text, and the files that hold them."""


@dataclass(frozen=True)
class Fingerprints:
    """Hashes of what one press reads."""

    software: str
    """guidegen and its libraries."""
    themes: str
    shared: str
    """Files that all guides share: site, stock, their translations."""
    guides: dict[str, str]
    """Build files, drawings and pictures of each guide, by its folder's name."""
    kept: dict[str, str]
    """What earlier presses kept beside them: cut plans, originals of translations."""

    def whole(self, asked: Iterable[str]) -> str:
        """One hash of everything, and of what was `asked` for."""
        both = (*sorted(self.guides.items()), *sorted(self.kept.items()))
        guides = (f"{name} {own}" for name, own in both)
        return _hash([self.software, self.themes, self.shared, *guides, *asked])

    def guide(self, name: str, theme: str, asked: Iterable[str]) -> str:
        """Hash of everything that the output of one guide may depend on, in one `theme`."""
        own = (self.guides.get(name, ""), self.kept.get(name, ""), self.kept.get("", ""))
        return _hash([self.software, theme, self.shared, name, *own, *asked])

    def with_kept(self, content: Path) -> "Fingerprints":
        """The same after a press, which may have kept something; an edit meanwhile is not seen."""
        return replace(self, kept=_read_kept(content, _guides(content)))


def read_fingerprints(content: Path, themes: Path) -> Fingerprints:
    """Hashes of a content folder, of the themes, and of guidegen itself."""
    guides = _guides(content)
    return Fingerprints(
        software_fingerprint(),
        _hash([_hash_files(folder, _files(folder)) for folder in (themes, content / OWN_THEME)]),
        _hash_files(content, _files_right_in(content, READ)),
        {folder.name: _hash_files(folder, _files(folder, READ)) for folder in guides},
        _read_kept(content, guides),
    )


def software_fingerprint() -> str:
    """Hash of guidegen itself and of the versions of what it works with."""
    package = Path(__file__).parents[2]
    return _hash([*_versions(), _hash_files(package, _files(package, OWN))])


def theme_fingerprint(files: Mapping[str, bytes]) -> str:
    """Hash of the files of one theme."""
    names = (f"{name} {hashlib.sha256(data).hexdigest()}" for name, data in sorted(files.items()))
    return _hash(names)


def _guides(content: Path) -> list[Path]:
    # Only what is a guide: the output may lie in the same folder.
    return sorted(
        content / entry.name
        for entry in _entries(content)
        if os.path.isfile(f"{entry.path}/guide.yaml")  # noqa: PTH113 - of thousands of folders
        # What is no link itself leads nowhere else; to follow a whole path takes long.
        and not (entry.is_symlink() and leads_out(Path(entry.path), content))
    )


def _read_kept(content: Path, guides: Iterable[Path]) -> dict[str, str]:
    """Hash of what is kept for all guides, by an empty name, and for each of the `guides`."""
    folders = {"": content} | {folder.name: folder for folder in guides}
    kept = {name: _hash_files(folder, _kept(folder)) for name, folder in folders.items()}
    versions: dict[str, list[Path]] = {}
    for path in _kept_versions(content):
        versions.setdefault(path.parts[-3], []).append(path)
    for name in versions.keys() & folders.keys():
        place = content / KEPT_VERSIONS
        files = ((path.relative_to(place).as_posix(), False) for path in versions[name])
        kept[name] = _hash([kept[name], _hash_files(place, files)])
    return kept


def _kept_versions(content: Path) -> list[Path]:
    """Lists of what was kept of old versions: of guides, and of guides in further languages."""
    place = content / KEPT_VERSIONS
    found = [*place.glob(f"*/*/{VERSION_FILE}"), *place.glob(f"*/*/*/{VERSION_FILE}")]
    return sorted(path for path in found if path.is_file() and not leads_out(path, content))


type _Named = tuple[str, bool]
"""Path of a file from a folder, with forward slashes, and whether it is a link."""


def _entries(folder: Path | str) -> list[os.DirEntry[str]]:
    """What lies in a folder, by name; nothing where there is none."""
    try:
        with os.scandir(folder) as entries:
            return sorted(entries, key=lambda entry: entry.name)
    except OSError:
        return []


def _kept(folder: Path) -> Iterator[_Named]:
    for name in KEPT:
        for file, link in _files_right_in(folder / name, (".json",)):
            yield f"{name}/{file}", link


def _files_right_in(folder: Path | str, endings: tuple[str, ...]) -> Iterator[_Named]:
    """Files of a folder with one of the endings, not of those below; all without endings."""
    for entry in _entries(folder):
        if (not endings or entry.name.lower().endswith(endings)) and entry.is_file():
            yield entry.name, entry.is_symlink()


def _files(folder: Path | str, endings: tuple[str, ...] = ()) -> Iterator[_Named]:
    """The same with those below; what lies behind a link to a folder is not looked at."""
    yield from _files_right_in(folder, endings)
    for entry in _entries(folder):
        if entry.is_dir(follow_symlinks=False):
            yield from (
                (f"{entry.name}/{file}", link) for file, link in _files(entry.path, endings)
            )


_AT_ONCE = 1 << 20
"""Bytes of a file that are read at once."""


def _hash_files(folder: Path | str, names: Iterable[_Named]) -> str:
    """Names in the folder and bytes, so that two checkouts agree.

    A file that cannot be read counts by its name: reading tells why.
    """
    summary = hashlib.sha256()
    for name, link in names:
        summary.update(name.encode("utf-8", "surrogateescape") + b"\0")
        path = f"{folder}/{name}"
        if link and leads_out(Path(path), Path(folder)):
            continue  # it is refused where it is read, and may be of any length
        with suppress(OSError), open(path, "rb", buffering=0) as stream:  # noqa: PTH123 - the same
            own = hashlib.sha256()
            while data := stream.read(_AT_ONCE):
                own.update(data)
            summary.update(own.digest())
    return summary.hexdigest()


def _hash(words: Iterable[str]) -> str:
    return hashlib.sha256("\0".join(words).encode("utf-8", "surrogateescape")).hexdigest()


def _versions() -> Iterator[str]:
    """Python, the libraries installed, and those of the system: a new one may set otherwise."""
    yield sys.version
    # Names of folders tell versions; to read every package's description takes ten times as long.
    for folder in sys.path:
        yield from sorted(path.stem for path in Path(folder).glob("*.dist-info"))
    for function, names in _LIBRARIES.items():
        yield f"{function} {_system_version(function, names)}"


def _system_version(function: str, names: tuple[str, ...]) -> str:
    """Version of a library of the system; empty where it is not found."""
    for name in names:
        with suppress(OSError, AttributeError):
            ask = getattr(ctypes.CDLL(name), function)
            ask.restype = ctypes.c_char_p
            return str(ask().decode())
    return ""
