"""All drawings of a guide → whether they are more together than can be read and graded in time.

Each drawing alone is bounded where it is read; four hundred of them at that bound would take an
hour.
"""

from functools import lru_cache

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.problems import Place, Problem

MOST_ELEMENTS = 12_000
"""Elements of all drawings of a guide, `use` counted anew. Our choice: 200 drawings of 60 each
take some three seconds to read, once for all sizes."""
MOST_POINTS = 40_000
"""Points of all their curves, taken apart. Our choice: 200 drawings of 200 points each."""


def drawn_too_much(file: GuideFile) -> Problem | None:
    """The drawing that brings a guide above what all its drawings may have together; else None."""
    texts = tuple(
        (name, file.drawing_files.get(name, name), text) for name, text in file.drawings.items()
    )
    return _first_above(texts)


# Asked for each size: the texts are hashed once, and the answer is kept for the next size.
@lru_cache(maxsize=8)
def _first_above(texts: tuple[tuple[str, str, str], ...]) -> Problem | None:
    elements = points = 0
    for name, shown, text in texts:
        drawing, _ = read_drawing(text, shown)
        # One that cannot be used is told elsewhere; reading it has cost no less.
        elements += drawing.elements if drawing else text.count("<")
        points += drawing.points if drawing else 0
        for count, most, what in (
            (elements, MOST_ELEMENTS, "elements"),
            (points, MOST_POINTS, "points, their curves taken apart"),
        ):
            if count > most:
                return Problem(
                    "drawing-too-large",
                    drawing.place if drawing else Place(shown),
                    "",
                    f'"{name}" brings all drawings of the guide to more than {most} {what}',
                    "simplify the paths in your editor, or make two guides",
                )
    return None
