"""Pieces are cut before they are worked on, glue goes on before joining, nothing is in vain."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Stage, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Trail
from guidegen.checks.steps.step_parts import STAGES, cutting_steps, joint_parts, worked_parts
from guidegen.problems import Problem


def check_making(content: Content, file: GuideFile) -> Iterator[Problem]:
    """What every step needs was made by an earlier one, and what is made is needed."""
    cut_in = cutting_steps(file.guide, content.stock)
    yield from _uncut(file, cut_in)
    yield from _never_cut_or_idle(file, cut_in, content.stock)
    if any(process.cuts for process in content.stock.processes.values()):
        yield from _cut_twice(file, cut_in)
    yield from _glued_late(file)
    yield from _not_listed(file)
    yield from _sections_not_joined(file)
    yield from _never_counted(file)


def _needs_pieces(step: Step) -> bool:
    """Whether a step works on cut pieces: tracing and measuring do not."""
    late = STAGES.index(step.stage) > STAGES.index(Stage.CUTTING)
    return late or bool(step.seams or step.stacks)


def _uncut(file: GuideFile, cut_in: dict[str, list[int]]) -> Iterator[Problem]:
    guide = file.guide
    for number, step in enumerate(guide.steps):
        if not _needs_pieces(step):
            continue
        for part in worked_parts(step, guide):
            cuts = cut_in.get(part, [])
            if cuts and cuts[0] > number:
                yield file.source.problem(
                    "used-before-made",
                    _where(step, number, part, file),
                    f'"{step.title}" works on {part}, which "{guide.steps[cuts[0]].title}" '
                    "cuts only afterwards",
                )


def _where(step: Step, number: int, part: str, file: GuideFile) -> Trail:
    """The part in the list of a step, or the seam or stack that brings it."""
    if part in step.parts:
        return ("steps", number, "parts", step.parts.index(part))
    for key, names in (("seams", step.seams), ("stacks", step.stacks)):
        for index, name in enumerate(names):
            if part in joint_parts(file.guide, name):
                return ("steps", number, key, index)
    return ("steps", number)


def _never_cut_or_idle(
    file: GuideFile, cut_in: dict[str, list[int]], stock: Stock
) -> Iterator[Problem]:
    """Parts that come from nowhere, and parts that end on the bench."""
    guide = file.guide
    last: dict[str, int] = {}
    used: set[str] = set()
    for number, step in enumerate(guide.steps):
        last.update(dict.fromkeys(worked_parts(step, guide), number))
        used.update(worked_parts(step, guide) if _needs_pieces(step) else ())
    for part, cuts in cut_in.items():
        if part not in last:
            continue  # told as unused
        if guide.parts[part].material not in stock.materials:
            continue  # told by itself; usual steps find their parts by what these are made of
        if not cuts:
            yield file.source.problem(
                "never-cut",
                ("parts", part),
                "no step cuts this part",
                key=True,
            )
        elif part not in used and last[part] <= cuts[-1]:
            yield file.source.problem(
                "idle-part",
                ("parts", part),
                f'nothing is done with this part after "{guide.steps[cuts[-1]].title}"',
                key=True,
            )


def _cut_twice(file: GuideFile, cut_in: dict[str, list[int]]) -> Iterator[Problem]:
    guide = file.guide
    for part, cuts in cut_in.items():
        steps = [guide.steps[number] for number in cuts if guide.steps[number].again is None]
        if len(steps) > 1:
            titles = "; ".join(step.title for step in steps)
            yield file.source.problem(
                "cut-twice",
                ("parts", part),
                f"{len(steps)} steps cut this part: {titles}",
                key=True,
            )


def _glued_late(file: GuideFile) -> Iterator[Problem]:
    guide = file.guide
    joined: dict[str, int] = {}
    for number, step in enumerate(guide.steps):
        for name in (*step.seams, *step.stacks):
            joined.setdefault(name, number)
    for number, step in enumerate(guide.steps):
        for at, use in enumerate(step.uses):
            for index, name in enumerate(use.glue):
                if joined.get(name, number) < number and use.counted and step.again is None:
                    yield file.source.problem(
                        "glued-after-joining",
                        ("steps", number, "uses", at, "glue", index),
                        f'"{guide.steps[joined[name]].title}" has joined {name} already',
                    )


def _not_listed(file: GuideFile) -> Iterator[Problem]:
    guide = file.guide
    for number, step in enumerate(guide.steps):
        for key, names in (("seams", step.seams), ("stacks", step.stacks)):
            for index, name in enumerate(names):
                missing = [p for p in joint_parts(guide, name) if p not in step.parts]
                missing = [part for part in missing if part in guide.parts]
                if missing:
                    yield file.source.problem(
                        "part-not-listed",
                        ("steps", number, key, index),
                        f"{name} joins {', '.join(missing)}, which the step does not list",
                    )


def _never_counted(file: GuideFile) -> Iterator[Problem]:
    """What is at hand again was counted before."""
    counted: set[str] = set()
    for number, step in enumerate(file.guide.steps):
        counted |= {use.material for use in step.uses if use.counted}
        for at, use in enumerate(step.uses):
            if use.material not in counted:
                yield file.source.problem(
                    "never-counted",
                    ("steps", number, "uses", at),
                    f"no step up to here counts {use.material}",
                )


def _sections_not_joined(file: GuideFile) -> Iterator[Problem]:
    """The step that joins the sections of a part has the part and the glue at hand."""
    steps = {step.id: step for step in file.guide.steps}
    for part_id, part in file.guide.parts.items():
        for number, split in enumerate(part.splits):
            step = steps.get(split.step)
            if step is None:
                continue  # told as an unknown name
            trail: Trail = ("parts", part_id, "splits", number)
            if part_id not in step.parts:
                message = f'"{step.title}" does not list {part_id}, whose sections it joins'
                yield file.source.problem("split-not-joined", (*trail, "step"), message)
            if split.glue not in {use.material for use in step.uses}:
                message = f'"{step.title}" joins sections with {split.glue}, which it does not use'
                yield file.source.problem("split-not-joined", (*trail, "glue"), message)
