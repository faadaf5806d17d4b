"""Codes of findings about what a press writes, and about what of it was published."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

OUTPUT: tuple[Code, ...] = (
    *table(
        CodeGroup.OUTPUT,
        Severity.ERROR,
        ("theme-template", "A page cannot be made.", "Correct the theme's template."),
        (
            "pack-fault",
            "Somebody changed the pack, or it was damaged on the way.",
            "Take it again from where it was published.",
        ),
        (
            "published-missing",
            "Readers who follow a link or a code find nothing.",
            "Upload out/ whole, folders with a dot in their names as well.",
        ),
        (
            "published-differs",
            "Readers get another version than the one that you pressed.",
            "Upload out/ again; empty what the host keeps between itself and readers.",
        ),
    ),
    *table(
        CodeGroup.OUTPUT,
        Severity.WARNING,
        (
            "stored-plans",
            "Without the plan that was kept, the next one may differ.",
            "Nothing: it is made again. Commit the new file.",
        ),
        (
            "plan-kept",
            "The plan that was found cannot be kept, so the next press searches again.",
            "Give yourself the right to write in the guide's folder.",
        ),
        (
            "search-index",
            "Without its index the site cannot be searched; all else is there.",
            "Install guidegen again with its libraries, or press again.",
        ),
        (
            "published-type",
            "Browsers refuse scripts, styles and pictures of a wrong type, or save pages as files.",
            "Give the ending its media type in the host's settings.",
        ),
        (
            "published-404",
            "Search engines keep addresses that do not exist, and readers do not see 404.html.",
            "Let the host answer 404 with the page 404.html.",
        ),
        (
            "lost-address",
            "Readers hold paper and links that lead there, for years.",
            "Name it under formerly in guide.yaml, or put it back.",
        ),
        (
            "version-fault",
            "Readers who hold that version look for this file.",
            "Put the folder in versions.kept back as it was; your version control has it.",
        ),
        (
            "left-beside",
            "An older version left it; nothing of it is used, and it takes room.",
            "Look whether anything of yours is in it, then remove it.",
        ),
        (
            "measured-files",
            "Without its packages no page can make templates to measure; all else is there.",
            "Press again with a network and npm, or set made-to-measure to false.",
        ),
        (
            "solver-failed",
            "A simple plan in rows needs more foam than a searched one.",
            "Press again, perhaps with a longer --nesting-time.",
        ),
    ),
    *table(
        CodeGroup.OUTPUT,
        Severity.ADVICE,
        (
            "published-unpacked",
            "Pages take three to ten times as long to arrive.",
            "Turn compression on at the host: gzip, better brotli.",
        ),
        (
            "version-unkept",
            "Whoever holds a print of that version finds no templates that belong to it.",
            "Press the site once as it was then, and again as it is now; or suppress this finding.",
        ),
        (
            "published-uncached",
            "Browsers fetch what they have already.",
            "Let the host send ETag or Last-Modified, which nearly every one does.",
        ),
        (
            "published-needless",
            "It is of use to guidegen alone.",
            "Leave it out of what you upload.",
        ),
    ),
)
