"""A step and the stock in → how long its work is left afterwards."""

from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.stock import Stock


def step_wait(step: Step, stock: Stock) -> float:
    """Minutes to leave the work after a step: its own, else its process's."""
    if step.wait is not None:
        return step.wait
    process = stock.processes.get(step.process or "")
    return process.wait if process else 0.0
