"""Codes of findings about what comes from an author's bench: PDF and DXF files, photos,
meshes."""

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

FORMS: tuple[Code, ...] = table(
    CodeGroup.READING,
    Severity.ERROR,
    (
        "form-file",
        "What cannot be read for certain would come out as another form.",
        "Save the form as OBJ, STL or PLY from the program that made it.",
    ),
    (
        "form-large",
        "Files are bounded, so that a hostile one cannot use up the computer.",
        "Reduce the mesh: 20,000 faces are enough for a whole body.",
    ),
    (
        "form-empty",
        "A form is made of faces, and the file has none.",
        "Turn what it shows into a mesh before you save it.",
    ),
    (
        "form-unit",
        "A form in the wrong unit makes pieces that fit nobody.",
        "Say the unit in which it was made.",
    ),
    (
        "form-shared",
        "Where three faces meet in one edge, nobody can say which two are the form.",
        "Take walls inside the form away in your editor.",
    ),
    (
        "form-one-sided",
        "A surface with one side alone has no outside for the foam's face.",
        "Cut the twisted band, or turn faces so that they agree.",
    ),
    (
        "form-crossing",
        "Pieces of a surface that passes through itself cannot be built.",
        "Join its parts to one surface in your editor.",
    ),
    (
        "form-tight",
        "Foam cannot bend more tightly than half of its own thickness.",
        "Smooth the form there, use thinner foam, or say --shows middle.",
    ),
    (
        "form-no-cuts",
        "Nothing in the file says where it is cut.",
        "Mark edges as a line or by materials, or say --along proposal.",
    ),
    (
        "form-many",
        "A form of so many pieces is none to build.",
        "Smooth the mesh, or mark fewer seams.",
    ),
    (
        "form-overlap",
        "A panel that lies on itself when it is flat cannot be cut from one sheet.",
        "Mark one more seam across it.",
    ),
)
