"""Steps use every part, join every seam and stack once, and stand in an order that works."""

from collections import Counter
from collections.abc import Iterator

from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.tree import Trail
from guidegen.problems import Problem, Severity


def check_steps(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Step ids, unused parts, seams and stacks made never or twice, needs that come later."""
    yield from _ids(file)
    yield from _unused(file)
    yield from _joined(file)
    yield from _needs(file)


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
    for key, table, kind in (("seams", guide.seams, "seam"), ("stacks", guide.stacks, "stack")):
        made = Counter(
            name for step in guide.steps for name in (step.seams if key == "seams" else step.stacks)
        )
        for name in table:
            if made[name] == 0:
                yield file.source.problem(
                    f"{kind}-not-made", (key, name), f"no step joins this {kind}", key=True
                )
            elif made[name] > 1:
                steps = [
                    s.title
                    for s in guide.steps
                    if name in (s.seams if key == "seams" else s.stacks)
                ]
                yield file.source.problem(
                    "made-twice",
                    (key, name),
                    f"{made[name]} steps join this {kind}: {'; '.join(steps)}",
                    key=True,
                )


def _needs(file: GuideFile) -> Iterator[Problem]:
    position = {step.id: number for number, step in enumerate(file.guide.steps)}
    for number, step in enumerate(file.guide.steps):
        for index, need in enumerate(step.needs):
            if position.get(need, -1) >= number:
                trail: Trail = ("steps", number, "needs", index)
                message = f'"{need}" must come before this step, but stands after it'
                yield file.source.problem("wrong-order", trail, message)


def check_order_rules(content: Content, file: GuideFile) -> Iterator[Problem]:
    """The stock's rules of order, on every part that sees both processes."""
    guide = file.guide
    for rule in content.stock.rules:
        last_first: dict[str, int] = {}
        for number, step in enumerate(guide.steps):
            if step.process == rule.first:
                last_first.update(dict.fromkeys(step.parts, number))
        for number, step in enumerate(guide.steps):
            if step.process != rule.then:
                continue
            late = sorted({p for p in step.parts if last_first.get(p, -1) > number})
            for other in sorted({last_first[part] for part in late}):
                parts = ", ".join(p for p in late if last_first[p] == other)
                yield file.source.problem(
                    "order-rule",
                    ("steps", number, "process"),
                    f'"{guide.steps[other].title}" ({rule.first}) must come before '
                    f'"{step.title}" ({rule.then}) on {parts}: {rule.reason}',
                    severity=Severity.ERROR if rule.level == "stop" else Severity.WARNING,
                )
