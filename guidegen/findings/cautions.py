"""Codes of findings about cautions, and about hazards that have none."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

CAUTIONS: tuple[Code, ...] = (
    *table(
        CodeGroup.CAUTIONS,
        Severity.WARNING,
        (
            "needless-waiver",
            "It waives what does not apply, and would hide the caution if it ever did.",
            "Delete the waiver.",
        ),
        (
            "waiver-without-reason",
            "A caution that is left out without a reason may hurt someone.",
            "Say in a few words why it cannot do harm here, or delete the waiver.",
        ),
        (
            "hazard-without-caution",
            "A reader meets the hazard here, and the caution is not shown.",
            "Add the tool, the process or the caution to the step, or reword it.",
        ),
        (
            "tool-without-caution",
            "What cuts or burns needs its caution wherever it is used.",
            "Add the caution to the tool.",
        ),
        (
            "no-first-aid",
            "Where harm is grave, a reader must know at once whom to turn to.",
            "Add one line that sends to the label, the safety data sheet and professional help.",
        ),
        (
            "no-protection",
            "Where harm is grave, a reader must know what to wear and have at hand.",
            'List it under protection, or say under "no-protection" why nothing helps.',
        ),
        (
            "sign-without-equipment",
            "The sign orders equipment that the lists of tools would not name.",
            "Add equipment with that sign to protection.",
        ),
        (
            "chemical-without-caution",
            "Every liquid has a label, and most can harm eyes, skin, lungs or the room.",
            "Add the caution that the product's safety data sheet calls for.",
        ),
        (
            "long-short-caution",
            "More than a line is skipped, so the whole caution stands before each action instead.",
            "Say what to do in at most 60 letters.",
        ),
        (
            "unknown-statement",
            "Only codes whose official words are kept can be printed.",
            "Correct the code; combined ones are joined with +.",
        ),
    ),
    *table(
        CodeGroup.CAUTIONS,
        Severity.ADVICE,
        (
            "no-short-caution",
            "Without it the whole caution stands in every step, where it is soon skipped.",
            'Say under "short" what to do, in at most 60 letters.',
        ),
        (
            "waived-caution",
            "Whoever publishes the guide should have seen what was left out.",
            "Nothing, if the reason holds.",
        ),
    ),
)
