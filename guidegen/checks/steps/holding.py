"""Holes have their fasteners; these, straps and strips a step, or nobody buys and closes them."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.fastening import PointKind
from guidegen.buildfile.records.musts import Makes
from guidegen.checks.steps.step_parts import is_cutting, linked_parts, worked_parts
from guidegen.problems import Problem


def check_holding(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Each fastening, strap and strip stands in exactly one step."""
    guide = file.guide
    tables = (
        ("fastenings", "fastens", guide.fastenings),
        ("straps", "straps", guide.straps),
        ("strips", "strips", guide.strips),
        ("linkages", "linkages", guide.linkages),
        ("casings", "casings", guide.casings),
        ("harnesses", "harnesses", guide.harnesses),
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


def check_closing(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Each row of holes for rivets or press studs stands in a fastening, so that both are equal."""
    guide = file.guide
    closed = {row for one in guide.fastenings.values() for row in one.points}
    # One post goes through both plates of a joint: the row of one of them counts it.
    for linkage in guide.linkages.values():
        for joint in linkage.joints:
            rows = {joint.first.row, joint.second.row}
            if linkage.strap is None and rows & closed:
                closed |= rows
    for part_id, part in guide.parts.items():
        for name, points in part.points.items():
            needs_post = points.kind in {PointKind.RIVET, PointKind.SNAP}
            if needs_post and f"{part_id}.{name}" not in closed:
                message = (
                    f"no fastening closes these holes: fewer {points.kind}s are bought than holes "
                    "are made"
                )
                yield file.source.problem(
                    "never-closed", ("parts", part_id, "points", name), message, key=True
                )


def check_linking(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Plates are joined so that they move after all of them are cut and formed."""
    guide, processes = file.guide, content.stock.processes
    shaping = {name for name, process in processes.items() if Makes.FORM in process.makes}
    for number, step in enumerate(guide.steps):
        for at, name in enumerate(step.linkages):
            plates = set(linked_parts(guide, name))
            for later in guide.steps[number + 1 :]:
                shapes = later.process in shaping or is_cutting(later, content.stock)
                if shapes and later.again is None and plates & set(worked_parts(later, guide)):
                    yield file.source.problem(
                        "linkage-early",
                        ("steps", number, "linkages", at),
                        f'"{step.title}" joins {name}, and "{later.title}" works on its plates '
                        "only afterwards",
                    )
                    break
