"""Runs cut at a spread line in → the runs after the opening, whole and smooth again.

A straight edge between two corners that is cut where both sides move apart in parallel becomes one
straight edge again, as one would true it with a ruler. Other edges are eased (see `spread_ease`)
and bridged.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from guidegen.geometry.drawing.corners import KINK
from guidegen.geometry.grading.spread_bridge import bridge, joined, merged, rounded
from guidegen.geometry.grading.spread_close import Band
from guidegen.geometry.grading.spread_cut import CutSegment, label_sides, runs_of, split_at
from guidegen.geometry.grading.spread_ease import ease
from guidegen.geometry.grading.spread_opening import Opening
from guidegen.geometry.outline.curves import cut_segment, distance, turn_between
from guidegen.geometry.outline.measures import segment_end, segment_start, tangent
from guidegen.geometry.outline.records import Line, Run
from guidegen.geometry.outline.transforms import transform_segment


def carry_run(opening: Opening, run: Run, *, closed: bool) -> Run:
    """A hole or an inner line after the opening."""
    borders = opening.zone.borders() if opening.zone else ()
    bits = split_at(runs_of((merged(run),)), [opening.line, *borders])
    # A hole or a line may lie wholly on one side: the foam around it says on which.
    bits = label_sides(
        bits, opening.line, opening.reach(), closed=closed, otherwise=opening.is_left
    )
    if not any(bit.cut for bit in bits):
        if bits[0].left is not opening.left_moves:
            return run
        return tuple(transform_segment(segment, opening.motion) for segment in run)
    return carry(opening, bits, 1, closed=closed, eased=not closed)[0]


def carry(
    opening: Opening,
    bits: Sequence[CutSegment],
    stretches: int,
    *,
    closed: bool = True,
    strict: bool = False,
    eased: bool = True,
) -> tuple[Run, ...]:
    """Bits after the opening, joined where they were cut, by stretch."""
    if closed and stretches == 1 and bits[0].cut:
        # A ring of one stretch that begins at a cut would have no run before that cut to join to.
        bits = _begin_elsewhere(bits)
    near: dict[int, Band] = {}
    if opening.zone is not None:
        near = opening.zone.near_cuts(bits, closed=closed, strict=strict)
        bits, near = _whole_again(bits, near)
    # One run for each bit, in the same order: all steps below address both by one number, until
    # _assemble joins them.
    moved = [_moved(opening, bit, near.get(index)) for index, bit in enumerate(bits)]
    # Only sides that move apart in parallel keep a straight edge straight; about a hinge it
    # becomes two lines at an angle, which is what was asked for.
    if opening.hinge is None:
        _true_edges(bits, moved, closed=closed)
    # In a closing band edges are led by the band itself.
    if eased and opening.zone is None:
        for index in _inner_cuts(bits, moved):
            if not _at_hinge(opening, bits[index]):
                ease(bits, moved, index)
    return _assemble(opening, bits, moved, stretches, closed=closed)


def _whole_again(
    bits: Sequence[CutSegment], near: dict[int, Band]
) -> tuple[list[CutSegment], dict[int, Band]]:
    """Segments that were split at borders of bands, but lie in none, put together again."""
    kept: list[CutSegment] = []
    bands: dict[int, Band] = {}
    for source, group in groupby(range(len(bits)), key=lambda index: bits[index].source):
        numbers = list(group)
        first = bits[numbers[0]]
        apart = any(index in near for index in numbers) or any(bits[i].cut for i in numbers[1:])
        # Cut at the borders of bands for nothing: the segment as drawn is exact, its pieces put
        # together again are not.
        if source >= 0 and first.origin is not None and not apart:
            kept.append(replace(first, segment=first.origin))
            continue
        for index in numbers:
            if index in near:
                bands[len(kept)] = near[index]
            kept.append(bits[index])
    return kept, bands


def _inner_cuts(bits: Sequence[CutSegment], moved: Sequence[Run]) -> list[int]:
    """Numbers of the bits before which a stretch is cut and not yet whole again."""
    return [
        index
        for index in range(1, len(bits))
        if bits[index].cut
        and bits[index].stretch == bits[index - 1].stretch
        and moved[index]
        and moved[index - 1]
    ]


def _true_edges(bits: Sequence[CutSegment], moved: list[Run], *, closed: bool) -> None:
    """Make straight edges from corner to corner whole: first bit has all, the others nothing."""
    for source, group in groupby(range(len(bits)), key=lambda index: bits[index].source):
        numbers = list(group)
        first, last = numbers[0], numbers[-1]
        cut = any(bits[index].cut for index in numbers[1:])
        if source < 0 or not cut or not isinstance(bits[first].segment, Line):
            continue
        begins = (not closed and first == 0) or _kink(bits, first)
        ends = (not closed and last == len(bits) - 1) or _kink(bits, (last + 1) % len(bits))
        if begins and ends:
            # Both corners have moved with their sides; the edge between them is the line between
            # them.
            whole = Line(segment_start(moved[first][0]), segment_end(moved[last][-1]))
            for index in numbers:
                moved[index] = ()
            moved[first] = (whole,)


def _kink(bits: Sequence[CutSegment], index: int) -> bool:
    """Whether a run turns sharply just before a bit."""
    before, after = bits[index - 1].segment, bits[index].segment
    return abs(turn_between(tangent(before, 1.0), tangent(after, 0.0))) > KINK


def _assemble(
    opening: Opening,
    bits: Sequence[CutSegment],
    moved: Sequence[Run],
    stretches: int,
    *,
    closed: bool,
) -> tuple[Run, ...]:
    runs: list[Run] = [() for _ in range(stretches)]
    for index, bit in enumerate(bits):
        new, before = moved[index], bits[index - 1]
        # Swallowed by a straight edge that was made whole.
        if not new:
            continue
        if index and bit.cut and before.stretch == bit.stretch:
            # Three cases: a cut inside a stretch, a cut at a corner, and no cut.
            runs[bit.stretch] = _rejoin(opening, before, bit, runs[bit.stretch], new)
        elif index and bit.cut:
            _bridge_corner(opening, bit, runs, before.stretch, new)
        else:
            runs[bit.stretch] += new
    if closed and bits[0].cut:
        first = bits[0].stretch
        # The ring began at a cut, so its first stretch has not been joined to the last yet: taken
        # out, it goes back behind the bridge.
        whole, runs[first] = runs[first], ()
        _bridge_corner(opening, bits[0], runs, bits[-1].stretch, whole)
    return tuple(merged(run) for run in runs)


def _at_hinge(opening: Opening, bit: CutSegment) -> bool:
    start = segment_start(bit.segment)
    return opening.hinge is not None and distance(start, opening.hinge) < 1e-6


def _moved(opening: Opening, bit: CutSegment, band: Band | None) -> Run:
    if band is not None and opening.zone is not None:
        return opening.zone.carry(bit.segment, band)
    if bit.left is opening.left_moves:
        return (transform_segment(bit.segment, opening.motion),)
    return (bit.segment,)


def _rejoin(opening: Opening, before: CutSegment, after: CutSegment, run: Run, new: Run) -> Run:
    """Both sides of a cut inside one stretch put together; a smooth edge stays smooth."""
    turn = turn_between(tangent(before.segment, 1.0), tangent(after.segment, 0.0))
    # At the hinge both ends stay together and turn against each other: an edge that was smooth
    # would get a corner that nobody drew.
    if _at_hinge(opening, after) and abs(turn) < KINK:
        return rounded(run, new)
    return joined(run, new)


def _bridge_corner(
    opening: Opening, bit: CutSegment, runs: list[Run], before: int, new: Run
) -> None:
    """A cut through a corner: the corner stays with the side that stays."""
    last = runs[before]
    middle = bridge(
        segment_end(last[-1]), tangent(last[-1], 1.0), segment_start(new[0]), tangent(new[0], 0.0)
    )
    if bit.left is opening.left_moves:
        # The bridge belongs to the stretch whose corner moved away, so that the other keeps its
        # length.
        runs[bit.stretch] = (*middle, *new, *runs[bit.stretch])
    else:
        runs[before] = (*last, *middle)
        runs[bit.stretch] = (*new, *runs[bit.stretch])


def _begin_elsewhere(bits: Sequence[CutSegment]) -> list[CutSegment]:
    """A ring without corners begun in the middle of its first bit, so not at a cut."""
    first = bits[0]
    # Source -1: halves of a segment that must not be taken for it and made whole again.
    early = replace(first, segment=cut_segment(first.segment, 0.0, 0.5), source=-1)
    late = replace(first, segment=cut_segment(first.segment, 0.5, 1.0), cut=False, source=-1)
    return [late, *bits[1:], early]
