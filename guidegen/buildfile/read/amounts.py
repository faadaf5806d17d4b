"""Texts for readers of one file in → problems where there are more of them than anybody reads.

Every text is parsed several times, and the time for brackets grows with their square.
"""

from collections.abc import Mapping

from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.problems import Problem

MAX_LETTERS = 600_000
"""Letters of all texts of a file, repeated steps written out. Our choice: a thick book."""
MAX_BRACKETS = 1000
"""Opening square brackets of one text. Our choice: so many links fill ten pages."""


def amount_problems(texts: Mapping[Trail, str], source: Source) -> list[Problem]:
    """Texts with too many brackets, each; and one problem for too many letters altogether."""
    problems = [
        source.problem(
            "too-much-text",
            trail,
            f'{count} opening brackets "[" in one text; expected at most {MAX_BRACKETS}',
        )
        for trail, text in texts.items()
        if (count := text.count("[")) > MAX_BRACKETS
    ]
    letters = sum(map(len, texts.values()))
    if letters > MAX_LETTERS:
        message = f"{letters} letters in all texts together; expected at most {MAX_LETTERS}"
        problems.append(source.problem("too-much-text", (), message))
    return problems
