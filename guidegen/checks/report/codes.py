"""Every code that a finding may have, with its group, weight, reason and cure: one registry."""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.checks.report.code_records import Code, Group
from guidegen.checks.report.codes_fastening import LIVING, POINTS
from guidegen.checks.report.codes_geometry import DRAWINGS, GEOMETRY, SEAMS
from guidegen.checks.report.codes_reading import NAMES, READING, SIZES
from guidegen.checks.report.codes_work import CAUTIONS, OUTPUT, STEPS, TEXTS
from guidegen.errors import UsageError
from guidegen.problems import did_you_mean

CODES: Mapping[str, Code] = MappingProxyType(
    {
        code.code: code
        for code in (
            *READING,
            *DRAWINGS,
            *NAMES,
            *SIZES,
            *GEOMETRY,
            *SEAMS,
            *STEPS,
            *CAUTIONS,
            *TEXTS,
            *LIVING,
            *POINTS,
            *OUTPUT,
        )
    }
)
"""By code, in the order of the work."""


def explain(code: str) -> str:
    """All about one code, in words. Raises UsageError where there is no such code."""
    if code not in CODES:
        raise UsageError(f'no finding has the code "{code}"{did_you_mean(code, CODES)}')
    about = CODES[code]
    return (
        f"{about.code}\n"
        f"  group     {about.group}\n"
        f"  severity  {about.severity}\n"
        f"  why       {about.why}\n"
        f"  cure      {about.cure}"
    )


def list_codes() -> str:
    """All codes by group, each with its weight and reason."""
    lines: list[str] = []
    width = max(len(code) for code in CODES)
    for group in Group:
        lines += ["", group.capitalize(), ""]
        lines += [
            f"  {about.code:{width}}  {about.severity:7}  {about.why}"
            for about in CODES.values()
            if about.group is group
        ]
    return "\n".join(lines[1:])
