"""The steps of a worksheet in → guide.yaml, which reads as a build file and says what is open."""

import json
from collections.abc import Iterator, Sequence

from guidegen.bench.talks.captions import clock
from guidegen.bench.talks.worksheet import SheetStep
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.stock import Stock

STILL_OPEN = (
    "Title, summary, overview, date, author and licence",
    "The parts: shapes, sizes, labels; the ones below stand for each sheet material alone",
    "Measurements and sizes, if it is worn",
    "How much of each material: amounts below are 1 ml, 1 piece or 100 mm",
    "Title, text, time, check and parts of each step; seams and stacks where it joins",
)
"""What no talk tells well enough."""


def worksheet_text(steps: Sequence[SheetStep], stock: Stock, source: str, video: str = "") -> str:
    """The build file. `source` is the name of the captions, `video` the address of the film."""
    return "".join(f"{line}\n" for line in _lines(steps, stock, source, video))


def _lines(steps: Sequence[SheetStep], stock: Stock, source: str, video: str) -> Iterator[str]:
    named = [name for step in steps for name in step.materials]
    sheets = [name for name in dict.fromkeys(named) if _is_sheet(stock, name)]
    if not sheets:
        sheets = [name for name in stock.materials if _is_sheet(stock, name)][:1]
    yield "# yaml-language-server: $schema=../.schema/guide.schema.json"
    yield f"# A worksheet from {_comment(source)}: no guide yet."
    yield "# Press and proof refuse it while a line is open. `heard` keeps each line of the talk:"
    yield "# write it into the step, then take the line or its `open: true` away. `which`"
    yield "# lists what a line may mean where it does not say which. What was recognised may be"
    yield "# wrong. Cautions come from the stock alone, never from the talk."
    yield ""
    yield "title: Worksheet"
    yield 'version: "0.1"'
    yield "date: 2026-01-01"
    yield "author: Your name"
    yield "licence: not yet"
    yield "licence-words: Not published."
    yield "summary: Made from a talk."
    yield "overview: Made from a talk."
    yield "still-open:"
    yield from (f"  - {_text(line)}" for line in STILL_OPEN)
    yield "parts:"
    for number, name in enumerate(sheets):
        yield f"  from-{name[:43]}:"
        yield f"    name: {_text(f'Piece of {stock.materials[name].name}')}"
        yield f"    label: P{number + 1}"
        yield f"    material: {name}"
        yield "    shape: disc"
        yield "    dimensions: {diameter: 100}"
    yield "steps:"
    parts = ", ".join(f"from-{name[:43]}" for name in sheets)
    for step in steps:
        yield from _step(step, stock, parts, video)


def _step(step: SheetStep, stock: Stock, parts: str, video: str) -> Iterator[str]:
    yield ""
    yield f"  - id: {step.id}"
    yield f"    title: {_text(step.title)}"
    yield f"    stage: {step.stage}"
    if step.process:
        yield f"    process: {step.process}"
    if parts:
        yield f"    parts: [{parts}]"
    if step.tools:
        yield f"    tools: [{', '.join(step.tools)}]"
    uses = [use for name in step.materials if (use := _use(stock, name))]
    if uses:
        yield "    uses:"
        yield from (f"      - {use}" for use in uses)
    yield f"    text: Write here what is done; the talk says it from {clock(step.start)} on."
    yield "    time: 10 min"
    if video:
        yield f"    video: {{address: {_text(video)}, at: {_text(clock(step.start))}}}"
    yield "    heard:"
    for one in step.cues:
        mark = ", open: true" if one.open else ""
        if one.which:
            mark += f", which: [{', '.join(one.which)}]"
        yield f"      - {{at: {_text(clock(one.cue.start))}, said: {_text(one.cue.words)}{mark}}}"


def _use(stock: Stock, name: str) -> str:
    """A use with an amount that stands for one; sheets belong to parts and have none."""
    amounts = {
        MaterialKind.LIQUID: "amount: 1",
        MaterialKind.LENGTH: "length: 100",
        MaterialKind.COUNT: "count: 1",
    }
    amount = amounts.get(stock.materials[name].kind)
    return f"{{material: {name}, {amount}}}" if amount else ""


def _is_sheet(stock: Stock, name: str) -> bool:
    return stock.materials[name].kind is MaterialKind.SHEET


def _text(words: str) -> str:
    """A text in quotes: what JSON writes is YAML, whatever letters stand in it."""
    return json.dumps(words, ensure_ascii=False)


def _comment(words: str) -> str:
    """A name in a comment, which ends at a line's end."""
    return " ".join(words.split())[:80]
