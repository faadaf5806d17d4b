"""The code of a finding → what it means and what cures it, from the registry alone.

A module of its own, so that nothing which reads or checks is loaded for an answer from a table.
"""

from guidegen.checks.report.explain import explain, list_codes


def explain_code(code: str) -> str:
    """All about one code, or the list of all where it is empty. Raises UsageError."""
    return explain(code) if code else list_codes()
