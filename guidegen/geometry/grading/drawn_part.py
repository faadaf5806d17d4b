"""One drawn part at one size, with where its problems are noted."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.derive.sizes import SizeNumbers, evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Part
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.buildfile.yaml.tree import Trail, TrailStep
from guidegen.problems import Problem, collect, has_errors


@dataclass(frozen=True)
class DrawnPart:
    """What the making of a drawn shape works on."""

    file: GuideFile
    part_id: str
    part: Part
    numbers: SizeNumbers
    names: Mapping[str, float]
    """What its arithmetic may use: numbers, and lengths of parts that are made already."""
    problems: list[Problem] = field(default_factory=list)
    """Grows while the shape is made."""

    @property
    def size(self) -> str:
        """The size's name."""
        return self.numbers.size

    @property
    def fails(self) -> bool:
        """True once an error was found."""
        return has_errors(self.problems)

    def note(
        self,
        code: str,
        steps: tuple[TrailStep, ...],
        message: str,
        cure: str = "",
        *,
        key: bool = False,
        amount: float = 0.0,
    ) -> None:
        """Note a problem at a value of the part (at its key, if `key`)."""
        trail: Trail = ("parts", self.part_id, *steps)
        found = self.file.source.problem(code, trail, message, key=key, cure=cure, amount=amount)
        self.problems.append(found)

    def value(self, steps: tuple[TrailStep, ...], quantity: Expression) -> float | None:
        """A quantity of the part in this size; None, and a problem, where it has no value."""
        trail: Trail = ("parts", self.part_id, *steps)
        value, problems = collect(evaluate(self.file, trail, quantity, self.names))
        self.problems.extend(problems)
        return value
