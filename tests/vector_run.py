"""Reads every hostile PDF and DXF, bounded in time and memory; run as a program of its own.

It prints JSON: by case, how it ended ("refused", "read" or an exception), the words and the seconds.
"""

import json
import resource
import signal
import sys
import time

from vector_cases import VectorCase, cases

from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Wishes, redraw

MAX_SECONDS = 5
MAX_MEMORY = 1 << 30
"""Bytes of address space, the interpreter and its libraries included."""


def run(case: VectorCase) -> dict[str, object]:
    """One case, ended after MAX_SECONDS of the processor."""
    started = time.process_time()
    signal.setitimer(signal.ITIMER_PROF, MAX_SECONDS)
    try:
        words, ended = redraw(case.data, "content/a", "content/a.svg", Wishes()).svg[:200], "read"
    except VectorError as error:
        words, ended = str(error), "refused"
    except BaseException as error:  # whatever it is, the test shows it
        words, ended = repr(error)[:400], type(error).__name__
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    return {"ended": ended, "words": words, "seconds": time.process_time() - started}


def _too_long(*_: object) -> None:
    raise TimeoutError


if __name__ == "__main__":
    signal.signal(signal.SIGPROF, _too_long)
    resource.setrlimit(resource.RLIMIT_AS, (MAX_MEMORY, MAX_MEMORY))
    json.dump({case.name: run(case) for case in cases()}, sys.stdout)
