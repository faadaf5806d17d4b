"""Codes of findings about what holds a thing together, and about the numbers in its words."""

from guidegen.checks.report.code_records import Code, Group, table
from guidegen.problems import Severity

LIVING: tuple[Code, ...] = (
    *table(
        Group.TEXTS,
        Severity.ERROR,
        (
            "living-number",
            "A number that nothing works out would be printed as braces.",
            "Name a measurement, value or edge that there is, or double a brace that is meant.",
        ),
        (
            "living-value",
            "In this size the number has no value.",
            "Correct the arithmetic, or the name of the edge.",
        ),
    ),
    *table(
        Group.TEXTS,
        Severity.ADVICE,
        (
            "bare-number",
            "A number that is right in one size misleads the readers of all others.",
            "Write the value between braces, or words that are true in every size.",
        ),
    ),
)
