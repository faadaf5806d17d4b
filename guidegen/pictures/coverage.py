"""Which share of a population the sizes serve → a bar chart, readable without colour."""

from guidegen.geometry.fit_records import Coverage
from guidegen.pictures.canvas import Canvas
from guidegen.pictures.frames import polygon
from guidegen.pictures.hatches import hatch_lines
from guidegen.pictures.lettering import shorten
from guidegen.pictures.strips import STRIP, title_strip
from guidegen.pictures.tints import FINE, FOAM, NARROW

WIDTH = 160.0
NAMES = 40.0
"""mm at the left for names."""
ROW = 9.0
LETTER = 4.0


def draw_coverage(coverage: Coverage, title: str) -> str:
    """Bars of people served by each size, then of those that none serves (hatched)."""
    rows = [(share.size, share.people, True) for share in coverage.served]
    rows += [
        ("smaller", coverage.too_small, False),
        ("larger", coverage.too_large, False),
        ("other proportions", coverage.mixed, False),
    ]
    height = STRIP + ROW * len(rows) + 8
    words = f"{coverage.share:.0%} of {coverage.people} people are served"
    canvas = Canvas(WIDTH, height, title, _describe(rows, coverage.people, words))
    most = max(1, *(people for _, people, _ in rows))
    for number, (name, people, served) in enumerate(rows):
        y = height - 8 - ROW * (number + 1) + 2
        length = (WIDTH - NAMES - 28) * people / most
        canvas.text(
            (NAMES - 3, y + 1.6),
            shorten(name, NAMES - 4, LETTER),
            LETTER,
            anchor="end",
            css="label",
        )
        if people:
            fill = FOAM[1].fill if served else "none"
            css = FOAM[1].css if served else "ink"
            canvas.rectangle(NAMES, y, length, ROW - 3.5, NARROW, fill=fill, css=css)
            if not served:
                far, up = NAMES + length, y + ROW - 3.5
                bar = polygon([(NAMES, y), (far, y), (far, up), (NAMES, up)])
                canvas.path(hatch_lines((bar,), 45, 2), FINE, css="hatch")
        share = people / coverage.people if coverage.people else 0.0
        canvas.text((NAMES + length + 2, y + 1.6), f"{people}, {share:.0%}", LETTER, css="label")
    title_strip(canvas, "Coverage", words, None)
    return canvas.svg()


def _describe(rows: list[tuple[str, int, bool]], people: int, words: str) -> str:
    return f"{words}: " + ", ".join(f"{name} {count}" for name, count, _ in rows) + "."
