"""Words and blocks in → key pages that are filled from the top."""

from collections.abc import Iterable

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.lettering import CAP_HEIGHT, wrap
from guidegen.pictures.pen.tints import PAPER
from guidegen.units import Paper
from guidegen.words import Words

SIDE = 14.0
"""mm; left and right margin of a key page."""

FOOT = 34.0
"""mm; lower end of what stands above the title strip."""

BODY = 3.9
"""mm; letter size of the key's sentences."""

LEADING = 1.3
"""Of one baseline to the next, for each mm of the letters' size."""


def paragraph(
    canvas: Canvas, corner: Point, width: float, words: str, *, size: float = BODY
) -> float:
    """Words from their upper left corner, broken to a width; returns y below them, in mm."""
    x, y = corner
    for line in wrap(words, width, size):
        y -= size * LEADING
        # Capitals stand in the middle of their row: half of what leads lies below them.
        canvas.text((x, y + size * (LEADING - CAP_HEIGHT) / 2), line, size)
    return y


def heading(canvas: Canvas, corner: Point, width: float, words: str) -> float:
    """A heading with a rule above it; returns y below, in mm."""
    x, y = corner
    canvas.line((x, y), (x + width, y), Stroke(0.5))
    canvas.text((x, y - 5.2), words, 5.2, weight=700)
    return y - 7.5


def steps(canvas: Canvas, corner: Point, width: float, words: Iterable[str]) -> float:
    """Numbered sentences with the numbers hanging at the left; returns y below, in mm."""
    x, y = corner
    for number, sentence in enumerate(words, 1):
        canvas.text((x, y - BODY * 0.97), str(number), BODY, weight=700)
        y = paragraph(canvas, (x + 4.5, y), width - 4.5, sentence) - 1.2
    return y


class KeyFlow:
    """Key pages that are filled from the top; a new one is begun when one is full."""

    def __init__(self, paper: Paper, title: str, lang: Words) -> None:
        self.paper, self.title, self.lang = paper, title, lang
        self.canvases: list[Canvas] = []
        self.begin()

    @property
    def width(self) -> float:
        """mm between the margins."""
        return self.paper.width - 2 * SIDE

    @property
    def canvas(self) -> Canvas:
        """The page that is being filled."""
        return self.canvases[-1]

    def begin(self) -> None:
        """Begin a page."""
        number = len(self.canvases) + 1
        title = self.lang.say("{title}: key page {number}", title=self.title, number=number)
        canvas = Canvas(self.paper.width, self.paper.height, title, "", self.lang)
        canvas.rectangle(0, 0, self.paper.width, self.paper.height, None, fill=PAPER)
        self.canvases.append(canvas)
        self.y = self.paper.height - 14.0

    def need(self, height: float) -> bool:
        """Begin a page unless `height` mm are left; says whether it did."""
        # Asked before a block is begun: a block is never torn over two pages.
        if self.y - height >= FOOT:
            return False
        self.begin()
        return True

    def heading(self, words: str) -> None:
        """A heading with a rule above it."""
        self.y = heading(self.canvas, (SIDE, self.y), self.width, words)

    def paragraph(self, words: str, *, below: float = 0.0) -> None:
        """Words over the whole width, with `below` mm kept free under them."""
        self.y = paragraph(self.canvas, (SIDE, self.y), self.width, words) - below
