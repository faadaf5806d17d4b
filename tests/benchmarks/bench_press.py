"""Where the time of a press goes: read, plan, draw, render; on the demo and on generated guides.

    python tests/benchmarks/bench_press.py [--guides 50] [--json FILE] [--demo]

Generated guides differ by seeded chance in sizes, parts, counts and steps; each is worked through
in this process, one after another, without stored plans and without the nesting solver, so that
the figures compare from machine to machine. 'bare' is the time that WeasyPrint alone takes for the
same booklets.
"""

import argparse
import json
import random
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from samples import GUIDE, SITE, STOCK, changed

from guidegen import jobs
from guidegen.buildfile.reader import read_content
from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.theme import read_theme
from guidegen.checks.run import run_checks
from guidegen.geometry.kit import make_kit
from guidegen.render.templates_engine import Theme

ROOT = Path(__file__).resolve().parents[2]


def vary(number: int) -> str:
    """A guide like the sample with other sizes, counts and texts, always the same for a number."""
    chance = random.Random(number)
    guide = changed(GUIDE, "title: Test cuff", f"title: Test cuff {number}")
    guide = changed(guide, "copies: 2", f"copies: {chance.randint(1, 40)}")
    guide = changed(guide, "{diameter: 60}", f"{{diameter: {chance.randint(30, 200)}}}")
    guide = changed(guide, "length: 200", f"length: {chance.randint(120, 260)}")
    guide = changed(guide, "{forearm: 250,", f"{{forearm: {chance.randint(220, 270)},")
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


class Laps:
    """Seconds by stage."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    @contextmanager
    def lap(self, stage: str) -> Iterator[None]:
        """Add the time of the block to `stage`."""
        start = time.process_time()
        yield
        self.seconds[stage] = self.seconds.get(stage, 0.0) + time.process_time() - start


def work(content: Content, file: GuideFile, theme: Theme, laps: Laps) -> int:
    """One guide from kit to documents; the number of its booklets."""
    with laps.lap("kits"):
        kits = [make_kit(file, content.stock, size)[0] for size in file.size_names()]
    whole = tuple(kit for kit in kits if kit is not None)
    with laps.lap("plan"):
        sizes = tuple(jobs.plan_size(content, file, kit, "", 0).plan for kit in whole)
        plan = jobs.gather_plan(content.stock, file, whole, sizes)
    for kit, size in zip(whole, sizes, strict=True):
        with laps.lap("draw"):
            pictures = jobs.draw_size(kit, size, file.guide, content.stock)
            drawn = jobs.draw_guide(plan, {size.size: pictures}, content.stock)
        with laps.lap("templates"):
            head = jobs.sheet_head(content, plan)
            names = {key: entry.name for key, entry in content.stock.materials.items()}
            for templates in size.templates:
                jobs.draw_template_pages(templates, kit, head, names)
        with laps.lap("html"):
            paper = content.site.papers[0]
            html = jobs.booklet_html(content, plan, size.size, paper, pictures=drawn, theme=theme)
            files = jobs.booklet_files(plan, drawn)
        with laps.lap("bare"):
            jobs.write_pdf(html, files=files, variant="pdf/ua-1")
    return len(sizes)


def main() -> None:
    """Print a table, and write it as JSON where asked."""
    options = argparse.ArgumentParser()
    options.add_argument("--guides", type=int, default=50)
    options.add_argument("--json", type=Path)
    options.add_argument("--demo", action="store_true", help="the demo as well (minutes)")
    asked = options.parse_args()
    theme = Theme("workshop", read_theme(ROOT / "themes", "workshop"))
    results = {}
    with tempfile.TemporaryDirectory() as folder:
        sources = {f"{asked.guides} generated": generate(Path(folder), asked.guides)}
        if asked.demo:
            sources["demo"] = ROOT / "content"
        for name, source in sources.items():
            laps = Laps()
            with laps.lap("read"):
                content = read_content(source)
            with laps.lap("check"):
                run_checks(content)
            booklets = sum(work(content, file, theme, laps) for file in content.guides)
            results[name] = {"booklets": booklets, **laps.seconds}
    for name, figures in results.items():
        print(f"{name}: {figures['booklets']} booklets")
        for stage, seconds in figures.items():
            if stage != "booklets":
                print(f"  {stage:<10} {seconds:8.2f} s")
    if asked.json:
        asked.json.write_text(json.dumps(results, indent=2) + "\n", encoding="utf-8")


main()
