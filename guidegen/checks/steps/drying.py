"""Glue that dries on both faces first: it has the time before the faces meet."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.steps.step_parts import joint_parts, minutes_between
from guidegen.problems import Problem
from guidegen.quantities import exact_words


def check_drying(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Joints that close before the glue on them, coated in an earlier step, can be dry.

    A step that coats and joins has its wait in its text, which the reader's page repeats.
    """
    guide = file.guide
    coated: dict[str, tuple[int, str]] = {}
    for number, step in enumerate(guide.steps):
        for use in step.uses:
            coated.update(dict.fromkeys(use.glue, (number, use.material)))
        for key, names in (("seams", step.seams), ("stacks", step.stacks)):
            for at, name in enumerate(names):
                first, glue = coated.get(name, (number, ""))
                if first == number or glue not in content.stock.materials:
                    continue
                material = content.stock.materials[glue]
                parts = joint_parts(guide, name)
                minutes = min(
                    (minutes_between(guide, content.stock, p, first, number) for p in parts),
                    default=material.dries,
                )
                if minutes < material.dries:
                    yield file.source.problem(
                        "joined-wet",
                        ("steps", number, key, at),
                        f'"{step.title}" may join {name} {exact_words(minutes)} after '
                        f'"{guide.steps[first].title}" coated it, but {material.name} dries for '
                        f"{exact_words(material.dries)} first",
                    )
