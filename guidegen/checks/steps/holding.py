"""Fastenings, straps and strips are fitted by a step, or nobody buys and closes them."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem


def check_holding(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Each fastening, strap and strip stands in exactly one step."""
    guide = file.guide
    tables = (
        ("fastenings", "fastens", guide.fastenings),
        ("straps", "straps", guide.straps),
        ("strips", "strips", guide.strips),
    )
    for key, field, table in tables:
        for name in table:
            steps = [step for step in guide.steps if name in getattr(step, field)]
            if not steps:
                message = f'no step names it under "{field}": nobody counts or closes it'
                yield file.source.problem("never-held", (key, name), message, key=True)
            elif len(steps) > 1:
                titles = "; ".join(step.title for step in steps)
                message = f"{len(steps)} steps count it: {titles}"
                yield file.source.problem("held-twice", (key, name), message, key=True)
