"""Line types of template sheets after ISO 128-2, and what each asks the reader to do.

Types differ in dashes and width, never in colour alone: they stay apart in black and white.
Widths are 0.5 and 0.25 mm, wide to narrow 2 : 1; dashes are counted in line widths d.
"""

from dataclasses import dataclass, replace

from guidegen.geometry.outline.records import LineKind
from guidegen.pictures.pen.canvas import INK, Stroke
from guidegen.words import msg

_NARROW = 0.25


def _dashed(*lengths: float, width: float = _NARROW) -> Stroke:
    """A stroke whose dashes and gaps are given in line widths."""
    return Stroke(width, dash=tuple(length * width for length in lengths))


@dataclass(frozen=True, slots=True)
class LineStyle:
    """A line type with its place in the key."""

    stroke: Stroke
    word: str
    """What stands on the sheet beside it."""
    meaning: str
    """One sentence for the key."""


CUT = LineStyle(Stroke(0.5), msg("cut"), msg("Cut here, right through."))
"""01.2 continuous wide."""

SIZE_CUTS: tuple[Stroke, ...] = (
    Stroke(0.5),
    Stroke(0.5, dash=(9.0, 1.2)),
    Stroke(0.5, dash=(3.0, 1.0)),
    Stroke(0.5, dash=(9.0, 1.0, 1.0, 1.0)),
    Stroke(0.5, dash=(3.0, 1.0, 0.8, 1.0)),
    Stroke(0.5, dash=(9.0, 1.0, 1.0, 1.0, 1.0, 1.0)),
    Stroke(0.5, dash=(1.4, 0.8)),
    Stroke(0.5, dash=(9.0, 1.0, 3.0, 1.0)),
)
"""Cut lines of nested sizes: all wide, each with its own dashes. Our choice, for want of a
standard; a tag beside each outline names the size as well."""

CREASE = LineStyle(
    _dashed(24, 3, 0.5, 3),
    msg("flip here"),
    msg("Centre line. On a half: trace, flip the template over this line, trace again."),
)
"""04.1 long-dashed dotted narrow."""

FAR_FACE = LineStyle(
    _dashed(12, 3),
    msg("bevel"),
    msg("Slanted edge: where the smaller face ends."),
)
"""02.1 dashed narrow: the edge lies on the far side."""

NEAR_FACE = replace(FAR_FACE, stroke=Stroke(_NARROW))
"""01.1 continuous narrow: the edge lies on the face that one sees."""

INNER: dict[LineKind, LineStyle] = {
    # 01.1 continuous narrow, bending lines (meaning from memory).
    LineKind.FOLD: LineStyle(
        Stroke(_NARROW), msg("score"), msg("Score or fold here, on the face that you see.")
    ),
    # 02.1 dashed narrow, hidden edges (meaning from memory), wider than a bevel's.
    LineKind.GROOVE: LineStyle(
        _dashed(12, 3, width=0.5),
        msg("groove on the back"),
        msg("Cut a V-groove here, on the back. Its depth and angle stand beside it."),
    ),
    # 10.1 dashed dotted narrow.
    LineKind.RIM: LineStyle(
        _dashed(12, 3, 0.5, 3),
        msg("rim of the groove"),
        msg("Rims of a V-groove, on the back: cut from both down to the middle line."),
    ),
    # 05.1 long-dashed double-dotted narrow, outlines of adjoining parts (from memory).
    LineKind.PLACEMENT: LineStyle(
        _dashed(24, 3, 0.5, 3, 0.5, 3), msg("placement"), msg("Another piece is laid on here.")
    ),
    # 07.1 dotted narrow.
    LineKind.TEXTURE: LineStyle(
        Stroke(0.35, dash=(0.01, 1.05), cap="round"),
        msg("texture"),
        msg("Rim of an area that gets a texture, shown by slanted lines."),
    ),
    LineKind.CENTRE: replace(
        CREASE, word=msg("centre"), meaning=msg("Centre line: for lining up.")
    ),
    # 08.1 long-dashed short-dashed narrow.
    LineKind.ENGRAVE: LineStyle(
        _dashed(24, 3, 6, 3), msg("engrave"), msg("Cut a little way in, not through.")
    ),
    # 03.1 dashed spaced narrow.
    LineKind.GLUE: LineStyle(
        _dashed(12, 12),
        msg("glue line"),
        msg("Finished edge inside an allowance: edges meet here."),
    ),
    # Short dashes, as sewing patterns draw what is sewn: common practice, no source.
    LineKind.STITCH: LineStyle(
        _dashed(6, 6),
        msg("stitch line"),
        msg("Sew here: edges that belong together meet along these lines."),
    ),
    LineKind.HEM: LineStyle(
        _dashed(12, 6),
        msg("hem line"),
        msg("Finished edge: what lies beyond it is folded under and sewn."),
    ),
    # Our choice, for want of a standard: dashes that none of the others has.
    LineKind.PLEAT: LineStyle(
        _dashed(30, 4),
        msg("pleat fold"),
        msg("Fold here: of a pleat the outer and the inner fold, of a dart its middle."),
    ),
    LineKind.LANDING: LineStyle(
        _dashed(12, 3, 3, 3),
        msg("pleat lands here"),
        msg("The outer fold of a pleat comes to lie here."),
    ),
    LineKind.GATHER: LineStyle(
        _dashed(3, 6),
        msg("gathering stitches"),
        msg("Sew long stitches here and draw the cloth up to its partner, mark to mark."),
    ),
    # Narrower than a fold, and closed: our choice.
    LineKind.LETTER: LineStyle(
        Stroke(0.18),
        msg("lettering"),
        msg("Outlines of letters and emblems: to paint or to lay on, not to cut."),
    ),
    LineKind.GRAIN: LineStyle(
        _dashed(18, 2),
        msg("grain"),
        msg("Arrow: lay it along the threads of cloth, or along the fibres of wood."),
    ),
    # 09.1 long-dashed double-short-dashed narrow.
    LineKind.SPREAD: LineStyle(
        _dashed(24, 3, 6, 3, 6, 3),
        msg("spread line"),
        msg("Where the drawing was opened for this size."),
    ),
}

MARK = LineStyle(
    Stroke(0.5),
    msg("match mark"),
    msg("One, two or three ticks: they meet the same number of ticks on the partner edge."),
)

HATCH = Stroke(0.13, colour="#6d757a")
"""Slanted lines in a texture area."""

TRIM = LineStyle(
    Stroke(0.18, dash=(1.2, 0.8)),
    msg("cut the paper"),
    msg("Page join, short dashes: cut the paper here where the page says so."),
)

CHECK = Stroke(0.25)
"""Check squares and check lines."""

FINE = Stroke(0.18, colour=INK)
"""Rules of the title strip and leaders."""


def inner_style(kind: LineKind) -> LineStyle:
    """The line type of an inner line."""
    return INNER[kind]
