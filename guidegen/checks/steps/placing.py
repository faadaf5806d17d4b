"""Things on points and parts of circuits stand in one step each; cells bring their cautions."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.constructions.circuits import Circuit
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.problems import Problem


def check_placing(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Each row of things is put on by one step, each part of a circuit is built in by one."""
    guide = file.guide
    for part_id, part in guide.parts.items():
        for name, points in part.points.items():
            if points.thing is None:
                continue
            trail = ("parts", part_id, "points", name)
            ref = f"{part_id}.{name}"
            found = [
                step.title
                for step in guide.steps
                for use in step.uses
                if use.counted and ref in use.at and use.material == points.thing
            ]
            message = f'no step uses {points.thing} "at" it: nobody buys or puts them on'
            if not found:
                yield file.source.problem("never-held", trail, message, key=True)
            elif len(found) > 1:
                message = f"{len(found)} uses count it: {'; '.join(found)}"
                yield file.source.problem("held-twice", trail, message, key=True)
    yield from _other_things(file)
    for name, circuit in guide.circuits.items():
        yield from _circuit(file, name, circuit)
        yield from _cell(file, name, circuit, content.stock)
    yield from _magnets(file, content.stock)


def _other_things(file: GuideFile) -> Iterator[Problem]:
    """What is put on a row is what its part says sits there."""
    for number, step in enumerate(file.guide.steps):
        for at, use in enumerate(step.uses):
            for index, ref in enumerate(use.at):
                part, _, row = ref.partition(".")
                points = (
                    file.guide.parts[part].points.get(row) if part in file.guide.parts else None
                )
                if points is not None and points.thing != use.material:
                    found = points.thing or "nothing"
                    message = f"{ref} is made for {found}, not for {use.material}"
                    trail = ("steps", number, "uses", at, "at", index)
                    yield file.source.problem("thing-other", trail, message)


def circuit_parts(circuit: Circuit) -> tuple[str, ...]:
    """Materials of a circuit, each once."""
    parts = (circuit.cell, circuit.light, circuit.resistor, circuit.switch)
    return tuple(dict.fromkeys(part for part in parts if part is not None))


def _uses(guide: Guide, name: str, material: str) -> list[str]:
    return [
        step.title
        for step in guide.steps
        for use in step.uses
        if use.counted and use.circuit == name and use.material == material
    ]


def _circuit(file: GuideFile, name: str, circuit: Circuit) -> Iterator[Problem]:
    trail = ("circuits", name)
    for material in circuit_parts(circuit):
        found = _uses(file.guide, name, material)
        if not found:
            message = f"no step uses {material} for it: nobody buys or builds it in"
            yield file.source.problem("never-held", trail, message, key=True)
        elif len(found) > 1:
            message = f"{len(found)} uses count its {material}: {'; '.join(found)}"
            yield file.source.problem("held-twice", trail, message, key=True)
    for number, step in enumerate(file.guide.steps):
        for at, use in enumerate(step.uses):
            if use.circuit == name and use.material not in circuit_parts(circuit):
                message = f"{name} has no {use.material}"
                where = ("steps", number, "uses", at, "circuit")
                yield file.source.problem("thing-other", where, message)


def _cell(file: GuideFile, name: str, circuit: Circuit, stock: Stock) -> Iterator[Problem]:
    """Cells burn, leak and are swallowed: their caution must reach the steps that use them."""
    cell = stock.materials.get(circuit.cell)
    if cell is not None and not cell.cautions:
        message = f"{circuit.cell} brings no caution into the steps that use it"
        yield file.source.problem("cell-without-caution", ("circuits", name, "cell"), message)


def _magnets(file: GuideFile, stock: Stock) -> Iterator[Problem]:
    for part_id, part in file.guide.parts.items():
        for name, points in part.points.items():
            thing = stock.materials.get(points.thing or "")
            if points.pole is not None and thing is not None and not thing.cautions:
                message = f"{points.thing} brings no caution into the steps that use it"
                trail = ("parts", part_id, "points", name, "thing")
                yield file.source.problem("cell-without-caution", trail, message)
