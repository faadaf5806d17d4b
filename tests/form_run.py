"""Flattens every hostile mesh, bounded in time and memory; run as a program of its own.

It prints JSON: by case, how it ended ("refused", "read" or an exception), the words and the seconds.
"""

import json
import resource
import signal
import sys
import time

from form_cases import FormCase, cases

from guidegen.bench.forms.flatten import flatten
from guidegen.bench.forms.records import FormError, FormWishes

MAX_SECONDS = 8
MAX_MEMORY = 3 << 29
"""Bytes of address space, the interpreter and its libraries included."""


def run(case: FormCase) -> dict[str, object]:
    """One case, ended after MAX_SECONDS of the processor."""
    started = time.process_time()
    signal.setitimer(signal.ITIMER_PROF, MAX_SECONDS)
    try:
        found = flatten(case.data, f"content/{case.name}", FormWishes("mm"))
        words, ended = "\n".join(found.notes), "read"
    except FormError as error:
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
