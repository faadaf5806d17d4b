"""Kits of sizes in → how many pieces there are, and those of a step, in words that hold in every
size shown."""

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from itertools import groupby

from guidegen.buildfile.records.guide import Step
from guidegen.geometry.pieces.records import Kit
from guidegen.quantities import times_words
from guidegen.render.views.scene import LinkView, Scene, size_title
from guidegen.words import Words

MOST_NAMED = 10
"""Parts that a step lists by name; more are listed by label. Our choice: two lines on a page."""
LEAST_IN_A_ROW = 3
"""Labels that are said as one, 'A1–A6', from so many."""


@dataclass(frozen=True, slots=True)
class PartView:
    """The pieces of one part, as they lie at hand."""

    labels: tuple[LinkView, ...]
    name: str
    """Empty where a step has so many that their labels must do."""
    count: str
    """'7 times' for more than one of a label."""


def kit_counts(scene: Scene, part: str = "") -> dict[str, tuple[int, int]]:
    """By size: pieces of a part, or of all, and spares beside them.

    Of a part that is cut as left and right only one hand is counted.
    """
    return {kit.size: _counted(kit, part) for kit in scene.kits}


def _counted(kit: Kit, part: str) -> tuple[int, int]:
    pieces = tuple(kit.built(part))[:1] if part else kit.pieces
    spares = sum(piece.spares for piece in pieces)
    return sum(piece.copies for piece in pieces) - spares, spares


def by_size(scene: Scene, counts: dict[str, tuple[int, int]], said: Callable[[int], str]) -> str:
    """'104 pieces and 6 spare'; where sizes differ '6 pieces (XS, S), 7 pieces (M)'.

    `said` makes words of a count.
    """
    words = scene.words
    sizes: dict[str, list[str]] = {}
    for size, (count, spares) in counts.items():
        sizes.setdefault(_with_spares(said(count), spares, words), []).append(size)
    if len(sizes) == 1:
        return next(iter(sizes))
    return ", ".join(
        f"{text} ({', '.join(size_title(size, words) for size in names)})"
        for text, names in sizes.items()
    )


def _with_spares(text: str, spares: int, words: Words) -> str:
    return words.say("{count} and {spares} spare", count=text, spares=spares) if spares else text


def piece_words(scene: Scene) -> str:
    """'104 pieces and 6 spare'; '102 to 110 pieces, by size' where sizes differ."""
    words, counts = scene.words, kit_counts(scene)
    pieces = [count for count, _ in counts.values()]
    if len(set(counts.values())) > 1 and min(pieces) < max(pieces):
        return words.say("{first} to {last} pieces, by size", first=min(pieces), last=max(pieces))
    return by_size(scene, counts, lambda count: words.many("{n} piece", "{n} pieces", count))


def row_words(scene: Scene, part: str) -> str:
    """'2', '64 and 7 spare': pieces of a part for both hands."""
    counts = {}
    for kit in scene.kits:
        pieces = tuple(kit.built(part))
        spares = sum(piece.spares for piece in pieces)
        counts[kit.size] = (sum(piece.copies for piece in pieces) - spares, spares)
    return by_size(scene, counts, str)


def part_words(scene: Scene, part: str) -> str:
    """'64 times and 7 spare'; empty for a piece that is there once, in every size."""
    counts = kit_counts(scene, part)
    if set(counts.values()) <= {(1, 0)}:
        return ""
    return by_size(scene, counts, lambda count: times_words(count, scene.words))


def whole_words(scene: Scene) -> str:
    """'All 104 pieces and 6 spare'."""
    words = scene.words
    counts = kit_counts(scene)
    return by_size(
        scene, counts, lambda count: words.many("The only piece", "All {n} pieces", count)
    )


def part_views(scene: Scene, step: Step) -> tuple[PartView, ...]:
    """The pieces of a step's parts, with how many of each there are in the size.

    On paper many parts are said by the first and the last of a row of labels: the list of pieces
    has their counts.
    """
    kit = scene.kit
    parts = [part for part in step.parts if any(kit.built(part))]
    if scene.paper and len(step.parts) > MOST_NAMED:
        labels = {piece.part: scene.guide.parts[piece.part].label for piece in kit.pieces}
        return tuple(_row_view(scene, row) for row in label_rows(labels, parts))
    views = []
    for part in parts:
        pieces = tuple(kit.built(part))
        href = scene.links.to("piece", part)
        views.append(
            PartView(
                tuple(LinkView(piece.label, href) for piece in pieces),
                pieces[0].name if len(step.parts) <= MOST_NAMED else "",
                part_words(scene, part),
            )
        )
    return tuple(views)


def whole_kit(scene: Scene, step: Step) -> str:
    """'All 104 pieces and 6 spare' where a step works on every part; empty otherwise."""
    kit = scene.kit
    if len(kit.pieces) < 2 or {piece.part for piece in kit.pieces} - set(step.parts):
        return ""
    return whole_words(scene)


def label_rows(labels: Mapping[str, str], here: Collection[str]) -> list[tuple[str, ...]]:
    """Parts that lie at hand in the order of their labels; a row of several where the kit has no
    part between them that is not at hand.

    `labels` are those of all parts of the kit.
    """
    order = sorted(labels, key=lambda part: label_order(labels[part]))
    rows: list[tuple[str, ...]] = []
    for (_, at_hand), group in groupby(
        order, key=lambda part: (label_order(labels[part])[0], part in here)
    ):
        row = tuple(group)
        if at_hand:
            rows += [row] if len(row) >= LEAST_IN_A_ROW else [(part,) for part in row]
    return rows


def label_order(label: str) -> tuple[str, int, str]:
    """Letters, number and what follows, so that A10 comes after A9."""
    found = re.match(r"([^0-9]*)([0-9]*)(.*)", label, re.DOTALL)
    letters, number, rest = found.groups() if found else (label, "", "")
    return letters, int(number or 0), rest


def _row_view(scene: Scene, row: tuple[str, ...]) -> PartView:
    labels = [scene.guide.parts[part].label for part in row]
    words = labels[0] if len(row) == 1 else f"{labels[0]}–{labels[-1]}"
    return PartView((LinkView(words, scene.links.to("piece", row[0])),), "", "")
