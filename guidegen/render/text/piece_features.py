"""A piece and its kit in → what there is to do on it beside cutting square, in words."""

from collections import Counter
from collections.abc import Iterator, Mapping
from math import radians, tan

from guidegen.buildfile.records.constructions.inscriptions import InscribedAs
from guidegen.buildfile.records.materials import Material
from guidegen.geometry.pieces.records import Inscribed, Kit, Piece
from guidegen.pictures.pieces.constructions.sewing import pleat_words
from guidegen.pictures.pieces.seam_words import edge_name
from guidegen.quantities import length_words
from guidegen.words import Words


def _edge_end(edge: str, beside: str, words: Words) -> str:
    """An edge, or the end of it that lies beside another."""
    name = edge_name(edge, words)
    if not beside:
        return name
    other = edge_name(beside.removesuffix("-2"), words)
    return f"{name}, {words.say('where it meets {edge}', edge=other)}"


def piece_features(piece: Piece, words: Words) -> list[str]:
    """What the knife has to do beside cutting square, with the measures to check."""
    said = []
    for bevel, beside in (one for edge in piece.shape.bevels for one in edge.at_ends()):
        run = piece.thickness * tan(radians(abs(bevel.angle)))
        bevel_words = {
            "edge": _edge_end(bevel.edge, beside, words),
            "angle": words.number(bevel.angle, 1),
            "length": length_words(run, words),
        }
        said.append(
            words.say(
                "Bevel at {edge}: {angle}° from square, the inner face ends {length} smaller",
                **bevel_words,
            )
            if bevel.direction == "inward"
            else words.say(
                "Bevel at {edge}: {angle}° from square, the outer face ends {length} smaller",
                **bevel_words,
            )
        )
    for groove in piece.grooves:
        said.append(
            words.say(
                "V-groove on the back: {angle}° wide, {depth} deep, mouth {mouth}, {floor} left",
                angle=words.number(groove.fold, 1),
                depth=length_words(groove.depth, words),
                mouth=length_words(groove.mouth, words),
                floor=length_words(groove.floor, words),
            )
        )
    said += [_inscribed_words(one, words) for one in piece.inscribed]
    said += [pleat_words(taken, words) for taken in piece.taken]
    if piece.texture:
        said.append(words.say("Texture: {words}", words=piece.texture))
    return said


def _inscribed_words(one: Inscribed, words: Words) -> str:
    """What is written on a piece, how high, and how it comes there."""
    what = words.say("“{text}”", text=one.words) if one.words else words.say("Emblem")
    said = {"what": what, "height": length_words(one.height, words)}
    match one.how:
        case InscribedAs.MARK:
            text = words.say("{what}, {height} high, drawn on the face", **said)
        case InscribedAs.ENGRAVE:
            text = words.say("{what}, {height} high, engraved", **said)
        case InscribedAs.TRANSFER:
            text = words.say("{what}, {height} high, for transfer from behind", **said)
        case InscribedAs.CUT_OUT:
            text = words.many(
                "{what}, {height} high, cut out, with {n} bridge of {bridge}",
                "{what}, {height} high, cut out, with {n} bridges of {bridge}",
                one.bridges,
                bridge=length_words(one.bridge, words),
                **said,
            )
    return f"{text} {words.say('(drawn mirrored)')}" if one.mirrored else text


def _things(
    piece: Piece, kit: Kit, words: Words, materials: Mapping[str, Material]
) -> Iterator[str]:
    """What sits on its points, and which way magnets look."""
    for row in kit.rows:
        known = materials.get(row.thing)
        if row.part != piece.part or known is None or piece.section:
            continue
        said = {"n": row.count, "thing": known.name}
        if row.pole == "north":
            yield words.say("{n} × {thing}, north pole to its partner", **said)
        elif row.pole == "south":
            yield words.say("{n} × {thing}, south pole to its partner", **said)
        else:
            yield words.say("{n} × {thing}", **said)


def piece_holds(
    piece: Piece, kit: Kit, words: Words, materials: Mapping[str, Material]
) -> Iterator[str]:
    """Holes and slots to cut, equal ones together, things, and edges that a belt is worn over."""
    counts: Counter[tuple[float, float]] = Counter()
    for row in kit.rows:
        # A section has some of the holes of its piece: its template shows which.
        if row.part == piece.part and row.is_hole and not piece.section:
            counts[round(row.diameter, 2), round(row.length, 2)] += row.count
    for (width, length), count in counts.items():
        sizes = {"width": length_words(width, words), "length": length_words(length, words)}
        if length > width:
            yield words.many(
                "{n} slot, {length} long and {width} wide",
                "{n} slots, {length} long and {width} wide",
                count,
                **sizes,
            )
        else:
            yield words.many("{n} hole of {width}", "{n} holes of {width}", count, **sizes)
    for seam in kit.seams:
        if seam.gathers and seam.first.part == piece.part:
            yield words.say(
                "Gathered at {edge}, {ratio} to one: from {long} to {short}",
                edge=edge_name(seam.first.edge, words),
                ratio=words.number(seam.gathers, 2),
                long=length_words(seam.first_length, words),
                short=length_words(seam.second_length, words),
            )
    yield from _things(piece, kit, words, materials)
    for strap in kit.straps:
        over = strap.belt.over if strap.belt else ()
        edges = [edge_name(one.edge, words) for one in over if one.part == piece.part]
        if edges:
            yield words.say("Worn under {strap}: {edges}", strap=strap.name, edges=", ".join(edges))
