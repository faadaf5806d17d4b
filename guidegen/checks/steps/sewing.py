"""Pleats, darts and gathers are made before the seam across their edge is sewn."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.musts import Makes
from guidegen.checks.steps.step_parts import worked_parts
from guidegen.problems import Problem


def check_taking_in(content: Content, file: GuideFile) -> Iterator[Problem]:
    """What takes an edge in comes before the seam that joins it, or in the same step.

    Which work does so is data of the stock; where no process does, nothing is told.
    """
    guide = file.guide
    for kind, wanted in ((Makes.PLEAT, _folded(guide)), (Makes.GATHER, _gathered(guide))):
        makers = {name for name, one in content.stock.processes.items() if kind in one.makes}
        if not makers:
            continue
        for number, step in enumerate(guide.steps):
            for at, name in enumerate(step.seams):
                for part in sorted(wanted.get(name, ())):
                    done = [
                        earlier
                        for earlier in guide.steps[: number + 1]
                        if (earlier.process in makers or kind in earlier.makes)
                        and part in worked_parts(earlier, guide)
                    ]
                    if not done:
                        message = (
                            f'"{step.title}" joins {name}, and no step up to there makes the '
                            f"{kind}s of {part}"
                        )
                        trail = ("steps", number, "seams", at)
                        yield file.source.problem("taken-in-late", trail, message)


def _folded(guide: Guide) -> dict[str, set[str]]:
    """Seams by name, with the parts whose pleats or darts they cross."""
    edges: set[str] = set()
    for name, part in guide.parts.items():
        edges |= {f"{name}.{pleat.edge}" for pleat in part.pleats}
        edges |= {f"{name}.{dart.edge}" for dart in part.darts}
    found: dict[str, set[str]] = {}
    for name, seam in guide.seams.items():
        for ref in seam.join:
            if ref in edges or ref.removesuffix("-2") in edges:
                found.setdefault(name, set()).add(ref.partition(".")[0])
    return found


def _gathered(guide: Guide) -> dict[str, set[str]]:
    return {
        name: {seam.join[0].partition(".")[0]}
        for name, seam in guide.seams.items()
        if seam.gathers is not None
    }
