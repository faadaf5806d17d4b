"""What the words of steps tell a maker to take is on the lists, and rates are of what is used."""

from collections.abc import Collection, Iterator

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import Markup, Named, Refers
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import walk
from guidegen.buildfile.translate.commonmark import references
from guidegen.checks.texts.text_places import guide_texts
from guidegen.problems import Problem

MATERIALS = frozenset({Named.MATERIAL, Named.SHEET})
"""Kinds of names that bring materials onto lists."""

TOOLS = frozenset({Named.TOOL, Named.PROCESS, Named.CAUTION})
"""Kinds of names that bring tools onto lists: processes and cautions bring their own."""


def check_lists(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Materials and tools that steps link to, or that have a rate, are used by some step."""
    stock, guide = content.stock, file.guide
    used = {"material": _materials(guide, stock), "tool": _tools(guide, stock)}
    known = {
        "material": frozenset()
        if _mistyped(guide, MATERIALS, stock)
        else frozenset(stock.materials),
        "tool": frozenset() if _mistyped(guide, TOOLS, stock) else frozenset(stock.tools),
    }
    for text in guide_texts(file):
        if text.trail[0] != "steps" or text.wording.markup is Markup.NONE:
            continue
        for found in references(text.text, line_only=text.wording.markup is Markup.LINE):
            listed = used.get(found.scheme)
            if (
                listed is not None
                and found.name not in listed
                and found.name in known[found.scheme]
            ):
                message = (
                    f"the words name {found.scheme}:{found.name}, which no step uses: it stands "
                    "on no list"
                )
                yield text.problem("not-on-lists", found.line, message)
    for name in guide.rates:
        if name in known["material"] and name not in used["material"]:
            message = f"a rate of {name}, which no step uses"
            yield file.source.problem("not-on-lists", ("rates", name), message, key=True)


def _mistyped(guide: Guide, kinds: Collection[Named], stock: Stock) -> bool:
    """Whether a name of these kinds is not in stock: it may stand for what a list seems to lack,
    and a warning about that would only hide the slip, which is told by itself.
    """
    there = {*stock.materials, *stock.tools, *stock.processes, *stock.cautions}
    return any(
        isinstance(leaf.meaning, Refers) and leaf.meaning.to in kinds and leaf.text not in there
        for leaf in walk(guide)
    )


def _tools(guide: Guide, stock: Stock) -> set[str]:
    """Tools of all steps, of their processes and cautions, and of the motions that steps show."""
    return {tool for step in guide.steps for tool in step_tools(step, stock)}


def _materials(guide: Guide, stock: Stock) -> set[str]:
    """Materials of parts and uses, and of what holds the kit together."""
    held = (
        *guide.fastenings.values(),
        *guide.straps.values(),
        *guide.strips.values(),
        *guide.linkages.values(),
        *guide.circuits.values(),
        *guide.casings.values(),
        *guide.harnesses.values(),
    )
    named = {word for one in held for word in _words(one.model_dump())}
    return {
        *(part.material for part in guide.parts.values()),
        *(split.glue for part in guide.parts.values() for split in part.splits),
        *(row.thing for part in guide.parts.values() for row in part.points.values() if row.thing),
        *(use.material for step in guide.steps for use in step.uses),
        *(named & set(stock.materials)),
    }


def _words(value: object) -> Iterator[str]:
    """All texts in a record."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from _words(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _words(one)
