"""The handbook's examples of materials and rates do what it says."""

import re
from pathlib import Path

from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.steps import Use
from guidegen.checks.run import run_checks
from guidegen.layout.buying.materials import rated_materials

HANDBOOK = Path(__file__).parents[3] / "guidegen" / "handbook" / "write" / "materials.md"
TEXT = HANDBOOK.read_text(encoding="utf-8")
STOCKED, MAT, _, OWN, SHOPS, SOLD = re.findall(r"```yaml\n(.*?)```", TEXT, re.DOTALL)


def test_the_examples_are_used(tmp_path):
    """Sticks and tape along a seam, cement at a rate of the guide's own: nothing to find."""
    stock = changed(STOCK, "  buckle:\n", f"{STOCKED}  buckle:\n")
    sheets = "    sheets: [{name: mat, width: 580, height: 580, price: 5}]\n"
    stock = changed(stock, sheets, MAT)
    guide = changed(GUIDE, "seams:\n", f"{OWN}seams:\n")
    uses = "{material: glue-stick, along: [badge]}, {material: tape, along: [cuff-side]}"
    guide = changed(guide, "uses: [{material: cement,", f"uses: [{uses}, {{material: cement,")
    content = read_content(write_content(tmp_path, guide=guide, stock=stock))
    assert [str(problem) for problem in run_checks(content)] == []
    found = rated_materials(content.guides[0].guide, content.stock)
    assert found["cement"].rate.likely == 2.5
    assert (found["glue-stick"].rate.per, found["tape"].allowance.value({})) == ("length", 10)


def test_the_example_of_shops_is_used(tmp_path):
    """Cement that two shops of the site sell: nothing to find."""
    named = re.search(r"\{(shops: .*)\}", SOLD)[1]
    stock = changed(STOCK, "Contact cement\n", f"Contact cement\n    {named}\n")
    content = read_content(write_content(tmp_path, site=SITE + SHOPS, stock=stock))
    assert [str(problem) for problem in run_checks(content)] == []
    assert content.stock.materials["cement"].shops == ("craft", "hardware")


def test_every_basis_is_in_the_table():
    """The handbook tells each way in which a step may say how much it uses."""
    told = set(re.findall(r"`([a-z]+):", TEXT))
    assert set(Use.model_fields) - {"material", "coats", "note", "counted", "tints"} <= told
