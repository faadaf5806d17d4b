"""What a part has, some step makes: texture, bevels, grooves, curves, its length, its hold.

Which work makes what is data of the stock; where no process makes a thing, nothing is told of it.
"""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import AllowanceKind, Part
from guidegen.buildfile.records.musts import Makes
from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.checks.steps.step_parts import worked_parts
from guidegen.problems import Problem

WANTED = {
    Makes.TEXTURE: ("has a texture", "texture"),
    Makes.BEVEL: ("has bevels", "bevels"),
    Makes.GROOVE: ("has V-grooves", "grooves"),
    Makes.FORM: ("is curved", "shape"),
    Makes.TRIM: ("has a trim allowance", "allowances"),
    Makes.JOIN: ("belongs to a thing of several parts", ""),
}
"""How a message says that a part needs it, and the key that says so."""


def check_features(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every part is given what its entry promises."""
    makers: dict[Makes, set[str]] = {kind: set() for kind in Makes}
    for name, process in content.stock.processes.items():
        for kind in process.makes:
            makers[kind].add(name)
    for part_id, part in file.guide.parts.items():
        steps = [step for step in file.guide.steps if part_id in worked_parts(step, file.guide)]
        worked = {step.process for step in steps}
        own = {kind for step in steps for kind in step.makes}
        for kind in _wanted(part, several=len(file.guide.parts) > 1):
            if makers[kind] and worked and kind not in own and not makers[kind] & worked:
                says, key = WANTED[kind]
                names = ", ".join(sorted(makers[kind]))
                yield file.source.problem(
                    "feature-not-made",
                    ("parts", part_id, key) if key else ("parts", part_id),
                    f"the part {says}, but no step works on it with {names}",
                    key=not key,
                )


def _wanted(part: Part, *, several: bool) -> Iterator[Makes]:
    """What the steps have to give a part."""
    if part.texture:
        yield Makes.TEXTURE
    if part.bevels:
        yield Makes.BEVEL
    if part.grooves:
        yield Makes.GROOVE
    if part.formed or (part.formed is None and part.shape in SHAPES and SHAPES[part.shape].curved):
        yield Makes.FORM
    if any(one.kind is AllowanceKind.TRIM for one in part.allowances.values()):
        yield Makes.TRIM
    if several:
        yield Makes.JOIN


def check_joining(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every seam and layer stack is joined with something: glue, tape, thread, rivets.

    What a step takes holds a joint where it is put on that joint by name, or where the step's work
    is one that joins: paint on a seam holds nothing. Where the stock names no such work, any does.
    """
    guide = file.guide
    held: set[str] = set()
    processes = content.stock.processes
    joining = {name for name, process in processes.items() if Makes.JOIN in process.makes}
    for number, step in enumerate(guide.steps):
        held.update(name for use in step.uses for name in (*use.glue, *use.along, *use.sew))
        joins = step.process in joining or Makes.JOIN in step.makes
        holds = bool(step.uses) and (not joining or joins)
        for key, names in (("seams", step.seams), ("stacks", step.stacks)):
            for index, name in enumerate(names):
                if name not in held and not holds:
                    yield file.source.problem(
                        "joined-by-nothing",
                        ("steps", number, key, index),
                        f'"{step.title}" joins {name}, but uses nothing that joins, and no step '
                        "before it has put glue there",
                    )
