"""The options of `fit` and `class` as they may be typed, and as they are handed on."""

import argparse
from pathlib import Path
from typing import TypedDict

from guidegen.app.commands.people.when import WhenTold


def class_options(parser: argparse.ArgumentParser) -> None:
    """Who takes part in a class, with what, for how long."""
    parser.add_argument("guide", help="which guide")
    parser.add_argument(
        "--people",
        type=Path,
        help="CSV table with the columns name, size or measurements, age, brings; or YAML file of "
        "names with sizes, Robin: M, or measurements, Kim: {chest: 98 cm}; "
        "with ages, Alex: {size: M, age: 14}",
    )
    parser.add_argument(
        "--count",
        action="append",
        default=[],
        metavar="SIZE=NUMBER",
        help="how many people of one size, such as M=5; as often as needed",
    )
    parser.add_argument(
        "--tools",
        action="extend",
        nargs="+",
        default=[],
        metavar="TOOL=NUMBER",
        help="how many there are of a tool, such as heat-gun=2; as often as needed (as many as the "
        "class would use)",
    )
    parser.add_argument(
        "--beforehand",
        action="extend",
        nargs="+",
        default=[],
        metavar="STEP",
        help="further steps that leader and helpers do before the class; as often as needed",
    )
    parser.add_argument(
        "--helpers",
        type=int,
        default=0,
        metavar="NUMBER",
        help="adults who help and build nothing, the leader not counted (0)",
    )
    parser.add_argument(
        "--rooms",
        type=int,
        default=1,
        metavar="NUMBER",
        help="in two rooms goes on side by side what never shares one (1)",
    )
    _time_options(parser)
    parser.add_argument("--paper", default="", help="of site.yaml (the first one)")
    parser.add_argument("--out", type=Path, help="output folder (class-<guide>)")
    parser.add_argument(
        "--sure",
        action="append",
        nargs="?",
        const="",
        default=[],
        metavar="NAME",
        help="take the measurements of this person although they look wrong; without a name those "
        "of all",
    )
    own_options(parser)


def _time_options(parser: argparse.ArgumentParser) -> None:
    """When a class is held."""
    parser.add_argument("--hours", type=float, metavar="HOURS", help="length of the workshop (3)")
    parser.add_argument(
        "--start", default="", metavar="H:MM", help="when the class begins: 9:30 (times from 0:00)"
    )
    parser.add_argument(
        "--end",
        default="",
        metavar="H:MM",
        help="when it ends, with --start: 17:00 (--hours later)",
    )
    parser.add_argument(
        "--break",
        dest="breaks",
        action="append",
        default=[],
        metavar="H:MM-H:MM",
        help="by the clock, nobody works in it: 12:30-13:30; the hours of the class hold it; as "
        "often as needed",
    )
    parser.add_argument(
        "--day",
        dest="days",
        action="append",
        default=[],
        metavar="'NAME H:MM-H:MM'",
        help="a day of a class of several, one after the other: 'Saturday 9:30-16:00'; "
        "once for each",
    )
    parser.add_argument(
        "--days",
        dest="days_file",
        type=Path,
        metavar="FILE",
        help="YAML file of days, Saturday: 9:30-16:00; with breaks, people who are away and dates, "
        "Sunday: {hours: 10:00-13:00, breaks: 11:30-11:45, away: Kim, date: 2026-12-06}",
    )


def sure_option(parser: argparse.ArgumentParser) -> None:
    """Of one body."""
    parser.add_argument(
        "--sure", action="store_true", help="make it although a measurement looks wrong"
    )


def own_options(parser: argparse.ArgumentParser) -> None:
    """What is made for people that one knows, not for a site."""
    parser.add_argument(
        "--language", default="", metavar="TAG", help="of the documents: de (the site's first)"
    )
    parser.add_argument(
        "--have",
        type=Path,
        metavar="FILE",
        help="YAML file of what is there already: foam-6: [{width: 500, height: 300}], sealer: 250",
    )


class ForPeople(TypedDict):
    """What commands are told that make files for given people."""

    content: Path
    themes: Path
    out: Path
    guide: str
    sure: bool
    nesting_seconds: float
    have: Path | None
    language: str


def for_people(options: argparse.Namespace, command: str, *, sure: bool) -> ForPeople:
    """What the options of `fit` and `class` say alike."""
    return ForPeople(
        content=options.content,
        themes=options.themes,
        out=options.out or Path(f"{command}-{options.guide}"),
        guide=options.guide,
        sure=sure,
        nesting_seconds=options.nesting_time,
        have=options.have,
        language=options.language,
    )


class ForClass(ForPeople):
    """What a class is told beside."""

    people: Path | None
    sure_of: tuple[str, ...]
    counts: tuple[str, ...]
    tools: tuple[str, ...]
    beforehand: tuple[str, ...]
    helpers: int
    rooms: int
    when: WhenTold
    paper: str


def for_class(options: argparse.Namespace) -> ForClass:
    """All that the options of `class` say."""
    return ForClass(
        people=options.people,
        sure_of=tuple(name for name in options.sure if name),
        counts=tuple(options.count),
        tools=tuple(options.tools),
        beforehand=tuple(options.beforehand),
        helpers=options.helpers,
        rooms=options.rooms,
        when=WhenTold(
            options.hours,
            options.start,
            options.end,
            tuple(options.breaks),
            tuple(options.days),
            options.days_file,
        ),
        paper=options.paper,
        **for_people(options, "class", sure="" in options.sure),
    )
