"""Rates and what uses ask of them fit: an area wants m², a length wants m; substitutes are foam."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Use
from guidegen.buildfile.records.materials import Material, MaterialKind, Rate
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Problem, did_you_mean


def check_rates(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Uses by area or by length have a rate that answers them."""
    materials = content.stock.materials
    for number, step in enumerate(file.guide.steps):
        for index, use in enumerate(step.uses):
            material = materials.get(use.material)
            if material is None or not use.counted:
                continue
            rate = file.guide.rates.get(use.material, material.rate)
            fault = _fault(use, material, rate)
            if fault:
                key, words = fault
                trail: Trail = ("steps", number, "uses", index, key)
                yield file.source.problem("rate-kind", trail, words)


def check_substitutes(content: Content) -> Iterator[Problem]:
    """Sheets are replaced by sheets."""
    materials = content.stock.materials
    sheets = [name for name, entry in materials.items() if entry.kind is MaterialKind.SHEET]
    for name, entry in materials.items():
        others = sheets if entry.kind is MaterialKind.SHEET else ()
        for index, other in enumerate(entry.substitutes):
            if other not in others or other == name:
                hint = did_you_mean(other, [sheet for sheet in others if sheet != name])
                message = f'no other sheet material "{other}" in stock{hint}'
                trail: Trail = ("materials", name, "substitutes", index)
                yield content.stock_source.problem("unknown-name", trail, message)


def _fault(use: Use, material: Material, rate: Rate | None) -> tuple[str, str] | None:
    """The key of a use that its material cannot answer, and why."""
    area = "glue" if use.glue else "cover" if use.cover else ""
    length = "along" if use.along else "cut" if use.cut else ""
    if use.sew:
        return _sewing_fault(use, material)
    key = area or length
    if not key:
        return None
    if material.kind is MaterialKind.LENGTH:
        if key == "along":
            return None
        return key, f"{material.name} is sold by length: say along or length"
    wanted = "area" if area else "length"
    if rate is None:
        # One piece for a whole area is a plain count; how many blades or sticks is never plain.
        return (key, f"{material.name} has no rate per length") if length else None
    if rate.per == wanted:
        return None
    return key, f"{material.name} has a rate per {rate.per}, not per {wanted}"


LEAST_STITCH = 0.5
"""mm. Our choice: below it a line of stitches is a cut."""


def _sewing_fault(use: Use, material: Material) -> tuple[str, str] | None:
    if material.kind is not MaterialKind.LENGTH:
        return "sew", f"{material.name} is no thread: expected what is sold by length"
    if not use.stitch.names and use.stitch.value({}) < LEAST_STITCH:
        return "stitch", f"expected {LEAST_STITCH} mm or more from one stitch to the next"
    return None
