"""Catalogues of any number of guides with seeded variety, the same for the same number."""

import random
from pathlib import Path

from samples import GUIDE, SITE, STOCK, changed

SIZES = {"S": 250, "M": 280, "L": 310}


def vary(number: int) -> str:
    """A guide like the sample with other sizes, parts, counts, steps and texts."""
    chance = random.Random(number)
    guide = changed(GUIDE, "title: Test cuff", f"title: Test cuff {number}")
    guide = changed(guide, "copies: 2", f"copies: {chance.randint(1, 40)}")
    guide = changed(guide, "{diameter: 60}", f"{{diameter: {chance.randint(30, 200)}}}")
    guide = changed(guide, "length: 200", f"length: {chance.randint(120, 260)}")
    chosen = sorted(chance.sample(sorted(SIZES), chance.randint(1, 2)))
    lines = "".join(f"  {name}: {{forearm: {SIZES[name]}, wrist: 170}}\n" for name in chosen)
    start, end = guide.index("  S: {forearm"), guide.index("values:")
    guide = guide[:start] + lines + guide[end:]
    words = " ".join(["Warm it and bend it."] * chance.randint(1, 20))
    return changed(guide, "Warm it and bend it.", words)


def generate(folder: Path, guides: int) -> Path:
    """A content folder of `guides` guides."""
    for number in range(guides):
        (folder / f"cuff-{number}").mkdir(parents=True)
        (folder / f"cuff-{number}" / "guide.yaml").write_text(vary(number), encoding="utf-8")
    (folder / "site.yaml").write_text(SITE + "papers: [a4]\n", encoding="utf-8")
    (folder / "stock.yaml").write_text(STOCK, encoding="utf-8")
    return folder
