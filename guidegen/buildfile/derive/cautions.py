"""A step and the stock in → the cautions that reach it, gravest first, each with what brings it."""

from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.safety.cautions import SignalWord, Young
from guidegen.buildfile.records.stock import Stock

GRAVITY = {word: rank for rank, word in enumerate(SignalWord)}
"""0 for the gravest. Order of ANSI Z535.4: DANGER, WARNING, CAUTION, NOTICE (from memory)."""


def step_tools(step: Step, stock: Stock) -> tuple[str, ...]:
    """Ids of all tools of a step, each once: the process's, its own, protective equipment."""
    process = stock.processes.get(step.process or "")
    named = [*(process.tools if process else ()), *step.tools]
    for caution in step_cautions(step, stock):
        if caution in stock.cautions:
            named.extend(stock.cautions[caution].protection)
    return tuple(dict.fromkeys(named))


def step_cautions(step: Step, stock: Stock, *, waived: bool = False) -> dict[str, tuple[str, ...]]:
    """Caution ids with the names of the tools, materials and process that bring them.

    Those that the author waives are left out unless `waived`. Ids that the stock does not know
    are left out: the check of names reports them.
    """
    brought: dict[str, list[str]] = {}

    def bring(cautions: tuple[str, ...], by: str) -> None:
        for caution in cautions:
            sources = brought.setdefault(caution, [])
            if by not in sources:
                sources.append(by)

    process = stock.processes.get(step.process or "")
    if process is not None:
        bring(process.cautions, process.name)
    for tool_id in (*(process.tools if process else ()), *step.tools):
        if tool_id in stock.tools:
            bring(stock.tools[tool_id].cautions, stock.tools[tool_id].name)
    for use in step.uses:
        if use.material in stock.materials:
            material = stock.materials[use.material]
            bring(material.cautions, material.name)
    bring(step.cautions, "this step")
    dropped = set() if waived else {waiver.caution for waiver in step.waive}
    known = [c for c in brought if c in stock.cautions and c not in dropped]
    known.sort(key=lambda c: GRAVITY[stock.cautions[c].word])
    return {caution: tuple(brought[caution]) for caution in known}


def step_young(step: Step, stock: Stock) -> Young:
    """Who may do a step: as the strictest of its cautions says."""
    strict = list(Young)
    found = (stock.cautions[name].young for name in step_cautions(step, stock))
    return max(found, key=strict.index, default=Young.MAY)
