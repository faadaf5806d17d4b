"""Counted things that sit on a part, and beads of clay or glue along its edges."""

from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import EdgeRef, SeamRef
from guidegen.buildfile.yaml.fields import Model, Quantity


class Footprint(Model):
    """What a counted thing covers where it sits."""

    shape: Literal["round", "box"] = "round"
    """round: a circle or an oval; box: a rectangle."""
    width: float = Field(gt=0, le=2000)
    """mm along the row of its points."""
    length: float | None = Field(None, gt=0, le=2000)
    """mm across the row; as wide by default."""

    @property
    def across(self) -> float:
        """mm across the row."""
        return self.width if self.length is None else self.length


class Bead(Model):
    """A bead that is laid along edges or seams, on every piece that is worn."""

    edges: tuple[EdgeRef, ...] = Field((), max_length=100)
    """Edges, each as part.edge; of a template on the fold both its sides."""
    seams: tuple[SeamRef, ...] = Field((), max_length=100)
    """Seams that it is laid along."""
    section: Literal["round", "half-round", "corner"] = "half-round"
    """round: a cord; half-round: flat below; corner: a triangle in an inner corner."""
    width: Quantity
    """mm across."""
    height: Quantity | None = None
    """mm of a half-round bead or of a corner; by default half the width, or the width."""

    @model_validator(mode="after")
    def _somewhere(self) -> Self:
        if not self.edges and not self.seams:
            raise ValueError("expected edges, seams or both")
        if self.section == "round" and self.height is not None:
            raise ValueError("a round bead is as high as it is wide")
        return self


def with_amounts(material: object) -> object:
    """A material as it is read, with ml for packs that say their grams: g / (kg/m³) * 1000.

    What is none of a mapping, a density and packs is left for the model to refuse.
    """
    if not isinstance(material, dict) or not isinstance(material.get("packs"), list | tuple):
        return material
    density = material.get("density")
    if isinstance(density, bool) or not isinstance(density, int | float) or density <= 0:
        return material
    return {**material, "packs": [_weighed(pack, density) for pack in material["packs"]]}


def _weighed(pack: object, density: float) -> object:
    grams = pack.get("grams") if isinstance(pack, dict) else None
    if not isinstance(pack, dict) or isinstance(grams, bool) or not isinstance(grams, int | float):
        return pack
    if "amount" in pack or grams <= 0:
        return pack
    return {"name": f"{grams:g} g", **pack, "amount": grams / density * 1000}
