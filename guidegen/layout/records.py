"""What the layout stage puts out. Lengths in mm, y upward, origin at the lower left."""

from dataclasses import dataclass, replace

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.schedules import Schedule

# Cut plans: pieces on foam sheets.


@dataclass(frozen=True, slots=True)
class Placed:
    """One copy of a piece on a sheet: turned about its own origin, then moved."""

    piece: str
    """Key of the piece."""
    copy: int
    """From 1."""
    x: float
    y: float
    """mm; where the piece's origin comes to lie on the usable area."""
    angle: float
    """degrees, counter-clockwise."""
    flipped: bool = False
    """True where the material has two good faces and the piece lies mirrored (before turning)."""


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet to buy, with what is cut from it."""

    name: str
    """Name of its size in stock."""
    width: float
    height: float
    """mm, usable."""
    placed: tuple[Placed, ...]
    used: float
    """mm² of foam that becomes pieces."""


@dataclass(frozen=True, slots=True)
class CutPlan:
    """All sheets of one material for one size."""

    material: str
    thickness: float
    sheets: tuple[CutSheet, ...]
    least: int
    """A number of sheets that no plan can go below (area bound)."""
    method: str
    """'solver' or 'rows' (the simple plan that always works)."""
    cost: float = 0.0
    """Price of the packs to buy, in the site's currency."""
    least_cost: float = 0.0
    """A price that no plan can go below (area bound)."""

    @property
    def used(self) -> float:
        """Share of the bought area that becomes pieces, 0 to 1."""
        bought = sum(sheet.width * sheet.height for sheet in self.sheets)
        return sum(sheet.used for sheet in self.sheets) / bought if bought else 0.0


# Materials: what to buy.


@dataclass(frozen=True, slots=True)
class PackCount:
    """How many of one pack to buy."""

    name: str
    count: int
    amount: float
    """In the line's unit, of one pack."""
    price: float
    """Of one pack."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """Other packs that cover the same need."""

    material: str
    """Name of another material; empty for the same one."""
    packs: tuple[PackCount, ...]

    @property
    def cost(self) -> float:
        """Price of all packs, in the site's currency."""
        return sum(pack.count * pack.price for pack in self.packs)


@dataclass(frozen=True, slots=True)
class MaterialLine:
    """One line of the bill of materials."""

    material: str
    name: str
    kind: str
    """sheet, liquid, length or count."""
    unit: str
    """Unit of the amounts: 'sheets', 'ml', 'mm' or 'pieces'."""
    low: float
    need: float
    high: float
    """The exact figure, with its spread; equal where nothing is uncertain."""
    basis: str
    """How it was worked out, in words with numbers: '0.42 m² × 2 coats ÷ 8 m²/l + 30 %'."""
    packs: tuple[PackCount, ...]
    left: float
    """What stays over, in the line's unit."""
    cost: float
    shop: str
    """Name of the shop where the list has it bought; empty for wherever it is sold."""
    steps: tuple[str, ...]
    """Ids of the steps that use it."""
    alternative: str = ""
    note: str = ""
    area: float = 0.0
    """mm² of pieces, sheets only."""
    rate: str = ""
    """How far it goes, in words: '3 to 5 m² per litre'; empty where no rate was used."""
    source: str = ""
    """Where the rate is from."""
    others: tuple[Alternative, ...] = ()
    """Other packs that would do as well, the cheapest first."""
    have: float = 0.0
    """What is there already, in the line's unit; offcuts of sheets are in the cut plan."""
    shop_id: str = ""
    """Of the shop, in site.yaml."""
    other_shops: tuple[str, ...] = ()
    """Names of further shops that sell it."""
    priced: bool = True
    """False where nobody has looked up what its packs cost: its cost is 0 and tells nothing."""


@dataclass(frozen=True, slots=True)
class LengthCut:
    """One length to cut from webbing, elastic or tape."""

    material: str
    length: float
    """mm."""
    pieces: int
    note: str


@dataclass(frozen=True, slots=True)
class LengthPiece:
    """One length cut from a pack."""

    start: float
    """mm from the pack's end where cutting begins."""
    length: float
    """mm."""
    note: str
    """What it is for."""


@dataclass(frozen=True, slots=True)
class CutLength:
    """One pack of webbing, elastic or tape, and what is cut from it."""

    name: str
    amount: float
    """mm in the pack."""
    price: float
    pieces: tuple[LengthPiece, ...]
    """In the order of cutting: the longest first, so that a slip spoils the least."""
    left: float
    """mm that stay over, at the end."""
    at_hand: bool = False
    """True for a length that is there already and is not bought."""


@dataclass(frozen=True, slots=True)
class LengthPlan:
    """All packs of one material that is sold by length, with the cuts from each."""

    material: str
    packs: tuple[CutLength, ...]
    cost: float
    """Price of the packs."""
    least_cost: float
    """A price that no plan can go below; equal to the cost where the plan is proven best."""
    least: int
    """A number of packs, were all as long as the longest, that no plan can go below."""
    too_long: tuple[LengthCut, ...] = ()
    """Cuts that no pack is long enough for; they are not in the plan."""


@dataclass(frozen=True, slots=True)
class ToolLine:
    """A tool, and the steps that need it."""

    tool: str
    name: str
    protective: bool
    steps: tuple[str, ...]
    alternative: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class MaterialsList:
    """What one size of one guide needs."""

    lines: tuple[MaterialLine, ...]
    cuts: tuple[LengthCut, ...]
    tools: tuple[ToolLine, ...]
    cost: float
    """Sum of the packs to buy, in the site's currency."""
    weight: float
    """grams of foam in the finished kit."""
    lengths: tuple[LengthPlan, ...] = ()
    """How webbing, elastic and tape are cut, by material, in the order of the lines."""
    finished_weight: float = 0.0
    """grams of the finished kit: foam, and what stays of all else as far as stock.yaml tells."""

    @property
    def unpriced(self) -> int:
        """Lines to buy whose price nobody has looked up: they are not in the cost."""
        return sum(bool(line.packs) and not line.priced for line in self.lines)


# Template pages: pieces on paper.


@dataclass(frozen=True, slots=True)
class Drawn:
    """One template on a template sheet: turned about its own origin, then moved."""

    piece: Piece
    serves: tuple[Piece, ...]
    """All pieces cut with this template: for a pair, left and right."""
    x: float
    y: float
    angle: float
    """degrees, counter-clockwise."""
    flipped: bool = False
    """True for a right-hand template printed mirrored."""


@dataclass(frozen=True, slots=True)
class TemplateSheet:
    """A virtual sheet that is printed as one page, or tiled over several."""

    number: int
    """From 1."""
    width: float
    height: float
    """mm."""
    drawn: tuple[Drawn, ...]
    columns: int
    rows: int


@dataclass(frozen=True, slots=True)
class TemplatePage:
    """One page of paper that shows a window of a template sheet."""

    number: int
    """From 1, over the whole set; the key page is not counted."""
    sheet: int
    column: int
    row: int
    """From 0; row 0 is the top."""
    landscape: bool
    x: float
    y: float
    width: float
    height: float
    """mm; the window on the sheet: what lies inside the page's frame."""
    pieces: tuple[str, ...]
    """Keys of the pieces that need this page."""
    paper_width: float = 0.0
    paper_height: float = 0.0
    """mm; the whole page as it is looked at."""
    mm_square: tuple[float, float] = (0.0, 0.0)
    inch_square: tuple[float, float] = (0.0, 0.0)
    """mm; lower left of the check squares of 50 mm and of 2 in, from the window's lower left;
    below zero in the title strip."""
    strip: float = 0.0
    """mm; height of the title strip between the bottom margin and the window."""
    lane: float = 0.0
    """mm at the left and the foot of the window that are free for check lines; 0: none."""


@dataclass(frozen=True, slots=True)
class TemplateSet:
    """All template pages for one paper."""

    paper: str
    margin_side: float
    margin_end: float
    overlap: float
    """mm that neighbouring windows share."""
    sheets: tuple[TemplateSheet, ...]
    pages: tuple[TemplatePage, ...]
    both_sides: bool = False
    """True where right-hand templates are drawn beside the left-hand ones."""


# Steps in order.


@dataclass(frozen=True, slots=True)
class StepCautions:
    """The cautions of one step, gravest first, each once."""

    step: str
    cautions: tuple[str, ...]
    """Ids in stock."""
    sources: tuple[tuple[str, ...], ...]
    """For each caution, names of the tools, materials and process that bring it."""


NOTHING_TO_BUY = MaterialsList((), (), (), 0.0, 0.0)
"""What a kit needs before its materials are worked out, or where nobody asks for them."""


@dataclass(frozen=True, slots=True)
class SizePlan:
    """The pieces of one size, and all plans for them."""

    kit: Kit
    cut_plans: tuple[CutPlan, ...] = ()
    materials: MaterialsList = NOTHING_TO_BUY
    templates: tuple[TemplateSet, ...] = ()
    """One for each paper."""

    @property
    def size(self) -> str:
        """Name of the size."""
        return self.kit.size


def usual_place(sizes: int) -> int:
    """Which of so many sizes, from 0, stands for all: the middle one, of two the first."""
    return sizes // 2 if sizes > 2 else 0


@dataclass(frozen=True)
class GuidePlan:
    """Everything that was worked out for one guide."""

    file: GuideFile
    sizes: tuple[SizePlan, ...]
    """In the guide's order."""
    cautions: tuple[StepCautions, ...]
    """One for each step, in the guide's order."""
    time_line: Schedule
    """Of one person."""
    teams: tuple[Schedule, ...] = ()
    """One person, then every larger team that is clearly less long at the bench."""

    @property
    def kits(self) -> tuple[Kit, ...]:
        """The pieces of every size, in the guide's order."""
        return tuple(size.kit for size in self.sizes)

    @property
    def usual(self) -> SizePlan:
        """The size that stands for all, the middle one: in facts and on the cover."""
        return self.sizes[usual_place(len(self.sizes))]

    def of_size(self, size: str) -> SizePlan:
        """The plan of a size by its name. Raises KeyError."""
        for plan in self.sizes:
            if plan.size == size:
                return plan
        raise KeyError(size)

    def with_size(self, plan: SizePlan) -> "GuidePlan":
        """The same with another plan for one of its sizes."""
        sizes = tuple(plan if own.size == plan.size else own for own in self.sizes)
        return replace(self, sizes=sizes)
