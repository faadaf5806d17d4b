"""What all drawings have in common, tried on a kit made by hand and on small demo guides."""

from functools import cache
from pathlib import Path

import pytest
from demo_content import read_demo
from pictures.drawing_lint import check_drawing, ids
from pictures.english import draw_guide, draw_size
from pictures.picture_samples import sample_guide, sample_kit, sample_plan

from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.times.plans import plan_time
from guidegen.pictures.records import GuidePictures, SizePictures

CONTENT = Path(__file__).parents[2] / "content"


@cache
def drawn_sample() -> GuidePictures:
    """All drawings of the sample kit."""
    kit, file = sample_kit(), sample_guide()
    plan = SizePlan(kit, (sample_plan(),))
    stock = Stock()
    time = plan_time(file.guide, stock)
    sizes = {"M": draw_size(plan, file.guide, stock)}
    return draw_guide(GuidePlan(file, (plan,), (), time), sizes, stock)


def flat(pictures: GuidePictures) -> dict[str, str]:
    """Every drawing by a name."""
    found = {f"sign {k}": v for k, v in pictures.signs.items()}
    found |= {f"step {k}": v for k, v in pictures.steps.items()}
    found |= {"time line": pictures.time_line, "body": pictures.body}
    for size in pictures.sizes.values():
        found |= flat_size(size)
    return {name: svg for name, svg in found.items() if svg}


def flat_size(size: SizePictures) -> dict[str, str]:
    """Every drawing of one size by a name."""
    found = {"kit": size.kit} | {f"joins {n}": svg for n, svg in enumerate(size.joins)}
    found |= {f"piece {k}": v for k, v in size.pieces.items()}
    found |= {f"lengths {k}": v for k, v in size.cut_lengths.items()}
    found |= {f"section {k}": v for k, v in size.sections.items()}
    found |= {f"exploded {k}": v for k, v in size.exploded.items()}
    for name, drawings in (*size.cut_sheets.items(), *size.details.items()):
        found |= {f"{name} {n}": svg for n, svg in enumerate(drawings)}
    return {name: svg for name, svg in found.items() if svg}


def test_every_drawing_is_named_described_classed_and_keeps_its_lettering_inside():
    """Title, description and classes are there; no lettering under 3 mm or beyond the rim."""
    drawings = flat(drawn_sample())
    assert len(drawings) > 30
    for name, svg in drawings.items():
        try:
            check_drawing(svg)
        except AssertionError as error:
            raise AssertionError(f"{name}: {error}") from error


def test_no_two_drawings_of_a_document_share_an_id():
    """All drawings of a guide may stand in one page."""
    found = [id for svg in flat(drawn_sample()).values() for id in ids(svg)]
    assert found
    assert len(found) == len(set(found))


def test_the_same_kit_gives_the_same_drawings():
    """Drawing twice gives the same text."""
    first = flat(drawn_sample())
    drawn_sample.cache_clear()
    assert flat(drawn_sample()) == first


@pytest.mark.parametrize("guide", ["mooring-bracer", "quay-lamp"])
def test_demo_guides_draw_cleanly(guide):
    """The drawings of small guides of the demo keep the same promises."""
    content = read_demo(guide)
    (file,) = content.guides
    kit, problems = make_kit(file, content.stock, file.size_names()[0])
    assert kit is not None, problems
    plan = SizePlan(kit)
    for name, svg in flat_size(draw_size(plan, file.guide, content.stock)).items():
        try:
            check_drawing(svg)
        except AssertionError as error:
            raise AssertionError(f"{name}: {error}") from error
