"""How soon an edit of a text stands in the page: from the write to the words in the answer.

    python tests/benchmarks/bench_show.py [GUIDE] [--edits 10] [--themes themes]

A copy of content/ is shown as `guidegen show` does; a text of the guide is changed, the server's
news are awaited as a browser does, and the steps page is fetched again. A browser adds the time to
lay the page out.
"""

import argparse
import shutil
import tempfile
import threading
import time
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from statistics import median
from urllib.parse import urlsplit

from guidegen.app.commands.show import ShowOptions, showing

ROOT = Path(__file__).resolve().parents[2]
TEXT = "\n    text: |\n      "
"""Where the text of a step begins."""


def ask(address: str, path: str) -> tuple[HTTPConnection, HTTPResponse]:
    """The answer to a request; its connection is the caller's to close."""
    connection = HTTPConnection(urlsplit(address).netloc, timeout=120)
    connection.request("GET", path)
    return connection, connection.getresponse()


def fetch(address: str, path: str) -> str:
    """A page."""
    connection, answer = ask(address, path)
    text = answer.read().decode()
    connection.close()
    return text


def measure(address: str, guide: Path, edits: int) -> list[float]:
    """Seconds of each edit."""
    page = f"/{guide.parent.name}/steps.html"
    source = guide.read_text(encoding="utf-8")
    assert TEXT in source, "no step of this guide has a text of several lines"
    fetch(address, page)
    connection, events = ask(address, "/live.files/events")
    events.readline()
    times = []
    for number in range(edits):
        edited = source.replace(TEXT, f"{TEXT}Draft {number}. ", 1)
        started = time.perf_counter()
        guide.write_text(edited, encoding="utf-8")
        while f"Draft {number}." not in fetch(address, page):
            while not events.readline().startswith(b"data: "):
                pass
        times.append(time.perf_counter() - started)
    connection.close()
    return times


def main() -> None:
    """Print the least, the median and the longest time."""
    parser = argparse.ArgumentParser()
    parser.add_argument("guide", nargs="?", default="mooring-bracer")
    parser.add_argument("--edits", type=int, default=10)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        content = shutil.copytree(ROOT / "content", Path(name) / "content")
        shown = showing(ShowOptions(content, ROOT / "themes", port=0), lambda words: None)
        with shown as (address, changed, press):
            started = time.perf_counter()
            press()
            print(f"first press of {content.name}: {time.perf_counter() - started:.2f} s")

            def run() -> None:
                while True:
                    changed.wait()
                    changed.clear()
                    press()

            threading.Thread(target=run, daemon=True).start()
            times = measure(address, content / options.guide / "guide.yaml", options.edits)
    print(f"{options.guide}: {min(times):.2f} s, median {median(times):.2f} s, {max(times):.2f} s")


if __name__ == "__main__":
    main()
