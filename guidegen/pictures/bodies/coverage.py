"""Which share of a population the sizes serve → a bar chart, readable without colour."""

from dataclasses import dataclass

from guidegen.geometry.fit.records import Coverage
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import shorten, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, FOAM, NARROW, SOFT
from guidegen.words import Words

WIDTH = 160.0
NAMES = 34.0
"""mm at the left for names."""
FIGURES = 26.0
"""mm at the right for numbers."""
ROW = 8.0
BAR = 5.4
LETTER = 4.0
TOP = 3.0


@dataclass(frozen=True, slots=True)
class _Bar:
    name: str
    people: int
    served: bool


def draw_coverage(coverage: Coverage, title: str, lang: Words) -> Drawing:
    """A bar for each size, filled; for those whom none serves, hatched.

    From the smallest bodies to the largest as the guide orders its sizes, other proportions last.
    Numbers of people and shares stand beside the bars.
    """
    bars = _bars(coverage, lang)
    words = coverage_words(coverage, lang)
    foot = STRIP + 4
    canvas = Canvas(WIDTH, foot + ROW * len(bars) + TOP, title, _describe(bars, words), lang)
    # With nobody at all the chart is empty, and nothing is divided by nothing.
    most = max(1, *(bar.people for bar in bars))
    # y grows upward, and the smallest is to stand on top.
    for number, bar in enumerate(reversed(bars)):
        length = (WIDTH - NAMES - FIGURES) * bar.people / most
        _draw_bar(canvas, bar, length, foot + ROW * number, coverage.people)
    canvas.line((NAMES, foot - 1), (NAMES, foot + ROW * len(bars)), NARROW, css="thin")
    title_strip(canvas, lang.say("Coverage"), words, None)
    return canvas.drawing()


def coverage_words(coverage: Coverage, lang: Words) -> str:
    """'94% of 507 people are served'."""
    return lang.many(
        "{share} of {n} person are served",
        "{share} of {n} people are served",
        coverage.people,
        share=share_words(coverage.share, lang),
    )


def share_words(share: float, lang: Words) -> str:
    """Whole percents; never 0% for somebody or 100% for not quite all."""
    if 0 < share < 0.005:
        return lang.say("under {share}", share=lang.percent(0.01))
    if 0.995 <= share < 1:
        return lang.say("over {share}", share=lang.percent(0.99))
    return lang.percent(share)


def _bars(coverage: Coverage, lang: Words) -> list[_Bar]:
    return [
        _Bar(lang.say("smaller"), coverage.too_small, False),
        *(_Bar(share.size, share.people, True) for share in coverage.served),
        _Bar(lang.say("larger"), coverage.too_large, False),
        _Bar(lang.say("other proportions"), coverage.mixed, False),
    ]


def _draw_bar(canvas: Canvas, bar: _Bar, length: float, y: float, people: int) -> None:
    base = y + BAR / 2 - LETTER * 0.35
    weight = 600 if bar.served else 400
    name = shorten(bar.name, NAMES - 4, LETTER, weight)
    canvas.text((NAMES - 2.5, base), name, LETTER, anchor="end", weight=weight, css="label")
    if bar.people and bar.served:
        fill = FOAM[2]
        canvas.rectangle(NAMES, y, length, BAR, NARROW, fill=fill.fill, css=fill.css)
    elif bar.people:
        right, high = NAMES + length, y + BAR
        rim = polygon([(NAMES, y), (right, y), (right, high), (NAMES, high)])
        canvas.path(hatch_lines((rim,), 45, 1.6), FINE, css="hatch")
        canvas.rectangle(NAMES, y, length, BAR, NARROW, css="ink")
    share = share_words(bar.people / people if people else 0.0, canvas.lang)
    x = NAMES + length + 2
    canvas.text((x, base), share, LETTER, weight=600, css="label")
    x += text_width(share, LETTER, 600) + 2.5
    canvas.text((x, base), str(bar.people), LETTER, colour=SOFT, css="label soft")


def _describe(bars: list[_Bar], words: str) -> str:
    return f"{words}: " + ", ".join(f"{bar.name} {bar.people}" for bar in bars) + "."
