"""A PDF or DXF and what its author says of it in → the drawing in mm, and what was done."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.bench.vectors.chains import whole_lines
from guidegen.bench.vectors.drawing_text import NamedPiece, ScaleLine, laid_out, write_drawing
from guidegen.bench.vectors.dxf_file import read_dxf
from guidegen.bench.vectors.frames import without_frames
from guidegen.bench.vectors.joining import JoinedSheet, join_by_points
from guidegen.bench.vectors.naming import REACH, NamedPoint, StatedLength, measured, snap
from guidegen.bench.vectors.own_sheets import is_own, own_halves, own_lines, own_pieces
from guidegen.bench.vectors.parts import FoundPart, sort_into_parts
from guidegen.bench.vectors.pdf_file import read_pdf
from guidegen.bench.vectors.records import FoundFile, FoundPage, FoundPath, StrokeLook, refuse
from guidegen.bench.vectors.repeated_lines import join_by_lines
from guidegen.bench.vectors.scales import MM_IN, mm_of_unit
from guidegen.errors import UsageError
from guidegen.geometry.drawing.curves import enlarge_segment
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.records import Role, Subpath
from guidegen.geometry.outline.records import Point
from guidegen.problems import Problem, did_you_mean
from guidegen.units import POINTS_PER_MM

MAX_LINES = 10_000
"""Lines of a drawing."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What an author says of a file."""

    unit: str = ""
    """Instead of the one that the file states."""
    scale: float = 1.0
    """By how much the drawing is smaller than what it shows."""
    points: tuple[NamedPoint, ...] = ()
    lengths: tuple[StatedLength, ...] = ()
    roles: Mapping[str, Role] = field(default_factory=dict)
    """By layer or colour."""
    pages: tuple[int, ...] = ()
    """Those that are read; empty for all."""


@dataclass(frozen=True, slots=True)
class Redrawn:
    """A drawing, and what its author should know of how it came about."""

    svg: str
    parts: tuple[NamedPiece, ...]
    names: tuple[str, ...]
    """Layers and colours."""
    notes: tuple[str, ...]
    """Sentences, without a stop at the end."""
    problems: tuple[Problem, ...]
    """What is still wrong with the drawing, as a build file that uses it would be told."""


def redraw(data: bytes, file: str, target: str, wishes: Wishes) -> Redrawn:
    """The drawing of a file; `target` is what it will be called. Raises VectorError, UsageError."""
    found = read_dxf(data, file) if not is_pdf(data) else read_pdf(data, file)
    found = _chosen_pages(found, wishes.pages)
    _refuse_pictures(found)
    points = _points_in_file(found, wishes.points)
    # Pages of a PDF were read in mm already: what is left is another unit or scale.
    units = POINTS_PER_MM if is_pdf(data) else 1.0
    lengths = [(one, measured(one, points, found.pages) * units) for one in wishes.lengths]
    per_unit, unit = mm_of_unit(file, wishes.unit or found.unit, lengths, wishes.scale)
    factor = per_unit * units
    pages = [_enlarged(page, factor) for page in found.pages]
    placed = {
        page: {name: (x * factor, y * factor) for name, (x, y) in named.items()}
        for page, named in points.items()
    }
    if own := is_own(found.producer):
        # Each page carries its pieces whole, so there is nothing to join.
        left_out: dict[str, int] = {}
        sheets = [JoinedSheet((page.number,), page.paths) for page in own_lines(pages)]
        drawn = own_pieces([_parts(sheet, wishes.roles, own=True, arcs=True) for sheet in sheets])
    else:
        pages, left_out = without_frames(pages)
        sheets = _sheets(file, pages, placed)
        drawn = [_parts(sheet, wishes.roles, own=False, arcs=is_pdf(data)) for sheet in sheets]
    if not any(drawn):
        raise _nothing(found)
    names = tuple(dict.fromkeys(line.name for parts in drawn for p in parts for line in p.lines))
    _check_roles(wishes.roles, names)
    named = laid_out(drawn)
    svg = write_drawing(file.rpartition("/")[2], named, _scale_lines(lengths, per_unit))
    notes = [*_unit_notes(wishes, unit, found), *_sheet_notes(sheets, own=own)]
    notes += _left_out_notes(found, left_out)
    return Redrawn(svg, tuple(named), names, tuple(notes), _problems(svg, target, named))


def is_pdf(data: bytes) -> bool:
    """Whether a file begins as a PDF does; some have a few bytes of something else before."""
    return b"%PDF-" in data[:1024]


def _chosen_pages(found: FoundFile, wanted: Sequence[int]) -> FoundFile:
    known = [page.number for page in found.pages]
    for number in wanted:
        if number not in known:
            raise UsageError(f"--pages: there is no page {number}; the file has {len(known)}")
    if not wanted:
        return found
    return replace(found, pages=tuple(page for page in found.pages if page.number in wanted))


def _refuse_pictures(found: FoundFile) -> None:
    """Raise VectorError where a file shows pixels alone."""
    if any(page.paths for page in found.pages):
        return
    if any(page.pictures for page in found.pages):
        message = "the file is only a picture: it has no lines that could be read"
        cure = "print it and photograph it beside a frame: `guidegen trace` finds its edges"
        raise refuse("vector-picture", found.file, message, cure)
    raise _nothing(found)


def _nothing(found: FoundFile) -> Exception:
    others = {kind for page in found.pages for kind in page.left_out}
    texts = sum(page.texts for page in found.pages)
    message = "no line of a template is in the file"
    if others:
        message += f"; it has {', '.join(sorted(others))}, which are not read"
    elif texts:
        message += "; it has words alone"
    cure = "turn all into paths, and switch its layers on, before writing it"
    return refuse("vector-empty", found.file, message, cure)


def _points_in_file(found: FoundFile, points: Sequence[NamedPoint]) -> dict[int, dict[str, Point]]:
    """Where the points are that the author has named: ends or crossings of lines."""
    by_number = {page.number: page for page in found.pages}
    named: dict[int, dict[str, Point]] = {}
    for point in points:
        page = by_number.get(point.page)
        if page is None:
            raise UsageError(f"--point {point.page}:{point.name}: there is no page {point.page}")
        at, reach = point.at, REACH
        if page.size[1]:
            at = (at[0], page.size[1] - at[1])
        else:
            boxes = [path.box() for path in page.paths]
            wide = max(b[2] for b in boxes) - min(b[0] for b in boxes)
            # A file without pages may be in any unit.
            reach = wide / 100
        named.setdefault(point.page, {})[point.name] = snap(page, point, at, reach)
    return named


def _enlarged(page: FoundPage, factor: float) -> FoundPage:
    if abs(factor - 1) < 1e-12:
        return page
    return replace(
        page,
        size=(page.size[0] * factor, page.size[1] * factor),
        paths=tuple(_enlarged_path(path, factor) for path in page.paths),
    )


def _enlarged_path(path: FoundPath, factor: float) -> FoundPath:
    strokes = tuple(
        replace(stroke, run=tuple(enlarge_segment(one, factor) for one in stroke.run))
        for stroke in path.strokes
    )
    clip = path.clip
    if clip is not None:
        clip = (clip[0] * factor, clip[1] * factor, clip[2] * factor, clip[3] * factor)
    return replace(path, strokes=strokes, clip=clip)


def _sheets(
    file: str, pages: Sequence[FoundPage], points: Mapping[int, Mapping[str, Point]]
) -> list[JoinedSheet]:
    """Pages joined at points where there are any on two of them; else by what both show of."""
    if sum(len(named) > 0 for named in points.values()) > 1:
        return join_by_points(file, pages, points)
    return join_by_lines(pages)


def _parts(
    sheet: JoinedSheet, roles: Mapping[str, Role], *, own: bool, arcs: bool
) -> list[FoundPart]:
    lines: list[tuple[StrokeLook, Subpath]] = whole_lines(sheet.paths, arcs=arcs)
    if own:
        lines = own_halves(lines)
    if len(lines) > MAX_LINES:
        raise UsageError(f"the drawing has more than {MAX_LINES} lines")
    return sort_into_parts(lines, roles)


def _check_roles(roles: Mapping[str, Role], names: Sequence[str]) -> None:
    for name in roles:
        if name not in names:
            hint = did_you_mean(name, names)
            raise UsageError(f'--as {name}: no layer or colour "{name}" in the file{hint}')


def _scale_lines(lengths: Sequence[tuple[StatedLength, float]], per_unit: float) -> list[ScaleLine]:
    return [ScaleLine(found * per_unit, one.length) for one, found in lengths]


def _unit_notes(wishes: Wishes, unit: str, found: FoundFile) -> list[str]:
    if wishes.lengths:
        said = ", ".join(one.said for one in wishes.lengths)
        stated = (
            f"the file is in {unit}" if found.unit else f"the file has no unit; it is in {unit}"
        )
        return [f"{stated}, and {said} agrees with it"]
    return [
        f"the file is in {unit}; nobody has checked a length yet: measure one and say it, such as "
        '--length "width=300 mm"'
    ]


def _sheet_notes(sheets: Sequence[JoinedSheet], *, own: bool) -> list[str]:
    notes = ["guidegen's own template pages: words, squares and strips left out"] if own else []
    for sheet in sheets:
        if len(sheet.pages) > 1:
            numbers = ", ".join(map(str, sheet.pages))
            notes.append(f"pages {numbers} were joined")
    return notes


def _left_out_notes(found: FoundFile, left_out: Mapping[str, int]) -> list[str]:
    counts = dict(left_out)
    for page in found.pages:
        for kind, count in page.left_out.items():
            counts[kind] = counts.get(kind, 0) + count
        for kind, count in (("words", page.texts), ("pictures", page.pictures)):
            if count:
                counts[kind] = counts.get(kind, 0) + count
    notes = (
        [f"left out: {', '.join(f'{n} {kind}' for kind, n in counts.items())}"] if counts else []
    )
    if found.hidden:
        notes.append(f"left out, since they are switched off: {', '.join(found.hidden)}")
    return notes


def _problems(svg: str, target: str, named: Sequence[NamedPiece]) -> tuple[Problem, ...]:
    """What reading the new drawing finds wrong."""
    drawing, problems = read_drawing(svg, target)
    found = list(problems)
    if drawing is not None:
        for one in named:
            if one.part.has_outline:
                found.extend(assemble(drawing, one.name)[1])
    return tuple(dict.fromkeys(found))


def known_units() -> tuple[str, ...]:
    """Units that an author may say."""
    return tuple(MM_IN)
