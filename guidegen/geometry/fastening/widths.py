"""A strap and the row that holds it → an error where it is wider than the patch or the slot."""

from guidegen.buildfile.yaml.tree import TrailStep
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.chains import NEAR
from guidegen.units import mm_text


def check_width(holding: Holding, ref: str, material: str, *trail: TrailStep) -> None:
    """A strap of a material lies on the patches of a row, or passes its slots, in its whole width;
    `trail` leads to where the row is named."""
    row = holding.row(ref)
    if row is None or row.kind not in {"patch", "slot"}:
        return
    width = next(holding.material_number(material, "width"), 0.0)
    key, room = ("diameter", row.diameter) if row.kind == "patch" else ("length", row.length)
    if room < width - NEAR:
        message = (
            f"{ref} is {mm_text(room, 1)} mm wide and {material} {mm_text(width, 1)} mm: "
            f'expected a "{key}" of {mm_text(width, 1)} at least in {row.name}'
        )
        holding.refuse("strap-gap", message, *trail)
