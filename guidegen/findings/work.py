"""Codes of findings about steps, cautions, texts and the output."""

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
        ("empty-heading", "A heading without words leads nowhere.", "Write it, or delete it."),
    ),
)

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
