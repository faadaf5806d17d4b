"""Random inputs of strangers, many of them → how each ended: words with a place, never a traceback.

    ./start python tests/benchmarks/fuzz_inputs.py 100000 --seed 7

Build files, drawings, pictures, Markdown, photos, themes, packs and files of people are damaged by
seeded chance and read as guidegen reads them. What takes over 5 s of the processor, over 1 GiB, or
raises anything but what is meant for authors is counted and told. Each kind has its share of a run.
A run that is ended by SIGTERM tells how far it came.
"""

import argparse
import io
import json
import random
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from xml.etree.ElementTree import fromstring

from hostile_cases import jpeg, png
from PIL import Image
from samples import GUIDE, SITE, STOCK

from guidegen.buildfile.read.people.listed import read_people
from guidegen.buildfile.read.photos import photo_fault
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.translate.commonmark import headings, references
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.checks.names.pictures import MAX_PIXELS, pixel_size
from guidegen.errors import ContentError
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.svg_document import DrawingError
from guidegen.geometry.drawing.svg_picture import clean_picture
from guidegen.problems import collect, printable
from guidegen.render.lists.pack import pack_zip, verify_pack
from guidegen.render.text.markdown import render_markdown
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.words import ENGLISH

SECONDS = 5
MEMORY = 1 << 30

SCRAPS = (
    "", " ", "\n", "\t", "\0", "\x1b[31m", "\u202e", "\u200b", "\ufeff", "\ud800", "é", "甲", "0", "-1", "1e9",
    "9" * 30, ".nan", "~", "[]", "{}", "[" * 50, "{a: " * 30, "!!set x", "&a ", "*a", "<<", "|", ">", "---", "...",
    "'", '"', "#", "%", "@", "../../x", "1/0", "(" * 30, "0x8c", "1_40", "2026-02-30", "::error::", "##[x]",
    "<", ">", "</svg>", "<g>", "<use href='#a'/>", "<style>", "</style>", "url(", "/*", "*/", "@import", "&#0;",
    "&lt;", "<![CDATA[", "]]>", "<!--", "xmlns:x='y'", "onload='a'", "style='fill:url(#a)'", "M0 0", "c9 9 9 9 9 9",
    "a1 1 0 1 1 1 1", "z", "![", "](", "[a]: b", "`" * 5, "*_" * 9, "| a |", "> " * 20, "- " * 20, "<b>", "{{ a }}",
    "{% for x in l %}", "{% endfor %}", "{% set a = a ~ a %}", "{{ a|join }}", "{{ a.b.c }}", "{% if a %}", "}}", "%}",
    "forearm", "cuff", "M: S", "{forearm: 26 cm}", "\\", "\\ud800", "\\0", "PK\x01\x02", "\xff\xd8", "IHDR",
)  # fmt: skip

DRAWING = """<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="150mm" viewBox="0 0 200 150">
<style>.a { fill: #fff; stroke: url(#g) }</style><defs><linearGradient id="g"><stop offset="1"/></linearGradient>
<pattern id="p" width="4" height="4"><path d="M0 0L4 4"/></pattern></defs>
<g id="piece" transform="translate(1 2) scale(.9)"><path id="outline" d="M20,20 C30 10 90 10 120,20 V80 A9 9 0 0 1 110 90 H20 Z"/>
<circle class="hole" cx="60" cy="50" r="4"/><path class="fold" d="M30,30 L90 70"/></g>
<circle id="corner-a" cx="20" cy="20" r="2"/><use href="#piece" x="1"/><text x="1">words <tspan>more</tspan></text></svg>"""
WORDS = """# Head\n\nYou *make* a [cuff](piece:cuff), **see** ![a](a.png "t") and `code`.\n\n- one\n  1. two\n\n| a | b |
|---|---|\n| 1 | [x](https://a.example) |\n\n> quote\n\n```\nfence\n```\n\n---\n[r]: mailto:a@b.example\n[r]"""
TEMPLATE = """{% extends 'base.j2' %}{% macro m(n) %}{{ n }}{% endmacro %}{% block b %}{% for x in l %}{{ m(x) ~ 'a' }}
{% if x > 1 %}{{ l|join(', ') }}{% else %}{{ x + 2 * 3 }}{% endif %}{% endfor %}{% set a = 'b' %}{{ a|replace('b', 'c') }}
{% include 'part.j2' %}{% endblock %}"""
PEOPLE = "Robin: M\nKim: {forearm: 26 cm, wrist: 165}\nSam: S\n"


def damaged(text: str, chance: random.Random) -> str:
    """A text with scraps put in, parts taken out, doubled, moved or cut off."""
    for _ in range(chance.randint(1, 6)):
        at = chance.randint(0, len(text))
        end = min(len(text), at + chance.choice((1, 3, 20, 200)))
        match chance.randint(0, 5):
            case 0 | 1:
                text = text[:at] + chance.choice(SCRAPS) + text[at:]
            case 2:
                text = text[:at] + text[end:]
            case 3:
                text = text[:at] + text[at:end] * chance.choice((2, 3, 50)) + text[end:]
            case 4:
                to = chance.randint(0, len(text))
                text = text[:to] + text[at:end] + text[to:]
            case _:
                text = text[:at] if chance.random() < 0.3 else text[:at] + chance.choice(SCRAPS)
    return text


def damaged_bytes(data: bytes, chance: random.Random) -> bytes:
    """The same of bytes."""
    made = bytearray(data)
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(made) + 1)
        match chance.randint(0, 3):
            case 0 if at < len(made):
                made[at] = chance.randrange(256)
            case 1:
                del made[at : at + chance.choice((1, 4, 100))]
            case 2:
                made[at:at] = chance.choice(SCRAPS).encode("utf-8", "surrogatepass")
            case _:
                made[at:at] = chance.randbytes(chance.choice((1, 4, 40)))
    return bytes(made)


def yaml(chance: random.Random, _: Path) -> None:
    """A build file of any kind as a tree and as a record."""
    value, source, problems = read_tree(
        damaged(chance.choice((GUIDE, SITE, STOCK)), chance), "a.yaml"
    )
    if not problems:
        _, problems = validate(Guide, value, source)
    for problem in problems:
        str(problem).encode()


def drawing(chance: random.Random, _: Path) -> None:
    """A drawing, and the piece in it."""
    read, problems = read_drawing(damaged(DRAWING, chance), "a.svg")
    if read is not None:
        problems += assemble(read, chance.choice(("", "piece")))[1]
    for problem in problems:
        assert problem.place.file == "a.svg"
        str(problem).encode()


def picture(chance: random.Random, _: Path) -> None:
    """A drawing that is published as a picture."""
    try:
        data = damaged(DRAWING, chance).encode("utf-8", "surrogatepass")
        made = clean_picture(data, "a.svg")
    except (DrawingError, UnicodeDecodeError):
        return
    root = fromstring(made)  # noqa: S314 - written by us, without document types
    names = {name for element in root.iter() for name in element.attrib}
    assert not [name for name in names if name.startswith("on")]
    assert b"@import" not in made
    assert clean_picture(made, "a.svg") == made


def markdown(chance: random.Random, _: Path) -> None:
    """A text for readers."""
    text = damaged(WORDS, chance)
    references(text)
    headings(text)
    html = render_markdown(text, lambda scheme, name: None)
    assert "<script" not in html


def photo(chance: random.Random, _: Path) -> None:
    """A photo of each format; pixels are unpacked where its header lets them."""
    ending = chance.choice(("png", "jpg", "webp"))
    data = damaged_bytes(PHOTOS[ending], chance)
    size = pixel_size(data, ending)
    if size is not None and size[0] * size[1] <= MAX_PIXELS:
        photo_fault(data, ending)


def theme(chance: random.Random, _: Path) -> None:
    """A template with others that it takes in."""
    files = {
        "a.j2": damaged(TEMPLATE, chance),
        "base.j2": "{% block b %}{% endblock %}",
        "part.j2": "p",
    }
    try:
        data = {name: text.encode("utf-8", "surrogatepass") for name, text in files.items()}
        Engine(Theme("bad", data), ENGLISH).render("a.j2", l=[1, 2], a="x")
    except ContentError as error:
        assert error.problems[0].place.file.startswith("themes/bad/")
        str(error).encode()


def packed(chance: random.Random, _: Path) -> None:
    """An archive with another manifest, or damaged."""
    data = pack_zip({"a.txt": b"words" * 9, "b.pdf": b"%PDF"}, {"guide": "cuff"})
    for fault in verify_pack(damaged_bytes(data, chance)):
        printable(fault).encode()


def people(chance: random.Random, folder: Path) -> None:
    """A file of the people of a class."""
    path = folder / "people.yaml"
    path.write_bytes(damaged(PEOPLE, chance).encode("utf-8", "surrogatepass"))
    for problem in collect(read_people(path, ("S", "M")))[1]:
        assert problem.place.file == path.as_posix()
        str(problem).encode()


def _photos() -> dict[str, bytes]:
    made = {"png": png(10, 10, bytes(10 * 31)), "jpg": jpeg(4, 4)}
    for ending, name in (("jpg", "JPEG"), ("webp", "WEBP")):
        stream = io.BytesIO()
        Image.new("RGB", (12, 9), "red").save(stream, name)
        made[ending] = stream.getvalue()
    return made


PHOTOS = _photos()
KINDS: tuple[Callable[[random.Random, Path], None], ...] = (
    yaml, drawing, picture, markdown, photo, theme, packed, people,
)  # fmt: skip


class TooLong(BaseException):
    """One input took more than SECONDS of the processor."""


def _too_long(*_: object) -> None:
    raise TooLong


def run(count: int, seed: int) -> dict[str, object]:
    """`count` inputs, kinds in turn; how they ended."""
    signal.signal(signal.SIGPROF, _too_long)
    stopped: list[int] = []
    signal.signal(signal.SIGTERM, lambda number, _: stopped.append(number))
    resource.setrlimit(resource.RLIMIT_AS, (3 * MEMORY, 3 * MEMORY))
    ended: Counter[str] = Counter()
    faults: list[str] = []
    slowest = 0.0
    with tempfile.TemporaryDirectory() as name:
        for number in range(count):
            if stopped:
                break
            kind = KINDS[number % len(KINDS)]
            chance = random.Random(f"{seed} {number}")
            started = time.process_time()
            signal.setitimer(signal.ITIMER_PROF, SECONDS)
            try:
                kind(chance, Path(name))
                ended["well"] += 1
            except TooLong:
                ended["too long"] += 1
                faults.append(f"{kind.__name__} {number}: over {SECONDS} s")
            except Exception:
                ended["traceback"] += 1
                faults.append(f"{kind.__name__} {number}: {traceback.format_exc()[-1500:]}")
            finally:
                signal.setitimer(signal.ITIMER_PROF, 0)
            slowest = max(slowest, time.process_time() - started)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    return {
        "inputs": sum(ended.values()), "asked": count, "seed": seed, **ended, "slowest_seconds": round(slowest, 2),
        "most_memory_mb": round(most / 1e6), "over_memory": int(most > MEMORY), "faults": faults[:40],
    }  # fmt: skip


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("count", type=int, nargs="?", default=1000)
    parser.add_argument("--seed", type=int, default=7)
    chosen = parser.parse_args()
    json.dump(run(chosen.count, chosen.seed), sys.stdout, indent=1)
    print()
