"""A published site against what was pressed: a host on this machine, good and bad."""

import gzip
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from guidegen.app.commands.published import proof_published
from guidegen.app.jobs import published
from guidegen.app.jobs.published import TYPES, check_published, host_of
from guidegen.errors import UsageError

PAGE = b"<!doctype html>" + b"<p>word</p>" * 300
FILES = {"index.html": PAGE, "404.html": b"<p>none", "lamp/index.html": PAGE, "theme.files/site.js": b"let a;" * 500,
         "lamp/M/pack.zip": b"PK" * 900_000, ".guidegen": b"{}"}  # fmt: skip


@contextmanager
def served(
    files, *, folder="/guides/", packed=True, cached=True, wrong_type="", status=404
) -> Iterator[str]:
    """The address of a host that holds these files under a path."""

    class Handler(BaseHTTPRequestHandler):
        def log_message(self, *_: object):
            """Say nothing."""

        def do_HEAD(self):
            self.do_GET()

        def do_GET(self):
            name = self.path.removeprefix(folder)
            data = files.get(name)
            self.send_response(status if data is None else 200)
            data = files.get("404.html", b"") if data is None else data
            ending = name.rpartition(".")[2]
            self.send_header("Content-Type", wrong_type or TYPES.get(ending, ("text/plain",))[0])
            if packed and ending in {"html", "js"}:
                data = gzip.compress(data)
                self.send_header("Content-Encoding", "gzip")
            if cached:
                self.send_header("ETag", '"1"')
            self.send_header("Content-Length", str(len(data)))
            self.end_headers()
            if self.command == "GET":
                self.wfile.write(data)

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}{folder}"
    finally:
        server.shutdown()
        server.server_close()


def told(files=None, **how: object):
    """Codes with the file that each is about, of a host that holds `files`."""
    held = (
        {name: data for name, data in FILES.items() if name != ".guidegen"}
        if files is None
        else files
    )
    sums = {name: sha256(data).hexdigest() for name, data in FILES.items()}
    sizes = {name: len(data) for name, data in FILES.items()}
    with served(held, **how) as address:
        found = check_published(host_of(address), address, sums, sizes)
        return {(one.code, one.place.file.removeprefix(address)) for one in found}


def without(*names: str, **instead: bytes):
    """What was pressed, but for these files."""
    return {n: d for n, d in FILES.items() if n not in {".guidegen", *names}} | instead


def test_a_whole_site_under_a_path_has_nothing_to_tell():
    """Packed on the way, with marks for caches and under a path, it is what was pressed."""
    assert told() == set()


@pytest.mark.parametrize(
    ("files", "how", "found"),
    [
        (without("lamp/index.html"), {}, {("published-missing", "lamp/index.html")}),
        (without(**{"index.html": b"old"}), {}, {("published-differs", "index.html")}),
        (without(**{"lamp/M/pack.zip": b"PK"}), {}, {("published-differs", "lamp/M/pack.zip")}),
        (dict(FILES), {}, {("published-needless", "")}),
        (None, {"status": 200}, {("published-404", "")}),
    ],
)
def test_what_is_missing_old_or_too_much_is_told(files, how, found):
    """A file that is not there, an old one, a large one of another size, the marker, a false 200."""
    assert told(files, **how) == found


def test_a_host_with_bare_settings_is_advised():
    """Texts without compression, answers without marks and wrong types are told once an ending."""
    bare = [
        *((code, name) for code in ("published-unpacked", "published-uncached", "published-type")
          for name in ("index.html", "theme.files/site.js") ),
        ("published-uncached", "lamp/M/pack.zip"), ("published-type", "lamp/M/pack.zip"),
    ]  # fmt: skip
    found = told(packed=False, cached=False, wrong_type="text/plain")
    # Of pages without a mark, or of a wrong type, the first in order is the page of lost addresses.
    same = {(code, "index.html" if name == "404.html" else name) for code, name in found}
    assert same == set(bare)


def test_many_findings_of_a_kind_are_counted(monkeypatch):
    """A folder that was forgotten is told by its first files and a number."""
    monkeypatch.setattr(published, "MOST_FOUND", 2)
    found = told({"404.html": FILES["404.html"]})
    assert len(found) == 3
    assert ("published-missing", "") in found


def test_an_answer_that_unpacks_to_too_much_is_cut():
    """A host that sends a bomb is read to one byte more than the file here has."""
    bomb = without(**{"index.html": b"0" * 5_000_000})
    assert told(bomb) == {("published-differs", "index.html")}


def test_nobody_there_is_told_once():
    """Where no host answers, one finding says why, whatever number of files is wanted."""
    with served({}) as address:
        pass
    wanted = dict.fromkeys(FILES, "")
    (found,) = check_published(host_of(address), address, wanted, dict.fromkeys(FILES, 1))
    assert found.code == "published-missing"
    assert found.message == "nobody answers there: Connection refused"


@pytest.mark.parametrize(
    "address", ["example.org", "ftp://example.org/", "https://", "http://a/?b", "http://a:b/"]
)
def test_what_is_no_address_is_refused(address, tmp_path):
    """Only a host with http or https is asked."""
    with pytest.raises(UsageError, match="address"):
        proof_published(address, tmp_path)


def test_nothing_pressed_is_told(tmp_path):
    """Without a press there is nothing to compare with."""
    with pytest.raises(UsageError, match="nothing pressed"):
        proof_published("https://example.org/", tmp_path)
