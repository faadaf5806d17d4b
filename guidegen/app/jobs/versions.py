"""What was published of older versions: kept when a newer one comes, and published with it.

A press that finds another version of a guide than the last one keeps the documents of the last
one, as they lie in out/, in a folder beside the guides; and it publishes what is kept there below
the guide's folder. So whoever holds an old booklet finds the templates that belong to it.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.fingerprint import KEPT_VERSIONS, VERSION_FILE
from guidegen.buildfile.read.reader import shown_path
from guidegen.documents import BY_ID
from guidegen.problems import Checked, Place, Problem
from guidegen.render.site.versions import KeptVersion
from guidegen.render.text.links import DownloadInfo, version_folder
from guidegen.write.index import Index, Unit, load_index
from guidegen.write.kept_versions import is_kept, load_version, save_version, versions_folder

UNKEPT = frozenset({"pack"})
"""Documents that hold others again: a version would take twice the room."""
FACTS = ("kind", "size", "paper", "pages", "note")
"""What is kept of a document for those who list it."""


@dataclass(frozen=True)
class StoredVersion:
    """An older version whose files can be published."""

    kept: KeptVersion
    files: Mapping[str, tuple[Path, str]]
    """Where each file lies, and its SHA-256, by path in the version's folder."""


def listed_documents(
    guide: str, downloads: Mapping[str, DownloadInfo]
) -> dict[str, dict[str, object]]:
    """What would be kept of a guide's documents, by path in its folder."""
    start = len(guide) + 1
    return {
        path[start:]: {name: asdict(info)[name] for name in FACTS}
        for path, info in sorted(downloads.items())
        if info.kind not in UNKEPT
    }


def keep_last_versions(
    folder: Path, out: Path, content: Content, unchanged: Collection[str]
) -> list[Problem]:
    """Keep what the last press made of versions that this one takes away.

    `folder` is that of the content, `out` the output of the last press; `unchanged` guides have
    the version that they had.
    """
    last = load_index(out)
    now = {file.id: file.guide.version for file in content.guides}
    problems = []
    for path, unit in sorted(last.units.items()):
        guide = path.rpartition("/")[2]
        if guide in unchanged or unit.version in ("", now.get(guide)):
            continue
        if failure := _keep(folder, out, last, path, unit):
            place = Place(f"{shown_path(folder)}/{guide}/guide.yaml")
            message = f"version {unit.version} of {path} was published and is not kept: {failure}"
            problems.append(Problem("version-unkept", place, "version", message))
    return problems


def _keep(folder: Path, out: Path, last: Index, path: str, unit: Unit) -> str:
    """Keep one guide's documents; what went wrong, in words."""
    files: dict[str, tuple[Path, dict[str, object]]] = {}
    for name, facts in unit.documents.items():
        sha, source = last.files.get(f"{path}/{name}"), out / path / name
        if sha is None or not is_kept(out / path, name, sha):
            return f"{source} is missing or was changed since it was pressed"
        files[name] = (source, {"sha256": sha, "bytes": source.stat().st_size, **facts})
    about = {"guide": path, "version": unit.version, "date": unit.date}
    place = versions_folder(folder.resolve(), path) / version_folder(unit.version)
    return save_version(place, about, files)


def stored_versions(folder: Path, language: str, file: GuideFile) -> Checked[list[StoredVersion]]:
    """Older versions of a guide in one language, also under its former names.

    `folder` is that of the content, `language` a folder of out/ with a slash at its end, or empty.
    """
    found: dict[str, StoredVersion] = {}
    for name in (file.id, *file.guide.formerly.guides):
        former = "" if name == file.id else name
        root = versions_folder(folder, language + name)
        for path in sorted(root.glob(f"*/{VERSION_FILE}")):
            if root.is_symlink() or path.parent.is_symlink():
                continue
            stored = yield from _stored(path.parent, former, shown_path(folder))
            if stored is not None and stored.kept.version != file.guide.version:
                found.setdefault(stored.kept.folder, stored)
    return list(found.values())


def _stored(place: Path, former: str, shown: str) -> Checked[StoredVersion | None]:
    at = Place(shown + "/" + "/".join(place.parts[place.parts.index(KEPT_VERSIONS) :]))
    try:
        about, listed = load_version(place)
        version, date = about["version"], about["date"]
        infos = {name: _info(name, facts) for name, facts in listed.items()}
    except (ValueError, KeyError, TypeError) as error:
        yield Problem("version-fault", at, "", f"{VERSION_FILE} cannot be used: {error}")
        return None
    if version_folder(version) != place.name:
        message = f"version {version} belongs into a folder called {version_folder(version)}"
        yield Problem("version-fault", at, "", message)
        return None
    whole = {name for name, facts in listed.items() if is_kept(place, name, facts["sha256"])}
    for name in sorted(listed.keys() - whole):
        message = f"{name} is missing or was changed: it is left out"
        yield Problem("version-fault", at, "", message)
    return StoredVersion(
        KeptVersion(
            version, date, place.name, {name: infos[name] for name in sorted(whole)}, former
        ),
        {name: (place / name, str(listed[name]["sha256"])) for name in sorted(whole)},
    )


def _info(name: str, facts: Mapping[str, object]) -> DownloadInfo:
    """What a list says of a document. Raises ValueError, KeyError or TypeError."""
    kind, size, paper, pages, note = (facts[fact] for fact in FACTS)
    document = BY_ID.get(str(kind))
    if document is None or Path(name).suffix != Path(document.file).suffix:
        raise ValueError(f"{name} is no document that guidegen makes")
    return DownloadInfo(
        str(kind), str(size), int(str(facts["bytes"])), str(paper), int(str(pages)), str(note)
    )


def unkept_versions(file: GuideFile, stored: Sequence[StoredVersion]) -> Iterator[Problem]:
    """Versions that the log of changes tells of and of which nothing is kept."""
    kept = {one.kept.version for one in stored} | {file.guide.version}
    for number, change in enumerate(file.guide.changes):
        if change.version not in kept:
            kept.add(change.version)
            message = f"nothing is kept of version {change.version}"
            yield file.source.problem("version-unkept", ("changes", number, "version"), message)
