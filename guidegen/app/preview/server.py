"""A live site in → served to browsers on this machine, and on no other.

No path of a request ever reaches the disk: what is served is looked up by name among the files of
the draft, and two files of our own.
"""

import json
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from urllib.parse import unquote, urlsplit

from guidegen.app.preview.site import LiveSite
from guidegen.errors import UsageError

HOST = "127.0.0.1"
OWN = "live.files/"
"""Folder of what the preview adds; no guide's name has a dot."""
EVENTS = f"{OWN}events"
MAX_PATH = 2000
"""Characters of an address. Our choice."""
BEAT = 10.0
"""Seconds between signs of life, by which a browser that has gone is noticed."""

_FILES = Path(__file__).parent / "browser"
_OWN_FILES = {
    f"{OWN}{path.name}": path.read_bytes() for path in sorted(_FILES.iterdir()) if path.is_file()
}
WORKER, LIST = "worker.js", "offline.json"
"""What a pressed site has for readers who keep it on their device (render/site/offline.py)."""
_NO_WORKER = _OWN_FILES[f"{OWN}no-worker.js"]
"""In the place of the site's service worker: nothing is kept of a preview."""
_TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".xml": "application/xml",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".webp": "image/webp",
    ".avif": "image/avif",
    ".woff2": "font/woff2",
    ".wasm": "application/wasm",
    ".pdf": "application/pdf",
    ".csv": "text/csv; charset=utf-8",
}
"""Media types by ending; all else is bytes."""
_WAITING = b"""<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Not pressed yet</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; \
script-src 'self'"></head><body><p>There is no version to show yet.</p></body></html>
"""
_POLICY = b"default-src 'none';"


class _Handler(BaseHTTPRequestHandler):
    """Answers one browser."""

    protocol_version = "HTTP/1.1"
    server_version = "guidegen"
    sys_version = ""
    timeout = 60

    def __init__(self, site: LiveSite, *arguments: object) -> None:
        self._site = site
        super().__init__(*arguments)  # type: ignore[arg-type]

    def log_message(self, *_: object) -> None:
        """Say nothing: the command tells what is worth telling."""

    def do_GET(self) -> None:
        """Answer with a file, or with news."""
        if not self._is_for_us():
            # Another site's name that leads here would let its pages read ours: DNS rebinding.
            return self._answer(
                HTTPStatus.FORBIDDEN, b"This server answers to its own name only.\n"
            )
        # Before the page is made: one that is newer than it says is only loaded once more, while
        # one that is older would stay until the next edit.
        self._version = self._site.news.version
        path = asked_path(self.path)
        if path == EVENTS and self.command == "GET":
            return self._tell_news()
        name = path.rpartition("/")[2] if path else ""
        if name == WORKER:
            return self._answer(HTTPStatus.OK, _NO_WORKER, WORKER)
        if name == LIST:
            return self._answer_missing()
        if path in _OWN_FILES:
            return self._answer(HTTPStatus.OK, _OWN_FILES[path], path)
        if path is not None and (data := self._site.file(path)) is not None:
            return self._answer(HTTPStatus.OK, self._with_news(data, path), path)
        if path is not None and self._site.file(f"{path}/index.html") is not None:
            return self._answer(HTTPStatus.MOVED_PERMANENTLY, b"", to=f"/{path}/")
        return self._answer_missing()

    do_HEAD = do_GET  # noqa: N815 - the base class looks for this name

    def _is_for_us(self) -> bool:
        _, port = self.request.getsockname()[:2]
        return self.headers.get("Host") in {f"{HOST}:{port}", f"localhost:{port}"}

    def _answer_missing(self) -> None:
        if not self._site.is_good:
            page = self._with_news(_WAITING, "index.html")
            return self._answer(HTTPStatus.SERVICE_UNAVAILABLE, page, "index.html")
        data = self._site.file("404.html") or b"There is no such page.\n"
        return self._answer(HTTPStatus.NOT_FOUND, self._with_news(data, "404.html"), "404.html")

    def _with_news(self, data: bytes, path: str) -> bytes:
        """A page with our script in it, and a policy that lets it listen to this server."""
        if not path.endswith(".html"):
            return data
        ours = (
            f'<link rel="stylesheet" href="/{OWN}refresh.css">'
            f'<script src="/{OWN}refresh.js" data-version="{self._version}" defer></script></head>'
        )
        if b"connect-src" not in data:
            data = data.replace(_POLICY, _POLICY + b" connect-src 'self';", 1)
        return data.replace(b"</head>", ours.encode(), 1)

    def _answer(self, status: HTTPStatus, data: bytes, path: str = "", to: str = "") -> None:
        self.send_response(status)
        ending = "." + path.rpartition(".")[2]
        plain = "text/plain; charset=utf-8" if not path else "application/octet-stream"
        self.send_header("Content-Type", _TYPES.get(ending, plain))
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        if to:
            self.send_header("Location", to)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def _tell_news(self) -> None:
        """Server-Sent Events (HTML Living Standard, 9.2): one for each new state, till it ends."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        seen = ""
        with suppress(OSError):  # the browser has gone
            while not self._site.closed:
                news = self._site.wait(seen, BEAT)
                event = json.dumps({"version": news.version, "faults": news.faults})
                self.wfile.write(
                    f"data: {event}\n\n".encode() if news.version != seen else b":\n\n"
                )
                self.wfile.flush()
                seen = news.version


def asked_path(address: str) -> str | None:
    """Path from out/ that a request's address names; None where it names none."""
    try:
        path = unquote(urlsplit(address).path, errors="strict")
    except (ValueError, UnicodeDecodeError):
        return None
    parts = path.split("/")
    if not path.startswith("/") or len(path) > MAX_PATH or {".", ".."} & set(parts):
        return None
    path = path[1:]
    return f"{path}index.html" if path == "" or path.endswith("/") else path


class _Server(ThreadingHTTPServer):
    """Ends with the command, whoever is still connected."""

    daemon_threads = True
    block_on_close = False

    def handle_error(self, *_: object) -> None:
        """A browser that leaves in the middle is nothing to tell."""


@contextmanager
def serving(site: LiveSite, port: int, tries: int = 1) -> Iterator[str]:
    """Serve a site while the block runs; its address. Raises UsageError where no port is free.

    `tries` ports from `port` on are tried; port 0 takes any.
    """
    server = _open(site, port, tries)
    thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, name="serving")
    thread.start()
    try:
        yield f"http://{HOST}:{server.server_address[1]}/"
    finally:
        site.close()
        server.shutdown()
        thread.join()
        server.server_close()


def _open(site: LiveSite, port: int, tries: int) -> _Server:
    for number in range(port, port + tries):
        with suppress(OSError, OverflowError):
            return _Server((HOST, number), partial(_Handler, site))
    taken = f"port {port} is" if tries == 1 else f"ports {port} to {port + tries - 1} are"
    raise UsageError(f"{taken} not free; choose another one with --port, or 0 for any")
