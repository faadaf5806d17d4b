"""The registry of findings → words: one code explained, or the list of all."""

from guidegen.errors import UsageError
from guidegen.findings.records import CodeGroup
from guidegen.findings.registry import CODES
from guidegen.problems import did_you_mean


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
    for group in CodeGroup:
        lines += ["", group.capitalize(), ""]
        lines += [
            f"  {about.code:{width}}  {about.severity:7}  {about.why}"
            for about in CODES.values()
            if about.group is group
        ]
    return "\n".join(lines[1:])
