"""Paper name in → what can be drawn on it out: printable area, title strip, window."""

from dataclasses import dataclass
from math import floor

from guidegen.buildfile.records.site import Site
from guidegen.units import PAPERS, PRINTER_MARGIN_END, PRINTER_MARGIN_SIDE, ROLLS

OVERLAP = 10.0
"""mm that neighbouring pages share. Common practice, no source: room for glue or tape and for
marks on both sides of the join."""

CELL = 2.5
"""mm; side of a packing cell. Our choice: a whole part of the overlap, fine enough that cells
waste less than the spacing between pieces."""

STRIP = 17.0
"""mm; height of the title strip at the foot of a page: three lines of small lettering."""

DEEP_STRIP = 56.0
"""mm; a title strip that holds both check squares, for sheets with no other room for them."""

LARGE = 450.0
"""mm; a single page as wide or as high as this has check lines. Our choice: larger than A3,
which a home printer feeds without drift that one could measure."""

LANE = 5
"""cells at the left and the foot of a large page that are kept free for its check lines: their
arrows, end strokes and words."""

ROLL_LENGTH = 3000.0
"""mm; longest drawing on a roll. Our choice: longer ones are hard to lay flat and to check."""


@dataclass(frozen=True, slots=True)
class Margins:
    """What a printer leaves white, on the paper held upright."""

    side: float = PRINTER_MARGIN_SIDE
    """mm; left and right."""
    end: float = PRINTER_MARGIN_END
    """mm; top and bottom, where the paper enters and leaves."""


def printer_margins(site: Site, paper: str) -> Margins:
    """Margins of the printer for a paper, as site.yaml has them."""
    own = site.printer_margins.get(paper)
    return Margins(own.side, own.end) if own else Margins()


@dataclass(frozen=True, slots=True)
class PaperFrame:
    """One way to hold a paper, with the window for drawings inside it."""

    paper_width: float
    paper_height: float
    """mm, as the page is looked at."""
    left: float
    bottom: float
    """mm; the unprintable margins, the same at the opposite edges."""
    strip: float
    """mm; height of the title strip above the bottom margin."""
    landscape: bool
    roll: bool = False
    """True where the page is only as long as its drawing; the paper height is then the most."""

    @property
    def lane(self) -> int:
        """Cells at the left and the foot that are kept free on a page by itself."""
        return LANE if max(self.window_width, self.window_height) >= LARGE else 0

    @property
    def columns(self) -> int:
        """Cells across the window."""
        # Rounded down to whole cells: what stands on the window is printable for certain.
        return floor((self.paper_width - 2 * self.left) / CELL)

    @property
    def rows(self) -> int:
        """Cells up the window."""
        return floor((self.paper_height - 2 * self.bottom - self.strip) / CELL)

    @property
    def window_width(self) -> float:
        """mm; whole cells."""
        return self.columns * CELL

    @property
    def window_height(self) -> float:
        """mm; whole cells."""
        return self.rows * CELL


def paper_frames(
    paper: str, margins: Margins | None = None, *, deep: bool = False
) -> tuple[PaperFrame, ...]:
    """The ways to hold a paper: upright and sideways, or one for a roll. Raises KeyError."""
    margins = margins or Margins()
    strip = DEEP_STRIP if deep else STRIP
    if paper in ROLLS:
        # A plotter grips the sides of the roll and cuts across it: the side margin all round.
        side = margins.side
        return (PaperFrame(ROLLS[paper], ROLL_LENGTH, side, side, strip, False, roll=True),)
    sheet = PAPERS[paper]
    return (
        PaperFrame(sheet.width, sheet.height, margins.side, margins.end, strip, False),
        # Sideways pages are turned by the printer: its end margins are then left and right.
        PaperFrame(sheet.height, sheet.width, margins.end, margins.side, strip, True),
    )


def page_size(
    paper: str, *, landscape: bool, window_height: float, margins: Margins, strip: float
) -> tuple[float, float]:
    """Width and height in mm of a page: the paper's, or a piece of roll as long as needed."""
    if paper in ROLLS:
        return (ROLLS[paper], window_height + strip + 2 * margins.side)
    sheet = PAPERS[paper]
    return (sheet.height, sheet.width) if landscape else (sheet.width, sheet.height)
