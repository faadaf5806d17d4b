"""A guide in → a page on its sizes: outlines over one another, seams, and whom they serve."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from guidegen.app.jobs.findings import make_kits
from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.bodies import stop_on_errors
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.population import read_population
from guidegen.errors import UsageError
from guidegen.geometry.fit.advice import (
    count_served,
    most_missed,
    reach_boxes,
    serve_people,
    size_table,
)
from guidegen.geometry.fit.records import Coverage, Served, Verdict
from guidegen.geometry.pieces.records import Kit, Side
from guidegen.pictures.bodies.coverage import coverage_words, draw_coverage
from guidegen.pictures.bodies.nested_sizes import draw_nested
from guidegen.pictures.bodies.reach import BodyDot, draw_reach
from guidegen.pictures.pen.records import Drawing
from guidegen.problems import did_you_mean
from guidegen.render.site.sizes_page import FigureTable, SizesSection, sizes_page
from guidegen.units import MM_PER_UNIT, mm_text
from guidegen.words import ENGLISH, SPACE, Words
from guidegen.write.staging import staging

FAR = 3.0
"""Times by which the middle of a population may miss the sizes before its unit is questioned: our
choice, between the widest of bodies and the 10 from mm to cm."""


@dataclass(frozen=True)
class SizesOptions:
    """Which guide, and where to."""

    content: Path
    themes: Path
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
        return f"{coverage_words(self.coverage, ENGLISH).replace(SPACE, ' ')}; open {self.page}"


def show_sizes(options: SizesOptions) -> SizesResult:
    """Write the page. Raises ContentError, UsageError, OutputError."""
    opened = open_guide(options.content, options.guide, options.themes)
    content, file = opened.content, opened.file
    people = _people(file, options)
    made, problems = make_kits(content, [file])
    stop_on_errors(problems)
    kits = made[file.id]
    served = serve_people(file, people)
    coverage = count_served(tuple(file.guide.sizes), served) if people else None
    lang = content.words
    sections = (
        _population(file, people, served, coverage, lang),
        _measurements(file, lang),
        _seams(kits, lang),
        *_parts(file, kits, lang),
    )
    title = lang.say("{guide}: sizes", guide=file.guide.title)
    page = sizes_page(title, content.language, sections)
    with staging(options.out) as stage:
        stage.write("index.html", page)
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
    lang: Words,
) -> SizesSection:
    """The chart of a population, and of the two measurements in which most are missed."""
    drawings: list[Drawing] = []
    words = ""
    if coverage is not None:
        known = [n for n in file.guide.measurements if any(n in person for person in people)]
        titles = {name: file.guide.measurements[name].name for name in known}
        words = lang.say(
            "Compared: {measurements}. Somebody is served by the advised size when no measurement "
            "is farther off than one size step. Where the guide marks leading measurements, those "
            "alone count: the size is large enough in each, and at most two steps too large. Who "
            "is not served has smaller or larger measurements, or other proportions than the "
            "sizes.",
            measurements=", ".join(titles.values()),
        )
        title = lang.say("Whom the sizes of {guide} serve", guide=file.id)
        drawings.append(draw_coverage(coverage, title, lang))
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
            title = lang.say("Reach of the sizes of {guide}", guide=file.id)
            drawings.append(draw_reach(dots, boxes, names, title, lang))
    heading = lang.say("Whom the sizes serve")
    return SizesSection("population", heading, words, drawings=drawings)


def _measurements(file: GuideFile, lang: Words) -> SizesSection:
    table = size_table(file)
    rows = tuple(
        (measurement.name, *(lang.number(row[n]) if n in row else "" for row in table.values()))
        for n, measurement in file.guide.measurements.items()
    )
    figures = FigureTable(lang.say("Measurements in mm"), ("", *table), rows)
    words = lang.say("What each size stands for. Steps should grow evenly, or slowly larger.")
    heading = lang.say("Measurements")
    return SizesSection("measurements", heading, words, [figures] if rows else [])


def _seams(kits: Sequence[Kit], lang: Words) -> SizesSection:
    """Both edges of every seam, and by how much they differ."""
    rows: list[tuple[str, ...]] = []
    for number, seam in enumerate(kits[0].seams):
        joined = [kit.seams[number] for kit in kits]
        most = lang.number(seam.tolerance, 1)
        allowed = lang.say("{seam}: off, at most ±{most}", seam=seam.id, most=most)
        first, second = seam.first, seam.second
        rows += [
            (f"{first.part}.{first.edge}", *(_tenths(one.first_length, lang) for one in joined)),
            (f"{second.part}.{second.edge}", *(_tenths(one.second_length, lang) for one in joined)),
            (allowed, *(_signed(one.mismatch, lang) for one in joined)),
        ]
    heads = ("", *(kit.size for kit in kits))
    figures = FigureTable(lang.say("Lengths in mm"), heads, tuple(rows))
    words = lang.say(
        "Arc length of both edges of every seam at each size, and by how much the first is longer "
        "than meant, ease taken into account."
    )
    return SizesSection("seams", lang.say("Seams"), words, [figures] if rows else [])


def _tenths(value: float, lang: Words) -> str:
    """A length with one decimal, also where that is 0: figures stand below one another."""
    return f"{value:.1f}".replace(".", lang.number(0.5, 1)[1])


def _signed(value: float, lang: Words) -> str:
    """A difference in tenths of a mm with its sign; 0 without one."""
    words = lang.number(value, 1)
    return words.replace("-", "−") if words == "0" or value < 0 else f"+{words}"


def _parts(file: GuideFile, kits: Sequence[Kit], lang: Words) -> Iterator[SizesSection]:
    """All sizes of each part; of a pair the left one."""
    sizes = [kit.size for kit in kits]
    base = file.guide.drawn_for or sizes[len(sizes) // 2]
    words = lang.say(
        "The heavy outline is size {size}. All lie over one another at the middle of the piece "
        "or, where it is drawn, at the origin of its drawing.",
        size=base,
    )
    for part_id, part in file.guide.parts.items():
        pieces = [
            (kit.size, piece)
            for kit in kits
            for piece in kit.built(part_id)
            if piece.side is not Side.RIGHT
        ]
        if pieces:
            drawing = draw_nested(pieces, base, "sizes", lang)
            heading = f"{part.label}  {part.name}"
            yield SizesSection(f"part-{part_id}", heading, words, drawings=[drawing])
            words = ""
