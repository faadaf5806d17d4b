"""Quantities of what holds a guide together → numbers, and problems at the place of each."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.living.holes import HoleError, parse_living
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.expressions import Expression, ExpressionError
from guidegen.buildfile.yaml.tree import TrailStep
from guidegen.geometry.fastening.answers import living_sum
from guidegen.geometry.pieces.records import Kit, PointRow
from guidegen.problems import Problem, collect


@dataclass(frozen=True)
class Holding:
    """One size of a guide, while what holds it together is worked out."""

    file: GuideFile
    stock: Stock
    kit: Kit
    names: Mapping[str, float]
    """Measurements, drawn ones and values."""
    problems: list[Problem] = field(default_factory=list)

    def number(self, quantity: Expression, *trail: TrailStep) -> float | None:
        """The number at `trail`; None, and a problem, without one."""
        value, problems = collect(evaluate(self.file, trail, quantity, self.names))
        self.problems.extend(problems)
        return value

    def asked(self, text: str, *trail: TrailStep) -> float | None:
        """The number of arithmetic that may ask for things of the guide; None, and a problem."""
        try:
            return living_sum(self.kit, parse_living(text), self.names)
        except (HoleError, ExpressionError) as error:
            self.refuse("fit-value", f'"{text}": {error}', *trail)
            return None

    def refuse(self, code: str, message: str, *trail: TrailStep, cure: str = "") -> None:
        """Note an error at `trail`, with the size where there are several."""
        if self.kit.size != ONE_SIZE:
            message = f"in size {self.kit.size}: {message}"
        self.problems.append(self.file.source.problem(code, trail, message, cure=cure))

    def row(self, name: str) -> PointRow | None:
        """The row that is called part.row; the check of names tells of one that is not there."""
        return self.kit.row(name)

    def thickness(self, part: str) -> float:
        """mm of a part's foam; 0 where the part could not be made."""
        return next((piece.thickness for piece in self.kit.pieces_of(part)), 0.0)

    def worn(self, part: str) -> int:
        """Pieces of a part, spares left out."""
        return sum(piece.copies - piece.spares for piece in self.kit.built(part))

    def material_number(self, material: str, key: str) -> Iterator[float]:
        """A plain number of a material in stock, such as its thickness; nothing without it."""
        value = getattr(self.stock.materials.get(material), key, None)
        if isinstance(value, Expression):
            yield value.value({})
