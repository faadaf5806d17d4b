"""Codes of findings about steps: their order, what they make and what they use."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

STEPS: tuple[Code, ...] = (
    *table(
        CodeGroup.STEPS,
        Severity.ERROR,
        (
            "unused-part",
            "A piece that no step uses is cut for nothing, or a step is missing.",
            "Name the part in a step, or delete it.",
        ),
        (
            "seam-not-made",
            "Edges that no step joins stay open.",
            "Name the seam in the step that joins it.",
        ),
        (
            "stack-not-made",
            "Layers that no step joins stay loose.",
            "Name the stack in the step that joins it.",
        ),
        (
            "made-twice",
            "What is done already cannot be done again: one of the steps is wrong.",
            'Take it out of one step; mark a repair with "again".',
        ),
        (
            "wrong-order",
            "A reader goes from top to bottom and would not have it yet.",
            "Move the step up, or the step that needs it down.",
        ),
        (
            "needs-cycle",
            "Steps that wait for each other never begin.",
            "Take one of the needs away.",
        ),
        (
            "used-before-made",
            "A reader would look for a piece that is not there yet.",
            "Move the step behind the one that makes it.",
        ),
        (
            "never-counted",
            "Material that is only ever at hand again is bought by nobody.",
            'Take "counted: false" away from its first use.',
        ),
        (
            "rate-kind",
            "Without a rate that fits, what is bought would be a guess.",
            'Give the material a rate with "per: area" or "per: length", or state the amount.',
        ),
        (
            "order-rule",
            "The rule and its reason stand in stock.yaml.",
            'Change the order; mark a legal second pass with "again".',
        ),
        (
            "missing-work",
            "Without this work the thing fails; the rule stands in stock.yaml.",
            "Add a step for it.",
        ),
        (
            "split-not-joined",
            "Sections stay apart, or are glued where no caution of the glue is shown.",
            "Name a step that lists the part and uses that glue.",
        ),
        ("rim-open", "A horn whose rims are joined open winds.", "Close its segments first."),
        (
            "dart-open",
            "The edge across a dart has its length only when the dart is closed.",
            "Move the step that closes the dart up.",
        ),
        (
            "joined-wet",
            "Cement that is still wet slides and shuts its solvent in.",
            "Give the coating step a longer wait, or put other work in between.",
        ),
        (
            "too-soon",
            "Glue and coats that are worked on too early slide, drag or blister.",
            "Give the earlier step a longer wait, or put other work in between.",
        ),
        (
            "not-apart",
            "What burns and what ignites must never share a room or follow too soon.",
            "Move one of the steps, or let the room air with a longer wait.",
        ),
    ),
    *table(
        CodeGroup.STEPS,
        Severity.WARNING,
        (
            "never-cut",
            "The part is worked on, and no step cuts it.",
            "Name the part in the step that cuts it.",
        ),
        (
            "cut-twice",
            "What is cut already cannot be cut again: one of the steps is wrong.",
            'Take the part out of one step; mark a second cut with "again".',
        ),
        (
            "advised-work",
            "Work that makers of such things do is not there; the rule stands in stock.yaml.",
            "Add a step for it, or suppress it with your reason.",
        ),
        (
            "feature-not-made",
            "What the part promises has to come from some step.",
            "Add the part to a step that makes it, or add the step.",
        ),
        (
            "joined-by-nothing",
            "Edges and layers hold together by glue, tape, thread or rivets.",
            "Add what joins them to the uses of the step.",
        ),
        (
            "order-advised",
            "The rule and its reason stand in stock.yaml; it is advice that may be weighed.",
            'Change the order, mark a second pass with "again", or suppress it with your reason.',
        ),
        (
            "sooner-than-advised",
            "Work that comes before its time may slide, drag or blister.",
            "Give the earlier step a longer wait, or suppress it with your reason.",
        ),
        (
            "apart-advised",
            "These two are better kept apart in room or time.",
            "Move one of the steps, or suppress it with your reason.",
        ),
        (
            "idle-part",
            "The part is cut and then never touched: perhaps a step forgot it.",
            "Name the part in the steps that use it.",
        ),
        (
            "glued-after-joining",
            "Faces are coated before they are joined; afterwards nothing reaches them.",
            "Move the glue to the step that joins them, or before it.",
        ),
        (
            "part-not-listed",
            "Pieces that are not listed are not at hand, and their rules are not checked.",
            "Add the part to the step's parts.",
        ),
        (
            "not-on-lists",
            "A maker is told to take what was neither bought nor fetched.",
            "Add it to the uses or tools of the step; delete a rate that nothing uses.",
        ),
        (
            "stiff-on-flexing",
            "Stiff glue and coats crack where a part bends.",
            "Take a flexible product there.",
        ),
    ),
)
