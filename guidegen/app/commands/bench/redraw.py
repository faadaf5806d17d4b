"""A PDF or DXF file in → the same as an SVG drawing in mm, checked, beside what to do next."""

import shlex
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from guidegen.bench.vectors.naming import read_point, read_stated
from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Redrawn, Wishes, known_units, redraw
from guidegen.bench.vectors.streams import MAX_FILE
from guidegen.errors import ContentError, OutputError, UsageError
from guidegen.geometry.drawing.records import ROLE_WORDS, Role
from guidegen.problems import Severity, did_you_mean
from guidegen.units import mm_text

_PICTURES = {".png", ".jpg", ".jpeg", ".webp", ".gif", ".bmp", ".tif", ".tiff", ".heic"}


@dataclass(frozen=True)
class RedrawOptions:
    """Which file, and what its author says of it; texts as they are typed."""

    file: Path
    out: Path
    lengths: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    roles: tuple[str, ...] = ()
    """LAYER=ROLE."""
    pages: tuple[int, ...] = ()
    unit: str = ""
    scale: str = "1"
    again: bool = False
    """Whether a drawing of that name is written anew."""


@dataclass(frozen=True)
class RedrawResult:
    """What was made."""

    path: Path
    drawing: Redrawn

    def summary(self) -> str:
        """The closing words: what is there, what is still wrong, what to type next."""
        made = self.drawing
        lines = [f"wrote {self.path}"]
        for one in made.parts:
            left, low, right, high = one.part.box
            size = f"{mm_text(right - left, 1)} × {mm_text(high - low, 1)} mm"
            kinds = _counted([line.role.value or line.name for line in one.part.lines])
            lines.append(f"  {self.path.name}#{one.name}  {size}  {kinds}")
        lines += [f"  {note}" for note in made.notes]
        errors = [p for p in made.problems if p.severity is Severity.ERROR]
        others = [p for p in made.problems if p.severity is not Severity.ERROR]
        lines += [str(problem) for problem in errors]
        if others:
            names = _counted([p.code for p in others])
            lines.append(f"  still to be said: {names}; --as LAYER=fold says what a layer is for")
        first = made.parts[0].name
        lines += [
            "\nin the build file of the guide whose folder it is in:",
            "  shape: drawing",
            f"  drawing: {self.path.name}#{first}",
            "then mark its corners in an editor (guidegen handbook drawings), and",
            f"  guidegen proof {shlex.quote(self.path.parent.name or '.')}",
        ]
        return "\n".join(lines)


def redraw_file(options: RedrawOptions) -> RedrawResult:
    """Write the drawing. Raises ContentError, UsageError, OutputError."""
    target = options.out / f"{options.file.stem}.svg"
    wishes = _wishes(options)
    data = _read(options.file)
    if target.exists() and not options.again:
        raise UsageError(f"{target} is there already; add --again to write it anew")
    try:
        drawing = redraw(data, options.file.as_posix(), target.as_posix(), wishes)
    except VectorError as error:
        raise ContentError(error.problems) from None
    _write(target, drawing.svg)
    return RedrawResult(target, drawing)


def _counted(words: Sequence[str]) -> str:
    counts = {word: words.count(word) for word in dict.fromkeys(words)}
    return ", ".join(f"{count} {word}" for word, count in counts.items())


def _wishes(options: RedrawOptions) -> Wishes:
    unit = options.unit
    if unit and unit not in known_units():
        raise UsageError(f"--unit {unit}: no such unit{did_you_mean(unit, known_units())}")
    return Wishes(
        unit,
        _scale(options.scale),
        tuple(map(read_point, options.points)),
        tuple(map(read_stated, options.lengths)),
        dict(map(_role, options.roles)),
        options.pages,
    )


def _scale(text: str) -> float:
    """'10' and '1:10' are a tenth of the true size."""
    first, _, second = text.partition(":")
    try:
        scale = float(second) / float(first) if second else float(first)
    except (ValueError, ZeroDivisionError):
        scale = 0.0
    if not 0 < scale < 10_000:
        raise UsageError(f"--scale {text}: expected a number such as 10, or 1:10")
    return scale


def _role(text: str) -> tuple[str, Role]:
    name, equals, word = (part.strip() for part in text.rpartition("="))
    if not equals or not name or word not in ROLE_WORDS:
        hint = did_you_mean(word, ROLE_WORDS)
        raise UsageError(f"--as {text}: expected LAYER=ROLE{hint}")
    return name, ROLE_WORDS[word]


def _read(path: Path) -> bytes:
    ending = path.suffix.lower()
    if ending == ".svg":
        raise UsageError(f"{path} is a drawing already: name it in the build file as it is")
    if ending in _PICTURES:
        raise UsageError(f"{path} is a picture: `guidegen trace` finds the edges of a photograph")
    try:
        if not path.is_file():
            raise UsageError(f"{path}: no such file")
        if path.stat().st_size > MAX_FILE:
            raise UsageError(f"{path} is larger than {MAX_FILE // 1_000_000} MB")
        return path.read_bytes()
    except OSError as error:
        raise UsageError(f"{path}: {error.strerror}") from None


def _write(target: Path, text: str) -> None:
    """Beside its place first: nobody finds half of it."""
    beside = target.with_name(f".{target.name}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(text, encoding="utf-8", newline="\n")
        beside.replace(target)
    except OSError as error:
        raise OutputError(f"cannot write {target}: {error.strerror}") from None
