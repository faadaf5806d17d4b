"""Codes of findings about templates to a reader's measurements, made in a browser."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

MEASURED_OUTPUT: tuple[Code, ...] = table(
    CodeGroup.OUTPUT,
    Severity.WARNING,
    (
        "measured-files",
        "Without its packages no page can make templates to measure; all else is there.",
        "Press again with a network and npm, or set made-to-measure to false.",
    ),
)
