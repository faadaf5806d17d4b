"""What stays in brushes is bought for each of them."""

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.app.measured.bodies import whole_kit
from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.reader import read_content
from guidegen.layout.buying.left_in_tools import Wetters
from guidegen.layout.buying.materials import list_for_all

BRUSHES = changed(
    STOCK,
    "  goggles:",
    "  brush: {name: Brush, shared-by: 2, holds: 3}\n  goggles:",
)
BRUSHED = changed(GUIDE, "    process: gluing\n", "    process: gluing\n    tools: [brush]\n")


def _cement(folder, stock: str, guide: str, people: int):
    content = read_content(write_content(folder, guide=guide, stock=stock))
    (file,) = content.guides
    kit = whole_kit(file, content.stock, "M", words=content.words)
    numbers = {**size_numbers(file, "M")[0].names(), **kit.names()}
    makers = tuple((kit, numbers) for _ in range(people))
    made = list_for_all(file.guide, content.stock, makers, (), content.words)
    return next(line for line in made.lines if line.material == "cement"), made.finished_weight


@pytest.mark.parametrize(("people", "brushes"), [(1, 1), (5, 3)])
def test_each_brush_keeps_its_share(tmp_path, people, brushes):
    """Two people to a brush that holds 3 ml: one buys 3 ml more, five buy 9, and the sum says so.
    Nothing of it stays on the finished thing."""
    without, light = _cement(tmp_path / "without", STOCK, GUIDE, people)
    found, heavy = _cement(tmp_path / "with", BRUSHES, BRUSHED, people)
    assert found.high - without.high == pytest.approx(3 * brushes)
    assert found.low - without.low == pytest.approx(3 * brushes)
    assert f"{brushes} × 3\u00a0ml left in: Brush" in found.basis
    assert heavy == pytest.approx(light)


def test_brushes_are_as_many_as_hands_and_as_there_are():
    """Twelve people, two to a brush: six; two adults who do a step before the class: one; where
    the leader has four, four."""
    told = Wetters(12, 2, frozenset({"prime"}), {"cup": 4})
    assert [told.count("brush", 2, step) for step in ("glue", "prime")] == [6, 1]
    assert told.count("cup", 1, "glue") == 4
    assert Wetters(12).count("brush", 2, "prime") == 6
