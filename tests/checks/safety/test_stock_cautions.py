"""What cautions of the stock must say."""

from pathlib import Path

import pytest
from samples import STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError


def report(folder: Path, stock: str) -> str:
    """All findings in words."""
    content = read_content(write_content(folder, stock=stock))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


BLADE = "    first-aid: Press on the wound and get medical help.\n    protection: [goggles]\n"
WET = "    title: Wet paint\n"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (BLADE, "    protection: [goggles]\n",
         "no-first-aid: {}cautions.blade: warning: WARNING without a line of first aid"),
        (BLADE, "    first-aid: Press.\n", "no-protection: {}cautions.blade: warning: WARNING without protective equipment"),
        (BLADE, "    first-aid: Press.\n    no-protection: None helps.\n", ""),
        ("    word: WARNING\n    title: Sharp blade\n", "    word: CAUTION\n    title: Sharp blade\n", ""),
        (BLADE, f"{BLADE}    statements: [H999]\n",
         'unknown-statement: {}cautions.blade.statements[0]: warning: the official words of "H999" are not kept'),
        (BLADE, f'{BLADE}    statements: [H225, "P303+P361+P353", "P403 + P235"]\n', ""),
        ("    signs: [W022]\n", "    signs: [W022, M009]\n",
         "sign-without-equipment: {}cautions.blade.signs: warning: M009 is shown, but no equipment"),
        ("    signs: [W022]\n", "    signs: [W022, M004, M011]\n", ""),
        ("    short: Keep paint off your face\n", "",
         'no-short-caution: {}cautions.wet-paint: advice: the caution "wet-paint" has no short form'),
        ("    short: Keep paint off your face\n", f"    short: {'Off ' * 15}face\n",
         "long-short-caution: {}cautions.wet-paint.short: warning: the short form has 64 letters, expected 60"),
        ("    short: Keep paint off your face\n", f"    short: {'Off ' * 15}\n", ""),
        ("    cautions: [wet-paint]\n", "",
         "chemical-without-caution: {}materials.paint: warning: Acrylic paint is a liquid, but brings no caution"),
    ],
)  # fmt: skip
def test_cautions_are_whole(tmp_path, old, new, message):
    """First aid, equipment, signs with their equipment, official codes, and no bare chemical."""
    text = report(tmp_path, changed(STOCK, old, new))
    for part in message.split("{}"):
        assert part in text
    if not message:
        assert text == ""


@pytest.mark.parametrize(
    "key",
    [
        "word: CAUTION",
        "hazard: Wet paint irritates eyes.",
        "consequence: Sore eyes.",
        "avoid: Keep it off your face.",
    ],
)
def test_the_parts_of_a_safety_message(tmp_path, key):
    """Signal word, hazard, consequence and avoidance are asked for when reading.

    OASIS DITA 1.3, hazardstatement: type of hazard, consequence, how to avoid.
    """
    start = STOCK.index("  wet-paint:")
    stock = STOCK[:start] + changed(STOCK[start:], f"    {key}\n", "")
    with pytest.raises(ContentError, match=f'needs the key "{key.split(":")[0]}"'):
        read_content(write_content(tmp_path, stock=stock))
