"""Steps use every part, and join every seam and stack once."""

from collections.abc import Iterator
from typing import Literal

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.problems import Problem


def check_steps(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Step ids, unused parts and sequences, seams and stacks made never or twice."""
    yield from _ids(file)
    yield from _unused(file)
    yield from _joined(file)
    yield from _sequences(file)


def _ids(file: GuideFile) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    for number, step in enumerate(file.guide.steps):
        if step.id in seen:
            yield file.source.problem(
                "double-name",
                ("steps", number, "id"),
                f'step {seen[step.id] + 1} is called "{step.id}" already',
            )
        seen.setdefault(step.id, number)


def _unused(file: GuideFile) -> Iterator[Problem]:
    used = {part for step in file.guide.steps for part in step.parts}
    for part_id in file.guide.parts:
        if part_id not in used:
            yield file.source.problem(
                "unused-part", ("parts", part_id), "no step uses this part", key=True
            )


def _joined(file: GuideFile) -> Iterator[Problem]:
    guide = file.guide
    by_seam = _joining(guide, "seams")
    by_stack = _joining(guide, "stacks")
    for name in guide.seams:
        if name not in by_seam:
            message = "no step joins this seam"
            yield file.source.problem("seam-not-made", ("seams", name), message, key=True)
    for name in guide.stacks:
        if name not in by_stack:
            message = "no step joins this stack"
            yield file.source.problem("stack-not-made", ("stacks", name), message, key=True)
    for key, kind, table, found in (
        ("seams", "seam", guide.seams, by_seam),
        ("stacks", "stack", guide.stacks, by_stack),
    ):
        for name in table:
            steps = [step for step in found.get(name, ()) if step.again is None]
            if len(steps) > 1:
                titles = "; ".join(step.title for step in steps)
                message = f"{len(steps)} steps join this {kind}: {titles}"
                yield file.source.problem("made-twice", (key, name), message, key=True)


def _joining(guide: Guide, key: Literal["seams", "stacks"]) -> dict[str, list[Step]]:
    """For each seam or stack the steps that join it."""
    found: dict[str, list[Step]] = {}
    for step in guide.steps:
        for name in step.seams if key == "seams" else step.stacks:
            found.setdefault(name, []).append(step)
    return found


def _sequences(file: GuideFile) -> Iterator[Problem]:
    used = {
        file.source.written(("steps", number))[1]
        for number in range(len(file.guide.steps))
        if file.source.written(("steps", number))[0] == "sequences"
    }
    for name in file.guide.sequences:
        if name not in used:
            yield file.source.problem(
                "unused-sequence",
                ("sequences", name),
                "no entry of steps uses this sequence",
                key=True,
            )
