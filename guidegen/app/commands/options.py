"""The command line as it may be typed: commands, options, their words. Decides nothing."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from guidegen import __version__
from guidegen.app.commands.bench.options import (
    add_flatten_options,
    add_redraw_options,
    add_trace_options,
    add_worksheet_options,
)
from guidegen.app.commands.people.typed import class_options, own_options, sure_option
from guidegen.documents import Edition

_DESCRIPTION = """\
Make printable build guides: YAML build files and drawn templates in; an HTML site, booklets,
true-scale template sheets, cut plans and a bill of materials for every size out."""

type Commands = argparse._SubParsersAction[argparse.ArgumentParser]
"""What commands are added to."""

WORKERS = "GUIDEGEN_WORKERS"
"""Environment variable with a number of processes, where --workers is not given."""

_EPILOGUE = f"""\
to begin: guidegen begin FOLDER, then guidegen show in that folder

environment:
  {WORKERS}   number of processes at work, where --workers is not given
  NO_COLOR           any value: no colours in the terminal
  (SOURCE_DATE_EPOCH is not needed: no output carries the time of its making)

exit status:
  0    done
  1    the output could not be written; the old one is as it was
  2    the content has errors, or an option names something that is not there
  3    another press is at work in the same output folder
  4    a system library is missing
  70   a defect of guidegen itself
  130  stopped by Ctrl-C; the old output is as it was
"""


def build_parser() -> argparse.ArgumentParser:
    """The whole command line."""
    parser = argparse.ArgumentParser(
        prog="guidegen",
        description=_DESCRIPTION,
        epilog=_EPILOGUE,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"guidegen {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="command", required=True)
    _add_begin(commands)
    worksheet = commands.add_parser(
        "worksheet", help="make a worksheet of a talk's captions: steps, tools, what is open"
    )
    add_worksheet_options(worksheet)
    _site_option(worksheet)
    _add_press(commands)
    _proof_options(commands.add_parser("proof", help="check the content and make nothing"))
    fit = commands.add_parser("fit", help="make a complete pack for one body")
    _fit_options(fit)
    _folder_options(fit)
    _flatten_options(commands)
    add_redraw_options(commands.add_parser("redraw", help="turn a PDF or DXF into a drawing in mm"))
    course = commands.add_parser("class", help="plan a workshop for several people")
    class_options(course)
    _folder_options(course)
    _add_show(commands)
    _add_sizes(commands)
    add_trace_options(commands.add_parser("trace", help="make a drawing from photos of a template"))
    licences = commands.add_parser(
        "licences", help="tell what a pressed site ships, and under which licence"
    )
    _site_option(licences)
    _theme_options(commands.add_parser("theme", help=_THEME))
    _handbook_options(commands.add_parser("handbook", help="show the handbook in a browser"))
    commands.add_parser(
        "completion", help="print a script that lets a shell complete commands with the tab key"
    ).add_argument("shell", choices=("bash", "zsh", "tcsh"))
    schema = commands.add_parser(
        "schema",
        help="write JSON Schema files: for build files, so that editors complete them, and for "
        "materials.json, for programs that read it",
    )
    schema.add_argument("--to", type=Path, help="folder (.schema in the content folder)")
    _site_option(schema)
    return parser


def _add_press(commands: Commands) -> None:
    press = commands.add_parser("press", help="make everything in out/")
    _content_options(press)
    press.add_argument("--out", type=Path, help="output folder (out, beside the content)")
    press.add_argument(
        "--afresh", action="store_true", help="make everything, though nothing has changed"
    )
    press.add_argument(
        "--search",
        type=float,
        default=0.0,
        metavar="SECONDS",
        help="search longer for each cut plan that may not be the best possible, and keep what is "
        "better (0)",
    )
    press.add_argument(
        "--editions",
        type=lambda names: names.split(","),
        default=(),
        metavar="NAME,NAME",
        help="forms of booklets, instead of those of site.yaml: all, or some of "
        + ", ".join(Edition),
    )
    _folder_options(press, content=False)
    _format_option(press)
    press.add_argument(
        "--workers",
        type=_workers,
        default=os.environ.get(WORKERS, "0"),
        metavar="NUMBER",
        help="processes at work; one per core while memory allows",
    )
    press.add_argument(
        "--cluster",
        default="",
        metavar="ADDRESS",
        help="let the workers of a dask cluster do the work: tcp://host:8786",
    )


def _add_show(commands: Commands) -> None:
    show = commands.add_parser(
        "show", help="show the site in a browser on this machine, pressed again on every change"
    )
    _content_options(show)
    _themes_option(show)
    show.add_argument(
        "--port", type=int, metavar="NUMBER", help="port to serve at (the first free from 8000)"
    )


def _add_sizes(commands: Commands) -> None:
    sizes = commands.add_parser(
        "sizes", help="show a guide's sizes over one another, and whom they serve"
    )
    sizes.add_argument("guide", help="which guide")
    sizes.add_argument("--out", type=Path, help="output folder (sizes-<guide>)")
    _site_option(sizes)
    _themes_option(sizes)
    sizes.add_argument("--population", type=Path, help="CSV table of people, with a header row")
    sizes.add_argument(
        "--column",
        action="append",
        default=[],
        metavar="MEASUREMENT=COLUMN",
        help="which column holds a measurement, where it has another name; as often as needed",
    )
    _format_option(sizes)
    sizes.add_argument(
        "--unit", choices=("mm", "cm", "in"), default="cm", help="unit of the table (cm)"
    )


def says_nothing(arguments: Sequence[str] | None) -> bool:
    """Whether somebody has typed the program's name alone, to see what it does."""
    return not (sys.argv[1:] if arguments is None else arguments)


def _fit_options(fit: argparse.ArgumentParser) -> None:
    fit.add_argument("guide", help="which guide")
    fit.add_argument("--body", type=Path, help="YAML file of measurements: chest: 98 cm")
    fit.add_argument(
        "--measure",
        action="append",
        default=[],
        metavar="NAME=LENGTH",
        help="one measurement, such as chest=98cm; wins over the file; as often as needed",
    )
    fit.add_argument("--out", type=Path, help="output folder (fit-<guide>)")
    sure_option(fit)
    own_options(fit)


def _add_begin(commands: Commands) -> None:
    begin = commands.add_parser("begin", help="write a first guide, ready to press")
    begin.add_argument("folder", type=Path, help="new content folder")
    begin.add_argument(
        "--for",
        dest="craft",
        choices=("foam", "card", "sewn", "wood"),
        default="foam",
        help="what you make: decides the first guide and the prices in stock.yaml",
    )


_THEME = "list what a site's looks are made of, and write a start to change them"


def _theme_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--begin", action="store_true", help="write theme/own.css with every variable in it"
    )
    parser.add_argument("--words", metavar="TEXT", help="list the words of pages that contain TEXT")
    _site_option(parser)
    _themes_option(parser)


def _workers(text: str) -> int:
    """A number of processes."""
    number = int(text) if text.isdecimal() else -1
    if not 0 <= number <= 1024:
        raise argparse.ArgumentTypeError("expected a number from 0 (one per core) to 1024")
    return number


def _handbook_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "chapter",
        nargs="?",
        help='open it at a chapter: "shapes", "steps", "printing" … (the index)',
    )
    parser.add_argument("--out", type=Path, metavar="FOLDER", help="write it there, and show none")
    parser.add_argument(
        "--port", type=int, metavar="NUMBER", help="port to serve at (the first free from 8000)"
    )


def _proof_options(parser: argparse.ArgumentParser) -> None:
    _content_options(parser, "only these guides (all), or archives that end in .zip to verify")
    parser.add_argument(
        "--explain",
        nargs="?",
        const="",
        metavar="CODE",
        help="tell why a finding matters and what cures it; without a code list all",
    )
    parser.add_argument(
        "--format",
        choices=("words", "json", "annotations"),
        default="words",
        help="for people (words), programs, or beside the lines on GitHub",
    )
    parser.add_argument(
        "--published",
        metavar="ADDRESS",
        help="compare the site at this address with out/: https://example.org/guides/",
    )
    parser.add_argument("--out", type=Path, help="output folder (out, beside the content)")
    parser.add_argument(
        "--pictures",
        type=Path,
        metavar="FOLDER",
        help="draw each finding about where parts lie on the body into this folder",
    )
    parser.add_argument(
        "--all", action="store_true", help="list suppressed findings with their reasons as well"
    )


def _site_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--site",
        "--content",
        dest="content",
        type=Path,
        metavar="FOLDER",
        help="folder with site.yaml (the nearest from here upwards)",
    )


def _themes_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--themes",
        type=Path,
        metavar="FOLDER",
        help="folder with other themes than those of guidegen (themes, beside the content)",
    )


def _format_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--format",
        choices=("words", "json"),
        default="words",
        help="of the result, for people (words) or programs",
    )


def _folder_options(parser: argparse.ArgumentParser, *, content: bool = True) -> None:
    if content:
        _site_option(parser)
    _themes_option(parser)
    parser.add_argument(
        "--nesting-time",
        type=float,
        default=4.0,
        metavar="SECONDS",
        help="longest search for one cut plan that is not stored yet (4); 0 makes simple plans",
    )
    _told_options(parser)


def _flatten_options(commands: Commands) -> None:
    flat = commands.add_parser("flatten", help="lay a mesh of a form flat: pieces, seams, strain")
    add_flatten_options(flat)
    _told_options(flat)


def _told_options(parser: argparse.ArgumentParser) -> None:
    """How much is told while files are made."""
    told = parser.add_mutually_exclusive_group()
    told.add_argument("--quiet", action="store_true", help="no progress, only the result")
    told.add_argument("--verbose", action="store_true", help="a line for each thing that is made")
    parser.add_argument(
        "--log", type=Path, metavar="FILE", help="write the same lines to a file, with their time"
    )


def _content_options(
    parser: argparse.ArgumentParser, guides: str = "only these guides (all)"
) -> None:
    parser.add_argument("guides", nargs="*", metavar="guide", help=guides)
    _site_option(parser)
