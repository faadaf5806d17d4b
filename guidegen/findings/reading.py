"""Codes of findings about files, names and sizes."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

READING: tuple[Code, ...] = table(
    CodeGroup.READING,
    Severity.ERROR,
    (
        "yaml",
        "A file that is not YAML cannot be read at all.",
        "Mend the line; most often an indent, a colon or a quote is wrong.",
    ),
    (
        "yaml-tag",
        "Tags can make a reader build any object, so none is allowed.",
        "Write plain texts, numbers, lists and keys.",
    ),
    (
        "open-line",
        "A worksheet says what a talk said, and may have misheard: it is no guide yet.",
        "Write what is missing, then take the line or its open: true away.",
    ),
    (
        "duplicate-key",
        "Of two equal keys one would silently win.",
        "Delete one, or give it its own name.",
    ),
    (
        "too-many-values",
        "Files are bounded, so that a hostile one cannot use up the computer.",
        "Divide the guide, or write repeated lists once.",
    ),
    (
        "too-many-steps",
        "Repeats multiply, and a guide of this many steps cannot be followed.",
        "Repeat fewer times, or divide the guide.",
    ),
    (
        "too-much-text",
        "Texts are bounded, so that a hostile guide cannot use up the computer.",
        "Shorten the text, or divide the guide.",
    ),
    (
        "direction",
        "Words turned round show other letters than they hold; a caution may read as its contrary.",
        "Delete the character, or close it behind the words that it is for.",
    ),
    (
        "too-deep",
        "Depth is bounded, so that a hostile file cannot use up the computer.",
        "Take nesting away; build files need few levels.",
    ),
    (
        "not-a-mapping",
        "A build file is a set of keys with values.",
        "Begin the file with a key, such as title.",
    ),
    (
        "missing-key",
        "Without it the guide cannot be made.",
        "Add the key; an editor with the JSON Schema completes it.",
    ),
    (
        "unknown-key",
        "A key that nobody reads is most often a slip, and what it says would be lost.",
        "Correct its name, or delete it.",
    ),
    (
        "bad-value",
        "The value is not of the kind that belongs here.",
        "Write what the message expects.",
    ),
    (
        "folder-name",
        "The name of the folder becomes part of addresses.",
        "Rename the folder: lower case words with hyphens.",
    ),
    (
        "no-guide",
        "There is nothing to make.",
        "Add a folder with a guide.yaml, or point --content elsewhere.",
    ),
    (
        "too-many-files",
        "Files are bounded, so that a hostile guide cannot use up the computer.",
        "Name fewer files; several pieces may share a drawing.",
    ),
    (
        "file-name",
        "A guide may read nothing but files of its own folder.",
        "Give the file's name inside the folder, without .. or a slash in front.",
    ),
    (
        "file-kind",
        "Only files of known kinds are read.",
        "Save it in one of the kinds that the message lists.",
    ),
    (
        "broken-picture",
        "What cannot be unpacked cannot be made smaller or printed.",
        "Save the picture again, or copy it anew from the camera.",
    ),
    ("no-file", "What is named is not there.", "Correct the name, or add the file."),
    (
        "outside",
        "A link would let a guide read files that are none of its business.",
        "Copy the file into the guide's folder.",
    ),
    ("not-a-file", "Only ordinary files are read.", "Put an ordinary file in its place."),
    (
        "too-large-file",
        "Sizes are bounded, so that a hostile file cannot use up the computer.",
        "Make it smaller: simplify the drawing, or scale the photo down.",
    ),
    (
        "unreadable",
        "The system refuses to read it.",
        "Give yourself the right to read the file.",
    ),
    (
        "print-profile",
        "A print shop's file must say for which press its colours are meant.",
        "Ask the print shop for its output profile, or leave print-profile out for black ink.",
    ),
    (
        "character",
        "Control characters break pages and feeds, and terminals obey some of them.",
        "Delete the character; it is often left from copying. Letters can be typed as they are.",
    ),
    (
        "not-utf-8",
        "In another encoding letters come out wrong.",
        "Save the file as UTF-8.",
    ),
)

NAMES: tuple[Code, ...] = (
    *table(
        CodeGroup.NAMES,
        Severity.ERROR,
        (
            "unknown-name",
            "It refers to something that is not there.",
            "Correct the name, or add what it names.",
        ),
        (
            "double-name",
            "A name that stands for two things stands for neither.",
            "Rename one of them.",
        ),
        (
            "double-label",
            "Labels are written on the foam: two alike would be mixed up on the table.",
            "Give each part its own label.",
        ),
        (
            "unknown-edge",
            "The part has no edge of that name.",
            "Use a name that the message lists, or name the edge under edges.",
        ),
        (
            "unknown-corner",
            "The drawing has no corner of that name.",
            "Mark the corner in the drawing, or correct the name.",
        ),
        (
            "unknown-spread",
            "The drawing has no spread line of that name.",
            "Draw the line, or correct the name.",
        ),
        (
            "no-drawing",
            "A drawn part needs a drawing for every size.",
            "Name an SVG file in the guide's folder.",
        ),
        (
            "no-piece",
            "The drawing holds nothing of that name.",
            "Correct the name after the #, or give the group that label or id.",
        ),
    ),
    *table(
        CodeGroup.NAMES,
        Severity.ERROR,
        (
            "formerly-alive",
            "One address cannot lead to two places.",
            "Take the name out of formerly, or give the new thing another name.",
        ),
    ),
    *table(
        CodeGroup.NAMES,
        Severity.WARNING,
        (
            "label-like-paper",
            "A piece called like a paper is taken for one: A4 on paper A4.",
            "Skip that number, or take another letter.",
        ),
        (
            "unused-sequence",
            "Steps that nothing uses are read by nobody.",
            "Use the sequence in steps, or delete it.",
        ),
        (
            "unused-suppression",
            "What it kept silent is gone or stands elsewhere; left, it may hide something new.",
            "Delete it, or correct its place.",
        ),
    ),
)

SIZES: tuple[Code, ...] = (
    *table(
        CodeGroup.SIZES,
        Severity.ERROR,
        (
            "arithmetic",
            "A length without a value cannot be cut.",
            "Correct the formula; names are those of measurements and values.",
        ),
        (
            "value-cycle",
            "Values that need each other never get a number.",
            "Work one of them out from measurements only.",
        ),
        (
            "length-cycle",
            "Parts that take their lengths from each other can never be made.",
            "Work one of them out from measurements only.",
        ),
        (
            "implausible",
            "A slip in the size table spoils every piece of that size.",
            "Correct the cell, or widen least and most.",
        ),
        (
            "cut-length",
            "A strap that is pieced together does not hold.",
            "Add a longer pack to stock.yaml, or shorten the strap.",
        ),
        (
            "body",
            "Without this measurement nothing can be fitted.",
            "Give every measurement of the guide, each more than 0.",
        ),
        (
            "not-for-body",
            "A guide is drawn for the sizes that it has; not every body beyond them works.",
            "Print the nearest size, leave a piece out, or ask the author.",
        ),
        (
            "population",
            "A survey that is read wrongly gives wrong sizes.",
            "Correct the line, or name the column and the unit of the file.",
        ),
        (
            "doubtful-body",
            "A wrong measurement is the most common reason for pieces that do not fit.",
            "Measure again; if it is right, add --sure.",
        ),
    ),
)
