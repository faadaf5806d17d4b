"""Who may import whom in guidegen: the order of the stages, and the one place for each library.

To add a library or to open a module, add a line to a table here.
"""

from pathlib import Path

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
    "buildfile.records.safety.statements": "official hazard and precaution statements",
    "buildfile.records.safety.statements_de": "the same in German",
    "buildfile.records.materials": "records of materials, and of how shops sell them",
    "buildfile.records.safety.cautions": "records of cautions",
    "buildfile.records.stock": "records of tools, processes and all that guides share",
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
