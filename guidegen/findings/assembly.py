"""Codes of findings about the finished thing, worn or standing."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

ASSEMBLY: tuple[Code, ...] = (
    *table(
        CodeGroup.GEOMETRY,
        Severity.WARNING,
        (
            "edges-apart",
            "Edges that do not meet on the body are pulled together by force, and open again.",
            "Correct the edges' curves, or where the parts sit.",
        ),
        (
            "strained",
            "Foam that must stretch puckers or springs back where no heat has formed it.",
            "Form it with heat, add a dart or seam, or let it sit where it bends one way only.",
        ),
        (
            "in-body",
            "Foam cannot lie where the body is: it presses, or sits elsewhere than drawn.",
            "Make the part larger, or say where it sits with up, aside and off of its worn.",
        ),
        (
            "in-one-another",
            "Two pieces cannot be in one place.",
            "Move one of them, or say by its off that it lies over the other.",
        ),
        (
            "joint-blocked",
            "Foam at the bend of a joint pinches, and stops the limb.",
            "Make the part shorter, or let it sit farther from the joint with up of its worn.",
        ),
    ),
    *table(
        CodeGroup.GEOMETRY,
        Severity.ADVICE,
        (
            "harness-figure",
            "A strap that is longer than its way hangs, and a shorter one pulls.",
            "Correct its length, or the places; a body is softer than the figure, so try it on.",
        ),
        (
            "not-placed",
            "Readers see the finished thing without it.",
            "Give the part worn or stands, or lay it on another part with a placement.",
        ),
    ),
)
