"""Tints and line widths that all drawings share.

Every tint differs from the next in lightness, so that a grey print keeps them apart; a theme may
recolour each by its class. The safety colours of ISO 3864 are kept for safety messages: no tint
is near them.
"""

from dataclasses import dataclass

from guidegen.pictures.pen.canvas import Stroke
from guidegen.pictures.pen.linestyles import CREASE, FAR_FACE

PAPER = "#ffffff"
"""What is not drawn on."""

SOFT = "#5b6469"
"""Letters and lines that stand back: 6 : 1 on white, enough for small lettering (WCAG 1.4.3)."""

ACCENT = "#0b6e75"
"""What a step is about: seams and glued faces. Kept apart by width or hatch as well."""

# Widths from the series of ISO 128-2 (0.13 0.18 0.25 0.35 0.5 0.7), narrow to wide 1 : 2.
WIDE = Stroke(0.5)
"""Visible outlines."""
NARROW = Stroke(0.25)
"""Dimensions, leaders, hatches' rims."""
FINE = Stroke(0.18, colour=SOFT)
"""Hatches and grids."""
HIDDEN = FAR_FACE.stroke
"""Dashed: what lies behind."""
CHAIN = CREASE.stroke
"""Long dash, dot: centres and axes."""
STRONG = Stroke(0.9, colour=ACCENT, cap="round")
"""What is worked on."""


@dataclass(frozen=True, slots=True)
class Tint:
    """How a face is filled: a colour, and a hatch that works without it."""

    css: str
    """Class that a theme may recolour."""
    fill: str
    angle: float = 0.0
    """degrees of the hatch lines."""
    spacing: float = 0.0
    """mm between hatch lines; 0 for none."""
    dash: tuple[float, ...] = ()
    """Dashes of the hatch lines; (0.01, gap) with a round cap makes dots."""

    @property
    def stroke(self) -> Stroke:
        """Stroke of the hatch lines."""
        # Dots: no length of its own, so a round cap makes the mark, and more width lets one see
        # it.
        if self.dash and self.dash[0] < 0.1:
            return Stroke(0.4, dash=self.dash, colour=SOFT, cap="round")
        return Stroke(0.18, dash=self.dash, colour=SOFT)


FOAM: tuple[Tint, ...] = (
    Tint("fill-foam-1", "#f1ede3"),
    Tint("fill-foam-2", "#d3dcd9"),
    Tint("fill-foam-3", "#b4bfc4"),
    Tint("fill-foam-4", "#e4d8c4"),
    Tint("fill-foam-5", "#c8c3d2"),
    Tint("fill-foam-6", "#dfe5c9"),
)
"""Tints of materials, in the order in which a kit uses them."""

PARTS: tuple[Tint, ...] = (
    Tint("fill-part-1", "#f1ede3"),
    Tint("fill-part-2", "#d3dcd9"),
    Tint("fill-part-3", "#f4f1ea", 45, 2.4),
    Tint("fill-part-4", "#c3cccf"),
    Tint("fill-part-5", "#eef0ea", 135, 1.6),
    Tint("fill-part-6", "#e6dcc9"),
    Tint("fill-part-7", "#f2f3f1", 0, 1.8, (0.01, 1.8)),
    Tint("fill-part-8", "#dde2e4", 90, 2.2),
    Tint("fill-part-9", "#e9e6ef", 0, 1.4),
    Tint("fill-part-10", "#d9d2c4", 45, 3.2),
)
"""Tints of parts on a cut plan, in the order in which a kit holds them."""


def foam_tint(materials: tuple[str, ...], material: str) -> Tint:
    """The tint of a material among all of a kit."""
    return FOAM[materials.index(material) % len(FOAM)] if material in materials else FOAM[0]


def part_tint(number: int) -> Tint:
    """The tint of the part with `number`, from 0."""
    return PARTS[number % len(PARTS)]
