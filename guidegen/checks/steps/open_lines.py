"""A worksheet is no guide while lines of it are open."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem


def check_open_lines(content: Content, file: GuideFile) -> Iterator[Problem]:
    """What is still to be written, and the lines of a talk that nobody has dealt with."""
    for index, line in enumerate(file.guide.still_open):
        yield file.source.problem(
            "open-line", ("still-open", index), f"still to be written: {line}"
        )
    for number, step in enumerate(file.guide.steps):
        lines = [index for index, line in enumerate(step.heard) if line.open]
        if lines:
            first = step.heard[lines[0]]
            count = "a line" if len(lines) == 1 else f"{len(lines)} lines"
            which = f" (which of {', '.join(first.which)}?)" if first.which else ""
            yield file.source.problem(
                "open-line",
                ("steps", number, "heard", lines[0]),
                f'"{step.title}" has {count} of the talk open, at {first.at}: {first.said}{which}',
            )
