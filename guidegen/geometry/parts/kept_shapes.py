"""Shapes of drawn parts that were made already, for the same drawing, part and numbers.

A writer changes one drawing of a guide at a time and waits for the page; all others are graded to
the same shapes again in every size, which takes most of the time of a kit.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.records.guide import Part
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.outline.records import Shape

MOST = 500
"""Shapes that are kept. Our choice: those of a few large guides in all their sizes, some 10 MB."""


class AskedNames(Mapping[str, float]):
    """Names of arithmetic, which note those that were asked for and what they stood for."""

    def __init__(self, names: Mapping[str, float]) -> None:
        self._names = names
        self.asked: dict[str, float] = {}

    def __getitem__(self, name: str) -> float:
        self.asked[name] = value = self._names[name]
        return value

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


@dataclass(frozen=True, slots=True)
class _Kept:
    part: Part
    asked: Mapping[str, float]
    shape: Shape


@dataclass(slots=True)
class KeptShapes:
    """Shapes by their part's id, size and drawing; each with all else that it came from."""

    _kept: dict[tuple[str, str, str], _Kept] = field(default_factory=dict)

    def find(
        self, key: tuple[str, str, str], part: Part, names: Mapping[str, float]
    ) -> Shape | None:
        """The shape that this part would have again; None where it has to be made."""
        kept = self._kept.get(key)
        if kept is None or kept.part != part:
            return None
        try:
            same = all(names[name] == value for name, value in kept.asked.items())
        except (ExpressionError, KeyError):
            return None
        return kept.shape if same else None

    def keep(self, key: tuple[str, str, str], part: Part, names: AskedNames, shape: Shape) -> None:
        """Keep a shape with which nothing was wrong."""
        if len(self._kept) >= MOST:
            self._kept.clear()
        self._kept[key] = _Kept(part, dict(names.asked), shape)
