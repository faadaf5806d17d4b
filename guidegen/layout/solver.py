"""A nesting problem on standard input → the best plan found on standard output, as JSON.

The only module that imports packingsolver. It runs as a process of its own (`python -m
guidegen.layout.solver`), started by solver_process, so that a crash or a hang in the library's
compiled code, or its hunger for memory, ends here.
"""

import os
import sys
from collections.abc import Callable

try:
    import resource
except ImportError:  # not on this system
    resource = None  # type: ignore[assignment]

import packingsolver
from packingsolver import irregular

from guidegen.layout.solver_messages import (
    NestAnswer,
    NestRequest,
    SolverPlace,
    Turns,
    answer_key,
    is_enough,
    read_request,
    write_message,
)

MEMORY_BYTES = 2 << 30
"""Bytes of address space for the process. Our choice: large kits need about 100 MB."""

MEMORY_MEGABYTES = 1024
"""At which the solver stops of its own accord."""


def solve(request: NestRequest, tell: Callable[[NestAnswer], None]) -> None:
    """Search within the request's seconds; `tell` is called with every better whole plan.

    Raises what the library raises.
    """
    best: NestAnswer | None = None

    def better(output: irregular.Output) -> None:
        nonlocal best
        if output.solution.full():
            answer = _answer(output)
            if best is None or answer_key(answer, request) < answer_key(best, request):
                best = answer
                tell(answer)

    for turns in request.searches:
        parameters = irregular.OptimizeParameters()
        parameters.optimization_mode = packingsolver.OptimizationMode.Anytime
        parameters.time_limit = request.seconds / len(request.searches)
        parameters.memory_limit_megabytes = MEMORY_MEGABYTES
        parameters.verbosity_level = 0
        parameters.messages_to_stdout = False
        parameters.new_solution_callback = better
        better(irregular.optimize(_instance(request, turns), parameters))
    if best is None:
        tell(NestAnswer((), 0))


def _answer(output: irregular.Output) -> NestAnswer:
    solution = output.solution
    sheets = tuple(
        (int(sheet.bin_type_id), tuple(_place(item) for item in sheet.items))
        for position in range(solution.number_of_different_bins())
        for sheet in [solution.bin(position)]
        for _ in range(sheet.copies)
    )
    # The library's bound on the price is in prices of single sheets; with packs it says nothing.
    return NestAnswer(sheets, max(0, int(output.bin_packing_bound)))


def _instance(request: NestRequest, turns: Turns) -> irregular.Instance:
    builder = irregular.InstanceBuilder()
    several = len(request.sheets) > 1
    builder.set_objective(
        packingsolver.Objective.VariableSizedBinPacking
        if several
        else packingsolver.Objective.BinPacking
    )
    builder.set_item_item_minimum_spacing(request.spacing)
    for sheet in request.sheets:
        builder.add_bin_type(
            irregular.build_rectangle(sheet.width, sheet.height),
            cost=sheet.price,
            copies=sheet.copies,
            item_bin_minimum_spacing=request.rim,
        )
    for item in request.items:
        builder.add_item_type(
            irregular.ShapeWithHoles(_shape(item.outline), [_shape(hole) for hole in item.holes]),
            copies=item.copies,
            allowed_rotations=list(turns),
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
    processor = int(seconds * (os.cpu_count() or 1)) + 30
    resource.setrlimit(resource.RLIMIT_CPU, (processor, processor))


def main() -> None:
    """Answer one request, a line for each better plan, the last line being the best.

    The answers have standard output to themselves: the library may chatter.
    """
    request = read_request(sys.stdin.read())
    _limit_resources(request.seconds)
    answer_to = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)

    def tell(answer: NestAnswer) -> None:
        answer_to.write(write_message(answer) + "\n")
        answer_to.flush()
        if is_enough(answer, request):
            os._exit(0)  # the library cannot be asked to stop early

    solve(request, tell)


if __name__ == "__main__":
    main()
