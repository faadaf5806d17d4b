"""Cases of strangers' input in, how each ended out: in a process of its own, in bounded time and memory."""

import json
import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Protocol

type Ended = dict[str, object]
"""How a case ended ("ended", or the name of an exception), in which words, after how many seconds."""

TESTS = Path(__file__).parent


class Named(Protocol):
    """A case."""

    @property
    def name(self) -> str:
        """No other has it."""


def print_ends[C: Named](
    cases: Iterable[C], end: Callable[[C], Ended], *, seconds: int, memory: int
) -> None:
    """Print as JSON how each case ended: all within `memory` bytes of address space, the interpreter
    and its libraries included, each within `seconds` of the processor."""
    signal.signal(signal.SIGPROF, _too_long)
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    json.dump({case.name: _ended(end, case, seconds) for case in cases}, sys.stdout)


def _ended[C: Named](end: Callable[[C], Ended], case: C, seconds: int) -> Ended:
    started = time.process_time()
    # Seconds of the processor: a busy machine must not fail a case.
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        told = end(case)
    except BaseException as error:  # whatever it is, the test shows it
        told = {"ended": type(error).__name__, "words": repr(error)[:400]}
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    return {**told, "seconds": time.process_time() - started}


def _too_long(*_: object) -> None:
    raise TimeoutError


def ends_of(program: str) -> dict[str, Ended]:
    """What a program of tests/ prints by `print_ends`."""
    done = subprocess.run(
        [sys.executable, str(TESTS / program)],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
        cwd=TESTS.parent,
        env={**os.environ, "OPENBLAS_NUM_THREADS": "1"},  # each thread takes address space
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)
