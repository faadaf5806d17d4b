"""A file of a form and its author's wishes → flat pieces and seams, checked, out."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import PurePath

import numpy as np

from guidegen.bench.forms.bevelling import bevelled
from guidegen.bench.forms.cuts import find_cuts
from guidegen.bench.forms.discs import TooManyCuts, make_discs
from guidegen.bench.forms.panels import PanelGround, lay_panels, make_ground
from guidegen.bench.forms.pieces import FormPiece, FormSeam, HowDrawn, make_pieces
from guidegen.bench.forms.proposing import MOST_STRAIN, halved, overlaps, propose, propose_cuts
from guidegen.bench.forms.reading.crossings import TooTangled, crossing_pairs
from guidegen.bench.forms.reading.files import read_form
from guidegen.bench.forms.reading.mending import mended
from guidegen.bench.forms.records import (
    CutAlong,
    FlatPanel,
    FormWishes,
    Mesh,
    Skin,
    Tell,
    at_words,
    counted,
    refuse,
    silent,
)
from guidegen.bench.forms.skin import make_skin

MOST_PANELS = 150
"""Our choice: a form of more pieces is none to build."""
MOST_PROPOSED = 12
"""Panels for which a seam is proposed: each takes as long as to lay it flat."""
CORNER = 30.0
"""degrees by which an outline turns where it gets a corner, unless `sharp` is less."""
AGREE, AGREE_SHARE = 0.5, 0.002
"""mm, or share of the length, by which both sides of a seam may differ."""
UPWARD = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


@dataclass(frozen=True, slots=True)
class Flattened:
    """All that comes of a form."""

    pieces: tuple[FormPiece, ...]
    seams: tuple[FormSeam, ...]
    along: CutAlong
    notes: tuple[str, ...]
    """What was mended, added or left out, with its place."""
    ground: PanelGround
    faces: int
    """Triangles of the file."""

    @property
    def flagged(self) -> tuple[FormPiece, ...]:
        """Pieces that strain too much or fold over."""
        return tuple(piece for piece in self.pieces if is_flagged(piece))

    @property
    def unequal(self) -> tuple[FormSeam, ...]:
        """Seams with sides that differ too much."""
        return tuple(
            seam for seam in self.seams if seam.apart > max(AGREE, AGREE_SHARE * max(seam.lengths))
        )


def is_flagged(piece: FormPiece) -> bool:
    """Whether a piece strains too much to be formed without one more seam."""
    return piece.panel.strain.high > MOST_STRAIN or piece.panel.folded > 0


def flatten(data: bytes, name: str, wishes: FormWishes, tell: Tell = silent) -> Flattened:
    """The flat pieces. Raises FormError, UsageError where no unit is stated."""
    tell("reading")
    mesh = mended(read_form(data, name, wishes.unit), name)
    _refuse_crossing(mesh, name)
    tell("cutting")
    along, cut, told = find_cuts(mesh, wishes, name)
    skin = make_skin(mesh, wishes, cut, name)
    try:
        skin, added = make_discs(skin)
        if along is CutAlong.PROPOSAL:
            skin, _ = propose_cuts(skin, wishes.longest, tell)
    except TooManyCuts:
        message = (
            "it does not fall into a number of pieces that one can build; mark where it is cut"
        )
        raise refuse("form-many", name, message) from None
    ground, panels = _laid(skin, along, name, tell)
    _refuse_overlap(ground, panels, name)
    up = np.array(UPWARD[upward(name, wishes)])
    corner = min(CORNER, wishes.sharp)
    pieces, seams = make_pieces(ground, panels, HowDrawn(mesh.names, up, corner, stem_of(name)))
    pieces = _with_proposals(ground, pieces, tell)
    pieces, seams, failed = bevelled(pieces, seams, wishes.foam)
    notes = (*mesh.notes, *told, *added, *_bevel_notes(failed, seams))
    return Flattened(tuple(pieces), tuple(seams), along, notes, ground, len(mesh.faces))


def upward(name: str, wishes: FormWishes) -> str:
    """The axis that points upward: as said, or as files of the kind mostly have it."""
    return wishes.up or ("y" if name.lower().endswith(".obj") else "z")


def stem_of(name: str) -> str:
    """What the ids of pieces begin with: as the file is called."""
    words = re.findall(r"[a-z0-9]+", PurePath(name).stem.lower())
    return "-".join(words)[:24].strip("-") or "panel"


def _refuse_crossing(mesh: Mesh, name: str) -> None:
    try:
        pairs = crossing_pairs(mesh.points, mesh.faces)
    except TooTangled:
        message = "so many of its faces lie in one another that it is no surface"
        raise refuse("form-crossing", name, message) from None
    if len(pairs):
        where = at_words(mesh.points[mesh.faces[pairs[:, 0]]].mean(axis=1))
        message = (
            f"it passes through itself in {counted(len(pairs), 'place')}, at {where} mm; join its "
            "parts to one surface in your editor"
        )
        raise refuse("form-crossing", name, message)


def _laid(
    skin: Skin, along: CutAlong, name: str, tell: Tell
) -> tuple[PanelGround, list[FlatPanel]]:
    """Panels of the skin; where seams are proposed, more of them until no panel is flagged."""
    for _ in range(4):
        ground = make_ground(skin)
        if int(ground.kinds.max()) + 1 > MOST_PANELS:
            message = f"it falls into more than {MOST_PANELS} pieces; mark fewer seams"
            raise refuse("form-many", name, message)
        panels = lay_panels(skin, tell)
        worst = max(panels, key=lambda panel: panel.strain.high)
        if along is not CutAlong.PROPOSAL or worst.strain.high <= MOST_STRAIN:
            break
        # Equal seams cost a little strain: what came out above the bound is halved once more.
        skin = halved(ground, worst).skin
    return ground, panels


def _refuse_overlap(ground: PanelGround, panels: Sequence[FlatPanel], name: str) -> None:
    for panel in panels:
        if overlaps(panel):
            where = at_words(ground.skin.points[panel.vertices].mean(axis=0)[None])
            message = (
                f"the panel around {where} mm would lie on itself when it is flat; mark one more "
                "seam across it"
            )
            raise refuse("form-overlap", name, message)


def _with_proposals(
    ground: PanelGround, pieces: Sequence[FormPiece], tell: Tell
) -> list[FormPiece]:
    """Flagged pieces with where one more seam would help, the worst ones first."""
    flagged = sorted(
        (piece for piece in pieces if is_flagged(piece)), key=lambda p: -p.panel.strain.high
    )
    chosen = {piece.id for piece in flagged[:MOST_PROPOSED]}
    made = []
    for piece in pieces:
        if piece.id in chosen and len(piece.panel.faces) > 3:
            tell(f"one more seam for {piece.id}")
            made.append(replace(piece, proposal=propose(ground, piece.panel)))
        else:
            made.append(piece)
    return made


def _bevel_notes(failed: Sequence[str], seams: Sequence[FormSeam]) -> list[str]:
    notes = [f"bevels of {one} left out: its edges turn too tightly for them" for one in failed]
    notes += [
        f"{seam.id} turns by {seam.turns[0]:.0f} to {seam.turns[1]:.0f} degrees: its bevel is the "
        "mean, trim it as you fit it"
        for seam in seams
        if abs(seam.turn) >= 10 and seam.turns[1] - seam.turns[0] > 20
    ]
    return notes
