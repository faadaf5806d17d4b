"""A guide and the kit of one size in → the finished thing in space."""

from collections.abc import Iterator

from guidegen.assembly.body.figure import make_figure
from guidegen.assembly.placing.belts import buckle_on
from guidegen.assembly.placing.following.harnesses import harnessed
from guidegen.assembly.placing.following.seams import follow
from guidegen.assembly.placing.overlays import (
    along_edge,
    laid_on,
    placement_lines,
    stud_on,
    stud_places,
)
from guidegen.assembly.placing.scene import Placing, side_of, stands_of, worn_of
from guidegen.assembly.placing.spots import ON_ARM, ON_LEG
from guidegen.assembly.placing.standing import stand
from guidegen.assembly.placing.straps import body_surface, lie_on_straps, strapped
from guidegen.assembly.placing.wearing import wear
from guidegen.assembly.records import Assembly, NotPlaced, Solid
from guidegen.buildfile.derive.paints import paints_of
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.vocabulary import LINING
from guidegen.geometry.pieces.records import Kit, Side


def make_assembly(guide: Guide, kit: Kit, stock: Stock | None = None) -> Assembly:
    """Everything that can be placed, and what could not be; belts as `stock` describes them."""
    scene = place_all(guide, kit, stock)
    return Assembly(
        (*(made.sheet for made in scene.made.values()), *scene.straps),
        _limbs(scene) if scene.worn else (),
        tuple(not_placed(scene)),
        tuple(scene.gaps),
        paints_of(guide, stock) if stock is not None else {},
    )


def place_all(guide: Guide, kit: Kit, stock: Stock | None = None) -> Placing:
    """Every sheet that can be placed, with the flat pieces that they were; straps and belts as
    `stock` describes them."""
    worn = any(worn_of(guide, part) for part in guide.parts)
    scene = Placing(guide, kit, make_figure(_body(guide, kit)), kit.names(), worn)
    if worn:
        wear(scene)
    stand(scene)
    _lay_on_others(scene)
    if stock is not None:
        if worn:
            buckle_on(scene, stock)
        if worn and guide.harnesses:
            scene.straps += list(harnessed(scene, stock, body_surface(scene)))
        scene.straps += strapped(scene, stock)
        lie_on_straps(scene)
    return scene


def _body(guide: Guide, kit: Kit) -> dict[str, float]:
    """Measurements in mm; of two sides the larger stands for both arms of the figure."""
    names = kit.names()
    return {name: names[name] for name in (*guide.measurements, *guide.sides) if name in names}


SHOWN_SPACING, SHOWN_AROUND = 12.0, 72
"""mm between rings of a limb that is shown, and points of a ring: coarser than where foam lies on
it, as smooth for the eye. Our choice, looked at."""
ARM, LEG = {"arm", "thumb"}, {"leg", "foot", "trunk"}
"""Limbs that are shown where nothing is worn but on arms, or on legs."""


def _limbs(scene: Placing) -> tuple[tuple[str, Solid], ...]:
    """Limbs that belong to what is worn."""
    places = {
        (worn.on, side_of(made.piece))
        for made in scene.made.values()
        if made.piece.part in scene.guide.parts
        and (worn := worn_of(scene.guide, made.piece.part)) is not None
    }
    figure = scene.figure
    shown = set(figure.limbs)
    for some, kinds in ((ON_ARM, ARM), (ON_LEG, LEG)):
        if places and all(place in some for place, _ in places):
            sides = {side for _, side in places}
            shown = {
                name for name in figure.limbs
                if name.partition("-")[0] in kinds and name.partition("-")[2] in {*sides, ""}
            }  # fmt: skip
    return tuple(
        (name, limb.solid(0, SHOWN_SPACING, SHOWN_AROUND))
        for name, limb in figure.limbs.items()
        if name in shown
    )


def _lay_on_others(scene: Placing) -> None:
    """What lies on parts that are placed, what seams join to them, then what lies on that."""
    done: set[str] = set()
    while True:
        fresh = [key for key in scene.made if key not in done]
        if not fresh:
            if follow(scene):
                continue
            return
        for key in fresh:
            done.add(key)
            _lay_on(scene, key)


def _lay_on(scene: Placing, key: str) -> None:
    base = scene.made[key]
    for placement in scene.part(base.piece.part).placements:
        child = placement.part
        label = scene.part(child).label
        pieces = [
            p
            for p in scene.pieces(child)
            if p.side in (Side.ANY, base.piece.side) or base.piece.side is Side.ANY
        ]
        for number, line in enumerate(placement_lines(base.piece, label)):
            piece = pieces[min(number, len(pieces) - 1)] if pieces else None
            if piece is not None:
                stands = stands_of(scene.guide, child)
                name = f"{child}@{key}" + (f"-{number + 1}" if number else "")
                scene.add(laid_on(base, piece, line, name, behind=bool(stands and stands.behind)))
    rows = [row for row in scene.kit.rows if row.part == base.piece.part and row.laid]
    for row in {row.laid: row for row in rows}.values():
        piece = next(iter(scene.pieces(row.laid)), None)
        if piece is not None:
            for number, at in enumerate(stud_places(base.piece, row.diameter)):
                scene.add(stud_on(base, piece, at, f"{row.laid}@{key}-{number + 1}"))
    for part in scene.guide.parts:
        stands = stands_of(scene.guide, part)
        if stands is not None and stands.on == base.piece.part and stands.along:
            for piece in scene.pieces(part):
                if piece.side is Side.ANY or side_of(piece) == side_of(base.piece):
                    scene.add(along_edge(base, piece, stands.along, f"{part}@{key}"))


def not_placed(scene: Placing) -> Iterator[NotPlaced]:
    """Parts that are not in the picture, and what would bring them there."""
    placed = {made.piece.part for made in scene.made.values()}
    for part, told in scene.guide.parts.items():
        if part in placed:
            continue
        lined = told.lining_of
        if told.shape == LINING and lined in placed:
            yield NotPlaced(part, f"lies behind {lined}, where nobody sees it", hidden=True)
        elif scene.copies_of(part) > 1 and told.worn is not None:
            yield NotPlaced(part, "has several copies, and nothing says how far apart they are")
        else:
            yield NotPlaced(part, "nothing says what it sits on")
