"""A nesting problem in → the solver's answer out, from a process that cannot take us with it."""

import subprocess
import sys
from collections.abc import Sequence

from guidegen.errors import SolverError
from guidegen.layout.solver_messages import NestAnswer, NestRequest, read_answer, write_message

SOLVER = (sys.executable, "-m", "guidegen.layout.solver")
"""Command of the solver's process."""

GRACE = 5.0
"""Seconds beyond its budget after which the process is stopped: it has to start, and its clock is
looked at only now and then."""


def solve_apart(
    request: NestRequest, command: Sequence[str] = SOLVER, grace: float = GRACE
) -> NestAnswer:
    """The best plan that the solver finds in its seconds.

    Raises SolverError where the process crashes, hangs, or answers something else.
    """
    try:
        done = subprocess.run(  # noqa: S603 - our own interpreter and module, no shell
            command,
            input=write_message(request),
            capture_output=True,
            text=True,
            encoding="utf-8",
            errors="replace",
            timeout=request.seconds + grace,
            check=False,
        )
    except subprocess.TimeoutExpired:
        raise SolverError("the nesting solver did not answer in time and was stopped") from None
    except OSError as error:
        raise SolverError(f"the nesting solver could not be started ({error})") from error
    if done.returncode:
        lines = done.stderr.strip().splitlines()
        reason = lines[-1][:200] if lines else f"status {done.returncode}"
        raise SolverError(f"the nesting solver failed ({reason})")
    return read_answer(done.stdout, request)
