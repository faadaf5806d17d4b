"""A mesh of a form → drawings of flat pieces, lines for a build file, a page of their strain."""

import re
import stat
from dataclasses import dataclass
from pathlib import Path

from guidegen.app.commands.bench.form_page import form_page, trust_words
from guidegen.bench.forms.drawn.drawing import piece_drawing
from guidegen.bench.forms.drawn.writing import parts_text
from guidegen.bench.forms.flatten import Flattened, flatten, upward
from guidegen.bench.forms.reading.limits import MOST_BYTES
from guidegen.bench.forms.records import CutAlong, FormWishes, Shown
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.problems import Place, Problem, Severity, did_you_mean, has_errors
from guidegen.progress import Reporter
from guidegen.render.text.svg import svg_file
from guidegen.units import mm_text
from guidegen.words import Words, read_words
from guidegen.write.staging import staging

PAGE, PARTS = "index.html", "parts.yaml"
UNIT_WORDS = ("mm", "cm", "m", "inch")
THICKEST = 60.0
"""mm of foam."""
STAGES = 8
"""Things told while one is made, about: seams and panels are not known beforehand."""


@dataclass(frozen=True, slots=True)
class FlattenOptions:
    """What was typed."""

    form: Path
    out: Path
    unit: str = ""
    foam: float = 0.0
    shows: str = ""
    along: str = "any"
    sharp: float = 40.0
    longest: float = 0.0
    up: str = ""
    material: str = ""
    language: str = ""


@dataclass(frozen=True, slots=True)
class FlattenResult:
    """What was written."""

    out: Path
    found: Flattened
    words: Words

    def summary(self) -> str:
        """The closing words: what was found, how far to trust it, what to type next."""
        found = self.found
        along = "along lines that were worked out" if found.along is CutAlong.PROPOSAL else (
            f"along its {found.along.value}"
        )  # fmt: skip
        lines = [
            f"wrote {self.out}: {len(found.pieces)} pieces, {len(found.seams)} seams, cut {along}",
            *(f"  {note}" for note in found.notes),
            trust_words(found, self.words),
        ]
        for piece in found.flagged:
            more = ""
            if piece.proposal is not None:
                more = f"; with one more seam, as its map shows, {100 * piece.proposal.high:.1f} %"
            lines.append(f"  {piece.id} strains by {100 * piece.panel.strain.high:.1f} %{more}")
        lines += [
            f"look at {self.out / PAGE}: where each piece sits, and what its foam gives",
            "\ncopy the drawings into the guide's folder, and into its guide.yaml the lines of",
            f"  {self.out / PARTS}\nthen",
            "  guidegen proof",
        ]
        return "\n".join(lines)


def flatten_form(options: FlattenOptions, progress: Reporter) -> FlattenResult:
    """Lay a form flat. Raises UsageError, ContentError, OutputError."""
    words = _words(options.language)
    wishes = _wishes(options)
    data = _read(options.form)
    progress.stage("flatten", STAGES)
    found = flatten(data, options.form.as_posix(), wishes, progress.step)
    material = options.material or f"foam-{mm_text(wishes.foam or 10).partition('.')[0]}"
    drawings = {f"{one.id}.svg": svg_file(piece_drawing(one, words)) for one in found.pieces}
    for name, text in drawings.items():
        _stop_unless_read(text, name)
    progress.step("page")
    page = form_page(found, upward(options.form.name, wishes), words)
    parts = parts_text(found, material, wishes, options.form.name)
    with staging(options.out) as stage:
        for name, text in drawings.items():
            stage.write(name, text.encode())
        stage.write(PARTS, parts.encode())
        stage.write(PAGE, page)
    return FlattenResult(options.out, found, words)


def _words(language: str) -> Words:
    try:
        return read_words(language or "en")
    except ValueError as error:
        raise UsageError(f"--language {language}: {error}") from None


def _wishes(options: FlattenOptions) -> FormWishes:
    if options.unit and options.unit not in UNIT_WORDS:
        hint = did_you_mean(options.unit, UNIT_WORDS)
        raise UsageError(f"--unit {options.unit}: expected one of {', '.join(UNIT_WORDS)}{hint}")
    if not 0 <= options.foam <= THICKEST:
        raise UsageError(f"--foam: expected 0 to {THICKEST:.0f} mm")
    if options.foam and not options.shows:
        raise UsageError(
            "say which face of the foam the form shows: --shows inside (a body under it), "
            "outside (the finished thing) or middle"
        )
    if not 5 <= options.sharp <= 175:
        raise UsageError("--sharp: expected 5 to 175 degrees")
    if options.longest and not 50 <= options.longest <= 5000:
        raise UsageError("--longest: expected 50 to 5000 mm")
    if options.material and not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", options.material):
        raise UsageError(f'--material {options.material}: expected a name such as "foam-10"')
    shows = Shown(options.shows) if options.shows else None
    return FormWishes(
        options.unit,
        CutAlong(options.along),
        shows,
        options.foam,
        options.sharp,
        options.longest,
        options.up,
    )


def _read(path: Path) -> bytes:
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise _refused(path, "form-file", "is no ordinary file; expected a mesh")
        if status.st_size > MOST_BYTES:
            message = f"larger than {MOST_BYTES // 10**6} MB; reduce the mesh"
            raise _refused(path, "form-large", message)
        return path.read_bytes()
    except OSError as error:
        raise UsageError(f"cannot read {path}: {error.strerror}") from None


def _refused(path: Path, code: str, message: str) -> ContentError:
    return ContentError([Problem(code, Place(path.as_posix()), "", message)])


def _stop_unless_read(text: str, name: str) -> None:
    """What guides would not take is told here, not when the guide is pressed."""
    drawing, problems = read_drawing(text, name)
    if drawing is not None:
        _, more = assemble(drawing, "")
        problems = (*problems, *more)
    if has_errors(problems):
        raise ContentError([one for one in problems if one.severity is Severity.ERROR])
