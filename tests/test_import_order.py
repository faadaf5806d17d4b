"""Who may import whom in guidegen, read from the syntax trees, imports inside functions included.

The order of the stages is the order of the work. A stage may use the leaves, its own folder, and
of earlier stages only what OPEN lists.
"""

import ast
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from graphlib import TopologicalSorter
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from import_order import (
    ADAPTERS,
    FILES_ONLY,
    FREE,
    LEAVES,
    MOST_MODULES,
    OPEN,
    PACKAGE,
    PARTS_OF,
    ROOT,
    STAGES,
    TOPS,
)
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

type Imports = dict[str, set[str]]
"""For each module, without the package's own name, the full names of what it imports."""


def imported_names(source: str) -> Iterator[str]:
    """Yield the full name of each thing that a text imports, wherever in it that happens."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            origin = "." * node.level + (node.module or "")
            yield from (f"{origin}.{alias.name}" for alias in node.names)


def read_imports(package: Path) -> Imports:
    """Read what each module of a package imports."""
    imports = {}
    for path in sorted(package.rglob("*.py")):
        parts = path.relative_to(package).with_suffix("").parts
        module = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        imports[module] = set(imported_names(path.read_text(encoding="utf-8")))
    return imports


def own_imports(imports: Imports, module: str) -> set[str]:
    """Return the package's own modules that a module imports, without the package's name."""
    found = set()
    for name in imports[module]:
        first, _, rest = name.partition(".")
        if first == PACKAGE.name:
            found.add(rest if rest in imports else rest.rpartition(".")[0])
    return found - {module}


def outside_imports(imports: Imports) -> dict[str, set[str]]:
    """Return for each library that is neither Python's nor ours the modules that import it."""
    found: dict[str, set[str]] = {}
    for module, names in imports.items():
        for library in {name.partition(".")[0] for name in names}:
            if library != PACKAGE.name and library not in sys.stdlib_module_names:
                found.setdefault(library, set()).add(module)
    return found


def may_import(module: str, target: str) -> bool:
    """Whether the order of the stages lets one of our modules import another."""
    here, _, inside = module.partition(".")
    there, _, target_inside = target.partition(".")
    if there in ("", *LEAVES):  # the package itself holds only its version
        return True
    if here in TOPS:
        return there in TOPS[here]
    if here not in STAGES or there not in STAGES:
        return False
    if here == there:
        order = STAGES[here]
        floor, target_floor = inside.partition(".")[0], target_inside.partition(".")[0]
        return order.index(target_floor) <= order.index(floor)
    stages = tuple(STAGES)
    if here in FREE:
        return stages.index(there) < stages.index(here)
    return stages.index(there) < stages.index(here) and target in OPEN


def order_faults(imports: Imports) -> list[str]:
    """Return the imports between our modules that the order forbids."""
    return [
        f"{module} imports {target}"
        for module in imports
        for target in sorted(own_imports(imports, module))
        if not may_import(module, target)
    ]


def adapter_faults(imports: Imports) -> list[str]:
    """Return the imports of outside libraries anywhere but in the one place for each."""
    return [
        f"{module} imports {library}, which belongs to {ADAPTERS.get(library, 'no module yet')}"
        for library, modules in sorted(outside_imports(imports).items())
        for module in sorted(modules)
        if not _at_home(module, ADAPTERS.get(library))
    ]


def _at_home(module: str, homes: str | tuple[str, ...] | None) -> bool:
    places = homes if isinstance(homes, tuple) else (str(homes),)
    return any(f"{module}.".startswith(f"{home}.") for home in places)


@pytest.fixture(scope="module")
def imports():
    """What each module of guidegen imports."""
    return read_imports(PACKAGE)


def test_stages_import_one_way(imports):
    """A stage imports the leaves, its own folder, and what earlier stages open to later ones."""
    assert order_faults(imports) == []


def test_libraries_have_one_adapter(imports):
    """Each outside library is imported in one place, so that one place knows its ways."""
    assert adapter_faults(imports) == []


def test_no_cycles(imports):
    """No module reaches itself through what it imports, not even inside functions."""
    graph = {module: own_imports(imports, module) - {""} for module in imports}
    assert len(tuple(TopologicalSorter(graph).static_order())) >= len(imports)


def test_imports_are_absolute_and_plain(imports):
    """Modules are imported by their full names in import statements, which this test can read."""
    for module, names in imports.items():
        assert not [name for name in names if name.startswith(".")], module
        assert "importlib.import_module" not in names, module
    text = "".join(path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py"))
    assert "import_module(" not in text
    assert "__import__" not in text


def test_tables_name_what_is_there(imports):
    """The tables have no line for a module or library that is no longer used."""
    assert set(OPEN) <= set(imports)
    assert set(ADAPTERS) == set(outside_imports(imports))
    folders = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    files = {path.stem for path in PACKAGE.glob("*.py")} - {"__init__"}
    assert folders == {*STAGES, "findings"}
    assert files == {*LEAVES, *TOPS} - {"findings"}
    for stage, order in STAGES.items():
        inside = {path.stem for path in (PACKAGE / stage).glob("*.py")} - {"__init__"}
        inside |= {path.parent.name for path in (PACKAGE / stage).glob("*/__init__.py")}
        assert inside == set(order), stage


def test_no_folder_is_crowded():
    """No folder of guidegen has more modules than a reader takes in at a glance."""
    crowded = {
        folder: count
        for folder, count in Counter(path.parent for path in PACKAGE.rglob("*.py")).items()
        if count > MOST_MODULES
    }
    assert crowded == {}


def test_libraries_are_declared(imports):
    """pyproject.toml lists each library that guidegen imports, and none that it does not use."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    lines = [*project["dependencies"], *project["optional-dependencies"]["cluster"]]
    lines += project["optional-dependencies"]["trace"]
    declared = {canonicalize_name(Requirement(line).name) for line in lines}
    providers = packages_distributions()
    used = {
        canonicalize_name(providers[library][0])
        for library in outside_imports(imports)
        if library not in PARTS_OF
    }
    assert used | FILES_ONLY == declared


SAMPLES = {
    "from guidegen.layout.records import CutPlan": "geometry.outline.curves imports layout.records",
    "import guidegen.buildfile.read.reader": "geometry.outline.curves imports buildfile.read.reader",
    "from guidegen.buildfile.read import reader": "geometry.outline.curves imports buildfile.read.reader",
    "def f():\n    from guidegen.app import jobs": "geometry.outline.curves imports app.jobs",
    "if True:\n    import yaml.nodes": "geometry.outline.curves imports yaml, which belongs to"
    " buildfile.yaml.tree",
    "import unheard_of": "geometry.outline.curves imports unheard_of, which belongs to no module yet",
    "import math, guidegen.units\nfrom guidegen.buildfile.records import guide": None,
    "from guidegen.geometry.outline import records": None,
}


@pytest.mark.parametrize("source", SAMPLES)
def test_faults_are_found(imports, source):
    """The rules above notice a forbidden import however it is written, and let others pass."""
    changed = {name: set() for name in imports} | {
        "geometry.outline.curves": set(imported_names(source))
    }
    expected = SAMPLES[source]
    assert order_faults(changed) + adapter_faults(changed) == ([expected] if expected else [])
