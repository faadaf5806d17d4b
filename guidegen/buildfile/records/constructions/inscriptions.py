"""Words and emblems on a part."""

from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import DrawingFile, Verbatim
from guidegen.buildfile.yaml.fields import Model, Quantity


class InscribedAs(StrEnum):
    """What becomes of a lettering or an emblem."""

    MARK = "mark"
    """Drawn on the face, to paint or to lay letters on."""
    ENGRAVE = "engrave"
    """Cut a little way in."""
    CUT_OUT = "cut-out"
    """Cut through, as a stencil: bridges hold what would fall out."""
    TRANSFER = "transfer"
    """Drawn mirrored: traced from behind, or ironed on."""


class Inscription(Model):
    """Words in a shipped font, or an emblem from a drawing, on the face of a part."""

    text: Verbatim | None = Field(None, max_length=60)
    """What is written, the same in every language."""
    drawing: DrawingFile | None = None
    """SVG file with an emblem in the guide's folder, with #id where it holds several."""
    face: Literal["condensed", "condensed-bold", "legible", "legible-bold"] = "condensed-bold"
    """Font of the words."""
    height: Quantity
    """mm of a capital letter, or of the whole emblem."""
    at: tuple[Quantity, Quantity] = Field(default=(0, 0), validate_default=True)
    """mm right and up from the middle of the part to the middle of what is written."""
    angle: Quantity = Field(default=0, validate_default=True)
    """degrees, counter-clockwise."""
    how: InscribedAs = Field(InscribedAs.MARK, alias="as")
    """mark, engrave, cut-out or transfer."""
    mirrored: bool | None = None
    """Whether it is drawn mirrored; by itself a transfer is, and nothing else."""
    bridge: Quantity = Field(default=3, validate_default=True)
    """mm of each bridge of a cut-out."""

    @model_validator(mode="after")
    def _one_thing(self) -> Self:
        if (self.text is None) == (self.drawing is None):
            raise ValueError("expected either text or drawing")
        return self

    @property
    def is_mirrored(self) -> bool:
        """Whether it is drawn mirrored on the template."""
        return self.how is InscribedAs.TRANSFER if self.mirrored is None else self.mirrored


def letters_key(face: str, text: str) -> str:
    """Under which the outlines of a text are kept."""
    return f"{face}/{text}"
