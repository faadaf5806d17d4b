"""Codes of findings about what comes from an author's bench: PDF and DXF files."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

VECTORS: tuple[Code, ...] = table(
    CodeGroup.READING,
    Severity.ERROR,
    (
        "vector-file",
        "What cannot be read for certain would come out as another template.",
        "Write the file anew from the program that made it.",
    ),
    (
        "vector-large",
        "Files are bounded, so that a hostile one cannot use up the computer.",
        "Write the lines of one template alone.",
    ),
    (
        "vector-empty",
        "A template is made of lines, and the file has none.",
        "Turn what it shows into paths, and switch its layers on.",
    ),
    (
        "vector-picture",
        "Pixels are no lines: nothing says how long they are.",
        "Print it, photograph it beside a frame and trace the photograph.",
    ),
    (
        "vector-unit",
        "Numbers without a unit may be millimetres or inches.",
        "State a length, or the unit.",
    ),
    (
        "vector-length",
        "A drawing at another scale makes pieces that fit nobody.",
        "Correct the length, the unit or the scale.",
    ),
    (
        "vector-join",
        "Pages that are joined askew make a template that is wrong by as much.",
        "Name the same two points on both pages.",
    ),
)
