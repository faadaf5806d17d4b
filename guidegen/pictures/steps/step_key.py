"""The key below the drawing of a step: letters of seams, rings at their ends, hatches."""

from dataclasses import dataclass

from guidegen.buildfile.records.guide import Stage, Step
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame, polygon
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.tints import ACCENT, PAPER
from guidegen.pictures.pieces.seam_words import seam_line
from guidegen.words import Words

ROW = 5.4
"""mm from one line of the key to the next."""
LETTERS = 3.6
"""mm; size of the words in the key."""
KEY_WORDS = 9.0
"""mm from the left edge to the words of the key."""
END = 1.0
"""mm; radius of the ring at the ends of edges that meet."""
ENDS = "ends"
"""Mark in the key of those rings."""
GLUE = Stroke(0.35, colour=ACCENT)
"""Hatch of a face that gets glue."""


@dataclass(frozen=True, slots=True)
class StepKey:
    """One entry of the key below the drawing."""

    mark: str
    """Letter of a seam; empty for a hatch."""
    lines: tuple[str, ...]


def draw_end(canvas: Canvas, centre: Point) -> None:
    """The ring at the end of an edge, where both edges of a seam meet."""
    canvas.circle(centre, END, Stroke(0.35, colour=ACCENT), fill=PAPER, css="accent paper")


RING = 2.3
"""mm; radius of the ring around the letter of a seam."""


def ring_letter(canvas: Canvas, centre: Point, letter: str) -> None:
    """The letter of a seam in its ring."""
    canvas.circle(centre, RING, Stroke(0.3, colour=ACCENT), fill=PAPER, css="accent paper")
    canvas.text(
        (centre[0], centre[1] - 1.0), letter, 3.6, anchor="middle", weight=600, css="label strong"
    )


def key_entries(
    step: Step, kit: Kit, letters: dict[str, str], glued: bool, lang: Words
) -> list[tuple[str, str]]:
    """What the key says, by mark; no mark for a hatch."""
    entries = []
    for seam in kit.seams:
        if seam.id not in letters:
            continue
        words = seam_line(seam, kit, lang)
        times = f", {lang.many('{n} time', '{n} times', seam.copies)}" if seam.copies > 1 else ""
        entries.append((letters[seam.id], words + times))
    # An edge joined to itself has no rings: either end may be meant there.
    if any(seam.id in letters and seam.first != seam.second for seam in kit.seams):
        entries.append(
            (ENDS, lang.say("ends with a ring come together, where both edges have one"))
        )
    if glued:
        entries.append(("", lang.say("gets glue, and so does the face that lies on it")))
    elif step.stage is Stage.TEXTURING:
        entries.append(("", lang.say("texture here")))
    return entries


def key_line(mark: str, words: str, width: float) -> StepKey:
    """An entry of the key in lines that a drawing `width` mm wide has room for."""
    return StepKey(mark, tuple(wrap(words, width - KEY_WORDS - 1, LETTERS, most=3)))


def draw_key(canvas: Canvas, key: list[StepKey], foot: float) -> None:
    """The entries from `foot`, in mm, upward; the last stands lowest."""
    # Upward, as the foot is fixed and the number of lines is not.
    y = foot
    for entry in reversed(key):
        for line in reversed(entry.lines):
            canvas.text((KEY_WORDS, y + 0.6), line, LETTERS, css="label")
            y += ROW
        top = y - ROW
        if entry.mark == ENDS:
            draw_end(canvas, (4, top + 1.8))
        elif entry.mark:
            ring_letter(canvas, (4, top + 1.8), entry.mark)
        else:
            box = Frame().runs((_box(1.5, top + 0.2, 5.5, 3.4),))
            canvas.path(hatch_lines(box, 45, 1.4), GLUE, css="accent")
            canvas.path(box, GLUE, css="accent", closed=True)


def _box(x: float, y: float, width: float, height: float) -> Run:
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])
