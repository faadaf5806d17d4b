"""Plans of all sizes in → their comparison, and why one needs more foam, in words."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.layout.buying.compare import SheetChange, SheetUse, compare_sheets
from guidegen.layout.records import SizePlan
from guidegen.quantities import area_words, spent_words, weight_words
from guidegen.render.text.links import size_page
from guidegen.render.views.scene import Scene, size_title
from guidegen.words import Words


@dataclass(frozen=True, slots=True)
class FoamUse:
    """What a size takes of one foam."""

    sheets: str
    """'2 × mat, 1 × craft sheet'; empty for none."""
    pieces: str
    """Area of the pieces, and the share of what is bought."""


@dataclass(frozen=True, slots=True)
class CompareRow:
    """One size."""

    name: str
    href: str
    cost: str
    weight: str
    foams: tuple[FoamUse, ...]
    """In the order of the foams."""


@dataclass(frozen=True, slots=True)
class CompareView:
    """All sizes beside one another."""

    foams: tuple[str, ...]
    """Names of the sheet materials, in the order of the stock."""
    rows: tuple[CompareRow, ...]
    """Smallest first."""
    reasons: tuple[str, ...]
    """Why a size needs more foam than the one before it."""
    prices_of: str


def compare_view(scene: Scene) -> CompareView | None:
    """The comparison of a guide with several sizes; nothing for a single one."""
    plan = scene.plan
    if len(plan.sizes) < 2:
        return None
    uses, changes = compare_sheets(plan.sizes)
    names = {key: entry.name for key, entry in scene.content.stock.materials.items()}
    used = {use.material for use in uses}
    foams = [key for key in names if key in used]
    by_size = {(use.size, use.material): use for use in uses}
    return CompareView(
        tuple(names[key] for key in foams),
        tuple(
            _row(scene, size, [by_size.get((size.size, foam)) for foam in foams])
            for size in plan.sizes
        ),
        tuple(change_words(change, names, scene.words) for change in changes),
        scene.content.site.prices_of,
    )


def _row(scene: Scene, size: SizePlan, uses: list[SheetUse | None]) -> CompareRow:
    words, materials = scene.words, size.materials
    weight = max(materials.weight, materials.finished_weight)
    return CompareRow(
        size_title(size.size, words),
        scene.links.file(size_page(scene.plan.file.id, size.size)),
        spent_words(materials.cost, materials.unpriced, scene.content.site.currency, words),
        weight_words(weight, words) if weight else "",
        tuple(_foam(use, words) for use in uses),
    )


def _foam(use: SheetUse | None, words: Words) -> FoamUse:
    if use is None:
        return FoamUse("", "")
    share = words.percent(use.used)
    pieces = words.say("{area}, {share} used", area=area_words(use.pieces, words), share=share)
    return FoamUse(sheet_words(use), pieces)


def sheet_words(use: SheetUse) -> str:
    """'2 × floor mat, 1 × craft sheet'."""
    return ", ".join(f"{count} × {name}" for name, count in use.sheets)


def change_words(change: SheetChange, names: Mapping[str, str], words: Words) -> str:
    """Why a size needs more foam than the one before, in a sentence or two."""
    before, after = change.before, change.after
    foam, size = names[after.material], size_title(after.size, words)
    smaller = size_title(before.size, words)
    if not before.count:
        return words.say(
            "{size} needs {foam}, which {smaller} does not.", size=size, foam=foam, smaller=smaller
        )
    if after.count == before.count:
        needs = words.say(
            "{size} needs {sheets} instead of {fewer} of {foam}:",
            size=size,
            sheets=sheet_words(after),
            fewer=sheet_words(before),
            foam=foam,
        )
    else:
        needs = words.many(
            "{size} needs {n} sheet instead of {fewer} of {foam}:",
            "{size} needs {n} sheets instead of {fewer} of {foam}:",
            after.count,
            size=size,
            fewer=before.count,
            foam=foam,
        )
    takes = words.say(
        "its pieces take {area}, those of {smaller} {less} ({growth}).",
        area=area_words(after.pieces, words),
        smaller=smaller,
        less=area_words(before.pieces, words),
        growth=f"{'+' if change.growth >= 0 else '−'}{words.percent(abs(change.growth))}",
    )
    return " ".join([needs, takes, *_end(change, smaller, words)])


def _end(change: SheetChange, smaller: str, words: Words) -> list[str]:
    """Whether more foam was unavoidable, or which piece tips it."""
    if change.unavoidable:
        return [words.say("No plan can do with the sheets of {smaller}.", smaller=smaller)]
    if not change.piece:
        return []
    area = area_words(change.piece_area, words)
    return [words.say("What tips it: {piece} ({area}).", piece=change.piece, area=area)]
