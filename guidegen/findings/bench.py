"""Codes of findings about what comes from an author's bench: PDF and DXF files, photos."""

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

PHOTOS: tuple[Code, ...] = table(
    CodeGroup.READING,
    Severity.ERROR,
    (
        "trace-photo",
        "A photo that cannot be unpacked, or is far too large, is not read at all.",
        "Save it as JPEG, PNG or WebP with at most 64 million pixels.",
    ),
    (
        "trace-no-strips",
        "Without printed strips nobody knows how large anything in a photo is.",
        "Print strips with `guidegen trace --frame`, lay them flat on all sides.",
    ),
    (
        "trace-apart",
        "Photos are joined by the strips that they share.",
        "Take them so that neighbouring photos show the same strip, and move nothing between them.",
    ),
    (
        "trace-not-flat",
        "A bent strip or template makes every length near it wrong.",
        "Tape strips down flat; print all of them from one file at one size.",
    ),
    (
        "trace-nothing",
        "What cannot be told from its ground has no outline.",
        "Lay it on a ground of another brightness; for a drawing say --what pen.",
    ),
    (
        "trace-touches",
        "What lies under a strip cannot be seen.",
        "Leave 5 mm between the template and every strip.",
    ),
    (
        "trace-faint",
        "A faint edge is found where noise has it.",
        "Use a ground of another brightness, or a darker pen.",
    ),
    (
        "trace-edge",
        "Where an edge is hidden, its outline would be a guess.",
        "Take away what lies on it; light it from several sides, without hard shadows.",
    ),
    (
        "trace-astray",
        "An outline that the photo does not show there would be cut wrong.",
        "Look for a second line, a shadow or the paper's rim beside the edge; take another photo.",
    ),
    (
        "trace-blurred",
        "A blurred edge is a millimetre wide.",
        "Hold the camera still, let it focus, come nearer.",
    ),
    (
        "trace-small",
        "Too few pixels to a millimetre do not tell tenths.",
        "Come nearer, or take several photos that share strips.",
    ),
    (
        "trace-open",
        "Strips on one side alone leave the lens and the lean of the camera open.",
        "Lay strips on all sides, and hold the camera straight above the middle.",
    ),
)
