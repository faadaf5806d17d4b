"""Pieces in → the words of template sheets out: how many to cut, of what, which way round."""

from collections.abc import Mapping, Sequence

from guidegen.geometry.pieces.records import Piece, Side
from guidegen.layout.records import TemplatePage
from guidegen.words import Words

STACK = 6.0
"""mm; thickest stack that one blade cuts square. Common practice, no source."""


def page_name(page: TemplatePage, lang: Words) -> str:
    """A page as its neighbours call it, by the number that its strip and the map show: 'page 4'.

    Never by row and column: A4 is a paper, and may be a piece.
    """
    return lang.say("page {number}", number=page.number)


def label_text(serves: Sequence[Piece]) -> str:
    """Codes of all pieces that a template serves: 'CL CR'."""
    return " ".join(piece.label for piece in serves)


def cut_words(serves: Sequence[Piece], lang: Words, *, flipped: bool = False) -> str:
    """How many to cut, which way round: 'cut 1 as drawn + 1 flipped'."""
    as_drawn = sum(piece.copies for piece in serves if piece.mirrored == flipped)
    turned = sum(piece.copies for piece in serves if piece.mirrored != flipped)
    spares = sum(piece.spares for piece in serves)
    if as_drawn and turned:
        words = lang.say(
            "cut {as_drawn} as drawn + {turned} flipped", as_drawn=as_drawn, turned=turned
        )
    elif serves[0].own and serves[0].side is Side.LEFT:
        words = lang.say("cut {count}, for the left side only", count=as_drawn or turned)
    elif serves[0].own:
        words = lang.say("cut {count}, for the right side only", count=as_drawn or turned)
    else:
        words = lang.say("cut {count}", count=as_drawn or turned)
    return f"{words} ({lang.say('{count} spare', count=spares)})" if spares else words


def stack_words(serves: Sequence[Piece], lang: Words) -> str:
    """A hint for equal thin pieces; empty where they are thick or few."""
    layers = int(STACK // serves[0].thickness) if serves[0].thickness > 0 else 0
    copies = sum(piece.copies for piece in serves)
    # Chosen: two are cut as fast one by one as they are pinned together.
    if layers < 2 or copies < 3:
        return ""
    return lang.say("may be cut in a stack of {count}", count=min(layers, copies))


def half_words(piece: Piece, lang: Words) -> str:
    """What to do with a half on the fold; empty where the template is whole."""
    return lang.say("half: trace, flip over the centre line, trace again") if piece.fold else ""


def foam_words(piece: Piece, materials: Mapping[str, str], lang: Words) -> str:
    """Thickness and material: '5 mm, soft sheet foam'."""
    thick = f"{lang.number(piece.thickness, 1)} mm"
    name = materials.get(piece.material, "")
    if not name:
        return lang.say("{thick} foam", thick=thick)
    # Many materials have their thickness in their name: it is not said twice.
    return name if thick in name else f"{thick} · {name}"


def join_names(names: Sequence[str], lang: Words) -> str:
    """'a', 'a and b', 'a, b and c'."""
    if len(names) < 2:
        return "".join(names)
    return lang.say("{names} and {last}", names=", ".join(names[:-1]), last=names[-1])
