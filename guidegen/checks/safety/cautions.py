"""Cautions are waived only where they apply, and never silently."""

from collections.abc import Iterator

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem

LEAST_WORDS = 3
"""Words that a reason has at least. Our choice: no one can say in fewer why harm cannot happen."""


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
                continue
            if len(waiver.reason.split()) < LEAST_WORDS:
                yield file.source.problem(
                    "waiver-without-reason",
                    (*trail[:-1], "reason"),
                    f'"{waiver.reason}" is no reason to leave out "{waiver.caution}"; expected '
                    "why it cannot do harm here",
                )
            else:
                yield file.source.problem(
                    "waived-caution",
                    trail,
                    f'the caution "{waiver.caution}" is left out: {waiver.reason}',
                )
