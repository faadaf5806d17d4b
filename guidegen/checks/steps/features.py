"""What a part has, some step makes: texture, bevels, grooves, curves, its length, its hold.

Which work makes what is data of the stock; where no process makes a thing, nothing is told of it.
"""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import AllowanceKind, Guide, Part
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
    Makes.PLEAT: ("has pleats or darts", ""),
    Makes.LETTER: ("bears letters or an emblem", "inscriptions"),
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
        wanted = set(_wanted(part, several=len(file.guide.parts) > 1))
        if _meets_slanted(file.guide, part_id):
            wanted.add(Makes.BEVEL)
        for kind in (kind for kind in Makes if kind in wanted):
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
    if part.pleats or part.darts:
        yield Makes.PLEAT
    if part.inscriptions:
        yield Makes.LETTER
    if several:
        yield Makes.JOIN


def _meets_slanted(guide: Guide, part_id: str) -> bool:
    """Whether a seam asks the part for a bevel: it meets another at an angle, or leans on one."""
    for seam in guide.seams.values():
        # A square foot and a flat seam are written as plain numbers, if at all.
        if seam.angle is None or seam.angle.text == "180":
            continue
        ends = [end.partition(".") for end in seam.join]
        below = guide.parts.get(ends[1][0])
        stands = below is not None and ends[1][2] in below.lines
        slanted = ends[:1] if stands else ends
        if part_id in {end[0] for end in slanted} and not (stands and seam.angle.text == "90"):
            return True
    return False


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
