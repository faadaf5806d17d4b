"""A guide and the kit of one size in → what is seen of the finished thing, made once and kept.

The views are a file of the output: the next press reads them back where nothing that they show has
changed. Further languages draw the same ones with words of their own: what has no words is made for
all of them at once.
"""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from functools import cached_property
from typing import Any

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import (
    NOTHING_SEEN,
    Assembly,
    Contour,
    FinishedSeen,
    JoinSeen,
    Seen,
)
from guidegen.assembly.views.joining import see_joins
from guidegen.assembly.views.model import ModelWords, model_file, say_model
from guidegen.assembly.views.seen import cameras, see
from guidegen.assembly.views.turning import see_around
from guidegen.buildfile.derive.paints import paints_of
from guidegen.buildfile.records.fastening import Strap
from guidegen.buildfile.records.guide import Guide, Layer, Stack
from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.part import Part
from guidegen.buildfile.records.stock import Stock
from guidegen.documents import BY_ID
from guidegen.geometry.pieces.records import Kit, LayerPiece, LayerStack, Piece
from guidegen.pictures.bodies.body import BODY
from guidegen.pictures.bodies.finished import draw_around
from guidegen.pictures.pen.tints import foam_tint
from guidegen.render.text.cache_key import shown_text, words_text
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import AROUND
from guidegen.render.text.svg import svg_file
from guidegen.words import Words

FILE = "finished.json"

WORDS = ("also", "name", "note", "packs", "spoken", "substitutes")

UNSPOKEN = dict.fromkeys(
    (Layer, LayerPiece, LayerStack, Material, Part, Piece, Stack, Strap), WORDS
)
"""What of these is for readers, and in no view."""


@dataclass(frozen=True)
class FinishedLook:
    """What is seen of the finished thing in one size."""

    seen: FinishedSeen = NOTHING_SEEN
    """What stands on pages."""
    files: dict[str, bytes] = field(default_factory=dict)
    """Files of the size's folder by their names, for the next press."""
    documents: dict[str, bytes] = field(default_factory=dict)
    """To take home, by kind: a sheet of all sides, and a model as glTF."""


@dataclass(frozen=True)
class Making:
    """A size, put together once at most, and only where something of it is not kept."""

    guide: Guide
    kit: Kit
    stock: Stock

    @cached_property
    def assembly(self) -> Assembly:
        """All parts at their places."""
        return make_assembly(self.guide, self.kit, self.stock)

    def look(self) -> FinishedSeen:
        """All that stands on pages; nothing where nothing says how the parts sit."""
        return FinishedSeen(self.views(), self.joins())

    def views(self) -> tuple[Seen, ...]:
        """The finished thing from three sides."""
        first, _, last = cameras(self.assembly)
        seen = (see(self.assembly, first), self.cover, see(self.assembly, last))
        return tuple(view for view in seen if view is not None)

    @cached_property
    def cover(self) -> Seen | None:
        """The one at three quarters alone; None where nothing says how the parts sit."""
        assembly = self.assembly
        return see(assembly, cameras(assembly)[1])

    def joins(self) -> Mapping[str, tuple[JoinSeen, ...]]:
        """What there is before and after each step that joins."""
        return see_joins(self.assembly, self.guide, self.kit, self.stock)

    def turned(self) -> tuple[Seen, ...]:
        """A dozen views from all sides."""
        return see_around(self.assembly)

    def around(self, words: Words) -> bytes:
        """Those views as SVG."""
        return self.drawn(self.turned(), words)

    def drawn(self, turned: tuple[Seen, ...], words: Words) -> bytes:
        """Views from all sides as SVG."""
        return svg_file(draw_around(turned, self.kit, words)).encode()

    def model(self) -> bytes:
        """The thing as glTF, before a language names its parts."""
        used = dict.fromkeys(piece.material for piece in self.kit.pieces)
        return model_file(
            self.assembly, {name: foam_tint((*used,), name).fill for name in used}, BODY
        )

    def model_words(self) -> ModelWords:
        """Names in that file."""
        guide, stock = self.guide, self.stock
        names = {name: f"{part.label} {part.name}".strip() for name, part in guide.parts.items()}
        return ModelWords(
            names=names | {name: strap.name for name, strap in guide.straps.items()},
            materials={name: entry.name for name, entry in stock.materials.items()},
            rights=f"{guide.author}, {guide.licence}",
        )


def finish(
    guide: Guide, kit: Kit, stock: Stock, words: Words, cache: DocumentCache
) -> FinishedLook:
    """Views and files of a size, those of the last press where they came from the same."""
    making, sources = Making(guide, kit, stock), _sources(guide, kit, stock)
    data = cache.make(FILE, sources, lambda: written(making.look()))
    seen = read(data)
    if not seen.views:
        del cache.keys[FILE]
        return FinishedLook()

    def around() -> bytes:
        turned = cache.once([AROUND, *sources], lambda: _all_written(making.turned()))
        return making.drawn(_all_read(turned), words)

    def model() -> bytes:
        shape = cache.once([BY_ID["model"].file, *sources], making.model)
        return say_model(shape, making.model_words())

    names = shown_text(kit)
    sides = cache.make(AROUND, [*sources, names, words_text(words)], around)
    told = [*sources, shown_text(making.model_words())]
    in_space = cache.make(BY_ID["model"].file, told, model)
    return FinishedLook(seen, {FILE: data}, {"all-sides": sides, "model": in_space})


def look_once(guide: Guide, kit: Kit, stock: Stock) -> Seen | None:
    """The view at three quarters alone, for a document with room for one; None as before."""
    return Making(guide, kit, stock).cover


def look_around(making: Making, words: Words) -> dict[str, bytes]:
    """The file of all sides by its name, made anew; none where nothing says how its parts sit."""
    return {AROUND: making.around(words)} if making.assembly.sheets else {}


def _sources(guide: Guide, kit: Kit, stock: Stock) -> list[str]:
    """All that the views depend on: the same in all languages."""
    straps = {
        name: (strap, stock.materials.get(strap.material)) for name, strap in guide.straps.items()
    }
    paints = dict(paints_of(guide, stock))
    steps = _steps(guide, stock)
    told = (guide.parts, guide.stacks, guide.fastenings, straps, paints, steps, kit)
    return [guide.kind, shown_text(told, UNSPOKEN)]


def _steps(guide: Guide, stock: Stock) -> list[tuple[object, ...]]:
    """What of the steps says what they join, in their order."""
    joining = {name for name, process in stock.processes.items() if "join" in process.makes}
    return [
        (step.id, step.process in joining, step.parts, step.seams, step.stacks)
        for step in guide.steps
    ]


def written(seen: FinishedSeen) -> bytes:
    """What is seen, as JSON."""
    return json.dumps(asdict(seen), separators=(",", ":")).encode()


def read(data: bytes) -> FinishedSeen:
    """What was written."""
    told = json.loads(data)
    joins = {
        step: tuple(JoinSeen(_seen(one["before"]), _seen(one["after"])) for one in pairs)
        for step, pairs in told["joins"].items()
    }
    return FinishedSeen(tuple(_seen(one) for one in told["views"]), joins)


def _all_written(seen: tuple[Seen, ...]) -> bytes:
    return json.dumps([asdict(one) for one in seen], separators=(",", ":")).encode()


def _all_read(data: bytes) -> tuple[Seen, ...]:
    return tuple(_seen(one) for one in json.loads(data))


def _seen(told: dict[str, Any]) -> Seen:
    values = {field.name: _tuples(told[field.name]) for field in fields(Seen)}
    fills = tuple(
        Contour(fill["name"], _tuples(fill["rings"]), fill["paint"]) for fill in told["fills"]
    )
    return Seen(**{**values, "fills": fills})


def _tuples(value: Any) -> Any:  # noqa: ANN401 - any part of a text in JSON
    """Lists as the tuples that they were."""
    return tuple(_tuples(one) for one in value) if isinstance(value, list) else value
