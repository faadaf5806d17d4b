"""Words that speak of a hazard stand only where its caution is shown: 'heat gun' in a step's text.

Which words mean which caution is data of the stock.
"""

import re
from collections.abc import Iterator

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.problems import Problem


def check_hazard_words(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Steps whose words name something dangerous that neither process, tool nor material brings."""
    patterns = _patterns(content.stock)
    for number, step in enumerate(file.guide.steps):
        shown = step_cautions(step, content.stock, waived=True)
        for caution, pattern in patterns.items():
            found = pattern.search(f"{step.title}\n{step.text}")
            if found and caution not in shown:
                yield file.source.problem(
                    "hazard-without-caution",
                    ("steps", number, "text"),
                    f'the words speak of "{found[0]}", but nothing in the step brings the '
                    f'caution "{caution}"',
                )


def check_dangerous_tools(content: Content) -> Iterator[Problem]:
    """Tools whose name says what they are: a saw, shears, a needle."""
    stock = content.stock
    for name, tool in stock.tools.items():
        for caution, pattern in _patterns(stock).items():
            found = pattern.search(tool.name)
            if found and not tool.protective and caution not in tool.cautions:
                yield content.stock_source.problem(
                    "tool-without-caution",
                    ("tools", name),
                    f'{tool.name} brings no caution "{caution}", though its name says "{found[0]}"',
                    key=True,
                )


def _patterns(stock: Stock) -> dict[str, re.Pattern[str]]:
    """For each caution the words that speak of its hazard, as whole words in any case."""
    return {
        name: re.compile(rf"\b(?:{'|'.join(map(re.escape, caution.words))})\b", re.IGNORECASE)
        for name, caution in stock.cautions.items()
        if caution.words
    }
