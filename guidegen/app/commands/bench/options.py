"""What the commands of the bench are asked: `redraw`, `trace` and `worksheet`.

Imports little, as all options do.
"""

import argparse
from pathlib import Path


def add_redraw_options(parser: argparse.ArgumentParser) -> None:
    """Options of `redraw`."""
    parser.add_argument("file", type=Path, help="PDF or DXF file")
    parser.add_argument(
        "--out", type=Path, default=Path(), metavar="FOLDER", help="where the drawing goes (here)"
    )
    parser.add_argument(
        "--length",
        action="append",
        default=[],
        metavar="WHAT=LENGTH",
        help='how long something is: "width=300 mm", "height=12 in", or "A-B=120 mm" between two '
        "points; as often as needed",
    )
    parser.add_argument(
        "--point",
        action="append",
        default=[],
        metavar="PAGE:NAME=X,Y",
        help="a point by its name: mm from the upper left of its page, in a DXF its own numbers; "
        "pages that share two points are joined there",
    )
    parser.add_argument(
        "--as",
        dest="roles",
        action="append",
        default=[],
        metavar="LAYER=ROLE",
        help="what lines of a layer or colour are: outline, hole, fold, engrave, placement, "
        "texture, centre, note",
    )
    parser.add_argument(
        "--pages",
        type=_page_numbers,
        default=(),
        metavar="1,2,5-8",
        help="pages of a PDF that are read (all)",
    )
    parser.add_argument(
        "--unit", default="", help="unit of the file, where it says none or a wrong one"
    )
    parser.add_argument(
        "--scale",
        default="1",
        metavar="1:10",
        help="scale of the drawing, where it is not full size",
    )
    parser.add_argument(
        "--again", action="store_true", help="write a drawing anew that is there already"
    )


def _page_numbers(text: str) -> tuple[int, ...]:
    """'1,3-5' is 1, 3, 4, 5."""
    numbers: list[int] = []
    for part in text.split(","):
        first, _, last = part.strip().partition("-")
        if not first.isdecimal() or not (last or first).isdecimal() or len(first + last) > 8:
            raise argparse.ArgumentTypeError(f"{part}: expected page numbers such as 1,3-5")
        low, high = int(first), int(last or first)
        if not 1 <= low <= high <= 10_000:
            raise argparse.ArgumentTypeError(f"{part}: expected page numbers such as 1,3-5")
        numbers.extend(range(low, high + 1))
    return tuple(numbers)


def add_trace_options(parser: argparse.ArgumentParser) -> None:
    """Options of `trace`."""
    parser.add_argument("photos", nargs="*", type=Path, metavar="PHOTO", help="JPEG, PNG or WebP")
    parser.add_argument("--out", type=Path, metavar="FOLDER", help="output folder (trace)")
    parser.add_argument(
        "--frame", action="store_true", help="write the strips to print and lay beside a template"
    )
    parser.add_argument(
        "--what",
        choices=("any", "card", "pen"),
        default="any",
        help="the template is cut out (card), drawn on paper (pen), or what it looks like (any)",
    )
    parser.add_argument(
        "--thick", type=float, default=0.0, metavar="MM", help="thickness of the template (0)"
    )
    parser.add_argument(
        "--ruler",
        type=float,
        default=200.0,
        metavar="MM",
        help="length of the line on a printed strip, measured (200)",
    )
    parser.add_argument(
        "--marks",
        choices=("note", "fold", "engrave", "placement", "centre"),
        default="note",
        help="what lines drawn on the template are (note: left out of the piece)",
    )
    parser.add_argument(
        "--language", default="", metavar="TAG", help="of the page and the strips: de (en)"
    )


def add_worksheet_options(parser: argparse.ArgumentParser) -> None:
    """Options of `worksheet`, without that of the site."""
    parser.add_argument("talk", type=Path, help="captions in WebVTT or SubRip (SRT)")
    parser.add_argument(
        "--to", default="", metavar="NAME", help="folder of the new guide (as the file is called)"
    )
    parser.add_argument(
        "--video",
        default="",
        metavar="ADDRESS",
        help="the film: steps lead to their place in it",
    )
