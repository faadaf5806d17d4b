"""A flattened form in → the page for its author: maps of strain, seams, and what was mended."""

from collections.abc import Iterator

from guidegen.bench.forms.drawn.form_views import form_views
from guidegen.bench.forms.drawn.strain_map import strain_map
from guidegen.bench.forms.flatten import Flattened, is_flagged
from guidegen.bench.forms.pieces import FormPiece, FormSeam
from guidegen.render.site.sizes_page import FigureTable, SizesSection, sizes_page
from guidegen.words import Words


def form_page(found: Flattened, up: str, words: Words) -> bytes:
    """One HTML file with everything in it."""
    flagged = [piece for piece in found.pieces if is_flagged(piece)]
    sections = (
        SizesSection(
            "trust",
            words.say("How far to trust it"),
            trust_words(found, words),
            _tables(found, words),
        ),
        SizesSection(
            "where",
            words.say("Where each piece sits"),
            words.say(
                "The numbers are those of the drawings. A piece that is not seen lies behind "
                "others."
            ),
            drawings=[form_views(found.ground.skin, found.pieces, up, words)],
        ),
        SizesSection(
            "strained",
            words.say("Pieces that need one more seam"),
            words.say(
                "The dashed line is where one more seam helps most. Draw it on the form, or shape "
                "such a piece with heat and try it in scrap foam first."
            ),
            drawings=[strain_map(piece, words) for piece in flagged],
        ),
        SizesSection(
            "maps",
            words.say("What the foam of each piece gives"),
            words.say(
                "Each piece as it is drawn, seen from outside. Where the foam is stretched or "
                "pressed together to take the form, it is darker; figures are per cent."
            ),
            drawings=[strain_map(p, words) for p in found.pieces if p not in flagged],
        ),
    )
    return sizes_page(words.say("Pieces of a form, laid flat"), words.language, sections)


def trust_words(found: Flattened, words: Words) -> str:
    """How far to trust the pieces, in sentences."""
    strain = max(piece.panel.strain.high for piece in found.pieces)
    apart = max((seam.apart for seam in found.seams), default=0.0)
    said = [
        words.say(
            "At 95 of 100 places no piece gives more than {strain} %, and both sides of each seam "
            "are equally long within {apart} mm.",
            strain=words.number(100 * strain, 1),
            apart=words.number(apart, 2),
        )
    ]
    if found.flagged:
        said.append(
            words.many(
                "{n} piece gives more than its foam follows: look at its map.",
                "{n} pieces give more than their foam follows: look at their maps.",
                len(found.flagged),
            )
        )
    if found.unequal:
        ids = words.listed([seam.id for seam in found.unequal])
        said.append(words.say("These seams differ by more than they should: {ids}.", ids=ids))
    said.append(words.say("Fit the pieces in card before you cut foam."))
    return " ".join(said)


def _tables(found: Flattened, words: Words) -> list[FigureTable]:
    tables = [_pieces(found, words)]
    if found.seams:
        tables.append(_seams(found, words))
    if found.notes:
        rows = tuple((note,) for note in found.notes)
        head = (words.say("What was found, with its place in mm"),)
        tables.append(FigureTable(words.say("Mended, added or left out"), head, rows))
    return tables


def _pieces(found: Flattened, words: Words) -> FigureTable:
    head = (
        words.say("Piece"),
        words.say("Size, mm"),
        words.say("Mean strain, %"),
        words.say("At 95 of 100, %"),
        words.say("Worst, %"),
        words.say("With one more seam, %"),
    )
    return FigureTable(words.say("Pieces"), head, tuple(_piece_rows(found.pieces, words)))


def _piece_rows(pieces: tuple[FormPiece, ...], words: Words) -> Iterator[tuple[str, ...]]:
    for piece in pieces:
        wide, high = piece.size
        strain = piece.panel.strain
        more = "" if piece.proposal is None else words.number(100 * piece.proposal.high, 1)
        yield (
            f"{piece.id} ({piece.name})",
            f"{words.number(wide)} × {words.number(high)}",
            *(words.number(100 * value, 1) for value in (strain.mean, strain.high, strain.worst)),
            more,
        )


def _seams(found: Flattened, words: Words) -> FigureTable:
    head = (
        words.say("Seam"),
        words.say("First edge, mm"),
        words.say("Second edge, mm"),
        words.say("Apart, mm"),
        words.say("Turns by"),
        words.say("Least and most"),
    )
    return FigureTable(words.say("Seams"), head, tuple(_seam_rows(found.seams, words)))


def _seam_rows(seams: tuple[FormSeam, ...], words: Words) -> Iterator[tuple[str, ...]]:
    for seam in seams:
        first, second = (".".join(end) for end in seam.ends)
        least, most = seam.turns
        yield (
            f"{seam.id}: {first}, {second}",
            *(words.number(length, 1) for length in seam.lengths),
            words.number(seam.apart, 2),
            words.say("{n}°", n=words.number(seam.turn)),
            words.say("{least}° to {most}°", least=words.number(least), most=words.number(most)),
        )
