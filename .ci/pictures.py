"""Make the pictures of README.md anew from a pressed out/ folder: .ci/pictures.py OUT.

Needs pdftoppm (poppler-utils) and Chromium; the pictures are looked at and committed by hand.
"""

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

from PIL import Image

TARGET = Path("guidegen/handbook/pictures")
GUIDE = "slipway-marshal"
SIZE = "M"
WIDTH = 900


def page_with(pdf: Path, words: str, after: int = 0) -> int:
    """Number of the first page after `after` that has all `words`."""
    text = subprocess.run(
        ["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True
    ).stdout
    for number, page in enumerate(text.split("\f"), start=1):
        if number > after and words in page:
            return number
    raise SystemExit(f"no page of {pdf} has {words!r}")


def save(image: Image.Image, name: str) -> None:
    """Scale and write one picture with few colours: drawings need no more."""
    height = round(image.height * WIDTH / image.width)
    small = image.convert("RGB").resize((WIDTH, height), Image.Resampling.LANCZOS)
    small.quantize(64).save(TARGET / f"{name}.png", optimize=True)


def from_pdf(pdf: Path, page: int, name: str) -> None:
    """One page of a PDF."""
    with tempfile.TemporaryDirectory() as folder:
        stem = Path(folder) / "page"
        at = ["-f", str(page), "-l", str(page)]
        subprocess.run(["pdftoppm", "-r", "150", "-png", "-singlefile", *at, pdf, stem], check=True)
        save(Image.open(f"{stem}.png"), name)


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Address of a folder; pages that are opened from disc may lack their fonts."""

    class Silent(SimpleHTTPRequestHandler):
        def log_message(self, *words: object) -> None:
            """Say nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Silent, directory=str(folder))) as server:
        Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def from_site(address: str, name: str) -> None:
    """The first view of a page at desktop width."""
    browser = shutil.which("chromium") or shutil.which("google-chrome") or "chromium"
    with tempfile.TemporaryDirectory() as folder:
        shot = Path(folder) / "shot.png"
        command = [browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"]
        command += ["--disable-background-networking", f"--user-data-dir={folder}/profile"]
        command += ["--window-size=1200,1500", f"--screenshot={shot}", address]
        subprocess.run(command, check=True, capture_output=True)
        save(Image.open(shot), name)


def main() -> None:
    """Make all four."""
    out = Path(sys.argv[1])
    folder = out / GUIDE / SIZE
    TARGET.mkdir(parents=True, exist_ok=True)
    templates, booklet = folder / "templates-a4.pdf", folder / "booklet-a4.pdf"
    from_pdf(templates, page_with(templates, "Shoulder cap, front half", after=3), "template-page")
    from_pdf(booklet, page_with(booklet, "Bevel the keel strips", after=30), "booklet-step")
    from_pdf(booklet, page_with(booklet, "Cut plans", after=2), "cut-plan")
    with served(out) as address:
        from_site(f"{address}{GUIDE}/index.html", "site-guide")


main()
