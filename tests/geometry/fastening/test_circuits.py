"""Light circuits: the resistor by Ohm's law from the E24 series, current, heat and run time."""

import pytest
from geometry.kit_samples import STOCK, guide_file

from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.things.circuits import E24, next_e24
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Problem
from guidegen.words import ENGLISH

GOODS = """\
  aa: {name: Cell AA, kind: count, cell: {volts: 1.5, capacity: 2000, most: 200},
       packs: [{amount: 4}]}
  white: {name: White light, kind: count, light: {volts: 3, current: 20}, packs: [{amount: 10}]}
  resistor: {name: Resistor, kind: count, packs: [{amount: 10}]}
  switch: {name: Switch, kind: count, packs: [{amount: 1}]}
"""
LAMP = """\
parts:
  box:
    name: Box
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 200, width: 80}
    copies: 2
    points: {lamps: {along: top, count: %s, margin: 30, inset: 20, diameter: 5}}
circuits:
  lamp: {name: Lamp, on: box, cell: aa, light: white, resistor: resistor, switch: switch,
         sits: box.lamps, %s}
"""
THREE = "cells: 3, branches: 4"


def made(text: str) -> tuple[Kit | None, list[Problem]]:
    """The kit of a guide with cells and lights of `GOODS`."""
    value, source, _ = read_tree(STOCK + GOODS, "stock.yaml")
    goods, invalid = validate(Stock, value, source)
    assert goods is not None, [str(problem) for problem in invalid]
    file = guide_file(text)
    return make_whole_kit(file, goods, file.size_names()[0], words=ENGLISH)


def told(text: str) -> list[tuple[str, str]]:
    """Code and path of all problems."""
    return [(problem.code, problem.path) for problem in made(text)[1]]


def test_the_series_is_that_of_the_standard():
    """IEC 60063, E24: 24 values to a decade, each 24th root of ten from the next, rounded.

    Seven values from 2.7 to 4.7 and 8.2 differ from the root by one in the last place, as the
    standard keeps them for historical reasons.
    """
    roots = [round(10 ** (number / 24), 1) for number in range(24)]
    apart = [(value, root) for value, root in zip(E24, roots, strict=True) if value != root]
    assert all(abs(value - root) < 0.11 for value, root in apart)
    assert [value for value, _ in apart] == [2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2]


@pytest.mark.parametrize(
    ("ohms", "taken"), [(75, 75), (75.1, 82), (150, 150), (0.3, 1), (9.2, 10), (993, 1000)]
)
def test_the_next_larger_value_is_taken(ohms, taken):
    """Never a smaller one: the current stays below what was asked."""
    assert next_e24(ohms) == pytest.approx(taken)


def test_a_lamp_of_three_cells_and_four_lights():
    """(4.5 - 3) V / 20 mA = 75 Ω; four branches take 80 mA, 2000 mAh last 25 h; 30 mW of heat."""
    kit, problems = made(LAMP % (4, THREE))
    assert kit is not None
    assert problems == []
    (one,) = kit.circuits
    assert (one.exact, one.ohms) == pytest.approx((75, 75))
    assert (one.current, one.total, one.power, one.hours) == pytest.approx((20, 80, 30, 25))
    assert [one.count(name) for name in ("aa", "white", "resistor", "switch", "foam-5")] == [
        6, 8, 8, 2, 0,
    ]  # fmt: skip


def test_less_current_is_asked_and_kept():
    """1.5 V / 10 mA = 150 Ω; 12 mA = 125 Ω, of which 130 is made: 11.5 mA flow."""
    (one,) = made(LAMP % (4, THREE + ", current: 12"))[0].circuits
    assert (one.exact, one.ohms) == pytest.approx((125, 130))
    assert one.current == pytest.approx(1500 / 130)


@pytest.mark.parametrize(
    ("count", "circuit", "code", "key"),
    [
        (4, "cells: 2, branches: 4", "circuit-volts", "cells"),
        (8, "cells: 4, branches: 4, in-series: 2", "circuit-volts", "cells"),
        (12, "cells: 3, branches: 12", "circuit-current", "branches"),
        (4, THREE + ", current: 30", "circuit-current", "current"),
        (4, "cells: 8, branches: 4", "circuit-warm", "resistor"),
        (4, THREE + ", hours: 30", "circuit-hours", "hours"),
        (5, THREE, "circuit-lights", "sits"),
        (4, THREE.replace("cells", "cell: resistor, cells"), "circuit-unknown", "cell"),
    ],
)
def test_what_will_not_do_is_told(count, circuit, code, key):
    """Too few volts, too much current, hot resistors, short nights, lights without a place."""
    text = (LAMP % (count, circuit)).replace(
        "cell: aa, ", "" if "cell:" in circuit else "cell: aa, "
    )
    assert told(text) == [(code, f"circuits.lamp.{key}")]
