"""What was asked for and what is there already → whether anything has to be made at all.

Imports little, so that a press without change answers at once.
"""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, field, replace
from functools import cached_property
from pathlib import Path

from guidegen.buildfile.read.fingerprint import Fingerprints, read_fingerprints
from guidegen.findings.registry import CODES
from guidegen.problems import Place, Problem, Severity
from guidegen.write.file_stats import counts_of_same, untouched
from guidegen.write.index import Counts, Index, KeptFiles, Unit, is_unchanged, is_whole, load_index
from guidegen.write.staging import Staging


@dataclass(frozen=True)
class PressOptions:
    """What to press, and where to."""

    content: Path
    out: Path
    themes: Path
    guides: tuple[str, ...] = ()
    """Ids of guides; empty for all."""
    nesting_seconds: float = 4.0
    """Longest search for one cut plan that is not stored; 0 makes simple plans."""
    search: float = 0.0
    """Seconds of a longer search for each cut plan that may not be the best possible."""
    workers: int = 0
    """Processes; 0 for one per core while memory allows."""
    editions: tuple[str, ...] = ()
    """Names of editions, or 'all', instead of those that site.yaml chooses."""
    afresh: bool = False
    """Make everything although nothing has changed."""
    cluster: str = ""
    """Address of a cluster's scheduler; empty for this machine alone."""

    @property
    def asked(self) -> tuple[str, ...]:
        """What of it has a say in the output of each guide."""
        mode = "search" if self.nesting_seconds > 0 else "simple"
        return (*(f"edition {name}" for name in self.editions), mode)


@dataclass(frozen=True)
class PressResult:
    """What a press made."""

    out: Path
    counts: Counts
    seconds: float
    problems: tuple[Problem, ...]
    """Warnings and advice."""
    unchanged: bool = False
    """True where the output was there already, made from the same."""
    made: tuple[str, ...] = ()
    """Documents that were set; all others were there already, made from the same."""
    kept: int = 0
    """How many those are."""
    gaps: tuple[str, ...] = ()
    """Guides with cut plans that may not be the best possible, and by how much at most."""

    def summary(self) -> str:
        """The closing words."""
        guides = f"{_count(self.counts.guides, 'guide')} in {_count(self.counts.sizes, 'size')}"
        files = _count(self.counts.files, "file")
        if self.unchanged:
            return (
                f"nothing has changed: {guides}, {files} "
                f"as they were (--afresh makes them all the same)\nopen {self.out / 'index.html'}"
            )
        warnings = sum(p.severity is Severity.WARNING for p in self.problems)
        advice = len(self.problems) - warnings
        kept = f"{_count(self.kept, 'document')} as they were\n" if self.kept else ""
        gaps = "".join(f"cut plans of {gap}\n" for gap in self.gaps)
        return (
            f"{guides}: {_count(self.counts.pdf_pages, 'PDF page')}, {files}, "
            f"{self.counts.size / 1e6:.1f} MB, in {self.seconds:.1f} s\n{kept}{gaps}"
            f"{_count(warnings, 'warning')}, {_count(advice, 'note')} "
            "(guidegen proof shows all)\n"
            f"open {self.out / 'index.html'}"
        )


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


@dataclass
class State:
    """The last press and this one: what can be taken over, and what is noted for the next."""

    options: PressOptions
    prints: Fingerprints
    theme: str = ""
    """Hash of the theme in use; empty before it is read."""
    lacking: tuple[str, ...] = ()
    """What could not be fetched, so that pages lack it: made anew once it is there."""
    sources: dict[str, str] = field(default_factory=dict)
    units: dict[str, Unit] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    kept: int = 0

    @cached_property
    def last(self) -> Index:
        """What the last press noted of its output; read where something may have changed."""
        return Index() if self.options.afresh else load_index(self.options.out)

    @cached_property
    def trusted(self) -> frozenset[str]:
        """Files in the output folder that nobody touched since the last press wrote them."""
        return untouched(self.options.out)

    def unchanged(self) -> PressResult | None:
        """The result where the output folder holds already what would be made."""
        if self.options.search > 0 or self.options.afresh:
            return None
        asked = (*self.options.guides, *self.options.asked)
        inputs = self.prints.whole(asked)
        if (counts := counts_of_same(self.options.out, inputs)) is not None:
            with suppress(TypeError):  # counts of another version
                return PressResult(self.options.out, Counts(**counts), 0.0, (), unchanged=True)
        if self.last.inputs != inputs:
            return None
        if not is_whole(self.options.out, self.last, self.trusted):
            return None
        return PressResult(self.options.out, self.last.counts, 0.0, (), unchanged=True)

    def finder(self, folder: str) -> KeptFiles:
        """Files of the last press below a folder; of all folders without a name."""
        folder = folder.rstrip("/")
        last = self.last.under(folder) if folder else self.last
        return KeptFiles(self.options.out.resolve(), last)

    def unchanged_guides(self, guides: Iterable[str]) -> frozenset[str]:
        """Those of the guides that need not be read: all that they came from is the same, and
        their files are as they were written. To be asked once the theme is known.
        """
        if self.options.search > 0:
            return frozenset()
        units: dict[str, list[tuple[str, Unit]]] = {}
        for folder, unit in self.last.units.items():
            units.setdefault(folder.rpartition("/")[2], []).append((folder, unit))
        return frozenset(
            guide
            for guide in guides
            if guide in units and all(self._holds(guide, *unit) for unit in units[guide])
        )

    def _holds(self, guide: str, folder: str, unit: Unit) -> bool:
        files = self.last.under(folder)
        return (
            unit.key == self._key(self.prints, guide)
            and bool(files.files)
            and is_unchanged(self.options.out, files, self.trusted)
        )

    def take_over(self, folder: str, stage: Staging) -> None:
        """Move an unchanged guide to the new output. Raises OutputError."""
        files = self.last.under(folder)
        for name, sha in files.files.items():
            stage.keep(name, self.options.out / name, sha)
        self.sources.update(files.sources)
        self.units[folder] = self.last.units[folder]
        self.kept += len(files.sources)

    def remember(self, folder: str, unit: Unit, keys: Mapping[str, str]) -> None:
        """Remember what a guide's documents were made from: `keys` by path from out/."""
        self.note(keys)
        self.units[folder] = unit  # its key is known when the plans are kept

    def remember_problems(self, folder: str, problems: Iterable[Problem], start: str) -> None:
        """Remember what is worth knowing about a guide; `start` is its folder as authors see it."""
        told = tuple(packed(problem, start) for problem in problems)
        self.units[folder] = replace(self.units[folder], problems=told)

    def note(self, keys: Mapping[str, str]) -> None:
        """Note what files were made from, and which of them were there already."""
        for path, key in keys.items():
            if self.last.sources.get(path) == key:
                self.kept += 1
            else:
                self.made.append(path)
        self.sources.update(keys)

    def own_units(self) -> list[tuple[str, Unit]]:
        """Guides in the site's own language, whose folders stand right in out/."""
        return [(folder, unit) for folder, unit in self.units.items() if "/" not in folder]

    def counts(self, stage: Staging) -> Counts:
        """Figures of everything in the new output."""
        own = self.own_units()
        return Counts(
            len(own),
            sum(unit.sizes for _, unit in own),
            sum(unit.pages for unit in self.units.values()),
            len(stage.sums),
            stage.size,
        )

    @property
    def stamp(self) -> str:
        """Hash of what every document may depend on, whatever it shows."""
        return f"{self.prints.software} {self.theme}"

    def _key(self, prints: Fingerprints, guide: str) -> str:
        return prints.guide(guide, self.theme, (*self.options.asked, *self.lacking))

    def index(self, counts: Counts, files: Mapping[str, str]) -> Index:
        """What is kept in the new output; to be called when all plans are kept."""
        prints = self.prints.with_kept(self.options.content)
        units = {
            folder: replace(unit, key=self._key(prints, folder.rpartition("/")[2]))
            for folder, unit in self.units.items()
        }
        asked = (*self.options.guides, *self.options.asked, *self.lacking)
        return Index(prints.whole(asked), dict(files), counts, self.sources, units)


def read_state(options: PressOptions) -> State:
    """What the last press left, and hashes of what this one reads."""
    prints = read_fingerprints(options.content, options.themes)
    return State(options, prints)


def packed(problem: Problem, start: str) -> dict[str, object]:
    """A problem of one guide for the index: its file counts from the guide's folder `start`."""
    fields = asdict(problem)
    del fields["amount"]  # it has been told: nothing is compared any more
    fields["place"] = {**fields["place"], "file": problem.place.file.removeprefix(start)}
    return fields


def unpacked(fields: Mapping[str, object], start: str) -> Problem:
    """The problem again. Raises ValueError, KeyError or TypeError where it is none."""
    place = fields["place"]
    if not isinstance(place, dict):
        raise TypeError(place)
    where = Place(**{**place, "file": start + str(place["file"])})
    code, path, message, cure = (str(fields[n]) for n in ("code", "path", "message", "cure"))
    if code not in CODES:
        raise KeyError(code)
    return Problem(code, where, path, message, cure)
