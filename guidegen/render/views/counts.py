"""Kits of sizes in → how many pieces there are, in words that hold in every size shown."""

from collections.abc import Callable

from guidegen.geometry.pieces.records import Kit
from guidegen.quantities import times_words
from guidegen.render.views.scene import Scene, size_title
from guidegen.words import Words


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
