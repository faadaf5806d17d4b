"""A step of a guide as plain values, with where its author wrote every part of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.buildfile.yaml.tree import Trail, Value

type Values = dict[str, Value]
"""A step before it is typed."""


USE_LISTS = ("glue", "cover", "along", "sew", "cut")
"""Keys of a use that name joints or parts."""


@dataclass(frozen=True)
class Written:
    """A plain step."""

    step: Values
    trail: Trail
    """Where it stands in the build file."""
    parts: Mapping[Trail, Trail] = field(default_factory=dict)
    """What came from elsewhere: trail inside the step → trail in the build file."""

    def origin(self, trail: Trail) -> Trail:
        """Where the author wrote what stands at `trail` inside the step."""
        for length in range(len(trail), 0, -1):
            if trail[:length] in self.parts:
                return (*self.parts[trail[:length]], *trail[length:])
        return (*self.trail, *trail)


def texts(value: Value) -> list[str]:
    """The texts of a list; what else stands there is reported when the step is typed."""
    return [item for item in value if isinstance(item, str)] if isinstance(value, list) else []


def swapped(
    step: Written, key: str, swap: Mapping[str, Sequence[str]], at: Trail
) -> tuple[list[str], dict[Trail, Trail], set[str]]:
    """A list of ids with others in their place, where each was written, and which were kept.

    `at` is the trail of the keys "with" whose values take the place of ids.
    """
    found: dict[str, None] = {}  # in the order of the step, and looked up at once in long lists
    origins: dict[Trail, Trail] = {}
    kept: set[str] = set()
    for index, name in enumerate(texts(step.step.get(key))):
        if name not in swap:
            kept.add(name)
        for other in swap.get(name, (name,)):
            if other not in found:
                new = (*at, name) if name in swap else step.origin((key, index))
                origins[key, len(found)] = new
                found[other] = None
    return [*found], origins, kept
