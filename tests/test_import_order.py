"""Who may import whom in guidegen, read from the syntax trees, imports inside functions included.

The order of the stages is the order of the work. A stage may use the leaves, its own folder, and
of earlier stages only what OPEN lists. To add a library or open a module, add a line here.
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
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "guidegen"

LEAVES = (
    "units",
    "findings",
    "problems",
    "errors",
    "marks",
    "documents",
    "words",
    "quantities",
    "shipped",
    "progress",
)
"""Modules that every other may import; findings is a folder, the registry."""

STAGES = {
    "buildfile": ("yaml", "records", "expand", "translate", "living", "read", "derive"),
    "checks": ("report", "texts", "names", "steps", "safety", "run"),
    "geometry": ("outline", "drawing", "shapes", "grading", "parts", "pieces", "fastening", "fit"),
    "assembly": ("records", "body", "sheets", "placing", "views"),
    "layout": (
        "hours",
        "class_hours",
        "schedules",
        "records",
        "nesting",
        "paper",
        "buying",
        "times",
    ),
    "pictures": (
        "pen",
        "records",
        "signs",
        "bodies",
        "pieces",
        "steps",
        "cutting",
        "times",
        "templates",
        "machines",
        "compose",
    ),
    "render": ("text", "fonts", "views", "pdf", "booklets", "lists", "classes", "site"),
    "write": (
        "swap",
        "marker",
        "state_folder",
        "begun",
        "loose",
        "strangers",
        "staging",
        "file_stats",
        "index",
        "plans",
        "kept_versions",
        "search_index",
    ),
    "bench": ("forms", "photos", "talks", "vectors"),
    "app": ("workers", "measured", "jobs", "preview", "commands"),
}
"""Folders in the order of the work, and in each its own folders and modules in their order.

A folder may import those that stand before it in its stage, and itself.
"""

FREE = ("bench", "app")
"""Stages that may import anything of earlier ones: they put it together for an author."""

TOPS = {
    "cli": ("app",),
    "__main__": ("cli",),
}
"""Modules above the stages, and what each may import besides the leaves."""

OPEN = {
    "buildfile.derive.caution_places": "where each caution stands in full, and where in one line",
    "buildfile.derive.cautions": "which cautions a step has, from its tool, material and process",
    "buildfile.translate.commonmark": "parsed texts, their links and headings",
    "buildfile.yaml.characters": "which letters a text may hold",
    "buildfile.yaml.asks": "records of questions that arithmetic asks about parts",
    "buildfile.yaml.expressions": "record and value of one formula",
    "buildfile.living.holes": "records of living numbers",
    "buildfile.living.lengths": "lengths in words",
    "buildfile.living.texts": "a guide with its living numbers filled",
    "buildfile.read.file_names": "names that every system can keep",
    "buildfile.read.fingerprint": "folders that a press writes beside build files",
    "buildfile.records.guide": "records of a guide",
    "buildfile.records.motions": "what hands do, by name and in words",
    "buildfile.read.on_hand": "records of what is at hand",
    "buildfile.read.photos": "smaller copies of photos, and their pixels",
    "buildfile.read.print_profile": "how many inks a profile is for",
    "buildfile.derive.paints": "colours that steps give parts",
    "buildfile.derive.linings": "what a lining takes from the part that it lines",
    "buildfile.derive.quantities": "all values of a guide that are formulas, with their places",
    "buildfile.read.content": "records of the whole content",
    "buildfile.expand.sequences": "what is wrong with repeats and sequences of steps",
    "buildfile.records.musts": "records of rules of what must be there",
    "buildfile.records.meanings": "what the type of a field says of its text",
    "buildfile.records.report": "parts and holes of the address for mistakes",
    "buildfile.records.site": "records of a site",
    "buildfile.derive.part_order": "which part is made before which",
    "buildfile.derive.sizes": "values of a size's measurements and formulas",
    "buildfile.records.statements": "official hazard and precaution statements",
    "buildfile.records.statements_de": "the same in German",
    "buildfile.records.stock": "records of materials, tools, processes and cautions",
    "buildfile.translate.translation": "records of translations",
    "buildfile.yaml.tree": "records of places in files",
    "buildfile.records.walk": "texts of records by trail, with what they mean",
    "buildfile.records.vocabulary": "names of shapes and of their fields",
    "buildfile.derive.waits": "minutes that a step's work is left",
    "checks.steps.order": "what a rule of order means, and its words",
    "geometry.drawing.svg_picture": "an author's SVG picture, written anew",
    "assembly.body.proportions": "girths, lengths and heights of a body",
    "assembly.records": "records of the finished thing in space and what is seen of it",
    "geometry.outline.biarcs": "arcs in the place of curves",
    "geometry.outline.areas": "areas and overlaps of outlines",
    "geometry.outline.distances": "how far outlines and lines are apart",
    "geometry.outline.measures": "lengths, boxes and points of outlines",
    "geometry.outline.parabolas": "quadratic curves as cubic ones",
    "geometry.fit.records": "records of size advice and coverage",
    "geometry.outline.records": "records of outlines",
    "geometry.parts.circuits": "records of light circuits at one size",
    "geometry.parts.sewing": "records of what cloth is taken in with",
    "geometry.parts.linkages": "records of plates that move",
    "geometry.pieces.records": "records of pieces, seams and kits",
    "buildfile.records.fastening": "records of points, fasteners and straps",
    "buildfile.records.constructions.circuits": "records of light circuits",
    "buildfile.records.constructions.harness": "records of straps that cross and branch",
    "buildfile.records.constructions.inscriptions": "records of letters and emblems on a part",
    "buildfile.records.constructions.sewing": "records of pleats, darts and casings",
    "buildfile.records.constructions.things": "records of things and beads",
    "buildfile.records.constructions.linkages": "records of plates that move",
    "buildfile.records.strips": "records of what is cut from rolls",
    "geometry.fastening.places": "the piece that a link to a place leads to",
    "geometry.fastening.answers": "what words ask of a kit, answered",
    "layout.times.class_records": "people of a class, their tools and hours",
    "buildfile.read.people.class_days": "days of a class as they are told",
    "layout.class_hours": "days of a class, and when somebody is there",
    "layout.buying.compare": "areas and counts of sheets over all sizes",
    "layout.nesting.bounds": "how near a cut plan comes to the best possible one",
    "layout.buying.held": "what fastenings and straps of a step take",
    "layout.buying.packs": "names of packs",
    "layout.paper.frame": "from which size on a page is large",
    "layout.paper.raster": "outlines as rows of cells, and what overlaps there",
    "layout.records": "records of plans",
    "layout.schedules": "records of who works on what when",
    "pictures.machines.records": "names of layers for cutters",
    "pictures.pen.records": "what a drawing holds",
    "pictures.records": "drawings by what they show",
    "pictures.pieces.constructions.sewing": "what pleats and darts take, in words",
    "pictures.pieces.seam_words": "names of edges and seams",
}
"""Modules that later stages may import, and what they hold: records and pure measures only."""

ADAPTERS: dict[str, str | tuple[str, ...]] = {
    "PIL": "buildfile.read.photos",
    "babel": "words",
    "cv2": "bench.photos.vision",
    "distributed": "app.workers.cluster",
    "ezdxf": ("render.lists.dxf", "bench.vectors.dxf_file"),
    "filelock": "write.staging",
    "shtab": "app.commands.completion",
    "fontTools": ("render.fonts.font_subsets", "buildfile.read.letters"),
    "openpyxl": "buildfile.read.people.workbook",
    "jinja2": "render.text",
    "markdown_it": "buildfile.translate.commonmark",
    "markupsafe": "render",
    "numpy": ("assembly", "bench.forms", "bench.photos", "app.commands.bench"),
    "packingsolver": "layout.nesting.solver",
    "pagefind_bin": "write.search_index",
    "pikepdf": ("render.pdf.finish", "bench.vectors.pdf_file"),
    "pydantic": ("buildfile", "app.measured.packed"),
    "pydantic_core": "buildfile.records.validation",
    "pypdfium2": "render.site.raster",
    "reportlab": ("render.pdf.drawn_pdf", "render.pdf.drawn_tags"),
    "rich": "progress",
    "scipy": ("assembly", "bench.forms", "bench.photos"),
    "segno": "render.text.qr",
    "shapely": tuple(f"geometry.outline.{name}" for name in ("polygons", "areas", "distances")),
    "svgelements": "geometry.drawing.svg_reader",
    "svgwrite": "render.text.svg",
    "tinycss2": "geometry.drawing.css",
    "trimesh": "assembly.views.model",
    "watchfiles": "app.preview.watch",
    "weasyprint": "render.pdf.html_pdf",
    "xlsxwriter": "render.lists.workbook",
    "yaml": "buildfile.yaml.tree",
}
"""Each outside library and the one module, or for data types the stages, that import it."""

PARTS_OF = {"pydantic_core": "pydantic"}
"""Libraries that come with another one and are used through it."""

FILES_ONLY = {
    "brotli",  # fontTools packs web fonts with it
    "fontpkg-atkinson-hyperlegible",
    "fontpkg-barlow-condensed",
    "fontpkg-noto-sans",
}
"""Libraries that are declared and not imported by name."""

MOST_MODULES = 21
"""In a folder, its __init__.py among them. Our choice: what fits in one screen of a listing."""

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
    """The tables above have no line for a module or library that is no longer used."""
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
