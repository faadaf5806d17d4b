"""References in texts, such as [cuff](piece:cuff), lead somewhere."""

import re
from collections.abc import Iterator, Mapping

from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.tree import Trail
from guidegen.problems import Problem, did_you_mean

_REFERENCE = re.compile(r"\]\(\s*<?(piece|step|material|tool|caution|term):([^)\s>]*)")


def check_references(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every reference in every CommonMark text of the guide."""
    tables: dict[str, Mapping[str, object]] = {
        "piece": file.guide.parts,
        "step": {step.id: step for step in file.guide.steps},
        "material": content.stock.materials,
        "tool": content.stock.tools,
        "caution": content.stock.cautions,
        "term": content.stock.terms,
    }
    for trail, text in _texts(file):
        for match in _REFERENCE.finditer(text):
            scheme, name = match[1], match[2]
            if name not in tables[scheme]:
                hint = did_you_mean(name, tables[scheme])
                message = f"the text refers to {scheme}:{name}, which does not exist{hint}"
                yield file.source.problem("dead-reference", trail, message)


def _texts(file: GuideFile) -> Iterator[tuple[Trail, str]]:
    guide = file.guide
    for key, text in (
        ("overview", guide.overview),
        ("wearing", guide.wearing),
        ("care", guide.care),
        ("licence-words", guide.licence_words),
    ):
        if text:
            yield (key,), text
    for name, measurement in guide.measurements.items():
        yield ("measurements", name, "take"), measurement.take
    for number, step in enumerate(guide.steps):
        yield ("steps", number, "text"), step.text
    for number, question in enumerate(guide.questions):
        yield ("questions", number, "answer"), question.answer
