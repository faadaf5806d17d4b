"""Content folders that attack the reader or break by accident, each with what the author is told.

Small ones stand in corpus/hostile/edits.csv, as an edit of the sample guide; those that need
links, pipes or great size are made here. `says` is part of the message; empty where any error does.
"""

import csv
import os
import random
import struct
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import cos, sin
from pathlib import Path

from samples import GUIDE, changed, write_content

EDITS = Path(__file__).parent / "corpus" / "hostile" / "edits.csv"

PICTURE = "title: Test cuff\npicture: {file: a.png, alt: A}"
DRAWN = "    shape: drawing\n    drawing: a.svg"
DISC = "    shape: disc\n    dimensions: {diameter: 60}"


@dataclass(frozen=True)
class Case:
    """One hostile content folder."""

    name: str
    says: str
    make: Callable[[Path], object]


def cases() -> list[Case]:
    """All of them, in a fixed order."""
    return [*_edits(), *_grown(), *_folders(), *_pictures(), *_bombs(), *_many_drawings()]


def _edit(old: str, new: str) -> Callable[[Path], object]:
    return lambda folder: write_content(folder, guide=changed(GUIDE, old, new))


def _edits() -> Iterator[Case]:
    with EDITS.open(newline="", encoding="utf-8") as table:
        for row in csv.DictReader(table):
            yield Case(row["name"], row["says"], _edit(row["old"], row["new"]))


def _grown() -> Iterator[Case]:
    """Texts that grow out of a few words, or are simply large."""
    title, room, plate = "title: Test cuff", "  room: 20", "  plate:\n"
    bomb = "bomb:\n  - &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1]\n" + "".join(
        f"  - &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 12)
    )
    part = "{name: P, label: L, material: foam-5, shape: disc, dimensions: {diameter: 30}}"
    grown = {
        "alias-bomb": ("more than 50000 values", title, bomb + title),
        "depth-of-lists": ("levels of nesting", title, "title: " + "[" * 5000 + "]" * 5000),
        "depth-of-keys": ("levels of nesting", title, "title: " + "{a: " * 500 + "}" * 500),
        "depth-never-closed": ("levels of nesting", title, "title: " + "[" * 200_000),
        "million-values": ("", title, f"x: [{'1,' * 300_000}]\n{title}"),
        "large-file": ("larger than", title, f"x: {'a' * 1_100_000}\n{title}"),
        "measurement-drawn": ("no name for a measurement", "wrist:", "drawn_wrist:"),
        "control-character": ("U+0007", title, f'x: "\x07"\n{title}'),
        "long-key": ("YAML", title, f"{'k' * 5000}: 1\n{title}"),
        "many-duplicates": ("stand twice", title, f"x: {{{'a: 1,' * 45_000}}}\n{title}"),
        "many-unknown-keys": ("no key", title, "".join(f"k{n}: 1\n" for n in range(3000)) + title),
        "blanks-in-time": ("time such as", "20 min", f'"1 d{" " * 20_000}x"'),
        "digits-in-time": ("time such as", "20 min", f'"{"1" * 20_000}x"'),
        "values-too-many": (
            "at most 2000",
            room,
            room + "".join(f"\n  v{n}: v{n + 1}" for n in range(9000)),
        ),
        "circle-of-values": (
            "needs itself",
            room,
            room + "".join(f"\n  v{n}: v{(n + 1) % 1900}" for n in range(1900)),
        ),
        "parts-too-many": (
            "at most 1000",
            plate,
            "".join(f"  p{n}: {part}\n" for n in range(2000)) + plate,
        ),
        "sizes-too-many": (
            "at most 100",
            "  S: {",
            "".join(f"  S{n}: {{forearm: 250, wrist: 160}}\n" for n in range(2000)) + "  S: {",
        ),
        "grooves-too-many": (
            "at most 100",
            "copies: 2",
            f"grooves: [{', '.join(['{fold: 9}'] * 900)}]",
        ),
        "brackets": ("opening brackets", "text: Cut along the lines.", f"text: '{'![' * 9_900}'"),
        "all-texts-together": (
            "letters in all texts",
            "  - id: cut",
            "".join(
                f"  - {{id: s{n}, title: T, stage: cutting, time: 1 min, text: '{'a' * 19_000}'}}\n"
                for n in range(40)
            )
            + "  - id: cut",
        ),
        "override-left-open": (
            "turns the direction",
            "text: Cut along the lines.",
            "text: Cut \u202enot.",
        ),
        "long-text": ("longer than 20000", "text: Cut along the lines.", f"text: {'a ' * 20_000}"),
    }
    for name, (says, old, new) in grown.items():
        yield Case(name, says, _edit(old, new))


PAGE = '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400">'


def _bombs() -> Iterator[Case]:
    """Drawings of some 100 kB whose curves would be taken apart into millions of points."""
    chance = random.Random(1)
    ring = [(200 + 150 * cos(n / 780), 200 + 150 * sin(n / 780)) for n in range(4900)]
    wild = [str(round(chance.uniform(-9000, 9000))) for _ in range(12_000)]
    paths = {
        "tiny-arcs": ("2000 points", "M350 200" + "".join(f"A.2 .3 0 0 1 {x:.3f} {y:.3f}" for x, y in ring)),
        "full-arcs": ("points, its curves", "M0 0" + "a9 9 0 1 1 .05 .05" * 4900),
        "relative-cubics": ("out of all proportion", "M0 0" + "c10000 0 10000 10000 0 .07" * 5000),
        "wild-cubics": ("out of all proportion", f"M0 0C{' '.join(wild)}"),
        "bent-cubics": ("points, its curves", "M0 0" + "c1500 0 1500 1500 0 .07c-1500 0 -1500 1500 0 .07" * 500),
    }  # fmt: skip
    for name, (says, data) in paths.items():

        def make(folder: Path, data: str = data) -> None:
            write_content(folder, guide=changed(GUIDE, DISC, DRAWN))
            drawing = f'{PAGE}<path class="outline" d="{data}z"/></svg>'
            (folder / "cuff" / "a.svg").write_text(drawing, encoding="utf-8")

        yield Case(f"drawing-bomb-{name}", says, make)


def _many_drawings() -> Iterator[Case]:
    """Drawings that are each within bounds and together are not."""
    ring = [(100 + 80 * cos(n / 302), 100 + 80 * sin(n / 302)) for n in range(1897)]
    outline = f'<path class="outline" d="M{" ".join(f"{x:.3f},{y:.3f}" for x, y in ring)}z"/>'
    notes = '<path class="note" d="M1 1L2 2"/>' * 2400
    square = '<path class="outline" d="M20 20H90V90H20z"/>'
    part = "\n  p{n}:\n    name: P\n    label: P{n}\n    material: foam-5\n    shape: drawing\n    drawing: p{n}.svg"
    for name, says, count, drawn in (
        ("points", "more than 40000 points", 30, outline),
        ("elements", "more than 12000 elements", 10, square + notes),
    ):

        def make(folder: Path, count: int = count, drawn: str = drawn) -> None:
            parts = "".join(part.format(n=n) for n in range(count))
            names = ", ".join(f"p{n}" for n in range(count))
            guide = GUIDE.replace("parts: [cuff, plate]", f"parts: [cuff, plate, {names}]")
            write_content(folder, guide=changed(guide, DISC, DISC + parts))
            for n in range(count):
                text = f"{PAGE}{drawn}</svg>"
                (folder / "cuff" / f"p{n}.svg").write_text(text, encoding="utf-8")

        yield Case(f"many-drawings-{name}", says, make)


def _folders() -> Iterator[Case]:
    """What lies in the folder is not what it seems."""

    def with_drawing(put: Callable[[Path], object]) -> Callable[[Path], object]:
        def make(folder: Path) -> None:
            write_content(folder, guide=changed(GUIDE, DISC, DRAWN))
            (folder / "secret.svg").write_text("<svg/>", encoding="utf-8")
            put(folder / "cuff" / "a.svg")

        return make

    def with_guide(put: Callable[[Path], object]) -> Callable[[Path], object]:
        def make(folder: Path) -> None:
            write_content(folder)
            (folder / "cuff" / "guide.yaml").unlink()
            put(folder / "cuff" / "guide.yaml")

        return make

    def large(path: Path) -> None:
        with path.open("wb") as stream:
            stream.truncate(10**9)  # a hole: takes no room on the disk

    links = {
        "link-out": ("leads out", lambda path: path.symlink_to("../secret.svg")),
        "link-absolute": ("leads out", lambda path: path.symlink_to("/etc/hosts")),
        "link-to-device": ("leads out", lambda path: path.symlink_to("/dev/zero")),
        "link-to-nothing": ("no such file", lambda path: path.symlink_to("nothing.svg")),
        "link-to-itself": ("", lambda path: path.symlink_to("a.svg")),
        "pipe": ("ordinary file", os.mkfifo),
        "folder": ("ordinary file", Path.mkdir),
        "large": ("larger than", large),
        "bytes": ("not UTF-8", lambda path: path.write_bytes(b"\xff\xfe\x00\x80")),
        "nothing-in-it": ("XML", lambda path: path.write_bytes(b"")),
    }
    for name, (says, put) in links.items():
        yield Case(f"drawing-{name}", says, with_drawing(put))
    for name in ("con.svg", "sub/aux.svg", "nul", "lpt1.x.svg"):
        yield Case(f"drawing-called-{name}", "cannot be a file on Windows", _drawing_called(name))
    yield Case("drawing-ends-in-stop", "cannot be a file on Windows", _drawing_called("a./b.svg"))
    yield Case("guide-large", "larger than", with_guide(large))
    yield Case("guide-bytes", "not UTF-8", with_guide(lambda path: path.write_bytes(b"\xff\x00")))
    yield Case("guide-empty", "expected keys", with_guide(lambda path: path.write_bytes(b"")))
    yield Case("guide-words", "expected keys", with_guide(lambda path: path.write_bytes(b"words")))
    for name in ("con", "aux", "nul", "com1", "lpt9"):
        yield Case(f"guide-called-{name}", "Windows", _renamed(name))
    for name in ("Cuff", "cuff guide", "cüff", "cuff_", "c" * 60, "-cuff", "cuff\n", "..cuff"):
        yield Case(f"guide-called-{name.strip()}", "lower case words", _renamed(name))


def _drawing_called(name: str) -> Callable[[Path], object]:
    return _edit(DISC, DRAWN.replace("a.svg", name))


def _renamed(name: str) -> Callable[[Path], object]:
    return lambda folder: (write_content(folder) / "cuff").rename(folder / name)


def png(width: int, height: int, pixels: bytes = b"") -> bytes:
    """A PNG file that says it has this many pixels."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(pixels)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def jpeg(width: int, height: int) -> bytes:
    """The beginning of a JPEG file: an empty comment, and a frame header."""
    return b"\xff\xd8\xff\xfe\x00\x02\xff\xc0" + struct.pack(">HBHHB", 17, 8, height, width, 3)


def _pictures() -> Iterator[Case]:
    """Pictures that are too many pixels to unpack, or no pictures."""
    drawn = '<svg xmlns="http://www.w3.org/2000/svg">'
    entities = '<!DOCTYPE a [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'
    files = {
        "script.svg": ("scripts", f"{drawn}<script>alert(1)</script></svg>".encode()),
        "handler.svg": ("onload", f'{drawn}<g onload="alert(1)"/></svg>'.encode()),
        "outside.svg": ("not allowed", f'{drawn}<image href="//example.com/a"/></svg>'.encode()),
        "style.svg": ("outside", f"{drawn}<style>@import '//example.com/a'</style></svg>".encode()),
        "html.svg": ("not allowed", f"{drawn}<foreignObject/></svg>".encode()),
        "entities.svg": ("document type", f"{entities}{drawn}&b;</svg>".encode()),
        "unfolds.svg": ("20000 elements", f"{drawn}{_uses(8, 10)}</svg>".encode()),
        "wide.svg": ("not UTF-8", f"{drawn}</svg>".encode("utf-16")),
        "bomb.png": ("50000 × 50000 pixels", png(50_000, 50_000, bytes(1_000_000))),
        "largest.png": ("pixels", png(2**31 - 1, 2**31 - 1)),
        "no-width.png": ("something else", png(0, 10)),
        "cut.png": ("something else", png(10, 10)[:20]),
        "empty.png": ("something else", b""),
        "html.png": ("something else", b"<html><script>alert(1)</script>"),
        "bomb.jpg": ("65000 × 65000 pixels", jpeg(65_000, 65_000)),
        "png-inside.jpg": ("something else", png(10, 10)),
        "no-frame.jpg": ("something else", b"\xff\xd8" + b"\xff\xfe\x00\x00" * 50_000),
        "fill.jpeg": ("something else", b"\xff\xd8" + b"\xff" * 100_000),
        "bomb.webp": (
            "16777216 × 16777216 pixels",
            b"RIFF\x1e\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00" + bytes(4) + b"\xff" * 6,
        ),
        "no-pixels.png": ("unpacked", png(10, 10)),
        "pixels-short.png": ("unpacked", png(4000, 4000, bytes(1_000))),
        "frame-only.jpg": ("unpacked", jpeg(4000, 4000)),
        "just-too-large.png": ("64 million", png(8_001, 8_000, bytes(1_000_000))),
        "cut.webp": ("something else", b"RIFF\x00\x00\x00\x00WEBPVP8 "),
    }
    for name, (says, data) in files.items():

        def make(folder: Path, name: str = name, data: bytes = data) -> None:
            guide = changed(GUIDE, "title: Test cuff", PICTURE.replace("a.png", name))
            write_content(folder, guide=guide)
            (folder / "cuff" / name).write_bytes(data)

        yield Case(f"picture-{name}", says, make)
    for kind, target in {"out": "../secret.png", "absolute": "", "folder": "linked"}.items():
        yield Case(f"picture-link-{kind}", "leads out", _linked_picture(target))


def _uses(levels: int, each: int) -> str:
    """Groups that use one another, the last of which draws each ** levels lines."""
    groups = "".join(
        f'<g id="g{n}">{f"""<use href="#g{n - 1}"/>""" * each}</g>' for n in range(1, levels + 1)
    )
    return f'<path id="g0" d="M0 0H1"/>{groups}<use href="#g{levels}"/>'


def _linked_picture(target: str) -> Callable[[Path], object]:
    """A sound picture outside the guide's folder, and a link to it in there: the picture by its
    relative or full address, or the folder that it is in."""

    def make(folder: Path) -> None:
        inside = "linked/a.png" if target == "linked" else "a.png"
        write_content(
            folder, guide=changed(GUIDE, "title: Test cuff", PICTURE.replace("a.png", inside))
        )
        outside = folder / "outside"
        outside.mkdir()
        for place in (folder / "secret.png", outside / "a.png"):
            place.write_bytes(png(10, 10, bytes(10 * 31)))
        link = folder / "cuff" / inside.partition("/")[0]
        link.symlink_to(outside if target == "linked" else target or folder / "secret.png")

    return make
