"""All sizes on the same pages: one arrangement that holds every size."""

import pytest
from layout.paper.test_templates import kit_of, outline, pages_of, window
from layout.template_samples import disc, piece, sample_kit
from shapely.ops import unary_union

from guidegen.layout.paper.nested_templates import lay_out_nested

SIZES = (("S", 0.9), ("M", 1.0), ("L", 1.1))


@pytest.fixture(scope="module", params=["a4", "a3", "roll-24in"])
def nested(request):
    """Three sizes of the sample kit."""
    return lay_out_nested([sample_kit(size, factor) for size, factor in SIZES], request.param)


def test_all_sizes_have_the_same_pages(nested):
    """Pages, windows and check squares are the same; only what is needed differs."""
    first = nested[0]
    for other in nested[1:]:
        assert [sheet.number for sheet in other.sheets] == [sheet.number for sheet in first.sheets]
        for one, two in zip(first.pages, other.pages, strict=True):
            assert (one.x, one.y, one.width, one.height) == (two.x, two.y, two.width, two.height)
            assert (one.mm_square, one.inch_square) == (two.mm_square, two.inch_square)
            assert (one.paper_width, one.paper_height) == (two.paper_width, two.paper_height)


def test_every_size_is_printed_whole(nested):
    """The pages that a size names show each of its templates."""
    for templates in nested:
        for sheet in templates.sheets:
            for drawn in sheet.drawn:
                pages = [p for p in pages_of(templates, sheet) if drawn.piece.key in p.pieces]
                assert unary_union([window(page) for page in pages]).covers(outline(drawn))


def test_sizes_lie_corner_on_corner(nested):
    """Before they are turned, all sizes of a template have their lower left in one place."""
    small, _, large = nested
    for one, two in zip(small.sheets, large.sheets, strict=True):
        for a, b in zip(one.drawn, two.drawn, strict=True):
            assert a.piece.key == b.piece.key and a.angle == b.angle
            if a.angle == 0:
                assert outline(a).bounds[:2] == pytest.approx(outline(b).bounds[:2], abs=0.01)


def test_different_templates_keep_their_distance(nested):
    """The largest size of one template stays away from every size of another."""
    for number in range(len(nested[0].sheets)):
        by_key = {}
        for templates in nested:
            for drawn in templates.sheets[number].drawn:
                by_key.setdefault(drawn.piece.key, []).append(outline(drawn))
        areas = {key: unary_union(shapes) for key, shapes in by_key.items()}
        for key, area in areas.items():
            for other, shape in areas.items():
                assert key >= other or area.distance(shape) >= 3.99


def test_a_part_of_one_size_only_is_drawn_for_that_size():
    """A size without a part has no template of it, and needs no page for it."""
    kits = [
        kit_of(piece("a", "A", "A", disc(60))),
        kit_of(piece("a", "A", "A", disc(60)), piece("b", "B", "B", disc(60))),
    ]
    small, large = lay_out_nested(kits, "a4")
    assert {d.piece.key for sheet in small.sheets for d in sheet.drawn} == {"a"}
    assert {d.piece.key for sheet in large.sheets for d in sheet.drawn} == {"a", "b"}
    assert len(small.pages) == len(large.pages)
