"""Step and kit in → small sections of the bevelled edges that it works on, each kind once."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import radians, tan

from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import text_width, wrap
from guidegen.pictures.pen.tints import HIDDEN
from guidegen.pictures.pieces.detail_parts import draw_cut_foam
from guidegen.pictures.pieces.rows import group_parts
from guidegen.pictures.pieces.seam_words import edge_name
from guidegen.words import Words

LETTERS = 3.6
"""mm; size of the words."""
THICK = 9.0
"""mm; height of a section."""
LONG = 22.0
"""mm; length of the long face."""
HEIGHT = 25.0
"""mm for a row of sections with their words."""
BESIDE = LONG + 4
"""mm from its left end to the end of the gap before its words."""
GAP = 8.0
"""mm between two."""


@dataclass(frozen=True, slots=True)
class BevelSection:
    """Edges that are cut alike."""

    angle: float
    """degrees from square."""
    inward: bool
    """True where the outer face stays longer."""
    edges: str
    """'C1L + C1R top, bottom'."""
    lang: Words

    @property
    def words(self) -> tuple[str, str]:
        """Two lines beside the section."""
        lang, angle = self.lang, self.lang.number(self.angle, 1)
        if self.inward:
            return self.edges, lang.say("{angle}° from square, inward", angle=angle)
        return self.edges, lang.say("{angle}° from square, outward", angle=angle)

    def lines(self, width: float) -> tuple[str, ...]:
        """The edges in lines that stand beside the section where there are `width` mm for both."""
        return tuple(wrap(self.words[0], width - BESIDE, LETTERS, 600, most=3))

    def width(self, most: float) -> float:
        """mm that section and words need, at most `most`."""
        own = BESIDE + max(text_width(words, LETTERS, 600) for words in self.words)
        return min(own, most)


def bevel_sections(
    parts: Iterable[str], seams: Iterable[str], kit: Kit, lang: Words, *, cutting: bool
) -> tuple[BevelSection, ...]:
    """Bevels of the edges that `seams` join; where the step is `cutting` them, of all its parts."""
    # An empty edge stands for all of a part.
    wanted = {(part, "") for part in parts} if cutting else set()
    for seam in kit.seams:
        if seam.id in seams:
            wanted |= {(ref.part, ref.edge) for ref in (seam.first, seam.second)}
    found: dict[tuple[float, bool], dict[str, list[str]]] = {}
    for group in group_parts(kit.pieces):
        piece, label = group[0], " + ".join(piece.label for piece in group)
        for bevel in (one for turning in piece.shape.bevels for one, _ in turning.at_ends()):
            if bevel.angle > 0 and {(piece.part, ""), (piece.part, bevel.edge)} & wanted:
                # Edges cut alike share one section, whatever part they belong to.
                kind = (round(bevel.angle, 2), bevel.direction == "inward")
                found.setdefault(kind, {}).setdefault(label, []).append(edge_name(bevel.edge, lang))
    return tuple(
        BevelSection(
            *kind,
            "; ".join(f"{label} {', '.join(edges)}" for label, edges in pieces.items()),
            lang,
        )
        for kind, pieces in found.items()
    )


def bevel_rows(
    sections: Iterable[BevelSection], width: float
) -> tuple[tuple[BevelSection, ...], ...]:
    """Sections side by side, in as many rows as they need."""
    rows: list[list[BevelSection]] = []
    # As full: the first section begins a row.
    used = width + 1.0
    for section in sections:
        across = section.width(width)
        if used + across > width:
            rows.append([])
            used = 0.0
        rows[-1].append(section)
        used += across + GAP
    return tuple(map(tuple, rows))


def draw_bevel_rows(
    canvas: Canvas,
    rows: tuple[tuple[BevelSection, ...], ...],
    corner: tuple[float, float],
    width: float,
) -> None:
    """The rows from the lower left `corner` upward; outer face up, as in all sections."""
    left, y = corner
    for row in reversed(rows):
        x = left
        for section in row:
            across = section.width(width)
            _draw(canvas, section, (x, y + 4), section.lines(across))
            x += across + GAP
        y += HEIGHT


def _draw(
    canvas: Canvas, section: BevelSection, corner: tuple[float, float], lines: tuple[str, ...]
) -> None:
    """Foam from its break line at the left to the bevel at the right, words beside it."""
    x, y = corner
    # True to the angle as far as the picture is long.
    back = min(THICK * tan(radians(section.angle)), LONG - 6)
    top, low = (LONG, LONG - back) if section.inward else (LONG - back, LONG)
    draw_cut_foam(canvas, [(x, y), (x + low, y), (x + top, y + THICK), (x, y + THICK)])
    canvas.line((x + LONG, y), (x + LONG, y + THICK), HIDDEN, css="thin")
    canvas.text((x + 1, y + THICK + 1.6), canvas.lang.say("outer face"), LETTERS, css="label soft")
    canvas.text((x + 1, y - 3.6), canvas.lang.say("inner face"), LETTERS, css="label soft")
    beside = x + LONG + 3
    for number, line in enumerate(reversed(lines)):
        at = (beside, y + THICK - 3 + 4.6 * number)
        canvas.text(at, line, LETTERS, weight=600, css="label strong")
    canvas.text((beside, y + 1.4), section.words[1], LETTERS, css="label")


def describe_bevels(sections: Iterable[BevelSection]) -> str:
    """The sections in words."""
    return "; ".join(", ".join(section.words) for section in sections)
