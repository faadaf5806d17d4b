"""A record in → every quantity in it, with its trail."""

from collections.abc import Iterator, Mapping

from guidegen.buildfile.yaml.expressions import Expression
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Trail


def quantities(value: object, trail: Trail = ()) -> Iterator[tuple[Trail, Expression]]:
    """All expressions below `value`, in the order of its keys."""
    if isinstance(value, Expression):
        yield trail, value
    elif isinstance(value, Model):
        for name, info in type(value).model_fields.items():
            if name in value.model_fields_set:
                yield from quantities(getattr(value, name), (*trail, info.alias or name))
    elif isinstance(value, Mapping):
        for key, item in value.items():
            yield from quantities(item, (*trail, key))
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from quantities(item, (*trail, number))
