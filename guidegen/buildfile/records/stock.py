"""What guides of one site share: materials, tools, processes, cautions, rules of order."""

from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.constructions.circuits import Light, PowerCell
from guidegen.buildfile.records.constructions.things import Footprint, with_amounts
from guidegen.buildfile.records.fastening import Fastener
from guidegen.buildfile.records.meanings import (
    CautionRef,
    CodeText,
    ForAuthor,
    Prose,
    ShopRef,
    ToolRef,
    Translated,
)
from guidegen.buildfile.records.motions import Motion
from guidegen.buildfile.records.musts import Makes, Must, OrderRule
from guidegen.buildfile.records.steps import Sequence, Stage
from guidegen.buildfile.yaml.fields import Duration, Id, Model, Quantity


class SignalWord(StrEnum):
    """Signal words of ANSI Z535.6 and ISO 3864-2, gravest first."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


class Young(StrEnum):
    """Who may do work that brings a caution, least strict first. Local rules come before it."""

    MAY = "may"
    """Young people too."""
    WATCHED = "watched"
    """Young people only with a competent adult beside them."""
    ADULTS = "adults"
    """Adults only."""


class Reader(StrEnum):
    """Whom a caution addresses."""

    ALL = "all"
    """Whoever does the step."""
    LEADER = "leader"
    """Whoever leads a group: it stands on the leader's paper and in the safety chapter alone."""


SignCode = Literal[
    "M004", "M009", "M011", "M016", "M017", "M021", "M055",
    "P002", "P003",
    "W001", "W012", "W017", "W021", "W022", "W071",
]  # fmt: skip
"""ISO 7010 signs that guidegen draws."""


class RoomNeed(StrEnum):
    """What a room must have for some work. Common practice, no source; local rules come first."""

    AIR = "air"
    """Fresh air: outdoors, extraction, or windows open on two sides."""
    SOCKET = "socket"
    """A socket for each of the tool."""
    WATER = "water"
    """Running water."""
    HEATPROOF = "heatproof"
    """A place that heat does not harm, away from everything that burns."""


class Caution(Model):
    """One safety message: what may happen, what then, how to avoid it."""

    word: SignalWord
    """Signal word after ANSI Z535.6: how grave the harm is."""
    title: Translated
    """A few words to find it by, such as 'Sharp blade'."""
    short: Translated | None = None
    """What to do, in at most 60 letters: the line before every action that it belongs to. Without
    it the whole caution stands there."""
    hazard: Translated
    """What is dangerous about it."""
    consequence: Translated
    """What happens if it is not avoided."""
    avoid: Translated
    """What to do so that it does not happen."""
    signs: tuple[SignCode, ...] = ()
    """ISO 7010 signs to draw beside it."""
    first_aid: Translated | None = None
    """One line that sends to the label, the safety data sheet and professional help."""
    statements: tuple[CodeText, ...] = ()
    """Codes of official hazard and precaution statements, such as H225."""
    protection: tuple[ToolRef, ...] = ()
    """Protective equipment, ids of tools."""
    reader: Reader = Reader.ALL
    """Whom it addresses."""
    young: Young = Young.MAY
    """Whether young people may do such work; for workshops and schools."""
    words: tuple[ForAuthor, ...] = Field((), max_length=40)
    """Words in a step's text, or in the name of a tool, that speak of this hazard: proof tells
    where they stand and the caution does not. In the language of the build files."""
    no_protection: Translated | None = None
    """Why no equipment helps, where DANGER or WARNING names none."""
    room: tuple[RoomNeed, ...] = ()
    """What a room must have for work that brings it; for workshops."""


class MaterialKind(StrEnum):
    """How a material is sold and counted."""

    SHEET = "sheet"
    LIQUID = "liquid"
    LENGTH = "length"
    COUNT = "count"


class Stuff(StrEnum):
    """What a sheet material is made of: words, signs and usual steps differ by it."""

    FOAM = "foam"
    CARD = "card"
    """Card, board and paper."""
    CLOTH = "cloth"
    """Cloth, felt and leather: it is sewn."""
    WOOD = "wood"
    """Wood and plywood."""
    FILM = "film"
    """Plastic film and sheet."""


class SheetSize(Model):
    """One size in which a sheet material is sold."""

    name: Translated
    """As the shop calls it, without a brand."""
    width: Quantity
    """mm; of the usable area, or with `interlock` of the whole mat."""
    height: Quantity
    """mm; of the usable area, or with `interlock` of the whole mat. With `by`, of the longest piece
    that is cut off the roll."""
    by: Quantity | None = None
    """mm: sold off a roll of this `width`, in any multiple of so much, each at the `price`."""
    interlock: Quantity = Field(default=0, validate_default=True)
    """mm that the teeth of a floor mat take on each side: nothing is cut from them."""
    pack: int = Field(1, ge=1, le=1000)
    """Sheets in one pack."""
    price: float | None = Field(None, ge=0, le=100_000)
    """Price of one pack in the site's currency: an estimate. Left out where nobody has looked it
    up: then all packs of a material have none, and lists say so."""

    @model_validator(mode="after")
    def _off_a_roll(self) -> Self:
        if self.by is not None and (self.pack > 1 or str(self.interlock) != "0"):
            raise ValueError('what is cut off a roll "by" the length has no pack and no interlock')
        return self

    def usable(self) -> tuple[float, float]:
        """Width and height in mm of what pieces are cut from. Raises ExpressionError."""
        teeth = 2 * self.interlock.value({})
        return self.width.value({}) - teeth, self.height.value({}) - teeth


class Pack(Model):
    """One size in which a liquid, a length or a counted thing is sold."""

    amount: float = Field(0.0, ge=0, le=1_000_000)
    """ml for liquids, mm for lengths, pieces for counted things."""
    grams: float = Field(0.0, ge=0, le=1_000_000)
    """g of a liquid or clay that is sold by weight, in place of the amount: its `density` says how
    many ml that is."""
    price: float | None = Field(None, ge=0, le=100_000)
    """Price of one pack in the site's currency: an estimate. Left out where nobody has looked it
    up: then all packs of a material have none, and lists say so."""
    name: Translated | None = None
    """As the shop calls it, without a brand."""


class Rate(Model):
    """How far a material goes, with its spread and where the figure comes from."""

    per: Literal["area", "length"] = "area"
    """area: the figures are m² of one face and coat; length: m of bead, seam or cut."""
    likely: float = Field(gt=0)
    """m² or m that one litre does, or one piece of a counted thing: a glue stick, a blade."""
    low: float = Field(gt=0)
    """The least that one may count on."""
    high: float = Field(gt=0)
    """The most that one may hope for."""
    source: Translated
    """Where the figures come from, or 'common practice'."""
    loss: float = Field(0.0, ge=0, le=2)
    """Share lost to overspray and on the bench: 0.3 means 30 % more is used. What stays in each
    brush and cup is told with the tool (`holds`)."""

    @model_validator(mode="after")
    def _ordered(self) -> "Rate":
        if not self.low <= self.likely <= self.high:
            raise ValueError("expected low <= likely <= high")
        return self


class Material(Model):
    """Something that is used up or stays in the finished thing."""

    name: Translated
    """Without a brand."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it, such as "respirator" for a mask: readers find it by them."""
    spoken: tuple[ForAuthor, ...] = Field((), max_length=60)
    """What people call it when they talk, for worksheets of talks; things may share a word."""
    kind: MaterialKind
    """How it is sold: sheet, liquid, length or count."""
    made_of: Stuff = Stuff.FOAM
    """What a sheet is made of: foam, card, cloth, wood or film. Usual steps find their parts by it,
    and documents call it so."""
    shops: tuple[ShopRef, ...] = Field((), max_length=10)
    """Shops of site.yaml that sell it, the best first: lists send to as few of them as will do."""
    thickness: Quantity | None = None
    """mm; of a sheet, of webbing, of mated tape."""
    width: Quantity | None = None
    """mm; of webbing, elastic, tape, and of felt and padding that come in rolls."""
    stretch: float | None = Field(None, gt=0, le=300)
    """Per cent by which elastic may be stretched while it is worn."""
    takes: Quantity | None = None
    """mm of a strap's way that a closed buckle or a ring takes up."""
    fastener: Fastener | None = None
    """How a rivet, snap or screw holds layers."""
    footprint: Footprint | None = None
    """What a counted thing covers where it sits: a magnet, a hinge, a printed part."""
    cell: PowerCell | None = None
    """Of a cell for lights, from its data sheet."""
    light: Light | None = None
    """Of a light, from its data sheet."""
    density: float | None = Field(None, gt=0, le=3000)
    """kg/m³: of sheets for the weight of the finished kit, of clay and liquids for `grams`."""
    sheets: tuple[SheetSize, ...] = ()
    """Sizes in which a sheet is sold."""
    spacing: Quantity = Field(default=3, validate_default=True)
    """mm between two pieces in a cut plan, for the knife."""
    rim: Quantity = Field(default=0, validate_default=True)
    """mm kept free along the rim of a sheet."""
    rotation: Literal["any", "quarter", "half", "none"] = "any"
    """How pieces may be turned: grain or printed faces limit it."""
    good_faces: Literal[1, 2] = 1
    """2 when both faces may show, so that a cut plan may flip pieces over."""
    packs: tuple[Pack, ...] = ()
    """Sizes in which all but sheets are sold."""
    rate: Rate | None = None
    """How far a liquid goes, or one piece of a counted thing that wears or is used up."""
    allowance: Quantity = Field(default=0, validate_default=True)
    """mm added to every cut from a length: ends that are melted, hemmed or turned in."""
    stays: float | None = Field(None, ge=0, le=100_000)
    """g that stay in the finished thing, for its weight: of one ml when dry, of one metre, of one
    piece; left out where nobody knows, 0 for what is taken off again."""
    dries: Duration = Field(default=0, validate_default=True)
    """Glues that dry on both faces before they are joined: the least time for that."""
    tint: CodeText | None = Field(None, pattern=r"^#[0-9a-f]{6}$")
    """Colour that a paint gives, red, green and blue in hex: "#2f5d7c". The finished thing can be
    shown in it."""
    flexible: bool | None = None
    """Glue and coats: whether they still bend when they are dry; left out where nobody knows."""
    spare: float = Field(0.0, ge=0, le=2)
    """Share bought on top: 0.1 means one spare for ten."""
    cautions: tuple[CautionRef, ...] = ()
    """Hazards that come with it."""
    alternative: Translated | None = None
    """What else would do, in words."""
    substitutes: tuple[Id, ...] = Field((), max_length=20)
    """Other sheet materials, from which the same pieces may be cut."""
    note: Prose | None = None
    """What matters when buying."""

    @model_validator(mode="before")
    @classmethod
    def _weighed(cls, given: object) -> object:
        return with_amounts(given)

    @property
    def priced(self) -> bool:
        """Whether it is known what its packs cost."""
        return None not in self._prices()

    def _prices(self) -> set[float | None]:
        return {size.price for size in self.sheets} | {pack.price for pack in self.packs}

    @model_validator(mode="after")
    def _sold(self) -> "Material":
        if self.kind is MaterialKind.SHEET and not (self.sheets and self.thickness):
            raise ValueError("a sheet needs its thickness and the sheets in which it is sold")
        if self.kind is not MaterialKind.SHEET and not self.packs:
            raise ValueError("needs the packs in which it is sold")
        if any(pack.amount <= 0 for pack in self.packs):
            raise ValueError("a pack needs its amount, or its grams and the material's density")
        prices = self._prices()
        if None in prices and len(prices) > 1:
            raise ValueError("expected a price for each pack, or for none of them")
        if self.kind is MaterialKind.LIQUID and self.rate is None:
            raise ValueError("a liquid needs its rate: m² per litre and coat")
        return self


class Tool(Model):
    """Something that is used and kept."""

    name: Translated
    """Without a brand."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it, such as "respirator" for a mask: readers find it by them."""
    spoken: tuple[ForAuthor, ...] = Field((), max_length=60)
    """What people call it when they talk, for worksheets of talks; things may share a word."""
    protective: bool = False
    """True for protective equipment."""
    sign: CodeText | None = None
    """ISO 7010 code of protective equipment."""
    shared_by: int = Field(1, ge=1, le=100)
    """How many people of a class can share one."""
    turns: bool = False
    """True where one person keeps it through a whole step: those who share it take turns."""
    room: tuple[RoomNeed, ...] = ()
    """What a room must have for it; for workshops."""
    holds: float | None = Field(None, gt=0, le=1000)
    """ml of a liquid that stay in one when a step is over: in a brush, a cup, a nozzle. Bought for
    each of them, so for as many as a class uses."""
    cautions: tuple[CautionRef, ...] = ()
    """Hazards that come with it."""
    alternative: Translated | None = None
    """What else would do, in words."""
    note: Prose | None = None
    """What matters when choosing."""


class Process(Model):
    """A kind of work, with what it needs and brings."""

    name: Translated
    """Such as 'Heat forming'."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it, such as "respirator" for a mask: readers find it by them."""
    spoken: tuple[ForAuthor, ...] = Field((), max_length=60)
    """What people call it when they talk, for worksheets of talks; things may share a word."""
    how: Prose
    """The way to do it, for someone who never has."""
    cautions: tuple[CautionRef, ...] = ()
    """Hazards that come with it."""
    tools: tuple[ToolRef, ...] = ()
    """Tools that it always needs."""
    wait: Duration = Field(default=0, validate_default=True)
    """Time in which the work must be left afterwards."""
    from_middle: bool = False
    """True where seams are joined from their middle mark outward: each needs one."""
    motion: Motion | None = None
    """What hands do in it: drawings of its steps show that where it happens."""
    cuts: bool = False
    """True where pieces come into being: before it there is only a sheet."""
    makes: tuple[Makes, ...] = ()
    """What it gives the parts it works on; proof tells parts that need it and never get it."""


class Term(Model):
    """A word of the trade and its meaning."""

    term: Translated
    """As it stands in texts."""
    meaning: Translated
    """In a sentence."""


class Stock(Model):
    """stock.yaml: what the guides of a site share."""

    extends: Literal["trade"] | None = None
    """trade: guidegen's own stock lies under this one, and what stands here comes on top. An entry
    of the same name changes its keys one by one; an empty key takes the shipped one away."""
    materials: dict[Id, Material] = Field(default_factory=dict)
    """By id."""
    tools: dict[Id, Tool] = Field(default_factory=dict)
    """By id."""
    processes: dict[Id, Process] = Field(default_factory=dict)
    """By id."""
    cautions: dict[Id, Caution] = Field(default_factory=dict)
    """By id."""
    rules: tuple[OrderRule, ...] = Field((), max_length=1000)
    """Order of processes on one part, and what never shares a room."""
    musts: tuple[Must, ...] = Field((), max_length=1000)
    """Work that must be there."""
    sequences: dict[Id, Sequence] = Field(default_factory=dict, max_length=200)
    """Steps that are written once and used by parts of any guide."""
    stages: dict[Stage, Translated] = Field(default_factory=dict)
    """What stages are called on this site, where their own names do not fit: gluing: Sewing."""
    terms: dict[Id, Term] = Field(default_factory=dict)
    """Glossary, by id."""
