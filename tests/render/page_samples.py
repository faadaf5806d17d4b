"""A small hand-made guide with its plans and drawings, for tests of pages and booklets."""

from functools import cache
from pathlib import Path

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Source
from guidegen.geometry.outline.records import Edge, Line, Measure, Shape
from guidegen.geometry.pieces.records import GrooveCut, Kit, LayerPiece, LayerStack, Piece, Side
from guidegen.layout.records import (
    CutPlan,
    CutSheet,
    GuidePlan,
    LengthCut,
    MaterialLine,
    MaterialsList,
    PackCount,
    Placed,
    SizePlan,
    ToolLine,
)
from guidegen.layout.times.plans import plan_time
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.pen.records import Drawing, Rectangle, Stroke
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.render.site.entries import site_entries
from guidegen.render.site.home import render_home
from guidegen.render.text.links import DownloadInfo
from guidegen.render.text.templates_engine import Theme
from guidegen.words import ENGLISH

THEME_FOLDER = Path(__file__).parents[2] / "themes" / "workshop"

SITE = {
    "title": "Sample loft",
    "tagline": "Two things to build",
    "about": "Guides for **tests**, and a word: [bevel](term:bevel).",
    "publisher": "The sample loft",
    "contact": "Write to loft@sample.example.",
}

STOCK = {
    "materials": {
        "foam-5": {
            "name": "Foam sheet, 5 mm",
            "kind": "sheet",
            "thickness": 5,
            "sheets": [{"name": "sheet 500 × 500 mm", "width": 500, "height": 500, "price": 5.5}],
            "alternative": "foam of 6 mm",
            "note": "Both faces smooth.",
            "cautions": ["fumes"],
        },
        "cement": {
            "name": "Contact cement",
            "kind": "liquid",
            "packs": [{"amount": 250, "price": 8, "name": "tin"}],
            "rate": {"likely": 4, "low": 3, "high": 5, "source": "common practice"},
            "dries": "5 min",
            "cautions": ["vapour", "skin"],
        },
        "webbing": {
            "name": "Webbing, 25 mm",
            "kind": "length",
            "packs": [{"amount": 5000, "price": 6}],
        },
    },
    "tools": {
        "knife": {"name": "Craft knife", "cautions": ["blade"], "note": "With spare blades."},
        "goggles": {"name": "Safety goggles", "protective": True, "sign": "M004"},
    },
    "processes": {
        "cementing": {"name": "Cementing", "how": "Coat *both* faces.", "wait": "10 min"},
    },
    "cautions": {
        "blade": {
            "word": "CAUTION",
            "young": "watched",
            "title": "Sharp blade",
            "short": "Cut away from the hand, on a table",
            "hazard": "The blade cuts skin as easily as foam.",
            "consequence": "Deep cuts.",
            "avoid": "Cut away from the hand.",
            "signs": ["W022"],
            "protection": ["goggles"],
        },
        "vapour": {
            "word": "DANGER",
            "young": "adults",
            "title": "Flammable vapour",
            "hazard": "The vapour catches fire.",
            "consequence": "Severe burns.",
            "avoid": "Work outdoors, away from flames.",
            "signs": ["P003"],
            "first_aid": "Move to fresh air; label and data sheet at hand.",
            "statements": ["H225", "X999"],
        },
        "skin": {
            "word": "WARNING",
            "title": "Skin contact",
            "short": "Gloves that the data sheet names",
            "hazard": "Cement irritates skin.",
            "consequence": "Rashes.",
            "avoid": "Wear the gloves that the data sheet names.",
        },
        "fumes": {
            "word": "NOTICE",
            "title": "Smell of new foam",
            "short": "Air it for a day",
            "hazard": "New foam smells.",
            "consequence": "It lingers.",
            "avoid": "Air it for a day.",
        },
        "waste": {
            "word": "NOTICE",
            "title": "Waste",
            "short": "Dry rags spread out, outdoors",
            "hazard": "Rags with cement.",
            "consequence": "They may heat up.",
            "avoid": "Dry them spread out, outdoors.",
        },
    },
    "terms": {
        "bevel": {"term": "Bevel", "meaning": "An edge that is cut at an angle."},
        "allowance": {"term": "allowance", "meaning": "Extra foam."},
    },
}

GUIDE = {
    "title": "Mooring cuff & strap",
    "version": "1.1",
    "date": "2026-03-04",
    "author": "A. Builder",
    "approved_by": "B. Tester",
    "licence": "CC BY 4.0",
    "licence_words": "You may copy and sell. Name the author.",
    "summary": "A cuff for a <small> wrist.",
    "overview": "# A cuff\n\nIt is made of the [cuff](piece:cuff), see [cementing](step:glue).",
    "assumes": ["Cutting along a line"],
    "measurements": {"wrist": {"name": "Wrist girth", "take": "Tape *snug*."}},
    "sizes": {"S": {"wrist": 160}, "M": {"wrist": 180}},
    "parts": {
        "cuff": {
            "name": "Cuff",
            "label": "A",
            "material": "foam-5",
            "shape": "strip",
            "hand": "pair",
        },
        "badge": {"name": "Badge", "label": "B", "material": "foam-5", "shape": "disc"},
    },
    "seams": {"close": {"join": ["cuff.left", "cuff.right"]}},
    "stacks": {
        "badge-on-cuff": {"name": "Badge on cuff", "layers": [{"part": "cuff"}, {"part": "badge"}]}
    },
    "steps": [
        {
            "id": "cut",
            "title": "Cut all pieces",
            "stage": "cutting",
            "parts": ["cuff", "badge"],
            "tools": ["knife"],
            "text": "Cut with [the knife](tool:knife), mind the [blade](caution:blade).",
            "time": "30 min",
        },
        {
            "id": "glue",
            "title": "Glue the cuff",
            "stage": "gluing",
            "process": "cementing",
            "parts": ["cuff", "badge"],
            "needs": ["cut"],
            "uses": [{"material": "cement", "glue": ["close"], "note": "both faces"}],
            "seams": ["close"],
            "stacks": ["badge-on-cuff"],
            "cautions": ["waste"],
            "waive": [{"caution": "fumes", "reason": "No foam is heated."}],
            "text": "Coat both faces. Wait. Press.",
            "time": "1 h 30 min",
            "hands": 2,
            "difficulty": "medium",
            "check": "The seam holds.",
            "trouble": [{"sign": "It opens", "cure": "Coat again."}],
        },
        {
            "id": "strap",
            "title": "Cut the strap",
            "stage": "strapping",
            "uses": [{"material": "webbing", "length": 300, "pieces": 2}],
            "text": "Cut two.",
            "time": "5 min",
            "again": "a longer strap",
            "picture": {"file": "strap photo.png", "alt": "A strap on a table"},
        },
    ],
    "wearing": "Not for long.",
    "care": "Wipe it.",
    "questions": [{"ask": "May I sell it?", "answer": "Yes."}],
    "changes": [
        {"version": "1.0", "date": "2026-01-02", "text": "First."},
        {"version": "1.1", "date": "2026-03-04", "text": "Longer cuff.", "parts": ["cuff"]},
    ],
    "credits": ["Thanks to all testers"],
}

PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c489"
    "0000000d49444154789c6360606060000000050001a5f645400000000049454e44ae426082"
)
"""A PNG picture of one transparent pixel."""


def drawn(words: str) -> Drawing:
    """A drawing with a title, as the pictures stage makes them."""
    frame = Rectangle(5, 5, 70, 30, Stroke(0.5))
    return Drawing(80, 40, words, "", (frame,))


def rectangle(width: float, height: float) -> Shape:
    """A plate from the origin."""
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    names = ("bottom", "right", "top", "left")
    return Shape(
        tuple(Edge(name, (Line(corners[n], corners[(n + 1) % 4]),)) for n, name in enumerate(names))
    )


def make_kit(size: str, wrist: float) -> Kit:
    """Two cuffs and ten badges, two of them spare."""
    shape = rectangle(wrist + 20, 70)
    cuffs = [
        Piece(
            part="cuff", label=f"A-{side.value[0].upper()}", name="Cuff", side=side, copies=1,
            spares=0, material="foam-5", thickness=5, template=shape, shape=shape, fold="left",
            mirrored=side is Side.RIGHT, measures=(Measure("Length", wrist + 20),),
            grooves=(GrooveCut(40, 3, 2, 2.2, (Line((50, 0), (50, 70)),)),),
        )
        for side in (Side.LEFT, Side.RIGHT)
    ]  # fmt: skip
    badge = Piece(
        part="badge", label="B", name="Badge", side=Side.ANY, copies=10, spares=2,
        material="foam-5", thickness=5, template=rectangle(30, 30), shape=rectangle(30, 30),
        texture="cross-hatch", note="Smooth face up",
    )  # fmt: skip
    layers = (
        LayerPiece("cuff", "Cuff", "foam-5", 5, shape_area(wrist)),
        LayerPiece("badge", "Badge", "foam-5", 5, 900, "in the middle"),
    )
    stack = LayerStack("badge-on-cuff", "Badge on cuff", 3, layers, 2)
    return Kit("cuff", size, (("wrist", wrist),), (), (*cuffs, badge), (), (stack,))


def shape_area(wrist: float) -> float:
    """mm² of a cuff."""
    return (wrist + 20) * 70


def make_materials(cost: float) -> MaterialsList:
    """A sheet, a liquid, a length and two tools."""
    return MaterialsList(
        lines=(
            MaterialLine(
                "foam-5", "Foam sheet, 5 mm", "sheet", "sheets", 1, 1, 1, "cut plan",
                (PackCount("sheet 500 × 500 mm", 1, 1, 5.5),), 0, 5.5, "craft shop", ("cut",),
                "foam of 6 mm", "Both faces smooth.", 37_000,
            ),
            MaterialLine(
                "cement", "Contact cement", "liquid", "ml", 20, 25, 34, "0.1 m² ÷ 4 m²/l",
                (PackCount("tin", 1, 250, 8),), 225, 8, "craft shop", ("glue",),
            ),
            MaterialLine(
                "webbing", "Webbing, 25 mm", "length", "mm", 600, 600, 600, "2 × 300 mm",
                (PackCount("", 1, 5000, 6),), 4400, cost - 13.5, "craft shop", ("strap",),
            ),
        ),
        cuts=(LengthCut("webbing", 300, 2, "strap"),),
        tools=(
            ToolLine("knife", "Craft knife", False, ("cut",), "", "With spare blades."),
            ToolLine("goggles", "Safety goggles", True, ("cut",)),
        ),
        cost=cost,
        weight=240,
    )  # fmt: skip


def make_size(kit: Kit, cost: float) -> SizePlan:
    """One sheet of foam with a cuff on it."""
    placed = (Placed("cuff-left", 1, 10, 10, 0), Placed("badge", 1, 300, 300, 45))
    sheet = CutSheet("sheet 500 × 500 mm", 500, 500, placed, 37_000)
    return SizePlan(kit, (CutPlan("foam-5", 5, (sheet,), 1, "solver"),), make_materials(cost))


@cache
def sample() -> tuple[Content, GuidePlan, GuidePictures]:
    """Content with one guide, its plan and its drawings."""
    guide, stock = Guide.model_validate(GUIDE), Stock.model_validate(STOCK)
    source = Source("sample/guide.yaml", ())
    file = GuideFile("cuff", guide, source, {}, {"strap photo.png": PIXEL})
    content = Content(Site.model_validate(SITE), source, stock, source, (file,), ENGLISH)
    plan = GuidePlan(
        file,
        (make_size(make_kit("S", 160), 19.5), make_size(make_kit("M", 180), 22)),
        gather_cautions(guide, stock),
        plan_time(guide, stock),
    )
    size = SizePictures(
        kit=drawn("All pieces"),
        pieces={"cuff-left": drawn("Cuff"), "badge": drawn("Badge")},
        cut_sheets={"foam-5": (drawn("Sheet 1"),)},
        sections={"badge-on-cuff": drawn("Section")},
        exploded={"badge-on-cuff": drawn("Pulled apart")},
        details={"cuff-left": (drawn("Groove"),)},
    )
    pictures = GuidePictures(
        {"S": size, "M": size},
        drawn("Time line"),
        {code: drawn(f"Sign {code}") for code in ("W022", "P003", "M004")},
        steps={"cut": drawn("Pieces at hand")},
    )
    return content, plan, pictures


@cache
def theme() -> Theme:
    """The theme that comes with the project."""
    return Theme(
        "workshop",
        {path.name: path.read_bytes() for path in sorted(THEME_FOLDER.iterdir()) if path.is_file()},
    )


def downloads() -> dict[str, DownloadInfo]:
    """Files of size M only."""
    return {
        "cuff/M/templates-a4.pdf": DownloadInfo("templates", "M", 840_000, "a4", 12),
        "cuff/M/booklet-letter.pdf": DownloadInfo("booklet", "M", 1_400_000, "letter", 30),
        "cuff/M/materials.csv": DownloadInfo("materials", "M", 2_100),
    }


def home_files(
    content: Content,
    plans: list[GuidePlan],
    pictures: GuidePictures,
    theme: Theme,
) -> dict[str, bytes]:
    """The pages of no guide, for copies of the sample."""
    drawn = {plan.file.id: pictures for plan in plans}
    return render_home(content, site_entries(content, plans, drawn, theme), theme)
