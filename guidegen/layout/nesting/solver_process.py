"""A nesting problem in → the solver's answer out, from a process that cannot take us with it."""

import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from guidegen.errors import SolverError
from guidegen.layout.nesting.solver_messages import (
    PATIENCE,
    NestAnswer,
    NestRequest,
    read_answer,
    write_message,
)

SOLVER = (sys.executable, "-m", "guidegen.layout.nesting.solver")
"""Command of the solver's process."""

HOME = Path(__file__).resolve().parents[3]
"""Folder that the process starts in, since Python looks there for modules first: the author's
folder may hold anything."""

GRACE = 8.0
"""Seconds beyond its longest time after which the process is stopped. Our choice: on a busy
machine it takes a while to start, and it looks at its clock only now and then."""


def solve_apart(
    request: NestRequest, command: Sequence[str] = SOLVER, grace: float = GRACE
) -> NestAnswer:
    """The best plan that the solver finds in its seconds.

    A process that is still busy some seconds later is stopped; what it has found until then
    counts. Raises SolverError where it crashes, or answers nothing or something else.
    """
    try:
        done = subprocess.run(  # noqa: S603 - our own interpreter and module, no shell
            command,
            input=write_message(request).encode(),
            capture_output=True,
            cwd=HOME,
            timeout=PATIENCE * request.seconds + grace,
            check=False,
        )
    except subprocess.TimeoutExpired as late:
        if not late.stdout:
            raise SolverError("the nesting solver did not answer in time and was stopped") from None
        return read_answer(late.stdout.decode(errors="replace"), request)
    except OSError as error:
        raise SolverError(f"the nesting solver could not be started ({error})") from error
    # A crash after a whole plan counts as a crash: what made it crash may have made the plan.
    if done.returncode:
        lines = done.stderr.decode(errors="replace").strip().splitlines()
        reason = lines[-1][:200] if lines else f"status {done.returncode}"
        raise SolverError(f"the nesting solver failed ({reason})")
    return read_answer(done.stdout.decode(errors="replace"), request)
