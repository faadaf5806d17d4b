"""An arrow on the template lies along the grain of cloth and wood."""

from guidegen.buildfile.read.trade import trade_stock
from guidegen.geometry.outline.grain import BARB, grain_lines, grain_of
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Edge, Line, LineKind, Shape


def _plate(width: float, height: float) -> Shape:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    run = tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return Shape((Edge("rim", run),))


def test_the_grain_of_each_material() -> None:
    """Along the roll of cloth, along the longer side of wood; none for foam and card."""
    materials = trade_stock().materials
    assert {name: grain_of(materials[name]) for name in ("canvas", "balsa-2", "foam-10", "card-300")} == {
        "canvas": "upright", "balsa-2": "across", "foam-10": None, "card-300": None,
    }  # fmt: skip
    assert grain_of(None) is None


def test_the_arrow_lies_inside_along_the_grain() -> None:
    """Half as long as the piece, beside its middle where the label stands; across it lies level."""
    (line,) = grain_lines(_plate(200, 100), "upright")
    assert line.kind is LineKind.GRAIN
    shaft = line.run[-1]
    assert (segment_start(shaft), segment_end(shaft)) == ((40, 75), (40, 25))
    (line,) = grain_lines(_plate(200, 100), "across")
    assert (segment_start(line.run[-1]), segment_end(line.run[-1])) == ((150, 20), (50, 20))


def test_slim_pieces_have_none() -> None:
    """Where the arrow would be all barb, or nobody asks for it, there is none."""
    assert grain_lines(_plate(200, 3 * BARB), "upright") == []
    assert grain_lines(_plate(200, 100), None) == []
