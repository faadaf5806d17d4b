"""Guides in → all things that readers may look up by name, as a script for the page of searching.

The search of texts finds every note about a thing; this list finds the thing itself, by its name
and by its other words. It is a script, not data, so that it can be read from a disc as well.
"""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from guidegen.buildfile.read.content import Content
from guidegen.render.text.links import GLOSSARY, anchor
from guidegen.render.views.scene import Scene
from guidegen.words import Words, msg

KINDS = {
    "process": msg("Technique"),
    "tool": msg("Tool"),
    "material": msg("Material"),
    "piece": msg("Piece"),
    "step": msg("Step"),
    "caution": msg("Caution"),
    "term": msg("Word of the trade"),
}
"""What there is to look up, in the order in which equals are found: the way to do it, what it
takes, what it makes, what is said of it."""
OF_ONE_GUIDE = frozenset({"piece", "step"})
"""Kinds that no two guides share: equal names are different things."""
MOST_PLACES = 4
"""Guides that are named with a thing of many. Our choice: one reads a line, not a list."""
MOST_OWN = 3000
"""Pieces and steps of all guides. Our choice, for some 200 kB: beyond, the search of texts has
them, and the list keeps what guides share."""


@dataclass(frozen=True)
class Thing:
    """What readers may look up."""

    kind: str
    name: str
    also: tuple[str, ...]
    """Other words for it."""
    href: str
    """From the first page of the language."""


class Listing(Protocol):
    """What the list must know of a guide."""

    @property
    def title(self) -> str:
        """Of the guide."""

    @property
    def things(self) -> tuple[Thing, ...]:
        """All that its pages describe."""


def guide_things(scene: Scene) -> tuple[Thing, ...]:
    """All things of a guide that have a place; the links of the `scene` begin at the first page."""
    stock, guide = scene.content.stock, scene.guide
    named = (
        [("process", key, item.name, item.also) for key, item in stock.processes.items()]
        + [("tool", key, item.name, item.also) for key, item in stock.tools.items()]
        + [("material", key, item.name, item.also) for key, item in stock.materials.items()]
        + [("piece", key, part.name, part.also) for key, part in guide.parts.items()]
        + [
            ("step", step.id, f"{number}. {step.title}", ())
            for number, step in enumerate(guide.steps, 1)
        ]
        + [("caution", key, item.title, ()) for key, item in stock.cautions.items()]
    )
    found = ((kind, key, name, also, scene.links.to(kind, key)) for kind, key, name, also in named)
    return tuple(Thing(kind, name, also, href) for kind, _, name, also, href in found if href)


def things_script(content: Content, entries: Sequence[Listing]) -> bytes:
    """The list of a site: kinds in words, titles of guides, and things with where they stand."""
    rows = list(_rows(content, entries))
    own = sum(row[0] in OF_ONE_GUIDE for row in rows)
    if own > MOST_OWN:
        rows = [row for row in rows if row[0] not in OF_ONE_GUIDE]
    kinds = list(KINDS)
    data = {
        "kinds": _kind_words(content.words),
        "guides": [entry.title for entry in entries],
        "things": [[kinds.index(kind), *rest] for kind, *rest in rows],
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return f"globalThis.thingsOfSite={text};\n".encode()


def _kind_words(words: Words) -> list[str]:
    return [words.say(kind) for kind in KINDS.values()]


def _rows(
    content: Content, entries: Sequence[Listing]
) -> Iterator[tuple[str, str, list[str], list[tuple[int, str]]]]:
    """Kind, name, other words, and the first places: number of the guide (-1: none), address."""
    shared: dict[tuple[str, str, tuple[str, ...]], list[tuple[int, str]]] = {}
    for number, entry in enumerate(entries):
        for thing in entry.things:
            place = (number, thing.href)
            if thing.kind in OF_ONE_GUIDE:
                yield thing.kind, thing.name, list(thing.also), [place]
            else:
                shared.setdefault((thing.kind, thing.name, thing.also), []).append(place)
    for key, term in content.stock.terms.items():
        shared["term", term.term, ()] = [(-1, f"{GLOSSARY}#{anchor('term', key)}")]
    for (kind, name, also), places in shared.items():
        yield kind, name, list(also), places[:MOST_PLACES]
