"""The program that pages load, in Chromium: the same kits, templates and refusals as here."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from hashlib import sha256
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from journeys.visits import Browsing
from measured_modules import order_and_body

from guidegen.app.measured.bundle import WORKER, Bundle, make_bundle
from guidegen.app.measured.making import open_workbench
from guidegen.app.measured.packages import NotToBeHad

MOST_BYTES = 12_000_000
"""What a first visit may load. Our own limit: half a minute at 3 Mbit/s."""

RUN = """
async ({ core, own, worker, guide, bodies, papers }) => {
  const at = (path) => new URL(path, location.href).href;
  const program = new Worker(at(own + worker), { type: "module" });
  const waiting = {};
  let last = 0;
  program.onmessage = ({ data }) => { if (!data.stage) waiting[data.id](data); };
  const ask = (work) => new Promise((done) => {
    waiting[++last] = done;
    program.postMessage({ ...work, id: last });
  });
  const begun = await ask({ do: "begin", core: at(core), own: at(own), order: at(guide + ".json") });
  if (begun.error) return { error: begun.error };
  const found = [];
  for (const [number, body] of bodies.entries()) {
    const paper = papers[number % papers.length];
    const work = { do: "make", body, paper, sure: false, bothSides: false, card: false };
    const { answer, error } = await ask(work);
    if (error) return { error };
    if (answer.problems.length) {
      found.push({ codes: answer.problems.map(({ code }) => code) });
      continue;
    }
    const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", answer.pdf));
    const pdf = [...sum].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    const { mark } = (await ask({ do: "mark" })).answer;
    found.push({ mark, pdf });
  }
  program.terminate();
  return { found };
}
"""


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def bundle() -> Bundle:
    """What press puts into a site. A machine without npm, which `start` does not bring, cannot
    fetch the packages and does without."""
    try:
        return make_bundle(("en", "de"))
    except NotToBeHad as error:
        pytest.skip(str(error))


@contextmanager
def serve(bundle: Bundle, folder: Path) -> Iterator[str]:
    """The files of a bundle and a blank page on this machine, out of a folder."""
    for path, data in {**bundle.files, "index.html": b"<!doctype html><title>t</title>"}.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture(scope="module")
def served(bundle: Bundle, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """Where a page finds the program, and the folder in which its guides are laid."""
    folder = tmp_path_factory.mktemp("measured")
    with serve(bundle, folder) as address:
        yield address, folder


def test_what_a_reader_loads_is_small(bundle: Bundle) -> None:
    """The first visit loads at most 12 MB, and names its folders by what is in them."""
    assert bundle.bytes < MOST_BYTES
    assert make_bundle(("en", "de")).files == bundle.files


@pytest.mark.parametrize(("guide", "language"), [("mooring-bracer", "de"), ("slipway-marshal", "")])
def test_a_browser_makes_what_fit_makes(
    guide: str, language: str, bundle: Bundle, served: tuple[str, Path], browsing: Browsing
) -> None:
    """Kits and template pages of two bodies, the second's on large paper, are equal by hash, and so
    is a refusal by code; of the largest guide one body is enough."""
    address, folder = served
    order, body = order_and_body(guide, language)
    (folder / f"{guide}.json").write_text(order, encoding="utf-8")
    bodies = [body]
    if guide == "mooring-bracer":
        bodies.append({name: mm - 8 for name, mm in body.items()})
    # Beyond all sizes: refused or doubted, by the same codes.
    bodies.append({name: mm * 2 for name, mm in body.items()})
    bench, here = open_workbench(order), []
    papers = ["a4", "a0"]
    for number, one in enumerate(bodies):
        answer = bench.make_kit(one, sure=False)
        if answer["problems"]:
            here.append({"codes": [problem["code"] for problem in answer["problems"]]})
            continue
        paper = papers[number % len(papers)]
        pdf = bench.make_pages(paper, both_sides=False, card=False, tell=str)
        here.append({"mark": bench.mark(), "pdf": sha256(pdf).hexdigest()})
    assert [*here[0]] == ["mark", "pdf"]
    with browsing.visit() as visit:
        page = visit.page
        page.goto(address)
        given = {
            "core": f"{bundle.core}/",
            "own": f"{bundle.own}/",
            "worker": WORKER,
            "guide": guide,
            "bodies": bodies,
            "papers": papers,
        }
        assert page.evaluate(RUN, given) == {"found": here}
