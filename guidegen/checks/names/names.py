"""Every name that refers to something must name something that is there.

Which fields hold names is said by their types; this walks them.
"""

from collections.abc import Collection, Iterator, Mapping

from guidegen.buildfile.expand.sequences import sequence_faults
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide, Sequence
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.meanings import Named, Refers
from guidegen.buildfile.records.musts import OrderRule
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import Leaf, walk
from guidegen.buildfile.yaml.tree import Source
from guidegen.problems import Problem, did_you_mean

GUIDE, STOCK, SITE = "this guide", "stock", "site.yaml"


def check_names(content: Content, file: GuideFile) -> Iterator[Problem]:
    """All that a guide refers to: in itself and in the stock."""
    guide = file.guide
    own = {
        Named.PART: guide.parts,
        Named.STEP: {step.id for step in guide.steps},
        Named.SEAM: guide.seams,
        Named.STACK: guide.stacks,
        Named.JOINT: {*guide.seams, *guide.stacks},
        Named.SIZE: file.size_names(),
        Named.FASTENING: guide.fastenings,
        Named.STRAP: guide.straps,
        Named.STRIP: guide.strips,
        Named.LINKAGE: guide.linkages,
        Named.CIRCUIT: guide.circuits,
        Named.CASING: guide.casings,
        Named.HARNESS: guide.harnesses,
    }
    shared = _stock_names(content.stock)
    for leaf in walk(guide):
        if not isinstance(leaf.meaning, Refers):
            continue
        kind = leaf.meaning.to
        if kind is Named.EDGE:
            yield from _edge(file.source, leaf, guide.parts)
        elif kind is Named.ROW:
            yield from _row(file.source, leaf, guide)
        elif kind in own:
            yield from _look_up(file.source, leaf, kind, own[kind], GUIDE)
        else:
            yield from _look_up(file.source, leaf, kind, shared[kind], STOCK)


def check_stock_names(content: Content) -> Iterator[Problem]:
    """All that stock.yaml itself refers to; the names that each use gives a sequence stand out."""
    stock, source = content.stock, content.stock_source
    shared = _stock_names(stock)
    for name, sequence in stock.sequences.items():
        yield from sequence_faults(sequence, ("sequences", name), source)
    for leaf in walk(stock, expanded=True):
        if not isinstance(leaf.meaning, Refers):
            continue
        kind = leaf.meaning.to
        if isinstance(leaf.owner, OrderRule):
            kind = Named(leaf.owner.by)
        if leaf.trail[0] == "sequences" and _is_own(stock.sequences[str(leaf.trail[1])], leaf.text):
            continue
        if kind is Named.SHOP:
            yield from _look_up(source, leaf, kind, content.site.shops, SITE)
        elif kind in shared:
            yield from _look_up(source, leaf, kind, shared[kind], STOCK)


def _is_own(sequence: Sequence, name: str) -> bool:
    """Whether a name of a sequence stands for something of each use."""
    return name in sequence.takes or name in sequence.finds


def _stock_names(stock: Stock) -> Mapping[Named, Collection[str]]:
    sheets = [m for m, entry in stock.materials.items() if entry.kind is MaterialKind.SHEET]
    return {
        Named.MATERIAL: stock.materials,
        Named.SHEET: sheets,
        Named.TOOL: stock.tools,
        Named.PROCESS: stock.processes,
        Named.CAUTION: stock.cautions,
    }


def _look_up(
    source: Source, leaf: Leaf, kind: Named, table: Collection[str], where: str
) -> Iterator[Problem]:
    """A problem when `table` has no such name."""
    if leaf.text not in table:
        hint = did_you_mean(leaf.text, table)
        word = Named.MATERIAL if kind is Named.SHEET else kind
        message = f'no {word} "{leaf.text}" in {where}{hint}'
        yield source.problem("unknown-name", leaf.trail, message, key=leaf.key)


def _edge(source: Source, leaf: Leaf, parts: Collection[str]) -> Iterator[Problem]:
    """An edge is written part.edge; whether the part has such an edge is seen in its geometry."""
    part, dot, edge = leaf.text.partition(".")
    if not dot or not edge:
        message = f'expected part.edge, such as cuff.side, found "{leaf.text}"'
        yield source.problem("bad-value", leaf.trail, message)
    elif part not in parts:
        hint = did_you_mean(part, parts)
        yield source.problem("unknown-name", leaf.trail, f'no part "{part}" in {GUIDE}{hint}')


def _row(source: Source, leaf: Leaf, guide: Guide) -> Iterator[Problem]:
    """A row of points is written part.row."""
    rows = [f"{part}.{row}" for part, one in guide.parts.items() for row in one.points]
    if leaf.text not in rows:
        hint = did_you_mean(leaf.text, rows)
        message = f'expected part.row, found no row of points "{leaf.text}" in {GUIDE}{hint}'
        yield source.problem("unknown-name", leaf.trail, message)
