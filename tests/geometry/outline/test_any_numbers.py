"""Whatever numbers an author writes, a shape becomes sound pieces or problems, never a crash."""

import pytest
from geometry.kit_samples import guide_file, stock
from geometry.shapes.test_shapes import dimensions
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.measures import run_area
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import has_errors

factors = st.sampled_from([-1.0, 0.0, 0.01, 0.3, 0.5, 0.9, 1.0, 1.1, 2.0, 3.7, 50.0, 1e5])
"""What an example's dimensions are multiplied with."""


@pytest.mark.parametrize("name", SHAPES)
@settings(max_examples=12, deadline=None)
@given(data=st.data())
def test_any_dimensions_make_pieces_or_problems(name, data):
    """Dimensions, allowances and bevels of every size are cut soundly or refused in words."""
    kind = SHAPES[name]
    values = dimensions(name)
    for dimension in data.draw(st.lists(st.sampled_from(sorted(values)), max_size=3, unique=True)):
        values[dimension] = values[dimension] * data.draw(factors) or data.draw(factors)
    half = bool(kind.half_edges) and data.draw(st.booleans())
    edges = [e for e in (kind.half_edges if half else kind.edges[:12]) if e != "centre"]
    wide = data.draw(st.dictionaries(st.sampled_from(edges), st.floats(0, 40), max_size=4))
    tilted = data.draw(st.dictionaries(st.sampled_from(edges), st.floats(0, 75), max_size=3))
    part = {
        "name": "Part",
        "label": "P",
        "material": "foam-10",
        "shape": name,
        "dimensions": values,
        "hand": data.draw(st.sampled_from(["one", "pair"])),
        "allowances": {edge: {"kind": "seam", "width": width} for edge, width in wide.items()},
        "bevels": {e: {"angle": angle, "direction": "inward"} for e, angle in tilted.items()},
        "grooves": [{"fold": 30, "at": data.draw(st.sampled_from([0, 15, 400]))}],
    }
    if half:
        part["on-fold"] = "centre"
    kit, problems = make_kit(guide_file(f"parts: {{p: {written(part)}}}\n"), stock(), "one-size")
    assert (kit is None) == has_errors(problems)
    for piece in kit.pieces if kit else ():
        assert fault_of(piece.shape) is None
        assert run_area(piece.shape.ring()) > 0
        assert run_area(piece.template.ring()) > 0


def written(value):
    """A value in YAML's flow style."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {written(v)}" for key, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    return f"{value:.6f}" if isinstance(value, float) else str(value)
