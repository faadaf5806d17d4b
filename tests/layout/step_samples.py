"""Guides of nothing but steps, for tests of time."""

from guidegen.buildfile.records.guide import Guide


def guide_of(*steps: dict[str, object]) -> Guide:
    """A guide with these steps on the parts p, q and r."""
    plain = {"title": "t", "stage": "gluing", "text": "t"}
    return Guide.model_validate(
        {
            "title": "t", "version": "1", "date": "2026-01-01", "author": "a", "licence": "l",
            "licence-words": "w", "summary": "s", "overview": "o",
            "parts": {
                part: {"name": part, "label": part, "material": "m", "shape": "disc"}
                for part in "pqr"
            },
            "steps": [{**plain, **step} for step in steps],
        }
    )  # fmt: skip
