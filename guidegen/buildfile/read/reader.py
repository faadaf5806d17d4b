"""A content folder in → its files, read, typed and bounded; nothing outside it is touched.

content/
  site.yaml           what the site is called
  *.icc               the profile of a press that it names
  stock.yaml          materials, tools, processes, cautions of all guides
  <guide>/guide.yaml  one build
  <guide>/*.svg       drawings that its parts name
  <guide>/*.md        longer texts that it names
  <guide>/*.png …     pictures that its steps name
"""

import os
import re
import stat
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.buildfile.expand.expansion import expand_steps
from guidegen.buildfile.read.amounts import amount_problems
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.file_names import leads_out, unkeepable_part
from guidegen.buildfile.read.print_profile import MOST_BYTES, press_inks
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import FileKind, FileName
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.steps import Sequence
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.records.walk import keys_from_files, walk, wordings
from guidegen.buildfile.yaml.characters import forbidden_at, forbidden_words
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Source, Trail, Value, read_tree
from guidegen.errors import ContentError, UsageError
from guidegen.problems import Place, Problem, did_you_mean
from guidegen.words import read_words

MAX_TEXT = 2_000_000
"""Bytes of one drawing or text file. Our choice: a drawing of 20,000 points is about 1 MB."""
MAX_PICTURE = 30_000_000
"""Bytes of one photo. Our choice: above what a telephone makes."""
MAX_FILES = 400
"""Files that one guide may name. Our choice."""

_GUIDE_FOLDER = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_FILE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*(/[A-Za-z0-9][A-Za-z0-9._-]*){0,3}")
_PICTURE_ENDINGS = (".png", ".jpg", ".jpeg", ".webp", ".svg")


def read_content(folder: Path, only: Collection[str] = ()) -> Content:
    """All guides of a folder, or `only` some. Raises ContentError with every problem found."""
    content, problems = read_what_holds(folder, only)
    if problems or content is None:
        raise ContentError(problems)
    return content


def read_what_holds(
    folder: Path, only: Collection[str] = ()
) -> tuple[Content | None, list[Problem]]:
    """The guides that could be read, and every problem of reading.

    So one run can tell the slips of all guides, though one of them cannot even be read. None
    where site.yaml or stock.yaml does not hold: without them nothing else can be judged.
    """
    shared, problems = read_shared(folder, only)
    return read_guides(folder, shared, shared.names, problems), problems


@dataclass(frozen=True)
class Shared:
    """What stands beside the guides, and what they are called."""

    site: Site | None
    """None where site.yaml does not hold."""
    site_source: Source
    stock: Stock | None
    """None where stock.yaml does not hold."""
    stock_source: Source
    names: tuple[str, ...]
    """Folders of the guides that were asked for, sorted."""


def read_shared(folder: Path, only: Collection[str] = ()) -> tuple[Shared, list[Problem]]:
    """Site, stock and the names of all guides, or of `only` some. Raises UsageError."""
    shown = shown_path(folder)
    if not folder.is_dir():
        raise UsageError(f'there is no content folder "{shown}"')
    problems: list[Problem] = []
    site, site_source = _read(Site, folder, "site.yaml", shown, problems)
    stock, stock_source = _read(Stock, folder, "stock.yaml", shown, problems)
    names = tuple(_guide_names(folder, shown, only, problems))
    return Shared(site, site_source, stock, stock_source, names), problems


def read_guides(
    folder: Path, shared: Shared, names: Collection[str], problems: list[Problem]
) -> Content | None:
    """The guides of these names, with what they share; None where that does not hold."""
    site, stock = shared.site, shared.stock
    sequences = stock.sequences if stock is not None else {}
    shown = shown_path(folder)
    found = (read_guide(folder / name, f"{shown}/{name}", problems, sequences) for name in names)
    guides = tuple(guide for guide in found if guide is not None)
    profile = _print_profile(folder, site, shared.site_source, problems) if site else b""
    if site is None or stock is None:
        return None
    words = read_words(site.languages[0])
    return Content(site, shared.site_source, stock, shared.stock_source, guides, words, profile)


def _print_profile(folder: Path, site: Site, source: Source, problems: list[Problem]) -> bytes:
    """The ICC profile that a site names, if it is one of a press; empty with a problem if not."""
    if site.print_profile is None:
        return b""
    path, trail = folder / site.print_profile, ("print-profile",)
    if leads_out(path, folder):
        message = f'"{site.print_profile}" leads out of the content folder'
        problems.append(source.problem("outside", trail, message))
        return b""
    data = _bytes(path, MOST_BYTES, f"{shown_path(folder)}/{site.print_profile}", problems)
    if data is None:
        return b""
    if not press_inks(data):
        message = "expected an ICC profile of an output device (class prtr) with one or four inks"
        problems.append(source.problem("print-profile", trail, message))
    return data


def read_guide(
    folder: Path, shown: str, problems: list[Problem], shared: Mapping[str, Sequence]
) -> GuideFile | None:
    """One guide with the files that it names; None where guide.yaml itself does not hold.

    `shared` are the sequences of steps in stock.yaml.
    """
    reader = FolderReader(folder, shown, problems)

    def prepare(value: Value, source: Source) -> tuple[Value, Source]:
        value, source, found = expand_steps(reader.take_long_texts(value, source), source, shared)
        problems.extend(found)
        return value, source

    guide, source = _read(Guide, folder, "guide.yaml", shown, problems, prepare=prepare)
    if guide is None:
        return None
    for leaf in walk(guide):
        match leaf.meaning:
            case FileName(FileKind.DRAWING):
                reader.take_text(leaf.text.partition("#")[0], leaf.trail, source, (".svg",))
            case FileName(FileKind.PICTURE):
                reader.take_picture(leaf.text, leaf.trail, source)
    return GuideFile(
        folder.name,
        guide,
        source,
        drawings=reader.texts,
        pictures=reader.pictures,
        text_files=reader.text_files,
        drawing_files={name: f"{shown}/{name}" for name in reader.texts},
        texts=reader.long_texts,
    )


def shown_path(path: Path) -> str:
    """The path as the author would type it."""
    text = path.as_posix()
    here = Path.cwd().as_posix()
    return text[len(here) + 1 :] if text.startswith(here + "/") else text


def _guide_names(
    folder: Path, shown: str, only: Collection[str], problems: list[Problem]
) -> list[str]:
    names = sorted(entry.name for entry in folder.iterdir() if (entry / "guide.yaml").is_file())
    for name in sorted(set(only) - set(names)):
        raise UsageError(f'there is no guide "{name}" in {shown}{did_you_mean(name, names)}')
    chosen = [name for name in names if not only or name in only]
    for name in chosen:
        if not _GUIDE_FOLDER.fullmatch(name) or len(name) > 48:
            message = (
                "the folder's name becomes part of addresses: expected lower case words "
                "with hyphens, at most 48 characters"
            )
            problems.append(_file_problem("folder-name", f"{shown}/{name}", message))
    outside = {name for name in chosen if leads_out(folder / name, folder)}
    for name in sorted(outside):
        message = "the folder is a link that leads out of the content folder"
        problems.append(_file_problem("outside", f"{shown}/{name}", message))
    if not names:
        message = "no guide here: expected folders with a guide.yaml"
        problems.append(_file_problem("no-guide", shown, message))
    return [name for name in chosen if _GUIDE_FOLDER.fullmatch(name) and name not in outside]


def _read[M: Model](
    model: type[M],
    folder: Path,
    name: str,
    shown: str,
    problems: list[Problem],
    *,
    prepare: Callable[[Value, Source], tuple[Value, Source]] = lambda value, source: (
        value,
        source,
    ),
) -> tuple[M | None, Source]:
    shown = f"{shown}/{name}"
    text = read_inside(folder, name, shown, problems)
    if text is None:
        return None, Source(shown, ())
    value, source, found = read_tree(text, shown)
    problems.extend(found)
    if found:
        return None, source
    value, source = prepare(value, source)
    record, invalid = validate(model, value, source)
    if record is not None:
        invalid += amount_problems({leaf.trail: leaf.text for leaf, _ in wordings(record)}, source)
    problems.extend(invalid)
    return (None if invalid else record), source


def read_inside(folder: Path, name: str, shown: str, problems: list[Problem]) -> str | None:
    """The same of a file in a folder, unless it is a link that leads out of it: the lines of a
    file elsewhere would be told as the author's own, in public where a robot checks a guide.
    """
    if leads_out(folder / name, folder):
        problems.append(_file_problem("outside", shown, f'"{name}" leads out of its folder'))
        return None
    return read_file(folder / name, shown, problems)


def read_file(path: Path, shown: str, problems: list[Problem]) -> str | None:
    """Text of an ordinary UTF-8 file of bounded size; None, and a problem, where it is not one."""
    data = _bytes(path, MAX_TEXT, shown, problems)
    return None if data is None else _decoded(data, shown, problems)


@dataclass
class FolderReader:
    """Takes named files from one guide's folder, each once, and never from anywhere else."""

    folder: Path
    shown: str
    problems: list[Problem]
    texts: dict[str, str] = field(default_factory=dict)
    long_texts: dict[str, str] = field(default_factory=dict)
    pictures: dict[str, bytes] = field(default_factory=dict)
    text_files: dict[str, Source] = field(default_factory=dict)
    cases: dict[str, str] = field(default_factory=dict)
    """Names in lower case, which some systems cannot tell apart, with how they were written."""

    def take_long_texts(self, value: Value, source: Source) -> Value:
        """Put the words of a Markdown file in the place of its name."""
        if not isinstance(value, dict):
            return value
        replaced = dict(value)
        for key in keys_from_files(Guide):
            name = value.get(key)
            if isinstance(name, str) and name.endswith(".md") and not re.search(r"\s", name):
                data = self._take(name, (key,), source, (".md",), MAX_TEXT)
                words = _decoded(data, f"{self.shown}/{name}", self.problems) if data else None
                if words is not None:
                    replaced[key] = self.long_texts[name] = words
                    shown = f"{self.shown}/{name}"
                    self.text_files[key] = Source(shown, tuple(words.splitlines()))
        return replaced

    def take_text(self, name: str, trail: Trail, source: Source, endings: tuple[str, ...]) -> None:
        """Read a drawing."""
        if name in self.texts:
            return
        data = self._take(name, trail, source, endings, MAX_TEXT)
        if data is not None:
            text = _decoded(data, f"{self.shown}/{name}", self.problems)
            if text is not None:
                self.texts[name] = text

    def take_picture(self, name: str, trail: Trail, source: Source) -> None:
        """Read a photo."""
        if name not in self.pictures:
            data = self._take(name, trail, source, _PICTURE_ENDINGS, MAX_PICTURE)
            if data is not None:
                self.pictures[name] = data

    def _take(
        self, name: str, trail: Trail, source: Source, endings: tuple[str, ...], limit: int
    ) -> bytes | None:
        def refuse(code: str, message: str) -> None:
            self.problems.append(source.problem(code, trail, message))

        if len(self.texts) + len(self.pictures) >= MAX_FILES:
            refuse("too-many-files", f"more than {MAX_FILES} files are named")
            return None
        if not _FILE_NAME.fullmatch(name) or ".." in name.split("/"):
            refuse("file-name", f'expected the name of a file in this folder, found "{name}"')
            return None
        if part := unkeepable_part(name):
            refuse("file-name", f'"{part}" cannot be a file on Windows; rename it')
            return None
        other = self.cases.setdefault(name.casefold(), name)
        if other != name:
            refuse("file-name", f'"{name}" and "{other}" differ only in capital letters')
            return None
        if not name.lower().endswith(endings):
            refuse("file-kind", f"expected a file that ends in {', '.join(endings)}")
            return None
        path = self.folder / name
        if not os.path.lexists(path):
            hint = did_you_mean(name, self._names(endings))
            refuse("no-file", f'there is no file "{name}" in {self.shown}{hint}')
            return None
        if leads_out(path, self.folder):
            refuse("outside", f'"{name}" leads out of the guide\'s folder')
            return None
        return _bytes(path, limit, f"{self.shown}/{name}", self.problems)

    def _names(self, endings: tuple[str, ...]) -> list[str]:
        return [
            entry.relative_to(self.folder).as_posix()
            for entry in sorted(self.folder.glob("*"))
            if entry.name.lower().endswith(endings)
        ][:200]


def _bytes(path: Path, limit: int, shown: str, problems: list[Problem]) -> bytes | None:
    """A regular file's bytes; a pipe or a device would block, so it is refused."""
    try:
        info = path.stat()
        if not stat.S_ISREG(info.st_mode):
            problems.append(_file_problem("not-a-file", shown, "expected an ordinary file"))
            return None
        if info.st_size > limit:
            message = f"the file is larger than {limit / 1e6:g} MB"
            problems.append(_file_problem("too-large-file", shown, message))
            return None
        with path.open("rb") as stream:
            return stream.read(limit + 1)[: limit + 1]
    except FileNotFoundError:
        problems.append(_file_problem("no-file", shown, "there is no such file"))
    except OSError as error:
        problems.append(_file_problem("unreadable", shown, f"cannot be read: {error.strerror}"))
    return None


def _decoded(data: bytes, shown: str, problems: list[Problem]) -> str | None:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        place = Place(shown, line)
        message = "the file is not UTF-8 text; save it with that encoding"
        problems.append(Problem("not-utf-8", place, "", message))
        return None
    at = forbidden_at(text)
    if at >= 0:
        place = Place(shown, text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at))
        message = forbidden_words(text, at)
        problems.append(Problem("character", place, "", message))
        return None
    return text


def _file_problem(code: str, shown: str, message: str) -> Problem:
    return Problem(code, Place(shown), "", message)
