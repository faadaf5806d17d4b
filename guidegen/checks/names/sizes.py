"""The size table is whole, and all arithmetic has a value in every size."""

from collections.abc import Iterator

from guidegen.buildfile.derive.quantities import quantities
from guidegen.buildfile.derive.sizes import SizeNumbers, size_numbers
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.file_names import DEVICE_NAMES
from guidegen.buildfile.yaml.expressions import Expression, ExpressionError
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Problem, did_you_mean


def check_sizes(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every size gives every measurement, and no other."""
    guide, source = file.guide, file.source
    for size, row in guide.sizes.items():
        for name in row:
            if name not in guide.measurements and name not in guide.sides:
                hint = did_you_mean(name, [*guide.measurements, *guide.sides])
                yield source.problem(
                    "unknown-name",
                    ("sizes", size, name),
                    f'no measurement "{name}"{hint}',
                    key=True,
                )
        given = {one for name in row for one in guide.sides.get(name, (name,))}
        missing = [name for name in guide.measurements if name not in given]
        if missing:
            yield source.problem("missing-key", ("sizes", size), f"no {', '.join(missing)}")
    if guide.measurements and not guide.sizes:
        yield source.problem(
            "missing-key", ("measurements",), "there are measurements, so sizes are needed too"
        )
    yield from _size_names(file)
    if guide.drawn_for is not None and guide.drawn_for not in guide.sizes:
        hint = did_you_mean(guide.drawn_for, guide.sizes)
        yield source.problem("unknown-name", ("drawn-for",), f'no size "{guide.drawn_for}"{hint}')
    for name in guide.measurements:
        if name.startswith("drawn_"):
            message = f'"{name}" is no name for a measurement: drawn_… is that of the drawn size'
            yield source.problem("double-name", ("measurements", name), message, key=True)
    names = {*guide.measurements, *(f"drawn_{name}" for name in guide.measurements)}
    yield from _sides(file, names)
    names |= guide.sides.keys()
    for name in guide.values:
        if name in names:
            yield source.problem(
                "double-name", ("values", name), f'"{name}" is a measurement already', key=True
            )


def _sides(file: GuideFile, names: set[str]) -> Iterator[Problem]:
    """A name of two sides is new, and stands for two measurements."""
    guide, source = file.guide, file.source
    for name, pair in guide.sides.items():
        if name in names:
            message = f'"{name}" is a measurement already'
            yield source.problem("double-name", ("sides", name), message, key=True)
        for number, one in enumerate(pair):
            if one not in guide.measurements:
                hint = did_you_mean(one, guide.measurements)
                message = f'no measurement "{one}"{hint}'
                yield source.problem("unknown-name", ("sides", name, number), message)


def _size_names(file: GuideFile) -> Iterator[Problem]:
    """Sizes become folders, which some systems cannot tell apart or do not allow."""
    seen: dict[str, str] = {}
    for size in file.guide.sizes:
        first = seen.setdefault(size.casefold(), size)
        if first != size:
            message = f'"{size}" and "{first}" are one folder where case does not count'
            yield file.source.problem("double-name", ("sizes", size), message, key=True)
        if size.casefold() in DEVICE_NAMES:
            message = f'"{size}" cannot be a folder on Windows; expected another name'
            yield file.source.problem("folder-name", ("sizes", size), message, key=True)


def check_arithmetic(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every quantity of the guide has a value in every size."""
    tables: list[SizeNumbers] = []
    for size in file.size_names():
        numbers, problems = size_numbers(file, size)
        tables.append(numbers)
        yield from problems
    failed = {name for name in file.guide.values if any(name not in t.values for t in tables)}
    for trail, quantity in quantities(file.guide):
        if trail[0] in {"sizes", "values", "sequences"} or quantity.names & failed:
            # Those are told where the value itself stands; sequences in the steps that use them.
            continue
        if quantity.asks:
            continue  # lengths of parts are known to geometry
        problem = _first_failure(file, trail, quantity, tables)
        if problem is not None:
            yield problem


def _first_failure(
    file: GuideFile, trail: Trail, quantity: Expression, tables: list[SizeNumbers]
) -> Problem | None:
    for numbers in tables:
        try:
            quantity.value(numbers.names())
        except ExpressionError as error:
            size = f" (size {numbers.size})" if len(tables) > 1 and quantity.names else ""
            return file.source.problem("arithmetic", trail, f'"{quantity.text}": {error}{size}')
    return None


def check_plausible(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Sizes stay within the least and most that the guide itself states."""
    for size in file.guide.sizes:
        numbers, _ = size_numbers(file, size)
        for name, measurement in file.guide.measurements.items():
            value = numbers.measurements.get(name)
            if value is None:
                continue
            if value <= 0:
                yield file.source.problem(
                    "bad-value", ("sizes", size, name), f"{name} must be more than nothing"
                )
            least = measurement.least.value({}) if measurement.least else None
            most = measurement.most.value({}) if measurement.most else None
            if (least is not None and value < least) or (most is not None and value > most):
                yield file.source.problem(
                    "implausible",
                    ("sizes", size, name),
                    f"{value:g} mm lies outside what the guide calls plausible for {name}",
                )
