"""A small site, pressed and served once for all journeys, and one browser that visits it."""

import threading
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import BinaryIO

import pytest
from filelock import FileLock
from journeys.small_site import press_small_site


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The output folder of the small site; of several test processes only one presses it."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if base.name.startswith("popen-") else base
    with FileLock(shared / "small-site.lock"):
        folder = shared / "small-site"
        if not (folder / "out").is_dir():
            press_small_site(folder)
    return folder / "out"


class _Silent(SimpleHTTPRequestHandler):
    """Files of a folder, without a word on standard error."""

    protocol_version = "HTTP/1.1"
    extensions_map = {  # noqa: RUF012 - the base class has it so
        **SimpleHTTPRequestHandler.extensions_map,
        ".webmanifest": "application/manifest+json",
        ".woff2": "font/woff2",
        ".webp": "image/webp",
        ".avif": "image/avif",
    }

    def log_message(self, *_: object) -> None:
        """Say nothing."""

    def copyfile(self, source: BinaryIO, outputfile: BinaryIO) -> None:
        """Send a file; a page that was left in the middle of it is no fault."""
        with suppress(ConnectionError):
            super().copyfile(source, outputfile)


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Where the small site is served: http://127.0.0.1:…/ with a slash."""
    handler = partial(_Silent, directory=str(site))
    with ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
        thread.join()
