"""What a talk works in → which of several things of one name is meant: varnish for wood or foam.

Where no word beside a name decides, the materials that the whole talk names do, as long as they
are of one world. The lists by id serve the stock that comes with guidegen. Common practice, no
source.
"""

from collections.abc import Mapping

from guidegen.bench.talks.lexicon import Meant

_WOOD = frozenset({"plywood", "batten", "balsa", "wood-glue"})
_FOAM = frozenset({"foam", "contact-cement", "contact-cement-water", "pad-foam", "foam-clay"})
_CLOTH = frozenset({"canvas", "calico", "thread-strong", "bias-binding", "sewing-machine", "pins"})
_CARD = frozenset({"card", "greyboard", "corrugated", "white-glue", "gummed-tape"})

WORLDS: Mapping[str, frozenset[str]] = {
    "wood-varnish": _WOOD,
    "clear-coat-spray": _FOAM | _CARD,
    "clear-coat-brush": _FOAM | _CARD,
    "template-card": _FOAM | _WOOD | _CLOTH,
    "card-300": _CARD,
    "fabric-scissors": _CLOTH,
    "paper-scissors": _FOAM | _CARD,
}
"""Families of things, with which each is used."""


def of_this_world(found: frozenset[Meant], certain: frozenset[Meant]) -> frozenset[Meant]:
    """Of several things those whose world the talk is in; all of them where it is in several or in
    none, or where one of them is of every world."""
    if not all(named.id in WORLDS for named in found):
        return found
    families = {named.family for named in certain}
    left = frozenset(named for named in found if WORLDS[named.id] & families)
    return left or found
