"""Cautions are waived only where they apply, and never silently."""

from collections.abc import Iterator

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem


def check_waivers(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every waiver names a caution that reaches its step; each one is listed."""
    for number, step in enumerate(file.guide.steps):
        reaching = step_cautions(step, content.stock, waived=True)
        for index, waiver in enumerate(step.waive):
            trail = ("steps", number, "waive", index, "caution")
            if waiver.caution not in content.stock.cautions:
                continue
            if waiver.caution not in reaching:
                yield file.source.problem(
                    "needless-waiver",
                    trail,
                    f'the caution "{waiver.caution}" does not reach this step',
                )
            else:
                yield file.source.problem(
                    "waived-caution",
                    trail,
                    f'the caution "{waiver.caution}" is left out: {waiver.reason}',
                )
