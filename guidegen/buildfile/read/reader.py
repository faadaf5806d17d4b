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

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from guidegen.buildfile.expand.expansion import expand_steps
from guidegen.buildfile.expand.finding import SheetFacts, sheet_facts
from guidegen.buildfile.read.amounts import amount_problems
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.file_names import leads_out, stands, unkeepable_part
from guidegen.buildfile.read.files import decoded, file_bytes, file_problem
from guidegen.buildfile.read.print_profile import MOST_BYTES, press_inks
from guidegen.buildfile.read.trade import with_trade
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import FileKind, FileName
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.steps import Sequence
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.records.walk import keys_from_files, walk, wordings
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Source, Trail, Value, read_tree
from guidegen.errors import ContentError, UsageError
from guidegen.problems import Checked, Problem, collect, did_you_mean
from guidegen.words import ENGLISH, Words, read_words

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
    return collect(_what_holds(folder, only))


def _what_holds(folder: Path, only: Collection[str]) -> Checked[Content | None]:
    shared = yield from read_shared(folder, only)
    return (yield from read_guides(folder, shared, shared.names))


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


def read_shared(folder: Path, only: Collection[str] = ()) -> Checked[Shared]:
    """Site, stock and the names of all guides, or of `only` some. Raises UsageError."""
    shown = shown_path(folder)
    if not folder.is_dir():
        raise UsageError(f'there is no content folder "{shown}"')
    site, site_source = yield from _read(Site, folder, "site.yaml", shown)
    stock, stock_source = yield from _read(
        Stock, folder, "stock.yaml", shown, prepare=_extended_in(site)
    )
    names = yield from _guide_names(folder, shown, only)
    return Shared(site, site_source, stock, stock_source, tuple(names))


def read_guides(folder: Path, shared: Shared, names: Collection[str]) -> Checked[Content | None]:
    """The guides of these names, with what they share; None where that does not hold."""
    site, stock = shared.site, shared.stock
    words = read_words(site.languages[0]) if site is not None else ENGLISH
    sequences = stock.sequences if stock is not None else {}
    sheets = sheet_facts(stock.materials) if stock is not None else {}
    shown = shown_path(folder)
    guides = []
    for name in names:
        shown_guide = f"{shown}/{name}"
        guide = yield from read_guide(folder / name, shown_guide, sequences, sheets, words)
        if guide is not None:
            guides.append(guide)
    profile = (yield from _print_profile(folder, site, shared.site_source)) if site else b""
    if site is None or stock is None:
        return None
    return Content(
        site, shared.site_source, stock, shared.stock_source, tuple(guides), words, profile
    )


def _print_profile(folder: Path, site: Site, source: Source) -> Checked[bytes]:
    """The ICC profile that a site names, if it is one of a press; empty with a problem if not."""
    if site.print_profile is None:
        return b""
    path, trail = folder / site.print_profile, ("print-profile",)
    if leads_out(path, folder):
        message = f'"{site.print_profile}" leads out of the content folder'
        yield source.problem("outside", trail, message)
        return b""
    data = yield from file_bytes(path, MOST_BYTES, f"{shown_path(folder)}/{site.print_profile}")
    if data is None:
        return b""
    if not press_inks(data):
        message = "expected an ICC profile of an output device (class prtr) with one or four inks"
        yield source.problem("print-profile", trail, message)
    return data


def read_guide(
    folder: Path,
    shown: str,
    shared: Mapping[str, Sequence],
    sheets: Mapping[str, SheetFacts] | None = None,
    words: Words = ENGLISH,
) -> Checked[GuideFile | None]:
    """One guide with the files that it names; None where guide.yaml itself does not hold.

    `shared` are the sequences of steps in stock.yaml, `sheets` its materials as they find parts,
    `words` those of the language in which the guide is written.
    """
    reader = FolderReader(folder, shown)

    def prepare(value: Value, source: Source) -> Checked[tuple[Value, Source]]:
        value = yield from reader.take_long_texts(value, source)
        value, source, found = expand_steps(value, source, shared, sheets, words)
        yield from found
        return value, source

    guide, source = yield from _read(Guide, folder, "guide.yaml", shown, prepare=prepare)
    if guide is None:
        return None
    for leaf in walk(guide):
        match leaf.meaning:
            case FileName(FileKind.DRAWING):
                name = leaf.text.partition("#")[0]
                yield from reader.take_text(name, leaf.trail, source, (".svg",))
            case FileName(FileKind.PICTURE):
                yield from reader.take_picture(leaf.text, leaf.trail, source)
    letters = yield from _letters(guide, source)
    return GuideFile(
        folder.name,
        guide,
        source,
        drawings=reader.texts,
        pictures=reader.pictures,
        text_files=reader.text_files,
        drawing_files={name: f"{shown}/{name}" for name in reader.texts},
        texts=reader.long_texts,
        letters=letters,
    )


def _letters(guide: Guide, source: Source) -> Checked[dict[str, str]]:
    """Outlines of what is written on parts; the reader of fonts is only asked where there is."""
    if not any(part.inscriptions for part in guide.parts.values()):
        return {}
    from guidegen.buildfile.read.letters import read_letters  # noqa: PLC0415 - browsers lack it

    return (yield from read_letters(guide, source))


def shown_path(path: Path) -> str:
    """The path as the author would type it."""
    text = path.as_posix()
    here = Path.cwd().as_posix()
    return text[len(here) + 1 :] if text.startswith(here + "/") else text


def _guide_names(folder: Path, shown: str, only: Collection[str]) -> Checked[list[str]]:
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
            yield file_problem("folder-name", f"{shown}/{name}", message)
    outside = {name for name in chosen if leads_out(folder / name, folder)}
    for name in sorted(outside):
        message = "the folder is a link that leads out of the content folder"
        yield file_problem("outside", f"{shown}/{name}", message)
    if not names:
        message = "no guide here: expected folders with a guide.yaml"
        yield file_problem("no-guide", shown, message)
    return [name for name in chosen if _GUIDE_FOLDER.fullmatch(name) and name not in outside]


type _Prepare = Callable[[Value, Source], Checked[tuple[Value, Source]]]


def _extended_in(site: Site | None) -> _Prepare:
    """How a site's stock is read: with guidegen's own under it, in the site's language."""
    prepare: _Prepare = _extended(site.languages[0] if site else ENGLISH.language)
    return prepare


@lru_cache(maxsize=8)
def _extended(language: str) -> _Prepare:
    """The same for one language; one function for each, by which what was read is kept."""

    def prepare(value: Value, source: Source) -> Checked[tuple[Value, Source]]:
        yield from ()
        return with_trade(value, source, language)

    return prepare


def _read[M: Model](
    model: type[M], folder: Path, name: str, shown: str, *, prepare: _Prepare | None = None
) -> Checked[tuple[M | None, Source]]:
    shown = f"{shown}/{name}"
    text = yield from read_inside(folder, name, shown)
    if text is None:
        return None, Source(shown, ())
    if model is not Guide:
        record, source, found = _kept(model, text, shown, prepare)
        yield from found
        return record, source
    return (yield from _checked(model, text, shown, prepare))


@lru_cache(maxsize=8)
def _kept[M: Model](
    model: type[M], text: str, shown: str, prepare: _Prepare | None
) -> tuple[M | None, Source, tuple[Problem, ...]]:
    """What a file gives that depends on no other of the folder; the last few, for whoever reads
    them again: a preview after each edit of a guide."""
    (record, source), found = collect(_checked(model, text, shown, prepare))
    return record, source, tuple(found)


def _checked[M: Model](
    model: type[M], text: str, shown: str, prepare: _Prepare | None
) -> Checked[tuple[M | None, Source]]:
    value, source, found = read_tree(text, shown)
    yield from found
    if found:
        return None, source
    if prepare is not None:
        value, source = yield from prepare(value, source)
    record, invalid = validate(model, value, source)
    if record is not None:
        invalid += amount_problems({leaf.trail: leaf.text for leaf, _ in wordings(record)}, source)
    yield from invalid
    return (None if invalid else record), source


def read_inside(folder: Path, name: str, shown: str) -> Checked[str | None]:
    """The same of a file in a folder, unless it is a link that leads out of it: the lines of a
    file elsewhere would be told as the author's own, in public where a robot checks a guide.
    """
    if leads_out(folder / name, folder):
        yield file_problem("outside", shown, f'"{name}" leads out of its folder')
        return None
    return (yield from read_file(folder / name, shown))


def read_file(path: Path, shown: str) -> Checked[str | None]:
    """Text of an ordinary UTF-8 file of bounded size; None, and a problem, where it is not one."""
    data = yield from file_bytes(path, MAX_TEXT, shown)
    return None if data is None else (yield from decoded(data, shown))


@dataclass
class FolderReader:
    """Takes named files from one guide's folder, each once, and never from anywhere else."""

    folder: Path
    shown: str
    texts: dict[str, str] = field(default_factory=dict)
    long_texts: dict[str, str] = field(default_factory=dict)
    pictures: dict[str, bytes] = field(default_factory=dict)
    text_files: dict[str, Source] = field(default_factory=dict)
    cases: dict[str, str] = field(default_factory=dict)
    """Names in lower case, which some systems cannot tell apart, with how they were written."""

    def take_long_texts(self, value: Value, source: Source) -> Checked[Value]:
        """Put the words of a Markdown file in the place of its name."""
        if not isinstance(value, dict):
            return value
        replaced = dict(value)
        for key in keys_from_files(Guide):
            name = value.get(key)
            if isinstance(name, str) and name.endswith(".md") and not re.search(r"\s", name):
                shown = f"{self.shown}/{name}"
                data = yield from self._take(name, (key,), source, (".md",), MAX_TEXT)
                words = (yield from decoded(data, shown)) if data else None
                if words is not None:
                    replaced[key] = self.long_texts[name] = words
                    self.text_files[key] = Source(shown, tuple(words.splitlines()))
        return replaced

    def take_text(
        self, name: str, trail: Trail, source: Source, endings: tuple[str, ...]
    ) -> Checked[None]:
        """Read a drawing."""
        if name in self.texts:
            return
        data = yield from self._take(name, trail, source, endings, MAX_TEXT)
        if data is not None:
            text = yield from decoded(data, f"{self.shown}/{name}")
            if text is not None:
                self.texts[name] = text

    def take_picture(self, name: str, trail: Trail, source: Source) -> Checked[None]:
        """Read a photo."""
        if name not in self.pictures:
            data = yield from self._take(name, trail, source, _PICTURE_ENDINGS, MAX_PICTURE)
            if data is not None:
                self.pictures[name] = data

    def _take(
        self, name: str, trail: Trail, source: Source, endings: tuple[str, ...], limit: int
    ) -> Checked[bytes | None]:
        refusal = self._refusal(name, endings)
        if refusal is not None:
            code, message = refusal
            yield source.problem(code, trail, message)
            return None
        return (yield from file_bytes(self.folder / name, limit, f"{self.shown}/{name}"))

    def _refusal(self, name: str, endings: tuple[str, ...]) -> tuple[str, str] | None:
        """Code and message of what speaks against a file of this name; None where nothing does."""
        if len(self.texts) + len(self.pictures) >= MAX_FILES:
            return "too-many-files", f"more than {MAX_FILES} files are named"
        if not _FILE_NAME.fullmatch(name) or ".." in name.split("/"):
            slashes = "; folders end in /, not in \\" if "\\" in name else ""
            wanted = f'expected the name of a file in this folder, found "{name}"{slashes}'
            return "file-name", wanted
        if part := unkeepable_part(name):
            return "file-name", f'"{part}" cannot be a file on Windows; rename it'
        other = self.cases.setdefault(name.casefold(), name)
        if other != name:
            return "file-name", f'"{name}" and "{other}" differ only in capital letters'
        if not name.lower().endswith(endings):
            return "file-kind", f"expected a file that ends in {', '.join(endings)}"
        path = self.folder / name
        if not stands(name, self.folder):
            hint = did_you_mean(name, self._names(endings))
            return "no-file", f'there is no file "{name}" in {self.shown}{hint}'
        if leads_out(path, self.folder):
            return "outside", f'"{name}" leads out of the guide\'s folder'
        return None

    def _names(self, endings: tuple[str, ...]) -> list[str]:
        return [
            entry.relative_to(self.folder).as_posix()
            for entry in sorted(self.folder.glob("*"))
            if entry.name.lower().endswith(endings)
        ][:200]
