"""Parts that bend while they are worn get glue and coats that bend with them."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.steps.step_parts import joint_parts
from guidegen.problems import Problem


def check_flexing(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Materials that dry stiff, on parts that flex or in their joints."""
    guide = file.guide
    for number, step in enumerate(guide.steps):
        for at, use in enumerate(step.uses):
            material = content.stock.materials.get(use.material)
            if material is None or material.flexible is not False:
                continue
            glued = (part for name in (*use.glue, *use.along) for part in joint_parts(guide, name))
            parts = dict.fromkeys([*use.cover, *glued])
            bending = [p for p in parts if p in guide.parts and guide.parts[p].flexes]
            if bending:
                yield file.source.problem(
                    "stiff-on-flexing",
                    ("steps", number, "uses", at, "material"),
                    f"{material.name} dries stiff, but {', '.join(bending)} "
                    f"flex{'es' if len(bending) == 1 else ''} while worn",
                )
