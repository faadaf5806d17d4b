"""Pieces and seams in → the `parts` and `seams` of a build file that takes their drawings, out."""

import json
from collections.abc import Iterator

from guidegen.bench.forms.flatten import Flattened, is_flagged
from guidegen.bench.forms.pieces import FormPiece, FormSeam
from guidegen.bench.forms.records import FormWishes
from guidegen.bench.forms.topology import unit
from guidegen.units import mm_text

TOLERANCE = 1.0
"""mm by which guides let both sides of a seam differ, unless they say otherwise."""
FLAT = 0.995
"""Length of the mean normal of a piece that stays flat: it turns by about six degrees."""


def parts_text(found: Flattened, material: str, wishes: FormWishes, source: str) -> str:
    """YAML to copy into guide.yaml."""
    return "\n".join(_lines(found, material, wishes, source)) + "\n"


def _lines(found: Flattened, material: str, wishes: FormWishes, source: str) -> Iterator[str]:
    yield f"# Pieces of {_word(source)}, laid flat. Copy the drawings beside your guide.yaml, and"
    yield "# these lines into it; then name the parts, and write the steps that cut and join them."
    if wishes.foam:
        face = wishes.shows or "middle"
        yield f"# Foam of {mm_text(wishes.foam, 1)} mm; the form shows its {face}."
    yield "parts:"
    for number, piece in enumerate(found.pieces, 1):
        yield from _part(found, piece, number, material)
    if found.seams:
        yield "seams:"
        for seam in found.seams:
            yield f"  {seam.id}: {{{', '.join(_seam(seam))}}}"


def _part(found: Flattened, piece: FormPiece, number: int, material: str) -> Iterator[str]:
    if is_flagged(piece):
        strain = f"{100 * piece.panel.strain.high:.1f} %"
        yield f"  # Strains by {strain}: its foam will not follow without one more seam."
    yield f"  {piece.id}:"
    yield f"    name: {_word(piece.name)}"
    yield f"    label: {label_of(piece, number)}"
    yield f"    material: {material}"
    yield "    shape: drawing"
    yield f"    drawing: {piece.id}.svg"
    yield f"    formed: {str(_is_bent(found, piece)).lower()}"
    yield "    edges:"
    for edge in piece.edges:
        yield f"      {edge.name}: {{from: {edge.start}, to: {edge.end}}}"
    if piece.bevels:
        yield "    bevels:"
        for edge_name, angle in piece.bevels:
            way = "inward" if angle > 0 else "outward"
            yield f"      {edge_name}: {{angle: {abs(angle):g}, direction: {way}}}"


def label_of(piece: FormPiece, number: int) -> str:
    """Short code for the template."""
    return f"{piece.id[0].upper()}{number}"


def _is_bent(found: Flattened, piece: FormPiece) -> bool:
    normals = found.ground.skin.normals[piece.panel.faces].reshape(-1, 3)
    mean = unit(normals).mean(axis=0)
    return float((mean @ mean) ** 0.5) < FLAT


def _seam(seam: FormSeam) -> Iterator[str]:
    first, second = (".".join(end) for end in seam.ends)
    yield f"join: [{first}, {second}]"
    # Both pieces lie with their outer face up: their edges run opposite ways, whatever way is up.
    yield "flipped: false"
    if seam.ease:
        yield f"ease: {seam.ease:g}"
    if seam.apart > 0.8 * TOLERANCE:
        yield f"tolerance: {seam.apart + 0.5:.1f}"


def _word(text: str) -> str:
    return json.dumps(" ".join(text.split())[:60], ensure_ascii=False)
