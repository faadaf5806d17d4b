"""A press on several machines, here several worker processes behind one scheduler."""

import json
import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from quick_press import quick_options
from samples import GUIDE, SITE, unplaced, write_content

from guidegen.app.commands.press import press
from guidegen.app.workers.cluster import TRIES, _check_software, _Sent, cluster_pool
from guidegen.buildfile.read.theme import read_theme
from guidegen.errors import MissingLibrary, OutputError, UsageError
from guidegen.progress import Silent

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning", "ignore::ResourceWarning")


@dataclass
class Machines:
    """A scheduler and its workers, each a process of its own."""

    address: str
    workers: list[subprocess.Popen[bytes]]


@pytest.fixture(scope="module")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Machines]:
    """Two worker processes that nobody starts again when they end."""
    folder = tmp_path_factory.mktemp("cluster")
    file = folder / "scheduler.json"
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    usual = ["--host", "127.0.0.1", "--scheduler-file", str(file), "--no-dashboard"]

    def start(program: str, *more: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", f"distributed.cli.{program}", *usual, *more]
        return subprocess.Popen(
            command, cwd=folder, env=environment, stdout=subprocess.DEVNULL, stderr=log
        )

    with (folder / "log").open("wb") as log:
        scheduler = start("dask_scheduler", "--port", "0")
        workers = [start("dask_worker", "--no-nanny", "--nthreads", "1") for _ in range(2)]
        try:
            yield Machines(_wait_for(file, 2), workers)
        finally:
            for process in (*workers, scheduler):
                process.kill()
                process.wait()


def _wait_for(file: Path, workers: int) -> str:
    """The scheduler's address, once it has its workers."""
    end = time.monotonic() + 60
    while time.monotonic() < end:
        try:
            address = json.loads(file.read_text(encoding="utf-8"))["address"]
            with cluster_pool(address) as pool:
                if pool.size == workers:
                    return str(address)
        except (OSError, ValueError, UsageError):
            pass
        time.sleep(0.2)
    raise AssertionError("the cluster did not start")


class KillOne(Silent):
    """Kills a worker while all are busy with documents."""

    def __init__(self, worker: subprocess.Popen[bytes]) -> None:
        self.timer = threading.Timer(0.5, worker.kill)
        self.documents = 0

    def stage(self, name: str, total: int) -> None:
        """Begin to wait when documents begin."""
        if name == "documents":
            self.timer.start()

    def step(self, what: str) -> None:
        """Count what was made after the worker was killed."""
        self.documents += self.timer.ident is not None and not self.timer.is_alive()


def test_a_lost_worker_is_made_good(cluster: Machines, tmp_path: Path) -> None:
    """One of two workers is killed at work: the output is whole, and what one machine makes."""
    content = write_content(
        tmp_path / "content", guide=unplaced(GUIDE), site=SITE + "papers: [a4]\n"
    )
    near = quick_options(content, tmp_path / "near")
    options = replace(near, out=tmp_path / "far", workers=0, cluster=cluster.address)
    killer = KillOne(cluster.workers[0])
    press(options, killer)
    assert killer.documents, "all was made before the worker was killed"
    press(near, Silent())
    files = {p.relative_to(near.out) for p in near.out.rglob("*") if p.is_file()}
    assert files == {p.relative_to(options.out) for p in options.out.rglob("*") if p.is_file()}
    for file in files:
        assert (near.out / file).read_bytes() == (options.out / file).read_bytes(), file
    _errors_come_back(cluster.address)


def _errors_come_back(address: str) -> None:
    """What a job raises on a worker reaches the press as it was raised."""
    with cluster_pool(address) as pool, pytest.raises(UsageError, match='no theme "glossy"'):
        pool.submit(read_theme, Path("nowhere"), "glossy").result()


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("tcp://127.0.0.1:9", r"no cluster answers at tcp://127\.0\.0\.1:9"),
        ("tcp://127.0.0.1:99999999", "no cluster answers"),
        ("127.0.0.1", "expected tcp://host:port"),
        ("http://127.0.0.1:9", "expected tcp://host:port"),
        ("", "expected tcp://host:port"),
    ],
)
def test_no_cluster_there(address: str, words: str) -> None:
    """Where no scheduler answers, or can, the message names the address."""
    with pytest.raises(UsageError, match=words), cluster_pool(address):
        pass


def test_without_the_library(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the extra, the message says how to install it."""
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(MissingLibrary, match=r"guidegen\[cluster\]"), cluster_pool("tcp://x:1"):
        pass


@pytest.mark.parametrize(
    ("found", "words"),
    [({}, "has no worker"), ({"tcp://a:1": "another"}, "tcp://a:1 has another version")],
)
def test_workers_that_would_set_other_bytes(found: dict[str, str], words: str) -> None:
    """A cluster without workers, or with other versions on one, is refused before anything runs."""
    with pytest.raises(UsageError, match=words):
        _check_software(found)


def test_workers_lost_again_and_again() -> None:
    """A job whose workers are lost every time ends in a clear error, not in an endless loop."""
    sent = []

    class Lost:
        def result(self) -> None:
            raise ConnectionError("gone")

    def send() -> Lost:
        sent.append(1)
        return Lost()

    with pytest.raises(OutputError, match="lost 4 workers"):
        _Sent(send, (ConnectionError,)).result()
    assert len(sent) == TRIES + 1
