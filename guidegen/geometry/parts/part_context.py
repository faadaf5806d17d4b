"""Quantities of one part in → numbers, and problems at the place of each value."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.guide import Part
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.buildfile.yaml.tree import TrailStep
from guidegen.geometry.outline.grain import Along
from guidegen.problems import Problem, collect


@dataclass(frozen=True)
class PartAsker:
    """Works out the quantities of one part at one size and keeps what is wrong with them."""

    file: GuideFile
    part_id: str
    size: str
    names: Mapping[str, float]
    """Measurements and values that arithmetic may use."""
    problems: list[Problem] = field(default_factory=list)
    sewn: bool = False
    """True where it is cut from cloth: its allowances end at stitches, not at glue."""
    stock: Stock | None = None
    """The stock of the site."""
    grain: Along | None = None
    """How the grain of its material runs on its template, where that matters."""

    @property
    def part(self) -> Part:
        """The part itself."""
        return self.file.guide.parts[self.part_id]

    def number(self, quantity: Expression, *steps: TrailStep) -> float | None:
        """The number of the quantity at `parts.<id>.<steps>`; None, and a problem, without one."""
        trail = ("parts", self.part_id, *steps)
        value, problems = collect(evaluate(self.file, trail, quantity, self.names))
        self.problems.extend(problems)
        return value

    def between(
        self, quantity: Expression, least: float, most: float, *steps: TrailStep
    ) -> float | None:
        """A number within limits, both allowed; None, and a problem, outside them."""
        value = self.number(quantity, *steps)
        if value is None or least <= value <= most:
            return value
        self.refuse("out-of-range", f"expected {least:g} to {most:g}, found {value:g}", *steps)
        return None

    def count(self, quantity: Expression, least: int, most: int, *steps: TrailStep) -> int | None:
        """A whole number within limits; None, and a problem, where it is none."""
        value = self.number(quantity, *steps)
        if value is None:
            return None
        # Arithmetic such as 3 * 0.1 / 0.1 misses a whole number by rounding, no author by less.
        if abs(value - round(value)) > 1e-6 or not least <= round(value) <= most:
            expected = f"expected a whole number from {least} to {most}"
            self.refuse("bad-count", f"{expected}, found {value:g}", *steps)
            return None
        return round(value)

    def refuse(self, code: str, message: str, *steps: TrailStep, cure: str = "") -> None:
        """Note an error at `parts.<id>.<steps>`, with the size where there are several."""
        if self.size != ONE_SIZE:
            message = f"in size {self.size}: {message}"
        trail = ("parts", self.part_id, *steps)
        self.problems.append(self.file.source.problem(code, trail, message, cure=cure))
