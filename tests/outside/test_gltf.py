"""The model of the finished thing, held against glTF 2.0: schema of its makers, and another reader.

Source: glTF 2.0, Khronos Group (ISO/IEC 12113:2022); its JSON Schema stands in gltf/.
"""

import json
import struct
from pathlib import Path

import numpy as np
import pygltflib
import pytest
from geometry.kit_samples import good_kit, guide_file
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Assembly
from guidegen.assembly.sheets.solids import thickened, volume
from guidegen.assembly.views.model import ModelWords, model_file, say_model

SCHEMAS = Path(__file__).parent / "gltf"
TEXT = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 260, wrist: 160}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube, hand: pair,
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30},
         placements: [{part: badge}]}
  badge: {name: Badge, label: B, material: foam-10, shape: disc, hand: pair,
          dimensions: {diameter: 50}}
"""
WORDS = ModelWords(
    names={"cuff": "A Cuff", "badge": "B Badge"},
    materials={"foam-5": "Foam, 5 mm", "foam-10": "Foam, 10 mm"},
    rights="A. Tester, CC BY 4.0",
)


COLOURS = {"foam-5": "#f1ede3", "foam-10": "#808080"}


def said(assembly: Assembly) -> bytes:
    """Its file in words."""
    return say_model(model_file(assembly, COLOURS, "#eceeee"), WORDS)


@pytest.fixture(scope="module")
def assembly() -> Assembly:
    """Two cuffs with badges on their arms."""
    return make_assembly(guide_file(TEXT).guide, good_kit(TEXT))


@pytest.fixture(scope="module")
def data(assembly: Assembly) -> bytes:
    """Its file."""
    return said(assembly)


@pytest.fixture(scope="module")
def read(data: bytes) -> pygltflib.GLTF2:
    """The same as another library reads it."""
    return pygltflib.GLTF2().load_from_bytes(data)


def chunks(data: bytes) -> list[tuple[bytes, bytes]]:
    """Chunks of a binary glTF by type: 12 bytes of head, then each with length and type (4.4)."""
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    found, at = [], 12
    while at < length:
        size, kind = struct.unpack("<I4s", data[at : at + 8])
        found.append((kind, data[at + 8 : at + 8 + size]))
        at += 8 + size
    return found


def values(read: pygltflib.GLTF2, accessor: int) -> np.ndarray:
    """Numbers of an accessor: 5126 are floats, 5125 whole numbers of 4 bytes (3.6.2.2)."""
    told = read.accessors[accessor]
    view = read.bufferViews[told.bufferView]
    start = view.byteOffset + (told.byteOffset or 0)
    kind = {5126: "<f4", 5125: "<u4"}[told.componentType]
    width = {"SCALAR": 1, "VEC3": 3}[told.type]
    blob = read.binary_blob()[start : start + told.count * width * 4]
    return np.frombuffer(blob, dtype=kind).reshape(told.count, width)


def shape(read: pygltflib.GLTF2, node: pygltflib.Node) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Points, normals and triangles of a node."""
    (part,) = read.meshes[node.mesh].primitives
    points, normals = (
        values(read, getattr(part.attributes, name)) for name in ("POSITION", "NORMAL")
    )
    return points, normals, values(read, part.indices).reshape(-1, 3)


def test_the_file_keeps_the_schema_of_its_makers(data: bytes):
    """Its JSON passes the schema of Khronos; so it fails where a field is wrong, as a check of the
    check; the second chunk holds the numbers."""
    files = {path.name: json.loads(path.read_text()) for path in SCHEMAS.glob("*.schema.json")}
    registry = Registry().with_resources(
        (name, Resource.from_contents(schema)) for name, schema in files.items()
    )
    validator = Draft202012Validator(files["glTF.schema.json"], registry=registry)
    (kind, text), (second, numbers) = chunks(data)
    assert (kind, second) == (b"JSON", b"BIN\0")
    tree = json.loads(text)
    assert [error.message for error in validator.iter_errors(tree)] == []
    assert tree["buffers"][0]["byteLength"] == len(numbers)
    tree["accessors"][0]["componentType"] = "float"
    assert not validator.is_valid(tree)


def test_another_reader_finds_what_was_written(assembly: Assembly, read: pygltflib.GLTF2):
    """Each sheet is a node of its name, in metres, with y upward and the volume of its foam; normals
    have length 1 and look out of it."""
    nodes = {node.name: node for node in read.nodes if node.mesh is not None}
    for sheet in assembly.sheets:
        name = f"{WORDS.names[sheet.part]} ({sheet.key})"
        points, normals, triangles = shape(read, nodes[name])
        solid = thickened(sheet)
        assert points.min(0) * 1000 == pytest.approx(solid.points.min(0), abs=0.02)
        assert points.max(0) * 1000 == pytest.approx(solid.points.max(0), abs=0.02)
        a, b, c = (points[triangles[:, k]].astype(float) for k in range(3))
        litres = (a * np.cross(b, c)).sum() / 6
        assert litres * 1e9 == pytest.approx(volume(solid), rel=2e-3)
        assert np.sqrt((normals**2).sum(1)) == pytest.approx(1, abs=1e-4)
        assert (np.cross(b - a, c - a) * normals[triangles[:, 0]]).sum(1).min() > -1e-9
    arms = {name for name in nodes if name.startswith("body: ")}
    assert arms == {"body: arm-left", "body: arm-right", "body: thumb-left", "body: thumb-right"}


def test_foam_has_its_tint_without_gamma(read: pygltflib.GLTF2):
    """Mid grey #808080 is 0.2159 of full light (IEC 61966-2-1:1999); foam is no metal."""
    looks = {material.name: material.pbrMetallicRoughness for material in read.materials}
    assert set(looks) == {"body", "Foam, 5 mm", "Foam, 10 mm"}
    assert looks["Foam, 10 mm"].baseColorFactor == pytest.approx([0.2159] * 3 + [1], abs=1e-3)
    assert looks["Foam, 10 mm"].metallicFactor == 0
    assert read.asset.copyright == WORDS.rights


def test_the_same_thing_has_the_same_bytes(data: bytes):
    """Put together and written once more, the file is the same to the last byte."""
    assert said(make_assembly(guide_file(TEXT).guide, good_kit(TEXT))) == data
