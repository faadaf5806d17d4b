"""Step and kit in → small sections of the bevelled edges that it works on, each kind once."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import radians, tan

from guidegen.geometry.records import Kit
from guidegen.pictures.canvas import Canvas
from guidegen.pictures.detail_parts import draw_cut_foam
from guidegen.pictures.lettering import text_width
from guidegen.pictures.rows import group_parts
from guidegen.pictures.seam_words import edge_name
from guidegen.pictures.tints import HIDDEN
from guidegen.words import ENGLISH, Words

LETTERS = 3.6
"""mm; size of the words."""
THICK = 9.0
"""mm; height of a section."""
LONG = 22.0
"""mm; length of the long face."""
HEIGHT = 25.0
"""mm for a row of sections with their words."""
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
    lang: Words = ENGLISH

    @property
    def words(self) -> tuple[str, str]:
        """Two lines beside the section."""
        lang, angle = self.lang, self.lang.number(self.angle, 1)
        if self.inward:
            return self.edges, lang.say("{angle}° from square, inward", angle=angle)
        return self.edges, lang.say("{angle}° from square, outward", angle=angle)

    @property
    def width(self) -> float:
        """mm that section and words need."""
        return LONG + 4 + max(text_width(words, LETTERS, 600) for words in self.words)


def bevel_sections(
    parts: Iterable[str], seams: Iterable[str], kit: Kit, lang: Words = ENGLISH, *, cutting: bool
) -> tuple[BevelSection, ...]:
    """Bevels of the edges that `seams` join; where the step is `cutting` them, of all its parts."""
    wanted = {(part, "") for part in parts} if cutting else set()
    for seam in kit.seams:
        if seam.id in seams:
            wanted |= {(ref.part, ref.edge) for ref in (seam.first, seam.second)}
    found: dict[tuple[float, bool], dict[str, list[str]]] = {}
    for group in group_parts(kit.pieces):
        piece, label = group[0], " + ".join(piece.label for piece in group)
        for bevel in piece.shape.bevels:
            if bevel.angle > 0 and {(piece.part, ""), (piece.part, bevel.edge)} & wanted:
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
    used = width + 1.0
    for section in sections:
        if used + section.width > width:
            rows.append([])
            used = 0.0
        rows[-1].append(section)
        used += section.width + GAP
    return tuple(map(tuple, rows))


def draw_bevel_rows(
    canvas: Canvas, rows: tuple[tuple[BevelSection, ...], ...], corner: tuple[float, float]
) -> None:
    """The rows from the lower left `corner` upward; outer face up, as in all sections."""
    left, y = corner
    for row in reversed(rows):
        x = left
        for section in row:
            _draw(canvas, section, (x, y + 4))
            x += section.width + GAP
        y += HEIGHT


def _draw(canvas: Canvas, section: BevelSection, corner: tuple[float, float]) -> None:
    """Foam from its break line at the left to the bevel at the right, words beside it."""
    x, y = corner
    back = min(THICK * tan(radians(section.angle)), LONG - 6)
    top, low = (LONG, LONG - back) if section.inward else (LONG - back, LONG)
    draw_cut_foam(canvas, [(x, y), (x + low, y), (x + top, y + THICK), (x, y + THICK)])
    canvas.line((x + LONG, y), (x + LONG, y + THICK), HIDDEN, css="thin")
    canvas.text((x + 1, y + THICK + 1.6), canvas.lang.say("outer face"), 3.2, css="label soft")
    canvas.text((x + 1, y - 3.6), canvas.lang.say("inner face"), 3.2, css="label soft")
    strong, plain = section.words
    canvas.text((x + LONG + 3, y + THICK - 3), strong, LETTERS, weight=600, css="label strong")
    canvas.text((x + LONG + 3, y + 1.4), plain, LETTERS, css="label")


def describe_bevels(sections: Iterable[BevelSection]) -> str:
    """The sections in words."""
    return "; ".join(", ".join(section.words) for section in sections)
