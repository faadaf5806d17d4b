"""Records of a class: its people, their tools and hours."""

from dataclasses import dataclass, field

from guidegen.layout.records import CutPlan, MaterialsList, ToolLine
from guidegen.layout.schedules import Schedule


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the class."""

    name: str
    """A name, or a size with a number."""
    size: str
    """Of the guide; empty where the own measurements are made to."""


@dataclass(frozen=True, slots=True)
class ToolCount:
    """A tool and how many of it the class needs."""

    tool: ToolLine
    count: int
    shared_by: int
    """People to one of it."""


@dataclass(frozen=True, slots=True)
class HoursAdvice:
    """What to do about a class that is longer than its hours."""

    over: float
    """minutes too many; 0 where all fits."""
    prepare: tuple[str, ...] = ()
    """Further steps which, done before the class, let the rest fit; empty where nothing helps."""
    left: tuple[str, ...] = ()
    """Steps that somebody has not finished when the hours are over: to skip, or to do at home."""


@dataclass(frozen=True)
class ClassPlan:
    """All that was worked out for one class."""

    people: tuple[Person, ...]
    """Numbered from 1 on pieces and in time tables."""
    materials: MaterialsList
    tools: tuple[ToolCount, ...]
    times: Schedule
    hours: float
    """Of the workshop."""
    advice: HoursAdvice
    cut_plans: tuple[CutPlan, ...] = field(default=())
    """Of all together; labels of pieces begin with the person's number."""

    @property
    def per_head(self) -> float:
        """Cost of everything that is bought, shared by all, in the site's currency."""
        return self.materials.cost / len(self.people)
