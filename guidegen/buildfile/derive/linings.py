"""A guide → what a lining takes from the part that it lines: its hand and how often it is cut."""

from guidegen.buildfile.records.guide import Guide, Hand, Part
from guidegen.buildfile.records.vocabulary import LINING
from guidegen.buildfile.yaml.expressions import Expression


def lined_part(guide: Guide, part: Part) -> Part | None:
    """The part that a lining lines; None for all other parts, and where the name is unknown."""
    if part.shape != LINING or part.lining_of is None:
        return None
    return guide.parts.get(part.lining_of)


def hand_of(guide: Guide, part: Part) -> Hand:
    """one or pair; of a lining, what the part under it is."""
    lined = lined_part(guide, part)
    return part.hand if lined is None else lined.hand


def copies_of(guide: Guide, part: Part) -> Expression:
    """How many are cut of each hand; of a lining that says nothing, as many as of its part."""
    lined = lined_part(guide, part)
    return part.copies if lined is None or "copies" in part.model_fields_set else lined.copies
