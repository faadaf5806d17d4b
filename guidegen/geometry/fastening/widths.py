"""A strap and the row that holds it → what is wrong where patch or slot is too narrow for it."""

from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.chains import NEAR
from guidegen.units import mm_text


def too_narrow(holding: Holding, ref: str, material: str) -> str:
    """In words, where a strap of a material does not lie on the patches of a row, or pass its
    slots, in its whole width; else empty."""
    row = holding.row(ref)
    if row is None or row.kind not in {"patch", "slot"}:
        return ""
    width = next(holding.material_number(material, "width"), 0.0)
    key, room = ("diameter", row.diameter) if row.kind == "patch" else ("length", row.length)
    if room >= width - NEAR:
        return ""
    return (
        f"{ref} is {mm_text(room, 1)} mm wide and {material} {mm_text(width, 1)} mm: "
        f'expected a "{key}" of {mm_text(width, 1)} at least in {row.name}'
    )
