"""What the commands of the bench are asked: `flatten`, `redraw`, `trace` and
`worksheet`.

Imports little, as all options do.
"""

import argparse
from pathlib import Path


def add_flatten_options(parser: argparse.ArgumentParser) -> None:
    """Options of `flatten`."""
    parser.add_argument("form", type=Path, help="mesh of the form: OBJ, STL or PLY")
    parser.add_argument("--out", type=Path, metavar="FOLDER", help="output folder (flat)")
    parser.add_argument(
        "--unit", default="", help="unit of the file: mm, cm, m or inch; has to be said"
    )
    parser.add_argument(
        "--foam", type=float, default=0.0, metavar="MM", help="thickness of the foam (0)"
    )
    parser.add_argument(
        "--shows",
        choices=("inside", "middle", "outside"),
        default="",
        help="face of the foam that the form shows: inside (it is a body under the foam), outside "
        "(it is the finished thing) or middle; has to be said where there is a thickness",
    )
    parser.add_argument(
        "--along",
        choices=("any", "lines", "materials", "islands", "sharp", "proposal"),
        default="any",
        help="what it is cut along: lines drawn along edges, borders of materials, islands of the "
        "texture map, sharp edges, or lines that are worked out (any: the first of these that the "
        "file has, sharp edges left out)",
    )
    parser.add_argument(
        "--sharp",
        type=float,
        default=40.0,
        metavar="DEGREES",
        help="from how sharp a turn on an edge is an edge, and no part of a bend (40)",
    )
    parser.add_argument(
        "--longest",
        type=float,
        default=0.0,
        metavar="MM",
        help="longest side of a piece where seams are worked out, as your sheets allow (any)",
    )
    parser.add_argument(
        "--up",
        choices=("x", "y", "z"),
        default="",
        help="axis that points upward (y in an OBJ, else z)",
    )
    parser.add_argument(
        "--material", default="", metavar="ID", help="material of the parts (foam-10, or as thick)"
    )
    parser.add_argument("--language", default="", metavar="TAG", help="of the page: de (en)")


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
