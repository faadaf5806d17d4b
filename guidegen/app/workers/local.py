"""Jobs in → futures of their results: at once in this process, or in several others.

A job is a function that can be pickled; what it is given and gives can be too.
"""

import os
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing import active_children, get_context, parent_process
from multiprocessing.connection import wait
from multiprocessing.context import BaseContext
from threading import Thread
from typing import Protocol

from guidegen.app.workers.memory import clear_rarely, free_memory
from guidegen.errors import OutputError

WORKER_MEMORY = 700_000_000
"""Bytes that a worker may come to need. Measured: 190 MB for guides of two parts, 560 MB for
all guides of the demo one after another; the rest is for larger ones."""
LOADED = (
    "guidegen.app.workers.ready",
    "guidegen.app.jobs.laid",
    "guidegen.render.lists.dxf",
    "guidegen.render.lists.materials_xlsx",
    "guidegen.render.pdf.template_pdf",
    "scipy.sparse.csgraph",
    "scipy.sparse.linalg",
    "scipy.spatial",
    "trimesh.exchange.gltf",
    "trimesh.visual.material",
)
"""Modules that workers are begun with: what documents and views of most guides need. Those that are
not there are passed over."""
ADDRESS = "pymp-12345678/listener-12345678"
"""Where Python lets the process that is copied listen, below the folder of passing files."""
LONGEST_ADDRESS = 107
"""Bytes of a path on which a process can listen (unix(7): 108 with the zero at its end)."""
MOST_WORKERS = 61
"""More processes than that no pool of Python's can wait for on Windows (concurrent.futures,
"ProcessPoolExecutor"); elsewhere that many have never been of use."""


class Result[R](Protocol):
    """What a job will give."""

    def result(self) -> R:
        """Wait for it. Raises what the job raised."""


class Pool(Protocol):
    """Does jobs, `size` of them at a time."""

    size: int
    beside: bool
    """Whether other processes of this machine do them, which reach its disk as this one does."""

    def submit[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> Result[R]:
        """The job's result, to come."""


class InlinePool:
    """Does each job at once, in this process."""

    size = 1
    beside = False

    def submit[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> Future[R]:
        """A result that is there already."""
        future: Future[R] = Future()
        future.set_result(job(*args, **kwargs))
        return future


class _Local:
    """Other processes on this machine."""

    beside = True

    def __init__(self, executor: ProcessPoolExecutor, size: int) -> None:
        self._executor = executor
        self.size = size

    def submit[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> Future[R]:
        """A result that one of the processes works on."""
        with deaf_to_ctrl_c():
            return self._executor.submit(job, *args, **kwargs)


@contextmanager
def local_pool(workers: int = 0) -> Iterator[Pool]:
    """Processes of this machine: `workers`, or one per core while their memory allows.

    They are copies of no process that works, so that no thread or lock is copied. However the block
    ends, they end at once. Raises OutputError where one dies, for example for want of memory.
    """
    count = min(workers or usual_workers(), MOST_WORKERS)
    if count == 1:
        yield InlinePool()
        return
    # Workers are ended, so what they lay down for passing is removed here: fonts of documents.
    with tempfile.TemporaryDirectory(prefix="guidegen-", ignore_cleanup_errors=True) as passing:
        yield from _workers(count, passing)


def _workers(count: int, passing: str) -> Iterator[Pool]:
    executor = ProcessPoolExecutor(
        count, mp_context=_context(), initializer=begin_worker, initargs=(passing,)
    )
    try:
        yield _Local(executor, count)
    except BrokenProcessPool:
        raise OutputError(
            "a worker process ended before its work was done, perhaps for want of memory; "
            "the old output is as it was. Fewer need less: --workers 1"
        ) from None
    finally:
        executor.shutdown(wait=False, cancel_futures=True)
        # Python would wait for jobs that run before it ends; nobody wants their results now.
        ended = active_children()
        for process in ended:
            process.terminate()
        for process in ended:
            process.join(1)


def _context() -> BaseContext:
    """How workers start: as copies of a process that has loaded what they need, where the system
    can copy one; else each loads it, for two seconds."""
    address = os.path.join(tempfile.gettempdir(), ADDRESS)  # noqa: PTH118 - counted, not opened
    if len(os.fsencode(address)) > LONGEST_ADDRESS:
        return get_context("spawn")
    context = get_context("forkserver" if sys.platform == "linux" else "spawn")
    context.set_forkserver_preload([*LOADED])
    return context


def usual_workers() -> int:
    """One per core that this process may use, as many as there is memory for, at least one.

    Memory counts within the limits of control groups, as containers and services have them.
    """
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return max(1, min(cores or 1, free_memory() // WORKER_MEMORY))


@contextmanager
def deaf_to_ctrl_c() -> Iterator[None]:
    """Processes that start in the block never hear Ctrl-C, not even before `begin_worker`, when
    they could only tell of it with a traceback. This one hears it as the block ends."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def begin_worker(passing: str | None = None) -> None:
    """In a worker: leave Ctrl-C to the press, and end when the press is killed. `passing` is the
    folder for files that are gone with the press.

    An idle worker would wait for work for ever.
    """
    clear_rarely()
    tempfile.tempdir = passing
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is not None:
        sentinel = parent.sentinel

        def watch() -> None:
            wait([sentinel])
            os._exit(1)

        Thread(target=watch, daemon=True).start()
