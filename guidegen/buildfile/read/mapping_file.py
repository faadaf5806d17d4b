"""A YAML file of names with values, which stands outside a content folder, in → its mapping."""

from pathlib import Path

from guidegen.buildfile.read.reader import read_file
from guidegen.buildfile.yaml.tree import Source, Value, read_tree
from guidegen.problems import Checked


def read_mapping(path: Path, expected: str) -> Checked[tuple[dict[str, Value], Source]]:
    """Names with values, and their places; none, and a problem, where the file has none.

    `expected` says what it ought to hold, with an example.
    """
    shown = path.as_posix()
    text = yield from read_file(path, shown)
    if text is None:
        return {}, Source(shown, ())
    value, source, found = read_tree(text, shown)
    yield from found
    if found:
        return {}, source
    if not isinstance(value, dict) or not value:
        yield source.problem("not-a-mapping", (), f"expected {expected}")
        return {}, source
    return value, source
