"""Every name that refers to something must name something that is there."""

from collections.abc import Collection, Iterator

from guidegen.buildfile.expand.sequences import sequence_faults
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.stock import MaterialKind, Stock
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.problems import Problem, did_you_mean


def check_names(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Materials, parts, seams, stacks, steps, processes, tools and cautions of a guide."""
    look = _Looker(file.source)
    yield from _parts(file, content.stock, look)
    yield from _joints(file, look)
    for number, step in enumerate(file.guide.steps):
        yield from _step(step, ("steps", number), file, content.stock, look)
    for number, change in enumerate(file.guide.changes):
        for index, part in enumerate(change.parts):
            trail: Trail = ("changes", number, "parts", index)
            yield from look.up(part, file.guide.parts, trail, "part", "this guide")


def check_stock_names(content: Content) -> Iterator[Problem]:
    """Cautions, tools and processes that stock.yaml itself refers to."""
    stock, look = content.stock, _Looker(content.stock_source)
    for kind, table in (
        ("materials", stock.materials),
        ("tools", stock.tools),
        ("processes", stock.processes),
    ):
        for name, entry in table.items():
            for index, caution in enumerate(entry.cautions):
                trail: Trail = (kind, name, "cautions", index)
                yield from look.up(caution, stock.cautions, trail, "caution", "stock")
    for name, process in stock.processes.items():
        for index, tool in enumerate(process.tools):
            trail = ("processes", name, "tools", index)
            yield from look.up(tool, stock.tools, trail, "tool", "stock")
    for name, caution_entry in stock.cautions.items():
        for index, tool in enumerate(caution_entry.protection):
            trail = ("cautions", name, "protection", index)
            yield from look.up(tool, stock.tools, trail, "tool", "stock")
    for index, rule in enumerate(stock.rules):
        names: Collection[str] = stock.processes if rule.by == "process" else stock.cautions
        for key, named in (("first", rule.first), ("then", rule.then)):
            yield from look.up(named, names, ("rules", index, key), rule.by, "stock")
    yield from _shared_sequences(stock, look)


def _shared_sequences(stock: Stock, look: "_Looker") -> Iterator[Problem]:
    """What steps of shared sequences name in the stock, but for the names that each use gives."""
    for name, sequence in stock.sequences.items():
        yield from sequence_faults(sequence, ("sequences", name), look.source)
        for number, step in enumerate(sequence.steps):
            at: Trail = ("sequences", name, "steps", number)
            named: list[tuple[Trail, str, Collection[str], str]] = [
                ((*at, "tools", n), tool, stock.tools, "tool") for n, tool in enumerate(step.tools)
            ]
            named += [
                ((*at, "cautions", n), caution, stock.cautions, "caution")
                for n, caution in enumerate(step.cautions)
            ]
            named += [
                ((*at, "uses", n, "material"), use.material, stock.materials, "material")
                for n, use in enumerate(step.uses)
            ]
            if step.process is not None:
                named.append(((*at, "process"), step.process, stock.processes, "process"))
            for trail, word, table, kind in named:
                if word not in sequence.takes:
                    yield from look.up(word, table, trail, kind, "stock")


class _Looker:
    """Looks names up in tables and makes a problem of each that is not there."""

    def __init__(self, source: Source) -> None:
        self.source = source

    def up(
        self, name: str, table: Collection[str], trail: Trail, kind: str, where: str
    ) -> Iterator[Problem]:
        """A problem when `table` has no `name`."""
        if name not in table:
            hint = did_you_mean(name, table)
            yield self.source.problem("unknown-name", trail, f'no {kind} "{name}" in {where}{hint}')


def _parts(file: GuideFile, stock: Stock, look: _Looker) -> Iterator[Problem]:
    guide = file.guide
    sheets = [m for m, entry in stock.materials.items() if entry.kind is MaterialKind.SHEET]
    for part_id, part in guide.parts.items():
        trail: Trail = ("parts", part_id)
        yield from look.up(part.material, sheets, (*trail, "material"), "material", "stock")
        for index, placement in enumerate(part.placements):
            where: Trail = (*trail, "placements", index, "part")
            yield from look.up(placement.part, guide.parts, where, "part", "this guide")
        for index, split in enumerate(part.splits):
            where = (*trail, "splits", index)
            steps = [step.id for step in guide.steps]
            yield from look.up(split.step, steps, (*where, "step"), "step", "this guide")
            yield from look.up(split.glue, stock.materials, (*where, "glue"), "material", "stock")
        for size in part.drawing_per_size:
            where = (*trail, "drawing-per-size", size)
            yield from look.up(size, file.size_names(), where, "size", "this guide")


def _joints(file: GuideFile, look: _Looker) -> Iterator[Problem]:
    guide = file.guide
    for seam_id, seam in guide.seams.items():
        for index, end in enumerate(seam.join):
            trail: Trail = ("seams", seam_id, "join", index)
            part, dot, edge = end.partition(".")
            if not dot or not edge:
                message = f'expected part.edge, such as cuff.side, found "{end}"'
                yield file.source.problem("bad-value", trail, message)
            else:
                yield from look.up(part, guide.parts, trail, "part", "this guide")
    for stack_id, stack in guide.stacks.items():
        for index, layer in enumerate(stack.layers):
            trail = ("stacks", stack_id, "layers", index, "part")
            yield from look.up(layer.part, guide.parts, trail, "part", "this guide")


def _step(
    step: Step, trail: Trail, file: GuideFile, stock: Stock, look: _Looker
) -> Iterator[Problem]:
    guide = file.guide
    if step.process is not None:
        yield from look.up(step.process, stock.processes, (*trail, "process"), "process", "stock")
    steps = [other.id for other in guide.steps]
    tables: tuple[tuple[str, tuple[str, ...], Collection[str], str, str], ...] = (
        ("parts", step.parts, guide.parts, "part", "this guide"),
        ("needs", step.needs, steps, "step", "this guide"),
        ("tools", step.tools, stock.tools, "tool", "stock"),
        ("seams", step.seams, guide.seams, "seam", "this guide"),
        ("stacks", step.stacks, guide.stacks, "stack", "this guide"),
        ("cautions", step.cautions, stock.cautions, "caution", "stock"),
    )
    for key, names, table, kind, where in tables:
        for index, name in enumerate(names):
            yield from look.up(name, table, (*trail, key, index), kind, where)
    for index, waiver in enumerate(step.waive):
        at: Trail = (*trail, "waive", index, "caution")
        yield from look.up(waiver.caution, stock.cautions, at, "caution", "stock")
    joints = [*guide.seams, *guide.stacks]
    for number, use in enumerate(step.uses):
        at = (*trail, "uses", number)
        yield from look.up(use.material, stock.materials, (*at, "material"), "material", "stock")
        for index, joint in enumerate(use.glue):
            yield from look.up(joint, joints, (*at, "glue", index), "seam or stack", "this guide")
        for index, joint in enumerate(use.along):
            yield from look.up(joint, joints, (*at, "along", index), "seam or stack", "this guide")
        for key, parts in (("cover", use.cover), ("cut", use.cut)):
            for index, part in enumerate(parts):
                yield from look.up(part, guide.parts, (*at, key, index), "part", "this guide")
