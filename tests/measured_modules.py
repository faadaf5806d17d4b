"""Writes the list of modules that made-to-measure templates load in a browser.

Run after a change of what that path imports: `./start python tests/measured_modules.py`.
`tests/app/measured/test_path.py` compares the list with what is imported.
"""

import json
import subprocess
import sys
from pathlib import Path

from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.order import pack_order
from guidegen.geometry.fit.advice import size_table

ROOT = Path(__file__).parent.parent
LIST = ROOT / "guidegen/app/measured/modules.txt"
GUIDES = ("mooring-bracer", "slipway-marshal")

WALK = """
import json, sys
from guidegen.app.measured.making import open_workbench
given = json.load(sys.stdin)
bench = open_workbench(given["order"])
answer = bench.make_kit(given["body"], sure=True)
assert not answer["problems"], answer
bench.make_pages("a4", both_sides=True, card=False, tell=str)
assert list(bench.nested())
outside = {"numpy", "shapely", "PIL", "pydantic_core"}
found = sorted(
    name
    for name, module in sys.modules.items()
    if name.split(".")[0] not in outside
    and str(getattr(module, "__file__", None)).endswith(".py")
    and ("site-packages" in module.__file__ or name.split(".")[0] == "guidegen")
    and not name.startswith("_")
)
print("\\n".join(found))
"""


def order_and_body(guide: str, language: str = "") -> tuple[str, dict[str, float]]:
    """The order of a demo guide, and a body a little larger than one of its sizes."""
    opened = open_guide(ROOT / "content", guide, ROOT / "themes", language)
    table = size_table(opened.file)
    size = list(table)[len(table) // 2]
    body = {name: value + 3 for name, value in table[size].items()}
    return pack_order(opened.content, opened.file), body


def imported_modules(guide: str) -> list[str]:
    """Names of all modules, but for Python's own, that making templates of a guide imports."""
    order, body = order_and_body(guide)
    walked = subprocess.run(
        [sys.executable, "-c", WALK],
        input=json.dumps({"order": order, "body": body}),
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    return walked.stdout.split()


if __name__ == "__main__":
    names = sorted({name for guide in GUIDES for name in imported_modules(guide)})
    LIST.write_text("\n".join(names) + "\n", encoding="utf-8")
