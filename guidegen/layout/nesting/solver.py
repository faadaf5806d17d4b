"""A nesting problem on standard input → the best plan found on standard output, as JSON.

The only module that imports packingsolver. It runs as a process of its own (`python -m
guidegen.layout.nesting.solver`), started by solver_process, so that a crash or a hang in the
library's compiled code, or its hunger for memory, ends here.
"""

import os
import sys
from collections.abc import Callable, Sequence
from functools import partial
from time import monotonic, process_time

try:
    import resource
except ImportError:  # not on this system
    resource = None  # type: ignore[assignment]

import packingsolver
from packingsolver import irregular

from guidegen.layout.nesting.solver_messages import (
    PATIENCE,
    NestAnswer,
    NestRequest,
    Search,
    SolverPlace,
    answer_key,
    is_enough,
    read_request,
    write_message,
)

MEMORY_BYTES = 2 << 30
"""Bytes of address space for the process. Our choice: large kits need about 100 MB."""

PROBE = 0.05
"""Seconds of work by which it is measured how busy the machine is."""

MEMORY_MEGABYTES = 1024
"""At which the solver stops of its own accord."""


def solve(request: NestRequest, tell: Callable[[NestAnswer], None]) -> None:
    """Search within the request's seconds; `tell` is called with every better whole plan.

    Raises what the library raises.
    """
    best: NestAnswer | None = None

    def better(search: Search, output: irregular.Output) -> None:
        nonlocal best
        # Plans without all pieces are on the way to one, and worth nothing to us.
        if output.solution.full():
            answer = _answer(output, _kinds(request, search))
            if best is None or answer_key(answer, request) < answer_key(best, request):
                best = answer
                tell(answer)

    # One deadline for all searches; each gets its share of what is left then, so time that one did
    # not need goes to those after it.
    end = monotonic() + request.seconds * _busyness()
    shares = sum(search.share for search in request.searches)
    for search in request.searches:
        parameters = irregular.OptimizeParameters()
        parameters.optimization_mode = packingsolver.OptimizationMode.Anytime
        parameters.time_limit = max(0.01, (end - monotonic()) * search.share / shares)
        parameters.memory_limit_megabytes = MEMORY_MEGABYTES
        parameters.verbosity_level = 0
        parameters.messages_to_stdout = False
        parameters.new_solution_callback = partial(better, search)
        better(search, irregular.optimize(_instance(request, search), parameters))
        shares -= search.share
    if best is None:
        tell(NestAnswer(()))


def _busyness() -> float:
    """How much longer than on an idle machine work takes just now, 1 to PATIENCE.

    The library stops by the clock. Without this a busy machine would find, and keep, poor plans.
    """
    start, worked = monotonic(), process_time()
    # Work by the processor's clock, timed by the wall's: the quotient is how many share the
    # machine.
    while process_time() - worked < PROBE:
        pass
    return min(PATIENCE, max(1.0, (monotonic() - start) / PROBE))


def _kinds(request: NestRequest, search: Search) -> list[int]:
    """Which size each of the library's kinds of bin is: one for each sheet of a mix."""
    if search.mix:
        return [number for number, count in enumerate(search.mix) for _ in range(count)]
    return list(range(len(request.sheets)))


def _answer(output: irregular.Output, kinds: Sequence[int]) -> NestAnswer:
    solution = output.solution
    return NestAnswer(
        tuple(
            (kinds[sheet.bin_type_id], tuple(_place(item) for item in sheet.items))
            for position in range(solution.number_of_different_bins())
            for sheet in [solution.bin(position)]
            for _ in range(sheet.copies)
        )
    )


def _instance(request: NestRequest, search: Search) -> irregular.Instance:
    builder = irregular.InstanceBuilder()
    if search.mix:
        # A given mix of sheets: only whether all fit is asked, which the library answers soonest.
        objective = packingsolver.Objective.Feasibility
    elif len(request.sheets) > 1:
        objective = packingsolver.Objective.VariableSizedBinPacking
    else:
        objective = packingsolver.Objective.BinPacking
    builder.set_objective(objective)
    builder.set_item_item_minimum_spacing(request.spacing)
    for kind in _kinds(request, search):
        sheet = request.sheets[kind]
        builder.add_bin_type(
            irregular.build_rectangle(sheet.width, sheet.height),
            cost=sheet.price,
            copies=1 if search.mix else sheet.copies,
            item_bin_minimum_spacing=request.rim,
        )
    for item in request.items:
        builder.add_item_type(
            irregular.ShapeWithHoles(_shape(item.outline), [_shape(hole) for hole in item.holes]),
            copies=item.copies,
            allowed_rotations=list(search.turns),
        )
    return builder.build()


def _shape(ring: tuple[tuple[float, float], ...]) -> irregular.Shape:
    return irregular.build_shape([irregular.BuildShapeElement(x, y) for x, y in ring])


def _place(item: irregular.SolutionItem) -> SolverPlace:
    return SolverPlace(
        int(item.item_type_id),
        float(item.bl_corner.x),
        float(item.bl_corner.y),
        float(item.angle),
        bool(item.mirror),
    )


def _limit_resources(seconds: float) -> None:
    """Bound memory and processor time, where the system can; elsewhere the parent's clock does."""
    if resource is None:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    # A backstop for a library that no longer looks at its clock; it works on all cores.
    processor = int(seconds * (os.cpu_count() or 1)) + 30
    resource.setrlimit(resource.RLIMIT_CPU, (processor, processor))


def main() -> None:
    """Answer one request, a line for each better plan, the last line being the best.

    The answers have standard output to themselves: the library may chatter.
    """
    request = read_request(sys.stdin.read())
    _limit_resources(request.seconds)
    # The library writes to descriptor 1 from compiled code, past sys.stdout: so the descriptor
    # itself is led to standard error, and a copy of it kept for answers.
    answer_to = os.fdopen(os.dup(1), "w", encoding="utf-8", newline="\n")
    os.dup2(2, 1)

    def tell(answer: NestAnswer) -> None:
        answer_to.write(write_message(answer) + "\n")
        # At once: if the process is stopped, whole lines written so far are the answer.
        answer_to.flush()
        if is_enough(answer, request):
            os._exit(0)  # the library cannot be asked to stop early

    solve(request, tell)


if __name__ == "__main__":
    main()
