"""What the pictures stage puts out: drawings by what they show."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.assembly.records import JoinSeen
from guidegen.pictures.pen.records import Drawing


@dataclass(frozen=True)
class SizePictures:
    """Drawings of one size; keys are ids of pieces, materials and stacks."""

    kit: Drawing
    """All pieces of the kit at one scale: cover and overview."""
    finished: tuple[Drawing, ...] = ()
    """The finished thing from the front, at three quarters and from the back; empty where nothing
    says how its parts sit."""
    joined: Mapping[str, tuple[JoinSeen, ...]] = field(default_factory=dict)
    """What is seen before and after each step that joins, by step id."""
    pieces: Mapping[str, Drawing] = field(default_factory=dict)
    """Each piece with its measures, by piece key."""
    cut_sheets: Mapping[str, tuple[Drawing, ...]] = field(default_factory=dict)
    """Every foam sheet to scale, by material."""
    cut_lengths: Mapping[str, Drawing] = field(default_factory=dict)
    """How webbing, elastic and tape are cut from their packs, by material."""
    sections: Mapping[str, Drawing] = field(default_factory=dict)
    """Layer stacks cut through, by stack id."""
    exploded: Mapping[str, Drawing] = field(default_factory=dict)
    """Layer stacks pulled apart, by stack id."""
    details: Mapping[str, tuple[Drawing, ...]] = field(default_factory=dict)
    """Bevels and grooves in section, by piece key."""
    joins: tuple[Drawing, ...] = ()
    """Which parts join to which, in one drawing or several; none where none do."""
    page_maps: Mapping[str, tuple[Drawing, ...]] = field(default_factory=dict)
    """How pages join, one drawing per template sheet, by paper."""


@dataclass(frozen=True)
class GuidePictures:
    """All drawings of one guide."""

    sizes: Mapping[str, SizePictures]
    """By size."""
    time_line: Drawing
    """Work and waiting of all steps."""
    signs: Mapping[str, Drawing]
    """ISO 7010 signs by code."""
    teams: Mapping[int, Drawing] = field(default_factory=dict)
    """Who does what when, by the number of people."""
    steps: Mapping[str, Drawing] = field(default_factory=dict)
    """Pieces at hand, by step id."""
    body: Drawing | None = None
    """Where to measure; None without measurements."""
