"""A guide and the kit of one size in → what is seen of the finished thing, made once and kept.

The views are a file of the output: the next press reads them back where nothing that they show has
changed, and pages in further languages draw the same ones with words of their own.
"""

import json
from dataclasses import asdict, fields
from typing import Any

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Contour, Seen
from guidegen.assembly.views.seen import VIEWS, see
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import Kit
from guidegen.render.text.cache_key import shown_text
from guidegen.render.text.document_cache import DocumentCache

FILE = "finished.json"


def finished_views(
    guide: Guide, kit: Kit, stock: Stock, cache: DocumentCache
) -> tuple[tuple[Seen, ...], dict[str, bytes]]:
    """The views of a size, those of the last press where it came from the same, and the file that
    keeps them by its name; no file where nothing is seen."""
    data = cache.make(FILE, _sources(guide, kit, stock), lambda: written(look(guide, kit, stock)))
    seen = read(data)
    if seen:
        return seen, {FILE: data}
    del cache.keys[FILE]
    return (), {}


def look(guide: Guide, kit: Kit, stock: Stock) -> tuple[Seen, ...]:
    """The views of a size, made anew; none where nothing says how its parts sit."""
    assembly = make_assembly(guide, kit, stock)
    return tuple(view for camera in VIEWS if (view := see(assembly, camera)) is not None)


def _sources(guide: Guide, kit: Kit, stock: Stock) -> list[str]:
    """All that the views depend on."""
    straps = {
        name: (strap, stock.materials.get(strap.material)) for name, strap in guide.straps.items()
    }
    told = (guide.parts, guide.stacks, guide.fastenings, straps, kit)
    return [guide.kind, shown_text(told)]


def written(seen: tuple[Seen, ...]) -> bytes:
    """Views as JSON."""
    return json.dumps([asdict(one) for one in seen], separators=(",", ":")).encode()


def read(data: bytes) -> tuple[Seen, ...]:
    """Views that were written."""
    return tuple(_seen(one) for one in json.loads(data))


def _seen(told: dict[str, Any]) -> Seen:
    values = {field.name: _tuples(told[field.name]) for field in fields(Seen)}
    fills = tuple(Contour(fill["name"], _tuples(fill["rings"])) for fill in told["fills"])
    return Seen(**{**values, "fills": fills})


def _tuples(value: Any) -> Any:  # noqa: ANN401 - any part of a text in JSON
    """Lists as the tuples that they were."""
    return tuple(_tuples(one) for one in value) if isinstance(value, list) else value
