"""A guide in → a page on its sizes: outlines over one another, seams, and whom they serve."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from guidegen.buildfile.population import read_population
from guidegen.buildfile.reader import read_content
from guidegen.buildfile.records import GuideFile
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.fit import (
    count_served,
    most_missed,
    reach_boxes,
    serve_people,
    size_table,
)
from guidegen.geometry.fit_records import Coverage, Served, Verdict
from guidegen.geometry.kit import make_kit
from guidegen.geometry.records import Kit, Side
from guidegen.pictures.coverage import coverage_words, draw_coverage
from guidegen.pictures.nested_sizes import draw_nested
from guidegen.pictures.reach import BodyDot, draw_reach
from guidegen.problems import Severity, did_you_mean
from guidegen.render.sizes_page import FigureTable, SizesSection, sizes_page
from guidegen.units import MM_PER_UNIT, mm_text
from guidegen.write.staging import MARKER, staging

FAR = 3.0
"""Times by which the middle of a population may miss the sizes before its unit is questioned: our
choice, between the widest of bodies and the 10 from mm to cm."""


@dataclass(frozen=True)
class SizesOptions:
    """Which guide, and where to."""

    content: Path
    guide: str
    out: Path
    population: Path | None = None
    """CSV table of people."""
    columns: tuple[str, ...] = ()
    """measurement=column, where their names differ."""
    unit: str = "cm"
    """Unit of the table."""


@dataclass(frozen=True)
class SizesResult:
    """What was made."""

    page: Path
    coverage: Coverage | None

    def summary(self) -> str:
        """The closing words."""
        if self.coverage is None:
            return f"open {self.page}"
        return f"{coverage_words(self.coverage)}; open {self.page}"


def show_sizes(options: SizesOptions) -> SizesResult:
    """Write the page. Raises ContentError, UsageError, OutputError."""
    content = read_content(options.content, [options.guide])
    (file,) = content.guides
    people = _people(file, options)
    kits, problems = [], list(run_checks(content))
    for size in file.size_names():
        kit, found = make_kit(file, content.stock, size)
        problems += found
        if kit is not None:
            kits.append(kit)
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if errors:
        raise ContentError(errors)
    served = serve_people(file, people)
    coverage = count_served(tuple(file.guide.sizes), served) if people else None
    sections = (
        _population(file, people, served, coverage),
        _measurements(file),
        _seams(kits),
        *_parts(file, kits),
    )
    page = sizes_page(f"{file.guide.title}: sizes", content.language, sections)
    with staging(options.out) as stage:
        stage.write("index.html", page)
        stage.write(MARKER, b"made by guidegen sizes\n")
    return SizesResult(options.out / "index.html", coverage)


def _people(file: GuideFile, options: SizesOptions) -> list[dict[str, float]]:
    """mm by measurement for everybody in the table; nobody where none is given."""
    if options.population is None:
        return []
    if not file.guide.measurements or not file.guide.sizes:
        raise UsageError(f'"{file.id}" has one size for everybody; there is nothing to compare')
    columns = {name: name for name in file.guide.measurements}
    for pair in options.columns:
        name, equals, column = (part.strip() for part in pair.partition("="))
        if not equals or not column or name not in columns:
            hint = did_you_mean(name, columns)
            raise UsageError(f"--column {pair}: expected measurement=column{hint}")
        columns[name] = column
    people = read_population(options.population, columns, MM_PER_UNIT[options.unit])
    _question_unit(file, people, options.unit)
    return people


def _question_unit(file: GuideFile, people: Sequence[dict[str, float]], unit: str) -> None:
    """Raise UsageError where people are as far from all sizes as a wrong unit would put them."""
    rows = list(size_table(file).values())
    for name in file.guide.measurements:
        lengths = [person[name] for person in people if name in person]
        sizes = [row[name] for row in rows if name in row]
        if not lengths or not sizes:
            continue
        middle = median(lengths)
        if not min(sizes) / FAR < middle < max(sizes) * FAR:
            raise UsageError(
                f"{name}: half of the people have less than {mm_text(middle)} mm, but the sizes "
                f"{mm_text(min(sizes))} to {mm_text(max(sizes))} mm; is the table in {unit}? "
                "--unit names another one"
            )


def _population(
    file: GuideFile,
    people: Sequence[dict[str, float]],
    served: Sequence[Served],
    coverage: Coverage | None,
) -> SizesSection:
    """The chart of a population, and of the two measurements in which most are missed."""
    drawings: list[str] = []
    words = ""
    if coverage is not None:
        known = [n for n in file.guide.measurements if any(n in person for person in people)]
        titles = {name: file.guide.measurements[name].name for name in known}
        words = (
            f"Compared: {', '.join(titles.values())}. Somebody is served by the size of least "
            "misfit when no measurement is farther off than one size step; who is not has "
            "smaller or larger measurements, or other proportions than the sizes."
        )
        drawings.append(draw_coverage(coverage, f"Whom the sizes of {file.id} serve"))
        missed = most_missed(served, known)[:2]
        if len(missed) == 2:
            first, second = sorted(missed, key=known.index)
            dots = [
                BodyDot(person[first], person[second], found.verdict is Verdict.SERVED)
                for person, found in zip(people, served, strict=True)
                if first in person and second in person
            ]
            boxes = reach_boxes(file, first, second)
            names = (titles[first], titles[second])
            drawings.append(draw_reach(dots, boxes, names, f"Reach of the sizes of {file.id}"))
    return SizesSection("population", "Whom the sizes serve", words, drawings=drawings)


def _measurements(file: GuideFile) -> SizesSection:
    table = size_table(file)
    rows = tuple(
        (measurement.name, *(mm_text(row[n]) if n in row else "" for row in table.values()))
        for n, measurement in file.guide.measurements.items()
    )
    figures = FigureTable("Measurements in mm", ("", *table), rows)
    words = "What each size stands for. Steps should grow evenly, or slowly larger."
    return SizesSection("measurements", "Measurements", words, [figures] if rows else [])


def _seams(kits: list[Kit]) -> SizesSection:
    """Both edges of every seam, and by how much they differ."""
    rows: list[tuple[str, ...]] = []
    for number, seam in enumerate(kits[0].seams):
        joined = [kit.seams[number] for kit in kits]
        allowed = f"{seam.id}: off, at most ±{mm_text(seam.tolerance, 1)}"
        first, second = seam.first, seam.second
        rows += [
            (f"{first.part}.{first.edge}", *(f"{one.first_length:.1f}" for one in joined)),
            (f"{second.part}.{second.edge}", *(f"{one.second_length:.1f}" for one in joined)),
            (allowed, *(_signed(one.mismatch) for one in joined)),
        ]
    figures = FigureTable("Lengths in mm", ("", *(kit.size for kit in kits)), tuple(rows))
    words = (
        "Arc length of both edges of every seam at each size, and by how much the first is longer "
        "than meant, ease taken into account."
    )
    return SizesSection("seams", "Seams", words, [figures] if rows else [])


def _signed(value: float) -> str:
    """A difference in tenths of a mm with its sign; 0 without one."""
    words = mm_text(value, 1)
    return words.replace("-", "−") if words == "0" or value < 0 else f"+{words}"


def _parts(file: GuideFile, kits: list[Kit]) -> Iterator[SizesSection]:
    """All sizes of each part; of a pair the left one."""
    sizes = [kit.size for kit in kits]
    base = file.guide.drawn_for or sizes[len(sizes) // 2]
    words = (
        f"The heavy outline is size {base}. All lie over one another at the middle of the piece "
        "or, where it is drawn, at the origin of its drawing."
    )
    for part_id, part in file.guide.parts.items():
        pieces = [
            (kit.size, piece)
            for kit in kits
            for piece in kit.built(part_id)
            if piece.side is not Side.RIGHT
        ]
        if pieces:
            drawing = draw_nested(pieces, base, "sizes")
            heading = f"{part.label}  {part.name}"
            yield SizesSection(f"part-{part_id}", heading, words, drawings=[drawing])
            words = ""
