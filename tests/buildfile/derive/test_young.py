"""Who may do a step: as strict as the strictest of its cautions."""

from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.derive.cautions import step_young
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.safety.cautions import Young


def young(folder, stock: str, guide: str = GUIDE) -> list[Young]:
    """For every step of the sample."""
    content = read_content(write_content(folder, stock=stock, guide=guide))
    return [step_young(step, content.stock) for step in content.guides[0].guide.steps]


def test_strictest_caution_decides(tmp_path):
    """A step with an adults' hazard is for adults, though a milder one comes with it."""
    stock = changed(STOCK, "    title: Sharp blade", "    young: adults\n    title: Sharp blade")
    stock = changed(stock, "    title: Wet paint", "    young: watched\n    title: Wet paint")
    assert young(tmp_path / "a", stock) == [Young.ADULTS, Young.MAY, Young.MAY, Young.WATCHED]
    more = changed(
        GUIDE, "    text: Two thin coats.", "    tools: [knife]\n    text: Two thin coats."
    )
    assert young(tmp_path / "b", stock, more)[3] is Young.ADULTS


def test_waived_cautions_do_not_count(tmp_path):
    """A caution that the author waives with a reason restricts nobody."""
    stock = changed(STOCK, "    title: Sharp blade", "    young: adults\n    title: Sharp blade")
    waived = changed(
        GUIDE,
        "    text: Cut along the lines.",
        "    waive: [{caution: blade, reason: Scissors do}]\n    text: Cut along the lines.",
    )
    assert young(tmp_path, stock, waived)[0] is Young.MAY
