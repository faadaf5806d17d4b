"""The finished thing in space → a binary glTF file, which programs for models open and turn.

glTF 2.0 (Khronos Group, ISO/IEC 12113:2022): metres, y upward, the front toward +z, as the
assembly has it; colours without gamma. The only module that imports trimesh.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import Assembly, Row, Solid
from guidegen.assembly.sheets.solids import face_normals, thickened

METRE = 1000.0
"""mm."""
ROUGH = 0.9
"""Foam shines little. Our choice."""
BODY, FOAM, PART = "body", "foam: ", "part: "
"""How names begin before a language says them."""
STEP = 1e-5
"""m to which points are rounded: what differs less is no other file."""


@dataclass(frozen=True, slots=True)
class ModelWords:
    """What the file says besides its shapes."""

    names: Mapping[str, str]
    """Of parts, for readers."""
    materials: Mapping[str, str]
    """Names of materials."""
    rights: str
    """Author and licence."""


def model_file(assembly: Assembly, colours: Mapping[str, str], body: str) -> bytes:
    """The thing and the figure in it: a node for each sheet and limb, a material for each foam.

    `colours` are those of materials as "#f1ede3", others are grey; `body` is the figure's. Parts
    and materials are named by their ids; `say_model` says them in words.
    """
    trimesh = _library()
    scene = trimesh.Scene(base_frame="world")
    skin = _material(BODY, body)
    for name, solid in assembly.figure:
        scene.add_geometry(_mesh(solid, skin), node_name=f"body: {name}", geom_name=f"body: {name}")
    foams = {
        sheet.material: _material(f"{FOAM}{sheet.material}", colours.get(sheet.material, "#98a1a5"))
        for sheet in assembly.sheets
    }
    for sheet in assembly.sheets:
        name = f"{PART}{sheet.part} ({sheet.key})"
        mesh = _mesh(thickened(sheet), foams[sheet.material])
        scene.add_geometry(mesh, node_name=name, geom_name=name)
    return bytes(trimesh.exchange.gltf.export_glb(scene, include_normals=True))


def say_model(data: bytes, words: ModelWords) -> bytes:
    """A file of `model_file` with the words of a language: shapes are the same in all."""
    length = int.from_bytes(data[12:16], "little")
    tree = json.loads(data[20 : 20 + length])
    for kind in ("nodes", "meshes"):
        for one in tree[kind]:
            if one.get("name", "").startswith(PART):
                part, _, key = one["name"].removeprefix(PART).partition(" (")
                one["name"] = f"{words.names.get(part, part)} ({key}"
    for one in tree["materials"]:
        if one["name"].startswith(FOAM):
            material = one["name"].removeprefix(FOAM)
            one["name"] = words.materials.get(material, material)
    tree["asset"]["copyright"] = words.rights
    said = json.dumps(tree, separators=(",", ":"), ensure_ascii=False).encode()
    said += b" " * (-len(said) % 4)
    rest = data[20 + length :]
    head = data[:8] + (20 + len(said) + len(rest)).to_bytes(4, "little")
    return head + len(said).to_bytes(4, "little") + data[16:20] + said + rest


def _library() -> Any:  # noqa: ANN401 - trimesh has no types for what is used here
    """trimesh, loaded only where a model is made: it takes half a second."""
    import trimesh.exchange.gltf  # noqa: PLC0415 - heavy, only where a model is made
    import trimesh.visual.material  # noqa: PLC0415 - the same

    return trimesh


def _material(name: str, colour: str) -> Any:  # noqa: ANN401 - trimesh has no types
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    return _library().visual.material.PBRMaterial(
        name=name,
        baseColorFactor=[*(_linear(one) for one in parts), 1.0],
        metallicFactor=0.0,
        roughnessFactor=ROUGH,
    )


def _linear(value: float) -> float:
    """Light of a part of an sRGB colour (IEC 61966-2-1:1999)."""
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _mesh(solid: Solid, material: Any) -> Any:  # noqa: ANN401 - trimesh has no types
    """A solid in metres: smooth within a face, sharp where faces meet, so points there are two."""
    trimesh = _library()
    points, normals, triangles = corners_apart(solid)
    return trimesh.Trimesh(
        np.round(points / METRE / STEP) * STEP,
        triangles,
        vertex_normals=normals,
        visual=trimesh.visual.TextureVisuals(material=material),
        process=False,
    )


def corners_apart(solid: Solid) -> tuple[Row, Row, NDArray[np.int64]]:
    """Points, unit normals and triangles, a point for each face that it belongs to."""
    keys = solid.triangles * 8 + solid.faces[:, None]
    used, triangles = np.unique(keys, return_inverse=True)
    triangles = triangles.reshape(keys.shape)
    normals = np.zeros((len(used), 3))
    each = face_normals(solid.points, solid.triangles)
    for k in range(3):
        np.add.at(normals, triangles[:, k], each)
    length = np.sqrt((normals**2).sum(1, keepdims=True))
    # A point whose triangles have no area looks upward: a normal must have a length.
    normals = np.where(length > 1e-12, normals / np.maximum(length, 1e-12), [0.0, 1.0, 0.0])
    return solid.points[used // 8], normals, triangles
