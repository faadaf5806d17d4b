"""Small guides and a stock for tests of time tables: a gun in turns, a pen that goes around."""

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock

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


def stock_of() -> Stock:
    """Six people to a gun, kept through a step; six to a pen; what is hot is for adults."""
    tools = {
        "gun": {"name": "Heat gun", "shared-by": 6, "turns": True},
        "pen": {"name": "Pen", "shared-by": 6},
    }
    return Stock.model_validate({"tools": tools, "cautions": {"hot": HOT}})
