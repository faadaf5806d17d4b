"""Codes of findings about texts: links, pictures, headings, licences, translations, versions."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

TEXTS: tuple[Code, ...] = (
    *table(
        CodeGroup.TEXTS,
        Severity.ADVICE,
        (
            "letters-without-font",
            "On paper such letters are empty boxes, or whatever a computer happens to have.",
            "Write the words in Latin, Greek or Cyrillic letters, at least beside the others.",
        ),
        (
            "unknown-licence",
            "Readers look up by its name what they may do.",
            'Take the name or SPDX id of a licence, such as "CC BY-SA 4.0".',
        ),
        (
            "translation-missing",
            "Readers of the other language see the original there, marked as a gap.",
            "Add the text to the translation beside the build file.",
        ),
        (
            "translation-outdated",
            "An old translation may say what is no longer right, so the original is shown.",
            "Translate the text again; touching its words tells that it fits.",
        ),
    ),
    *table(
        CodeGroup.TEXTS,
        Severity.ERROR,
        (
            "dead-reference",
            "The link would lead nowhere.",
            "Correct the name after the colon.",
        ),
        (
            "dead-link",
            "Only https and mailto addresses and #anchors become links; others lose theirs.",
            "Give the whole address with https://, or a reference such as step:glue-cuff.",
        ),
        (
            "picture-without-alt",
            "Who cannot see the picture learns nothing from it.",
            "Write between the square brackets what it shows.",
        ),
        (
            "dead-picture",
            "A text can show only pictures that the guide or a step names.",
            "Name the picture in a step, or delete it.",
        ),
    ),
    *table(
        CodeGroup.TEXTS,
        Severity.WARNING,
        (
            "version-untold",
            "Who holds an older print cannot know what to print again.",
            "Add an entry to changes: version, date, text, and parts to print again.",
        ),
        (
            "heading-skip",
            "Screen readers go from level to level; a missing one looks like lost text.",
            "Use the next lower level of heading.",
        ),
        (
            "link-in-plain-text",
            "Only longer texts hold links; here readers would see the brackets.",
            "Write it without the link, or move the link into a text that is CommonMark.",
        ),
        (
            "caution-elsewhere",
            "A guide describes the cautions of its steps: readers find no other one in it.",
            "Say in the text what the caution says, or give the caution to a step.",
        ),
        ("empty-heading", "A heading without words leads nowhere.", "Write it, or delete it."),
    ),
)
