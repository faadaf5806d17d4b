"""A guide in → a page on its sizes: outlines over one another, seams, and whom they serve."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from guidegen.buildfile.population import read_population
from guidegen.buildfile.reader import read_content
from guidegen.buildfile.records import GuideFile
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.fit import cover_population, size_table
from guidegen.geometry.kit import make_kit
from guidegen.geometry.records import Kit, Side
from guidegen.pictures.coverage import draw_coverage
from guidegen.pictures.nested_sizes import draw_nested
from guidegen.problems import Problem, Severity, did_you_mean
from guidegen.render.sizes_page import FigureTable, sizes_page
from guidegen.units import MM_PER_UNIT, mm_text
from guidegen.write.staging import MARKER, staging


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


def show_sizes(options: SizesOptions) -> Path:
    """Write the page and return its path. Raises ContentError, UsageError, OutputError."""
    content = read_content(options.content, [options.guide])
    (file,) = content.guides
    kits, problems = [], list(run_checks(content))
    for size in file.size_names():
        kit, found = make_kit(file, content.stock, size)
        problems += found
        if kit is not None:
            kits.append(kit)
    _stop(problems)
    drawings = [*_coverage(file, options), *_nested(file, kits)]
    tables = [_measurements(file), _seams(kits)]
    page = sizes_page(
        f"{file.guide.title}: sizes",
        content.site.language,
        [table for table in tables if table.rows],
        drawings,
    )
    with staging(options.out) as stage:
        stage.write("index.html", page)
        stage.write(MARKER, b"made by guidegen sizes\n")
    return options.out / "index.html"


def _stop(problems: list[Problem]) -> None:
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if errors:
        raise ContentError(errors)


def _nested(file: GuideFile, kits: list[Kit]) -> Iterator[str]:
    base = file.guide.drawn_for or kits[len(kits) // 2].size
    for part in file.guide.parts:
        pieces = [
            (kit.size, piece)
            for kit in kits
            for piece in kit.pieces_of(part)
            if piece.side is not Side.RIGHT
        ]
        yield draw_nested(pieces, base, "sizes")


def _coverage(file: GuideFile, options: SizesOptions) -> Iterator[str]:
    """The chart of a population, where one is given."""
    if options.population is None:
        return
    wanted = {}
    for pair in options.columns:
        name, equals, column = pair.partition("=")
        if not equals or name not in file.guide.measurements:
            hint = did_you_mean(name, file.guide.measurements)
            raise UsageError(f"--column {pair}: expected measurement=column{hint}")
        wanted[name] = column
    if not wanted:
        raise UsageError("--population needs --column measurement=column, once or more")
    people = read_population(options.population, wanted, MM_PER_UNIT[options.unit])
    yield draw_coverage(cover_population(file, people), f"Whom the sizes of {file.id} serve")


def _measurements(file: GuideFile) -> FigureTable:
    table = size_table(file)
    rows = tuple(
        (measurement.name, *(mm_text(row[name]) for row in table.values()))
        for name, measurement in file.guide.measurements.items()
    )
    return FigureTable("Measurements in mm", ("", *table), rows)


def _seams(kits: list[Kit]) -> FigureTable:
    """Both edges of every seam, and by how much they differ."""
    rows = []
    for number, seam in enumerate(kits[0].seams):
        cells = []
        for kit in kits:
            joined = kit.seams[number]
            first, second = joined.first_length, joined.second_length
            cells.append(f"{first:.1f} / {second:.1f} ({joined.mismatch:+.1f})")
        rows.append((seam.id, *cells))
    return FigureTable(
        "Seams in mm: first edge / second edge (difference)",
        ("", *(kit.size for kit in kits)),
        tuple(rows),
    )
