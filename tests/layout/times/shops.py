"""Small guides and a stock for tests of time tables: a gun in turns, a pen that goes around; and
how long one kit takes at least.
"""

import networkx as nx

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.step_graph import depends_on

HEAD = {
    "title": "T", "version": "1", "date": "2026-11-01", "author": "A", "licence": "L",
    "licence_words": "L", "summary": "S", "overview": "O",
}  # fmt: skip
PART = {"name": "P", "label": "P", "material": "foam", "shape": "disc",
        "dimensions": {"diameter": 9}}  # fmt: skip
HOT = {
    "word": "WARNING", "title": "Hot", "hazard": "It is hot.", "consequence": "Burns.",
    "avoid": "Gloves.", "young": "adults",
}  # fmt: skip


def guide_of(*steps: dict[str, object]) -> Guide:
    """A guide of steps of 10 min on one part, unless they say otherwise."""
    whole = [
        {"title": "Do", "stage": "gluing", "text": "Do it.", "parts": ["p"], "time": 10, **step}
        for step in steps
    ]
    parts = {name: {**PART, "label": name.upper()} for name in ("p", "q", "r")}
    return Guide.model_validate({**HEAD, "parts": parts, "steps": whole})


def critical_path(guide: Guide) -> float:
    """Minutes of the longest chain of steps and waits of one kit, as networkx finds it."""
    steps = {step.id: step for step in guide.steps}
    graph = nx.DiGraph()
    for step in guide.steps:
        graph.add_edge(step.id, "end", weight=step.time)
        for other in depends_on(guide)[step.id]:
            graph.add_edge(other, step.id, weight=steps[other].time + (steps[other].wait or 0))
    return float(nx.dag_longest_path_length(graph))


def stock_of(**more: object) -> Stock:
    """Six people to a gun, kept through a step; six to a pen; what is hot is for adults."""
    tools = {
        "gun": {"name": "Heat gun", "shared-by": 6, "turns": True},
        "pen": {"name": "Pen", "shared-by": 6},
    }
    return Stock.model_validate({"tools": tools, "cautions": {"hot": HOT}, **more})
