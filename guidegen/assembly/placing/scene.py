"""What is being put together: the guide, its kit, the figure, and the sheets placed so far."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from guidegen.assembly.body.figure import BodyFigure
from guidegen.assembly.placing.asking import dimensions_of, names_asked, number
from guidegen.assembly.placing.spots import GIRTHS_OF
from guidegen.assembly.records import NotPlaced, PlacedSheet
from guidegen.assembly.sheets.made import Made
from guidegen.buildfile.records.guide import BodyPlace, Guide, Part, Stands, Worn
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.geometry.pieces.records import Kit, Piece, Side

BACKING = 5.0
"""mm between body and foam where nothing says so: clothes and some padding. Our choice."""


@dataclass
class Placing:
    """A kit on its way into space."""

    guide: Guide
    kit: Kit
    figure: BodyFigure
    names: Mapping[str, float]
    worn: bool = True
    """False for what stands on the ground."""
    made: dict[str, Made] = field(default_factory=dict)
    """By key of the sheet, in the order in which they were placed."""
    under: dict[str, str] = field(default_factory=dict)
    """By key of a sheet, that of the one on which it stands by a seam."""
    straps: list[PlacedSheet] = field(default_factory=list)
    """Straps and cords but for belts."""
    gaps: list[tuple[str, float]] = field(default_factory=list)
    missing: dict[str, NotPlaced] = field(default_factory=dict)

    def number(self, quantity: Expression | None, default: float = 0.0) -> float:
        """The number of a quantity in this size."""
        return number(quantity, self.names, default)

    def dimensions(self, part: str) -> dict[str, float]:
        """Dimensions of a computed shape."""
        return dimensions_of(self.guide, part, self.names)

    def part(self, part: str) -> Part:
        """The part in the build file."""
        return self.guide.parts[part]

    def pieces(self, part: str) -> list[Piece]:
        """Its pieces, sections joined: one, or left and right."""
        return list(self.kit.built(part))

    def copies(self, piece: Piece) -> int:
        """How many of a piece are in the finished thing, on its side."""
        return max(1, piece.copies - piece.spares)

    def copies_of(self, part: str) -> int:
        """The same of a part, on one side."""
        return max((self.copies(piece) for piece in self.pieces(part)), default=0)

    def made_of(self, part: str) -> Iterator[Made]:
        """Sheets of a part that are placed."""
        return (made for made in list(self.made.values()) if made.piece.part == part)

    def add(self, made: Made | None) -> None:
        """Keep a sheet that was placed."""
        if made is not None:
            self.made[made.sheet.key] = made

    def closed(self, made: Made) -> Made:
        """A sheet whose own edges are joined to one another: they close without a wall."""
        points: list[int] = []
        part = made.piece.part
        worn = sum(self.copies(piece) for piece in self.pieces(part))
        for seam in self.kit.seams:
            if seam.first.part == part == seam.second.part and seam.copies == worn:
                for ref in (seam.first, seam.second):
                    points += (int(k) for k in made.mesh.edges.get(ref.edge, ()))
        return replace(made, sheet=replace(made.sheet, welded=tuple(points))) if points else made

    def backing(self, part: str, worn: Worn | None) -> float:
        """mm between the body and the foam of a part."""
        if worn is not None and worn.off is not None:
            return self.number(worn.off)
        own = self.dimensions(part).get("backing", 0.0)
        if own:
            return own
        for stack in self.kit.stacks:
            if stack.backing and stack.layers[0].part == part:
                return stack.backing
        return BACKING


def worn_of(guide: Guide, part: str) -> Worn | None:
    """What of the body a part sits on: as its author says, or as its girths tell."""
    own = guide.parts[part]
    if own.worn is not None:
        return own.worn
    if own.shape in {"tapered-tube", "lame"}:
        asked = names_asked(guide, part, "girth-top", "girth-bottom")
        for place, names in GIRTHS_OF.items():
            if asked & names:
                return Worn(on=place)
    if own.shape == "belt":
        asked = names_asked(guide, part, "girth")
        for place, names in GIRTHS_OF.items():
            if asked & names:
                return Worn(on=place)
    return None


def stands_of(guide: Guide, part: str) -> Stands | None:
    """What a part stands on, as its author says."""
    return guide.parts[part].stands


def side_of(piece: Piece) -> str:
    """Which side of the body a piece is worn on: a single one on the left."""
    return "right" if piece.side is Side.RIGHT else "left"


ORDER = (
    BodyPlace.BACK,
    BodyPlace.CHEST,
    BodyPlace.NECK,
    BodyPlace.CROWN,
    BodyPlace.HEAD,
    BodyPlace.UPPER_ARM,
    BodyPlace.FOREARM,
    BodyPlace.ELBOW,
    BodyPlace.HAND,
    BodyPlace.THIGH,
    BodyPlace.KNEE,
    BodyPlace.SHIN,
    BodyPlace.INSTEP,
    BodyPlace.WAIST,
    BodyPlace.HIP,
    BodyPlace.SHOULDER,
)
"""Order in which places are dressed: what lies under something comes before it."""
