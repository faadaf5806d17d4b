"""Harnesses of a guide and one size → straps to cut with their marks; what hangs in the air."""

from collections import Counter
from itertools import accumulate

from guidegen.buildfile.records.constructions.harness import Harness, HarnessStrap
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.widths import too_narrow
from guidegen.geometry.parts.harness import CutHarnessStrap, FittedHarness, HarnessMark
from guidegen.geometry.pieces.records import StrapPiece
from guidegen.problems import did_you_mean

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Letters of places: without I and O, which are taken for figures."""


def fit_harnesses(holding: Holding) -> tuple[FittedHarness, ...]:
    """Every harness of the guide; those whose straps do not hold are told and left out."""
    made = (_fit(holding, name, one) for name, one in holding.file.guide.harnesses.items())
    return tuple(one for one in made if one is not None)


def letter_of(number: int) -> str:
    """A, B, … Z, A1, B1, …"""
    turn, place = divmod(number, len(LETTERS))
    return f"{LETTERS[place]}{turn or ''}"


def _fit(holding: Holding, name: str, harness: Harness) -> FittedHarness | None:
    if not _known(holding, name, harness):
        return None
    letters = {place: letter_of(number) for number, place in enumerate(harness.places)}
    holds = {
        place: holding.number(one.holds, "harnesses", name, "places", place, "holds")
        for place, one in harness.places.items()
    }
    known = {place: value for place, value in holds.items() if value is not None}
    straps = [
        _strap(holding, name, harness, key, letters=letters, holds=known) for key in harness.straps
    ]
    made = [strap for strap in straps if strap is not None]
    if len(known) < len(holds) or len(made) < len(straps):
        return None
    _check_places(holding, name, harness)
    _check_whole(holding, name, harness)
    rows = [one.row for one in harness.places.values() if one.row is not None]
    crossings = [
        place for place, one in harness.places.items() if one.row is None and one.ring is None
    ]
    return FittedHarness(
        name,
        harness.name,
        rows[0].partition(".")[0] if rows else "",
        tuple(made),
        tuple((place, letters[place], one.name) for place, one in harness.places.items()),
        tuple(crossings),
        _hardware(harness),
    )


def _known(holding: Holding, name: str, harness: Harness) -> bool:
    """False, and problems, where a strap goes to a place that the harness does not have."""
    known = True
    for key, strap in harness.straps.items():
        for at, place in enumerate(strap.via):
            if place not in harness.places:
                hint = did_you_mean(place, harness.places)
                message = f'no place "{place}" in this harness{hint}'
                trail = ("harnesses", name, "straps", key, "via", at)
                holding.refuse("unknown-name", message, *trail)
                known = False
    return known


def _strap(
    holding: Holding,
    name: str,
    harness: Harness,
    key: str,
    *,
    letters: dict[str, str],
    holds: dict[str, float],
) -> CutHarnessStrap | None:
    strap = harness.straps[key]
    trail = ("harnesses", name, "straps", key)
    lengths = [holding.asked(one, *trail, "lengths", at) for at, one in enumerate(strap.lengths)]
    more = holding.number(strap.takes_in, *trail, "takes-in")
    sure = [value for value in lengths if value is not None]
    if more is None or len(sure) < len(lengths) or not set(strap.via) <= holds.keys():
        return None
    for at, value in enumerate(sure):
        if value <= 0:
            message = f"expected more than 0 mm, found {value:g}"
            holding.refuse("harness-length", message, *trail, "lengths", at)
            return None
    first, last = holds[strap.via[0]], holds[strap.via[-1]]
    # Marks are counted from the cut end, since nothing else is there to measure from.
    places = [first, *(first + passed for passed in accumulate(sure))]
    length = places[-1] + last + more
    count = 2 if strap.both else 1
    material = strap.material or harness.material
    _check_width(holding, name, harness, strap, material)
    return CutHarnessStrap(
        key,
        strap.name,
        count,
        length,
        tuple(
            HarnessMark(place, letters[place], at)
            for place, at in zip(strap.via, places, strict=True)
        ),
        (first, last),
        more,
        StrapPiece(material, length, count, f"{harness.name}: {strap.name}"),
    )


def _hardware(harness: Harness) -> tuple[tuple[str, int], ...]:
    counts: Counter[str] = Counter()
    for place in harness.places.values():
        if place.ring is not None:
            counts[place.ring] += 2 if place.both else 1
    for strap in harness.straps.values():
        if strap.slider is not None:
            counts[strap.slider] += 2 if strap.both else 1
    return tuple(counts.items())


def _check_width(
    holding: Holding, name: str, harness: Harness, strap: HarnessStrap, material: str
) -> None:
    """A strap lies on its patches and passes its slots in its whole width."""
    for place in (strap.via[0], strap.via[-1]):
        ref = harness.places[place].row
        if ref is not None and (fault := too_narrow(holding, ref, material)):
            holding.refuse("strap-gap", fault, "harnesses", name, "places", place, "row")


def _check_places(holding: Holding, name: str, harness: Harness) -> None:
    """Where straps meet there are at least two of them; what passes a ring is cut there."""
    ends: Counter[str] = Counter()
    passes: Counter[str] = Counter()
    for strap in harness.straps.values():
        many = 2 if strap.both else 1
        for place in (strap.via[0], strap.via[-1]):
            ends[place] += many
        for place in strap.via[1:-1]:
            passes[place] += many
    for place, one in harness.places.items():
        trail = ("harnesses", name, "places", place)
        met = ends[place] + passes[place]
        if one.row is None and met < 2:
            message = f"{met} strap meets nothing here: expected two at least, or a row"
            holding.refuse("harness-loose", message, *trail)
        elif one.row is not None and not met:
            holding.refuse("harness-loose", "no strap goes here", *trail)
        if one.ring is not None and passes[place]:
            message = "a strap passes a ring without a cut: let two straps end in it"
            holding.refuse("harness-ring", message, *trail, "ring")


def _check_whole(holding: Holding, name: str, harness: Harness) -> None:
    """All straps hang together."""
    groups = [set(strap.via) for strap in harness.straps.values()]
    whole = groups.pop(0)
    # Each round takes in what touches it; when none does, the rest hangs apart.
    while near := [group for group in groups if group & whole]:
        whole = whole.union(*near)
        groups = [group for group in groups if group not in near]
    if groups:
        apart = ", ".join(sorted(set().union(*groups)))
        message = f"its straps do not hang together: nothing leads to {apart}"
        holding.refuse("harness-apart", message, "harnesses", name, "straps")
