"""The preview's server: to whom it answers, what it serves, and what it tells."""

import json
import os
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from samples import write_content

from guidegen.app.preview import server as live_server
from guidegen.app.preview.draft import Draft
from guidegen.app.preview.server import asked_path, serving
from guidegen.app.preview.site import LiveSite
from guidegen.app.preview.watch import watching
from guidegen.errors import ContentError, UsageError
from guidegen.problems import Place, Problem
from guidegen.render.site import offline

THEMES = Path(__file__).parents[3] / "themes"
PAGE = (
    b'<!doctype html><html><head><meta http-equiv="Content-Security-Policy" content="default-src \'none\';'
    b" script-src 'self'\"></head><body>words</body></html>"
)


def draft(page: bytes = PAGE) -> Draft:
    """A draft of three files."""
    files = {"index.html": page, "cuff/index.html": page, "404.html": b"<p>missing</p>"}
    makers = {name: (lambda data=data: data) for name, data in files.items()}
    return Draft((), makers, [])


@pytest.fixture
def site() -> LiveSite:
    """A live site with a version."""
    site = LiveSite()
    site.show(draft())
    return site


@pytest.fixture
def port(site: LiveSite) -> Iterator[int]:
    """Where it is served."""
    with serving(site, 0) as address:
        yield urlsplit(address).port


@contextmanager
def asked(
    port: int, path: str, host: str | None = "", method: str = "GET"
) -> Iterator[HTTPResponse]:
    """The answer to one request; `host` None sends none."""
    with closing(HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.putrequest(method, path, skip_host=True)
        if host is not None:
            connection.putheader("Host", host or f"127.0.0.1:{port}")
        connection.endheaders()
        with closing(connection.getresponse()) as answer:
            yield answer


def test_a_page_gets_the_script_that_refreshes_it(port: int) -> None:
    """A page comes with our script as a file, and its policy lets it listen to this server only."""
    with asked(port, "/") as answer:
        text = answer.read().decode()
        assert (answer.status, answer.getheader("Cache-Control")) == (200, "no-store")
        assert answer.getheader("X-Content-Type-Options") == "nosniff"
    assert '<script src="/live.files/refresh.js" data-version="' in text
    assert "default-src 'none'; connect-src 'self'; script-src 'self'" in text
    for name in ("refresh.js", "refresh.css"):
        with asked(port, f"/live.files/{name}") as answer:
            assert answer.status == 200


def test_an_edit_while_a_page_is_made_is_not_missed(site: LiveSite, port: int) -> None:
    """A page of a version that is replaced while it is made asks for news of that version, and so
    hears of the next."""
    old = site.news.version

    def make() -> bytes:
        site.tell_faults("a slip")  # any news: the state is another one now
        return PAGE

    site.show(Draft((), {"slow.html": make}, []))
    shown = site.news.version
    with asked(port, "/slow.html") as answer:
        assert f'data-version="{shown}"' in answer.read().decode()
    assert len({old, shown, site.news.version}) == 3


def test_nothing_is_there_to_be_kept(port: int) -> None:
    """In the place of each service worker stands one that goes away; lists to keep are missing."""
    assert {live_server.WORKER, live_server.LIST} == {offline.WORKER, offline.LIST}
    for path in ("/worker.js", "/de/worker.js"):
        with asked(port, path) as answer:
            assert b"unregister()" in answer.read()
            assert answer.getheader("Content-Type", "").startswith("text/javascript")
            assert answer.getheader("Cache-Control") == "no-store"
    with asked(port, "/cuff/offline.json") as answer:
        assert answer.status == 404


def test_a_folder_leads_to_its_page(port: int) -> None:
    """The address of a folder without its slash gets one, so that links in its page hold."""
    with asked(port, "/cuff") as answer:
        assert (answer.status, answer.getheader("Location")) == (301, "/cuff/")
    with asked(port, "/cuff/?size=M#x") as answer:
        assert answer.status == 200


OUTSIDE = (
    "/../secret.txt", "/cuff/../../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt",
    "/%2e%2e%2f%2e%2e%2fetc/passwd", "/cuff/%2e%2e/%2e%2e/secret.txt", "//etc/passwd", "/etc/passwd",
    "/%2fetc%2fpasswd", "/..%5csecret.txt", "/..\\secret.txt", "/c:/secret.txt", "/%00", "/secret.txt%00.html",
    "/%c0%ae%c0%ae/secret.txt", "/%ff", "/./index.html", "/cuff/.", "/file:///etc/passwd", "/.git/config",
    "http://evil.example/secret.txt", "/" + "a" * 3000, "/live.files/../secret.txt", "/live.files/%2e%2e/draft.py",
    "/.guidegen", "/link", "/cuff/link/passwd",
)  # fmt: skip
"""Ways to ask for files that are none of the site's."""

WATCHED: list[str] = []
"""Files that are opened while a test looks."""
LOOKING = threading.Event()


def _note(event: str, arguments: tuple[object, ...]) -> None:
    # A hook stays until Python has ended, when names of modules are gone.
    if LOOKING is not None and LOOKING.is_set() and event in {"open", "os.listdir", "os.scandir"}:
        WATCHED.append(str(arguments[0]))


sys.addaudithook(_note)


@pytest.mark.parametrize("path", OUTSIDE)
def test_no_path_leads_outside(
    port: int, path: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An address that names no file of the site is answered with 404, and nothing is opened."""
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    (tmp_path / "link").symlink_to("/etc")
    monkeypatch.chdir(tmp_path)
    WATCHED.clear()
    LOOKING.set()
    try:
        with asked(port, path) as answer:
            data = answer.read()
    finally:
        LOOKING.clear()
    assert answer.status == 404, answer.status
    assert b"secret" not in data and b"root:" not in data
    assert WATCHED == []


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", "localhost", "[::1]:{port}", "127.0.0.1:{port}.evil.example", "0.0.0.0:{port}", None],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/", "/live.files/events"])
def test_other_names_are_refused(port: int, host: str | None, path: str) -> None:
    """A request that calls this server by another name gets nothing (DNS rebinding)."""
    with asked(port, path, host.format(port=port) if host else None) as answer:
        assert answer.status == 403
        assert b"words" not in answer.read()


def test_own_names_are_answered(port: int) -> None:
    """Its number and localhost are its own names, with its port."""
    for host in (f"127.0.0.1:{port}", f"localhost:{port}"):
        with asked(port, "/", host) as answer:
            assert answer.status == 200


def test_only_this_machine_is_served(port: int) -> None:
    """The server listens on the loopback address and on no other of this machine's."""
    with pytest.raises(OSError):  # noqa: SIM117 - the connection is what fails
        with socket.create_connection(
            (socket.gethostbyname(socket.gethostname()), port), 1
        ) as other:
            if other.getpeername()[0] == "127.0.0.1":
                raise OSError("this machine has no other address")


def test_only_reading(port: int) -> None:
    """Nothing can be sent to the server; a head comes without a body."""
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        with asked(port, "/", method=method) as answer:
            assert answer.status == 501
    with asked(port, "/", method="HEAD") as answer:
        assert (answer.status, answer.read()) == (200, b"")


def next_news(answer: HTTPResponse) -> dict[str, str]:
    """The next event of the stream, signs of life left out."""
    while not (line := answer.readline()).startswith(b"data: "):
        assert line, "the stream has ended"
    return json.loads(line.removeprefix(b"data: "))


def test_news_come_as_they_happen(site: LiveSite, port: int) -> None:
    """A listener is told the state at once, then every new version and every fault."""
    with asked(port, "/live.files/events") as answer:
        assert answer.getheader("Content-Type") == "text/event-stream"
        first = next_news(answer)
        site.show(draft())
        second = next_news(answer)
        site.tell_faults("cuff/guide.yaml:3:1  wrong")
        third = next_news(answer)
    assert first["version"] != second["version"] != third["version"]
    assert (first["faults"], second["faults"], third["faults"]) == (
        "",
        "",
        "cuff/guide.yaml:3:1  wrong",
    )


def test_the_last_good_version_stays(site: LiveSite, port: int) -> None:
    """With faults, and with a page that cannot be made, what was there is still served."""
    with asked(port, "/") as answer:
        assert b"words" in answer.read()

    def fail() -> bytes:
        raise ContentError([Problem("theme-template", Place("x"), "", "no")])

    with pytest.raises(ContentError):
        site.show(Draft((), {"index.html": fail}, []))
    site.tell_faults("broken")
    with asked(port, "/") as answer:
        assert (answer.status, b"words" in answer.read()) == (200, True)


def test_without_any_version_the_page_waits() -> None:
    """Before the first good press every address answers with a page that will load itself again."""
    site = LiveSite()
    with serving(site, 0) as address, asked(urlsplit(address).port, "/cuff/") as answer:
        text = answer.read().decode()
    assert answer.status == 503
    assert "refresh.js" in text and "no version" in text


def test_a_taken_port_is_told(port: int) -> None:
    """A port that is in use ends in words; without a chosen one the next free port is taken."""
    site = LiveSite()
    with pytest.raises(UsageError, match=f"port {port} is not free"), serving(site, port):
        pass
    with serving(site, port, tries=5) as address:
        assert port < urlsplit(address).port < port + 5


@pytest.mark.parametrize(
    ("address", "path"),
    [
        ("/", "index.html"),
        ("/a/", "a/index.html"),
        ("/a%20b.html?x=/../y", "a b.html"),
        ("/a/../b", None),
        ("/%2e%2e/b", None),
        ("*", None),
        ("", None),
    ],
)
def test_asked_path(address: str, path: str | None) -> None:
    """An address names a path from out/, or nothing."""
    assert asked_path(address) == path


def test_changes_are_noticed(tmp_path: Path) -> None:
    """A new, a changed, a replaced and a removed file are each told, in folders below as well."""
    told = threading.Event()
    folder = tmp_path / "a" / "b"
    folder.mkdir(parents=True)
    with watching((tmp_path,), told.set):
        # The watch begins in its own time: the first change is repeated until it is told.
        for number in range(100):
            (folder / "x.yaml").write_text(str(number), encoding="utf-8")
            if told.wait(0.1):
                break
        for change in (
            lambda: (folder / "y.yaml").write_text("1", encoding="utf-8"),
            lambda: (folder / "y.yaml").replace(folder / "z.yaml"),
            (folder / "z.yaml").unlink,
        ):
            while told.wait(0.3):
                told.clear()
            change()
            assert told.wait(5)


def test_ctrl_c_ends_it(tmp_path: Path) -> None:
    """The command says where it shows what, and Ctrl-C ends it with status 0 and no traceback."""
    content = write_content(tmp_path / "content")
    command = [sys.executable, "-m", "guidegen", "show", "--content", str(content)]
    command += ["--themes", str(THEMES), "--port", "0"]
    # Where these tests run in the background of a shell, Ctrl-C is ignored by all that they start.
    command = ["env", "--default-signal=INT", *command]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=os.environ)
    assert process.stderr is not None
    assert "at http://127.0.0.1:" in process.stderr.readline()
    assert "pressed in" in process.stderr.readline()
    process.send_signal(signal.SIGINT)
    rest = process.stderr.read()
    process.stderr.close()
    assert process.wait(timeout=20) == 0
    assert rest.strip() == "no longer shown"
