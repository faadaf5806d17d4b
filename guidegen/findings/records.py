"""What is known about a code of a finding: its group, weight, reason and cure."""

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a problem weighs. Only an error stops a press."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


class CodeGroup(StrEnum):
    """What findings are about, in the order of a report: the order of the work."""

    READING = "reading"
    NAMES = "names"
    SIZES = "sizes"
    GEOMETRY = "geometry"
    SEAMS = "seams"
    STEPS = "steps"
    CAUTIONS = "cautions"
    TEXTS = "texts"
    OUTPUT = "output"


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of finding."""

    code: str
    """Stable name, such as 'order-rule'."""
    group: CodeGroup
    severity: Severity
    why: str
    """Why it matters, in one sentence."""
    cure: str
    """What to do about it, in one sentence."""


def table(group: CodeGroup, severity: Severity, *rows: tuple[str, str, str]) -> tuple[Code, ...]:
    """Codes of one group and weight from rows of code, reason and cure."""
    return tuple(Code(code, group, severity, why, cure) for code, why, cure in rows)
