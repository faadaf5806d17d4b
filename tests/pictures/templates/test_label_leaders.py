"""Leaders of labels beside templates: by an outside library, none runs over another template."""

import pytest
from layout.paper.test_templates import kit_of, outline
from layout.template_samples import circle_run, piece, rectangle
from pictures.english import plan_sheet
from shapely.affinity import translate
from shapely.geometry import LineString

from guidegen.geometry.outline.records import Edge, Shape
from guidegen.geometry.outline.transforms import reverse_run
from guidegen.layout.paper.templates import lay_out_templates


def ring(radius: float, hole: float) -> Shape:
    """A ring too thin for its label."""
    inner = reverse_run(circle_run((radius, radius), hole))
    return Shape((Edge("rim", circle_run((radius, radius), radius)),), (inner,))


@pytest.mark.parametrize("paper", ["a4", "letter", "a3", "a0"])
@pytest.mark.parametrize("strip", [120.0, 180.0])
def test_no_leader_of_a_label_runs_over_another_template(paper, strip):
    """Rings are laid over strips, and the nearest bare paper below them is beyond the strips."""
    shapes = [rectangle(strip, 24), rectangle(strip - 10, 26), ring(30, 18), ring(27, 16)]
    kit = kit_of(*(piece(f"p{n}", f"P{n}", f"Part {n}", one) for n, one in enumerate(shapes)))
    templates = lay_out_templates(kit, paper)
    leaders = 0
    for sheet in templates.sheets:
        for one in plan_sheet(templates, sheet, {}, "foot").pages:
            drawn = [translate(outline(each), -one.page.x, -one.page.y) for each in sheet.drawn]
            for note in one.notes:
                if note.leader:
                    leaders += 1
                    line = LineString(note.leader)
                    assert not [each for each in drawn if each.intersection(line).length > 0.5]
    assert leaders
