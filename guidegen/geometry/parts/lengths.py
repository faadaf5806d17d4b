"""Finished outlines in → what arithmetic of one size may use: names, and lengths of parts.

Outlines come in one after another (`part_order`), and each may ask for those before it.
"""

from collections.abc import Iterator, Mapping

from guidegen.buildfile.derive.quantities import quantities
from guidegen.buildfile.derive.sizes import asking_values, evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.yaml.asks import Ask, read_ask
from guidegen.buildfile.yaml.expressions import ExpressionError, LengthMissingError
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.parts.finished import Finished, named_lines
from guidegen.problems import Checked, did_you_mean


class PartNames(Mapping[str, float]):
    """Measurements, values and lengths of parts, by name; lengths as they are asked for.

    Grows with `finished`, which the kit fills. Looking up raises ExpressionError for a question
    about what the guide does not have, and LengthMissingError for a part that failed.
    """

    def __init__(
        self,
        file: GuideFile,
        plain: Mapping[str, float],
        thickness: Mapping[str, float | None],
        finished: Mapping[str, Finished],
    ) -> None:
        self._file = file
        self._known = dict(plain)
        self._later = asking_values(file)
        self._thickness = thickness
        self._finished = finished
        self._failed: set[str] = set()

    def work_out(self, name: str) -> None:
        """Keep the number of a value, or that it has none, as soon as all that it needs is there: a
        chain of thousands would be too deep to be followed from its end."""
        try:
            self[name]
        except ExpressionError:
            self._failed.add(name)

    def __getitem__(self, name: str) -> float:
        if name in self._known:
            return self._known[name]
        if name in self._failed:
            # The value itself tells why, once.
            raise LengthMissingError(f"{name} has no value")
        ask = read_ask(name)
        if ask is not None:
            number = self._length(ask)
        elif name in self._later:
            # Rings among values were refused before any part was made.
            number = self._file.guide.values[name].value(self)
        else:
            raise KeyError(name)
        self._known[name] = number
        return number

    def __iter__(self) -> Iterator[str]:
        return iter(dict.fromkeys([*self._known, *self._later]))

    def __len__(self) -> int:
        return len(set(self._known) | self._later)

    def _length(self, ask: Ask) -> float:
        guide = self._file.guide
        if ask.about == "seam":
            (seam,) = ask.names
            if seam not in guide.seams:
                raise ExpressionError(f'no seam "{seam}"{did_you_mean(seam, guide.seams)}')
            part, _, edge = guide.seams[seam].join[0].partition(".")
            return self._length(Ask("edge", (part, edge)))
        part = ask.names[0]
        if part not in guide.parts:
            raise ExpressionError(f'no part "{part}"{did_you_mean(part, guide.parts)}')
        if ask.about == "thick":
            return self._made(self._thickness.get(part), part)
        self._check_bent(part)
        return length_of(self._made(self._finished.get(part), part), ask)

    def _made[T](self, thing: T | None, part: str) -> T:
        if thing is None:
            raise LengthMissingError(f"{part} could not be made")
        return thing

    def _check_bent(self, part: str) -> None:
        """Refuse parts that their stack makes longer once all outlines are there."""
        for name, stack in self._file.guide.stacks.items():
            if stack.curve is None or not stack.curve.lengthens:
                continue
            if part in [layer.part for layer in stack.layers[1:]]:
                base = stack.layers[0].part
                raise ExpressionError(
                    f"{part} is made longer by the bend of the stack {name}; ask for its first "
                    f"layer, {base}"
                )


def length_of(finished: Finished, ask: Ask) -> float:
    """mm of a finished outline that `ask` is about: an edge or a line of its template, or its
    width or height. Raises ExpressionError without one of that name."""
    if ask.about in {"width", "height"}:
        left, low, right, high = bounds((finished.whole.ring(),))
        return right - left if ask.about == "width" else high - low
    part, name = ask.names
    if ask.about == "edge":
        runs = {edge.name: edge.run for edge in finished.template.edges}
    else:
        runs = dict(named_lines(finished.template))
    if name not in runs:
        raise ExpressionError(f'no {ask.about} "{name}" on {part}{did_you_mean(name, runs)}')
    return run_length(runs[name])


def asked_lengths(file: GuideFile, names: PartNames) -> Checked[tuple[tuple[str, float], ...]]:
    """Every length that arithmetic of the guide asks for, as it is asked, and its mm.

    What cannot be answered is told where it is asked for; of parts that failed nothing is said.
    """
    found: dict[str, float] = {}
    for name in sorted(asking_values(file)):
        yield from evaluate(file, ("values", name), file.guide.values[name], names)
    for trail, quantity in quantities(file.guide):
        if trail[0] in {"sequences", "values"}:
            continue  # sequences are worked out in the steps that use them
        for ask in quantity.asks:
            try:
                found[str(ask)] = names[str(ask)]
            except LengthMissingError:
                continue
            except ExpressionError as error:
                message = f'"{quantity.text}": {error}'
                yield file.source.problem("arithmetic", trail, message)
    return tuple(sorted(found.items()))
