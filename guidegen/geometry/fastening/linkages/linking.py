"""Rows of moving plates of a guide and one size → how far they move, and what ends it.

As in a chain, every joint takes a share of the whole way that goes with its room: what moves most
easily moves first, and none is pressed to its end before all are.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from guidegen.buildfile.records.constructions.linkages import Linkage, LinkJoint
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.linkages.checks import (
    check_hoops,
    check_inner,
    check_pushed,
    check_room,
)
from guidegen.geometry.fastening.linkages.ends import HeldPlate, held_plate
from guidegen.geometry.fastening.linkages.moving import (
    WIDEST,
    angle_that_loses,
    crown_height,
    lost_by_turning,
    most_pushed_up,
)
from guidegen.geometry.pieces.records import FittedLinkage, MovedJoint, StrapPiece

type Kind = Literal["pivots", "slots", "strap"]


@dataclass(frozen=True, slots=True)
class _Numbers:
    """The quantities of a linkage."""

    opens: float
    closes: float
    least: float
    clearance: float
    wraps: float
    gives: float
    holds: float
    overlap: float
    stretch: float
    """Share by which its strap stretches."""


def link_plates(holding: Holding) -> tuple[FittedLinkage, ...]:
    """Every linkage of the guide; those that do not move as they must are told and left out."""
    made = (_fit(holding, name, one) for name, one in holding.file.guide.linkages.items())
    return tuple(one for one in made if one is not None)


def _fit(holding: Holding, name: str, linkage: Linkage) -> FittedLinkage | None:
    numbers = _numbers(holding, name, linkage)
    plates = [
        tuple(
            held_plate(holding, end, "linkages", name, "joints", at, key)
            for key, end in (("first", joint.first), ("second", joint.second))
        )
        for at, joint in enumerate(linkage.joints)
    ]
    if numbers is None or any(None in pair for pair in plates):
        return None
    ends = [(one, two) for one, two in plates if one is not None and two is not None]
    kind = _kind(linkage, ends)
    joints = [
        _joint(holding, joint, pair, numbers, (kind, linkage.profile == "round", ends))
        for joint, pair in zip(linkage.joints, ends, strict=True)
    ]
    joints = _shared(joints, numbers, kind, domed=linkage.profile == "round")
    fitted = FittedLinkage(
        name,
        linkage.name,
        kind,
        linkage.profile == "round",
        tuple(joints),
        (numbers.opens, numbers.closes),
        numbers.least,
        numbers.clearance,
        joints[0].parts[0],
    )
    check_room(holding, name, fitted)
    if kind == "pivots":
        check_hoops(holding, name, linkage, ends, clearance=numbers.clearance, wraps=numbers.wraps)
    check_inner(holding, name, fitted)
    check_pushed(holding, name, fitted, numbers.gives)
    return _strapped(holding, linkage, fitted, ends, numbers)


def _numbers(holding: Holding, name: str, linkage: Linkage) -> _Numbers | None:
    place = ("linkages", name)
    opens = holding.asked(linkage.opens, *place, "opens")
    closes = holding.asked(linkage.closes, *place, "closes")
    keys = ("least", "clearance", "wraps", "gives", "holds")
    plain = [holding.number(getattr(linkage, key), *place, key) for key in keys]
    overlap = 0.0
    if linkage.overlap is not None:
        plain.append(holding.number(linkage.overlap, *place, "overlap"))
        overlap = plain[-1] or 0.0
    sure = [value for value in (opens, closes, *plain) if value is not None]
    if len(sure) < len(plain) + 2:
        return None
    if min(sure) < 0 or not 10 <= sure[4] <= 360:
        key = (
            "wraps"
            if min(sure) >= 0
            else ("opens", "closes", *keys, "overlap")[
                next(at for at, value in enumerate(sure) if value < 0)
            ]
        )
        expected = "10 to 360 degrees" if key == "wraps" else "0 or more"
        holding.refuse("out-of-range", f"expected {expected}", *place, key)
        return None
    material = holding.stock.materials.get(linkage.strap or "")
    stretch = (material.stretch or 0.0) / 100 if material is not None else 0.0
    opening, closing, least, clearance, wraps, gives, hold = sure[:7]
    return _Numbers(opening, closing, least, clearance, wraps, gives, hold, overlap, stretch)


def _kind(linkage: Linkage, ends: list[tuple[HeldPlate, HeldPlate]]) -> Kind:
    if linkage.strap is not None:
        return "strap"
    return "slots" if any(one.slides or two.slides for one, two in ends) else "pivots"


def _joint(
    holding: Holding,
    joint: LinkJoint,
    pair: tuple[HeldPlate, HeldPlate],
    numbers: _Numbers,
    row: tuple[Kind, bool, list[tuple[HeldPlate, HeldPlate]]],
) -> MovedJoint:
    """How far one joint can move, and what ends it."""
    kind, domed, ends = row
    one, two = pair
    outer = 0 if joint.outer == "first" else 1
    reach = max(crown_height(end.spacing, numbers.wraps) for end in pair) if kind == "pivots" else 0
    overlap = numbers.overlap if kind == "strap" else one.beyond + two.beyond
    opens = {"overlap": overlap - numbers.least}
    inner = pair[1 - outer]
    # A plate that lies inside at both its ends has room for both of its neighbours only together.
    shared = sum(inner.row.part in {a.row.part, b.row.part} for a, b in ends)
    closes = {"plates": min(inner.length / shared, pair[outer].length) - overlap}
    if kind == "slots":
        post = min((end.row.diameter for end in pair if not end.slides), default=0.0)
        free = sum(max(0.0, end.slides - post / 2) for end in pair)
        opens["slot"] = closes["slot"] = free
    if kind == "strap":
        if numbers.stretch:
            opens["elastic"] = (one.beyond + two.beyond - overlap) * numbers.stretch
        else:
            # Its strap is cut for what it must open, to a share of all joints.
            opens["strap"] = numbers.opens / len(ends)
        if head := _head(holding, inner):
            clear = inner.beyond - head / 2 - overlap
            # Where the plate covers the heads already at rest, none is in its way.
            if clear >= 0:
                closes["heads"] = clear
    room, limits = [], []
    for ways in (opens, closes):
        limit = min(ways, key=lambda way: ways[way])
        far = max(0.0, ways[limit])
        if kind == "pivots":
            far = angle_that_loses(reach, far, domed=domed)
            limit = "widest" if far >= WIDEST else limit
        room.append(far)
        limits.append(limit)
    return MovedJoint(
        parts=(one.row.part, two.row.part),
        labels=(_label(holding, one), _label(holding, two)),
        beyond=(one.beyond, two.beyond),
        plates=(one.length, two.length),
        thick=(one.thick, two.thick),
        outer=outer,
        reach=reach,
        overlap=overlap,
        room=(room[0], room[1]),
        moves=(0.0, 0.0),
        laps=(overlap, overlap),
        limits=(limits[0], limits[1]),
    )


def _label(holding: Holding, end: HeldPlate) -> str:
    return holding.file.guide.parts[end.row.part].label


def _head(holding: Holding, end: HeldPlate) -> float:
    """mm of the heads that hold a plate's row; 0 where nobody knows."""
    name = f"{end.row.part}.{end.row.name}"
    for one in holding.kit.fastened:
        fastener = holding.stock.materials[one.material].fastener
        if one.row == name and fastener is not None:
            return fastener.head
    return 0.0


def _shared(
    joints: list[MovedJoint], numbers: _Numbers, kind: Kind, *, domed: bool
) -> list[MovedJoint]:
    """The joints with what each of them moves when the whole row moves as it must."""
    shared = []
    for one in joints:
        moves = []
        for way, asked in enumerate((numbers.opens, numbers.closes)):
            room = sum(each.room[way] for each in joints)
            share = one.room[way] / room if room else 1 / len(joints)
            moves.append(asked * share)
        # Half a turn is where the tangent has no end; what asks for so much is told anyway.
        turns = [min(move, WIDEST) for move in moves]
        if kind == "pivots":
            lost = [lost_by_turning(one.reach, turn, domed=domed) for turn in turns]
        else:
            lost = moves
        pushed = 0.0
        if kind == "pivots" and not domed:
            pushed = most_pushed_up(one.reach, one.beyond[1 - one.outer], turns[0])
        laps = (one.overlap - lost[0], one.overlap + lost[1])
        shared.append(replace(one, moves=(moves[0], moves[1]), laps=laps, pushed=pushed))
    return shared


def _strapped(
    holding: Holding,
    linkage: Linkage,
    fitted: FittedLinkage,
    ends: list[tuple[HeldPlate, HeldPlate]],
    numbers: _Numbers,
) -> FittedLinkage:
    """The same with its straps: as long as the open row where they do not stretch."""
    if linkage.strap is None:
        return fitted
    joints = tuple(
        replace(one, between=between)
        for one, between in zip(fitted.joints, _between(fitted, numbers), strict=True)
    )
    rest = sum(sum(one.beyond) - one.overlap for one in joints)
    # Rivets of the middle plates: from the row of one joint to that of the next they stand still.
    inside = sum(_apart(holding, ends[at][1], ends[at + 1][0]) for at in range(len(ends) - 1))
    free = sum(one.between for one in joints)
    length = 2 * numbers.holds + free + inside
    straps = ends[0][0].row.count * holding.worn(ends[0][0].row.part)
    pull = max(0.0, (rest + numbers.opens) / free - 1) * 100 if numbers.stretch and free > 0 else 0
    piece = StrapPiece(linkage.strap, length, straps, linkage.name)
    return replace(fitted, joints=joints, pieces=(piece,), pull=pull)


def _between(fitted: FittedLinkage, numbers: _Numbers) -> Iterator[float]:
    """mm of strap from rivet to rivet at each joint, without pull."""
    for one in fitted.joints:
        rest = sum(one.beyond) - one.overlap
        # Elastic draws the row together to its rest; webbing is slack there, and taut when open.
        yield rest if numbers.stretch else rest + one.moves[0]


def _apart(holding: Holding, one: HeldPlate, other: HeldPlate) -> float:
    """mm between two rows of one plate at its crown; 0 where both joints share a row."""
    if one.row == other.row:
        return 0.0
    return max(0.0, one.length - one.beyond - other.beyond)
