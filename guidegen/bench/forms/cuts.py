"""A mesh and what its author says → the edges along which it is cut, and what was taken out."""

import numpy as np

from guidegen.bench.forms.reading.mending import NO_CUTS, lines_on_edges
from guidegen.bench.forms.records import (
    CutAlong,
    FormWishes,
    Indices,
    Mesh,
    Numbers,
    counted,
    refuse,
)
from guidegen.bench.forms.skin import sharp_keys
from guidegen.bench.forms.topology import Topology, key_ends

SAME_PLACE = 1e-6
"""Of the texture map's unit: nearer places count as one. OBJ files have six decimals."""


def find_cuts(
    mesh: Mesh, wishes: FormWishes, name: str
) -> tuple[CutAlong, Indices, tuple[str, ...]]:
    """What it is cut along, the keys of the edges, and what is to be told. Raises FormError."""
    topology = Topology(mesh.faces)
    for along in _tried(wishes.along):
        notes: tuple[str, ...] = ()
        match along:
            case CutAlong.LINES:
                keys, astray = lines_on_edges(mesh)
                if astray:
                    lines = counted(astray, "drawn line")
                    notes = (f"{lines} left out that do not run along edges of the mesh",)
            case CutAlong.MATERIALS:
                keys = _borders(topology, mesh.materials[:, None, None].astype(float))
            case CutAlong.ISLANDS:
                keys = NO_CUTS if mesh.islands is None else _borders(topology, mesh.islands)
            case CutAlong.SHARP:
                keys = sharp_keys(mesh.points, topology, wishes.sharp)
            case _:
                sharp = sharp_keys(mesh.points, topology, wishes.sharp)
                keys = without_loose_ends(sharp, topology)
        if len(keys) or along is CutAlong.PROPOSAL:
            return along, keys, notes
    lacking = {
        CutAlong.LINES: "no line runs along its edges",
        CutAlong.MATERIALS: "all of it has one material",
        CutAlong.ISLANDS: "it has no texture map, or one that is whole",
        CutAlong.SHARP: f"no edge turns by {wishes.sharp:g} degrees",
    }[wishes.along]
    message = f"cannot be cut along {wishes.along.value}: {lacking}; expected another --along"
    raise refuse("form-no-cuts", name, message)


def _tried(along: CutAlong) -> tuple[CutAlong, ...]:
    """Sharp edges are asked for by name: on a sculpted form they are mostly detail."""
    if along is CutAlong.ANY:
        return (CutAlong.LINES, CutAlong.MATERIALS, CutAlong.ISLANDS, CutAlong.PROPOSAL)
    return (along,)


def _borders(topology: Topology, values: Numbers) -> Indices:
    """Keys of edges on both sides of which faces have other values, by face or by corner."""
    one, two = topology.pairs
    by_corner = np.broadcast_to(values, (len(topology.faces), 3, values.shape[2]))
    flat = by_corner.reshape(-1, values.shape[2])
    ends = 3 * (np.arange(len(flat)) // 3) + (np.arange(len(flat)) + 1) % 3
    # Sides of one edge run opposite ways: the start of one is the end of the other.
    apart = (np.abs(flat[one] - flat[ends[two]]) > SAME_PLACE).any(axis=1)
    apart |= (np.abs(flat[ends[one]] - flat[two]) > SAME_PLACE).any(axis=1)
    bare = np.isnan(flat).any(axis=1)
    apart |= bare[one] != bare[two]
    return np.unique(topology.side_keys[one[apart]])


def without_loose_ends(keys: Indices, topology: Topology) -> Indices:
    """What stays of cuts if those that end inside are taken back to where they branch off."""
    rim = np.unique(key_ends(topology.keys[topology.counts == 1]))
    while len(keys):
        ends = key_ends(keys)
        points, counts = np.unique(ends, return_counts=True)
        loose = np.setdiff1d(points[counts == 1], rim)
        if not len(loose):
            break
        keys = keys[~np.isin(ends, loose).any(axis=1)]
    return keys
