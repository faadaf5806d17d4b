"""Photos of a template → its outline as a drawing, and a page that says how far to trust it."""

import stat
from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from pathlib import Path

import numpy as np

from guidegen.app.commands.bench.page import trace_page
from guidegen.bench.photos import vision
from guidegen.bench.photos.drawing import corner_name, template_drawing
from guidegen.bench.photos.frame import frame_pages, page_says
from guidegen.bench.photos.records import Asked, TemplatePhoto, Trace, What
from guidegen.bench.photos.strips import RULER
from guidegen.bench.photos.trace import trace
from guidegen.buildfile.read.photos import FORMATS, photo_pixels
from guidegen.checks.names.pictures import MAX_PIXELS, pixel_size
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.problems import Place, Problem, has_errors
from guidegen.render.pdf.drawn_pdf import write_drawings
from guidegen.render.pdf.finish import ask_true_scale
from guidegen.render.pdf.xmp import screen_packet
from guidegen.render.text.svg import svg_file
from guidegen.words import Words, read_words
from guidegen.write.staging import staging

DRAWING = "template.svg"
PAGE = "index.html"
FRAME_PAPERS = ("a4", "letter")
MOST_BYTES = 64_000_000
"""Of one photo. Our choice: more than any camera writes as JPEG."""
MOST_PHOTOS = 12
"""In one call. Our choice: three metres in pieces of a quarter."""


@dataclass(frozen=True, slots=True)
class TraceOptions:
    """What was typed."""

    photos: tuple[Path, ...]
    out: Path
    what: str = "any"
    thick: float = 0.0
    ruler: float = RULER
    marks: str = "note"
    language: str = ""


@dataclass(frozen=True, slots=True)
class TraceResult:
    """What was written."""

    out: Path
    trace: Trace
    words: Words

    def summary(self) -> str:
        """The closing words: what was found, how far to trust it, what to type next."""
        found = self.trace
        counts = (
            f"segments {len(found.outline.run)}, corners {len(found.outline.corners)}, "
            f"holes {len(found.holes)}, drawn lines {len(found.marks)}"
        )
        return "\n".join(
            [
                f"wrote {self.out / DRAWING}: {counts}",
                trust_sentence(found, self.words),
                f"look at {self.out / PAGE}: the outline lies over the photo there",
                f"\ncopy {DRAWING} into the guide's folder, and write in guide.yaml:",
                *(f"  {line}" for line in part_lines(found)),
                "then\n  guidegen proof",
            ]
        )


@dataclass(frozen=True, slots=True)
class FrameResult:
    """The files of strips that were written."""

    files: tuple[Path, ...]

    def summary(self) -> str:
        """The closing words."""
        return "\n".join(
            [
                *(f"wrote {file}" for file in self.files),
                "print one of the PDF files at 100 %, check its square, cut the strips apart,",
                "lay them flat around the template, photograph it from straight above, then",
                "  guidegen trace PHOTO --out FOLDER",
            ]
        )


def trace_photos(options: TraceOptions) -> TraceResult:
    """Trace a template. Raises UsageError, ContentError, MissingLibrary, OutputError."""
    words = _words(options.language)
    if not 0 <= options.thick <= 30:
        raise UsageError("--thick: expected 0 to 30 mm")
    if not 0.8 * RULER <= options.ruler <= 1.2 * RULER:
        raise UsageError(
            f"--ruler: expected about {RULER:.0f} mm, what the line on a strip measures"
        )
    if not 1 <= len(options.photos) <= MOST_PHOTOS:
        raise UsageError(f"expected 1 to {MOST_PHOTOS} photos, or --frame to print strips")
    vision.load()  # before anything is read: whoever lacks it wants to know at once
    pictures = [_picture(path) for path in options.photos]
    found = trace(pictures, Asked(What(options.what), options.thick, options.ruler))
    drawing = svg_file(template_drawing(found, options.marks, words))
    _stop_unless_read(drawing)
    with staging(options.out) as stage:
        stage.write(DRAWING, drawing.encode())
        stage.write(PAGE, trace_page(found, trust_sentence(found, words), words))
    return TraceResult(options.out, found, words)


def write_frame(out: Path, language: str = "") -> FrameResult:
    """Write the strips for all papers. Raises UsageError, OutputError."""
    words = _words(language)
    names = []
    with staging(out) as stage:
        for paper in FRAME_PAPERS:
            pages = frame_pages(paper, words)
            title = words.say("Strips for photos of templates")
            data = write_drawings(
                pages,
                (),
                title=title,
                language=words.language,
                said=[page_says(number, words) for number in range(len(pages))],
                packet=screen_packet(title),
            )
            names.append(f"strips-{paper}.pdf")
            stage.write(names[-1], ask_true_scale(data, title=title, language=words.language))
            for number, page in enumerate(pages, 1):
                names.append(f"strips-{paper}-{number}.svg")
                stage.write(names[-1], svg_file(page).encode())
    return FrameResult(tuple(out / name for name in names))


def trust_sentence(found: Trace, words: Words) -> str:
    """How far the outline may be trusted, for people."""
    trust = found.trust
    total = words.number(ceil(10 * trust.total) / 10, 1)  # up: no more is promised than is known
    strips = words.listed([words.number(n) for n in found.strips])
    return words.say(
        "Trust this outline to about ±{total} mm, if strips and template lay flat: measured "
        "against strips {strips}, with {detail} pixels to a millimetre. Measure one long side of "
        "the template before you cut foam.",
        total=total,
        strips=strips,
        detail=words.number(trust.detail, 1),
    )


def part_lines(found: Trace) -> Iterator[str]:
    """A part of a build file that takes the drawing."""
    yield "parts:"
    yield "  traced:"
    yield "    shape: drawing"
    yield f"    drawing: {DRAWING}"
    names = [corner_name(number) for number in range(len(found.outline.corners))]
    if len(names) > 1:
        yield "    edges:"
        for first, last in zip(names, [*names[1:], names[0]], strict=True):
            yield f"      {first}-{last}: {{from: {first}, to: {last}}}"


def _words(language: str) -> Words:
    try:
        return read_words(language or "en")
    except ValueError as error:
        raise UsageError(f"--language {language}: {error}") from None


def _picture(path: Path) -> TemplatePhoto:
    """A photo unpacked, once its header has shown that it is small enough. Raises ContentError."""
    name = path.as_posix()
    ending = path.suffix.lower().lstrip(".")
    if ending not in FORMATS:
        kinds = ", ".join(FORMATS)
        raise _refused(name, f'the ending ".{ending}" is not read; expected one of {kinds}')
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise _refused(name, "is no ordinary file; expected a photo")
        if status.st_size > MOST_BYTES:
            raise _refused(
                name, f"has more than {MOST_BYTES // 10**6} MB; expected a smaller photo"
            )
        data = path.read_bytes()
    except OSError as error:
        raise UsageError(f"cannot read {path}: {error.strerror}") from None
    size = pixel_size(data, ending)
    if size is None:
        raise _refused(name, f"expected a picture in the format {ending}, found something else")
    if size[0] * size[1] > MAX_PIXELS:
        most = f"expected at most {MAX_PIXELS // 10**6} million"
        raise _refused(name, f"{size[0]} × {size[1]} pixels; {most}")
    try:
        wide, high, pixels = photo_pixels(data, ending)
    except ValueError as error:
        raise _refused(name, f"the photo cannot be unpacked: {error}") from None
    if min(wide, high) < 64:
        raise _refused(name, f"{wide} × {high} pixels; expected at least 64 each way")
    return TemplatePhoto(name, np.frombuffer(pixels, np.uint8).reshape(high, wide, 3))


def _refused(name: str, message: str) -> ContentError:
    return ContentError([Problem("trace-photo", Place(name), "", message)])


def _stop_unless_read(text: str) -> None:
    """What guides would not take is told here, not when the guide is pressed."""
    drawing, problems = read_drawing(text, DRAWING)
    if drawing is not None:
        _, more = assemble(drawing, "")
        problems = (*problems, *more)
    if has_errors(problems):
        raise ContentError(problems)
