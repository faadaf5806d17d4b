"""Signal word in → its panel out, after ANSI Z535.4 and ISO 3864-2."""

from guidegen.buildfile.records.safety.cautions import SignalWord
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.signs.sign_pen import (
    BLACK,
    BLUE,
    CSS,
    FIELD,
    INK,
    ORANGE,
    RED,
    WHITE,
    YELLOW,
    SignPen,
    rounded_triangle,
)
from guidegen.pictures.signs.warning import general
from guidegen.words import Words

HEIGHT = 9.0
"""mm."""
LETTERS = 7.0
"""mm; letter size of the signal word."""

PANELS: dict[SignalWord, tuple[str, str]] = {
    SignalWord.DANGER: (RED, WHITE),
    SignalWord.WARNING: (ORANGE, INK),
    SignalWord.CAUTION: (YELLOW, BLACK),
    SignalWord.NOTICE: (BLUE, WHITE),
}
"""Panel and letters, each pair with a contrast of 4.5 : 1 or more (WCAG 2.2, 1.4.3). On orange only
plain black has it (5.28 : 1); signal black has 3.56, white 3.98."""


def draw_signal_word(word: SignalWord | str, lang: Words) -> Drawing:
    """The panel of a signal word, with the safety alert symbol except for NOTICE.

    Raises ValueError for any other word.
    """
    signal = SignalWord(word)
    ground, letters = PANELS[signal]
    alert = signal is not SignalWord.NOTICE
    said = lang.say(signal.value)
    # As wide as the word in its language: no panel is squeezed.
    words = text_width(said, LETTERS, 600)
    symbol = 11.0 if alert else 0.0
    canvas = Canvas(
        words + symbol + 6, HEIGHT, said, lang.say("Signal word {word}.", word=said), lang
    )
    canvas.rectangle(0, 0, canvas.width, HEIGHT, None, fill=ground, css=CSS[ground])
    if alert:
        _draw_alert(canvas, ground, letters)
    base = (HEIGHT - LETTERS * CAP_HEIGHT) / 2
    canvas.text((3 + symbol, base), said, LETTERS, weight=600, colour=letters, css=CSS[letters])
    return canvas.drawing()


def _draw_alert(canvas: Canvas, ground: str, letters: str) -> None:
    """The safety alert symbol: a triangle in the letters' colour, its mark in the panel's."""
    scale = 8.0 / FIELD
    pen = SignPen(canvas, Frame(scale, 3, (HEIGHT - 8.0) / 2 - 0.2))
    pen.fill([rounded_triangle(0, 6)], letters)
    general(pen, ground)
