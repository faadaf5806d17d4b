"""Materials: what they are made of, how shops sell them, how far they go."""

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
    Translated,
)
from guidegen.buildfile.yaml.fields import Duration, Id, Model, Quantity


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
