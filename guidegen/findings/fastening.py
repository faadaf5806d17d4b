"""Codes of findings about what holds a thing together, and about the numbers in its words."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

LIVING: tuple[Code, ...] = (
    *table(
        CodeGroup.TEXTS,
        Severity.ERROR,
        (
            "living-number",
            "A number that nothing works out would be printed as braces.",
            "Name a measurement, value or edge that there is, or double a brace that is meant.",
        ),
        (
            "living-value",
            "In this size the number has no value.",
            "Correct the arithmetic, or the name of the edge.",
        ),
        (
            "dead-place",
            "Readers look in vain for a mark, line or edge that is not there.",
            "Name one that every size has, or add it to the part or seam.",
        ),
        (
            "no-middle-mark",
            "Who begins at the middle mark needs one: marks at thirds have none.",
            "Give the seam an odd number of marks.",
        ),
    ),
    *table(
        CodeGroup.TEXTS,
        Severity.ADVICE,
        (
            "bare-number",
            "A number that is right in one size misleads the readers of all others.",
            "Write the value between braces, or words that are true in every size.",
        ),
    ),
)

POINTS: tuple[Code, ...] = table(
    CodeGroup.GEOMETRY,
    Severity.ERROR,
    ("bad-points", "A row of points must have room.", "Correct its line, count or margins."),
    ("points-off", "A hole beside the foam holds nothing.", "Move the row onto the part."),
    (
        "points-edge",
        "Foam tears where a hole is too near an edge.",
        "Move the row inward, or state least-edge where the place is lined.",
    ),
    (
        "points-covered",
        "A hole under a layer that is glued on cannot be used.",
        "Move the row or the layer, or make the hole through both.",
    ),
    (
        "points-crowded",
        "Holes that nearly touch tear into one.",
        "Take fewer points, a larger pitch or smaller holes.",
    ),
)

HOLDING: tuple[Code, ...] = (
    *table(
        CodeGroup.GEOMETRY,
        Severity.ERROR,
        ("no-fastener", "Without its grip nobody knows what it holds.", "State it in stock.yaml."),
        (
            "fastener-grip",
            "A post that is too short pulls through, one that is too long turns.",
            "Take another post, or other layers.",
        ),
        (
            "fastener-head",
            "A head that does not lie flat tilts its post and cuts into the foam.",
            "Move the row inward or its points apart, or take a smaller head.",
        ),
        ("fastener-hole", "A post needs the hole that is made for it.", "Correct the diameter."),
        (
            "strap-reach",
            "A strap that does not reach, or not close enough, holds nothing.",
            "Change its lengths, its places or its closure.",
        ),
        (
            "strap-end",
            "A strap that has nothing to hold by comes off.",
            "Give its place more room.",
        ),
        (
            "belt-over",
            "A belt that is worn over parts goes round their outer faces.",
            "Give it the girth of what it lies over, or wear it under that.",
        ),
        (
            "strap-gap",
            "A strap does not pass where there is less room than its width.",
            "Take a narrower strap or a wider gap.",
        ),
        (
            "strip-roll",
            "A strip is cut from a roll that is at least as wide.",
            "State the width of the material, or take a narrower strip.",
        ),
        (
            "strip-room",
            "A strip that is wider or longer than what it lies on stands over.",
            "Cut it narrower or shorter.",
        ),
        (
            "strip-air",
            "Closed hook-and-loop has a thickness: in less air it does not go in, in more it does "
            "not close.",
            "Give it the air that it needs, or take another one.",
        ),
        (
            "does-not-fit",
            "What must fit does not, in this size.",
            "Correct the parts or the values.",
        ),
        (
            "linkage-row",
            "Two plates are held at both their sides, and lap in the middle.",
            "Give both plates a row with a point at each side, and name the edge that laps.",
        ),
        (
            "linkage-gap",
            "Where a row of plates opens farther than it laps, one sees what it covers.",
            "Let the plates lap more, take more plates, or hold them so that they open farther.",
        ),
        (
            "linkage-clash",
            "Plates that meet stop the limb.",
            "Make the plates longer, let them lap less at rest, or take more plates.",
        ),
        (
            "linkage-tight",
            "A plate that is as long as the one inside it binds, or stands off at its pivots.",
            "Make the outer plate longer from pivot to pivot, or say how far the plates go round.",
        ),
        (
            "harness-length",
            "A strap between two places is longer than nothing.",
            "Correct its length.",
        ),
        (
            "harness-loose",
            "A place where one strap meets nothing holds nothing.",
            "Let another strap cross or end there, or hold it on a part.",
        ),
        (
            "harness-ring",
            "A ring joins the ends of straps: what passes it slides.",
            "Let straps end in it, or make the place a crossing.",
        ),
        (
            "harness-apart",
            "A harness in pieces is none.",
            "Let a strap lead from one to the other.",
        ),
        (
            "no-letter",
            "A letter that its font does not have is missing on the finished thing.",
            "Take another face, or draw the letter.",
        ),
        (
            "letters-many",
            "So many letters would take long to draw, and nobody would read them.",
            "Write less on its parts.",
        ),
        (
            "letters-off",
            "Letters that stand over the edge cannot be drawn or cut whole.",
            "Move them, or make them smaller.",
        ),
        (
            "letters-flipped",
            "A flipped template shows its words mirrored.",
            "Draw the part whole, or put the words on a part of their own.",
        ),
        (
            "not-cloth",
            "Only cloth can be folded away.",
            "Cut the part from cloth, or draw a dart of foam as two edges and a seam.",
        ),
        (
            "bad-pleats",
            "Pleats need room on their edge, and a straight way into the piece.",
            "Take fewer or shallower pleats, or move them.",
        ),
        (
            "bad-dart",
            "A dart lies on its edge, and its legs reach it.",
            "Move it, or make it narrower.",
        ),
        (
            "bad-casing",
            "What is threaded through a casing has to pass, and to hold the cloth together.",
            "Correct its width, or the length of what goes through.",
        ),
        (
            "thing-unknown",
            "A template shows the place of a thing at its true size.",
            "State its footprint in stock.yaml, or draw it.",
        ),
        (
            "thing-room",
            "A thing that stands over the edge catches and breaks off.",
            "Move its row inward, or take a smaller one.",
        ),
        (
            "thing-pole",
            "Two magnets whose equal poles meet push one another away.",
            "Give one of both rows the other pole.",
        ),
        (
            "thing-meets",
            "A magnet without a partner holds nothing.",
            "Give both rows as many points, equally far apart.",
        ),
        (
            "circuit-unknown",
            "A circuit is worked out with what data sheets say.",
            "Write the volts and mA of the data sheet into stock.yaml.",
        ),
        (
            "circuit-volts",
            "A light needs voltage to spare: with too little its current is unsteady.",
            "Take more cells, or fewer lights in a row.",
        ),
        (
            "circuit-current",
            "More current than a data sheet allows heats a light or a cell.",
            "Ask for less current, fewer branches, or take a cell that gives more.",
        ),
        (
            "circuit-warm",
            "A hot resistor softens foam and glue.",
            "Take more lights in a row, fewer cells or less current.",
        ),
        (
            "circuit-hours",
            "Lights that go out before the day does are worth nothing.",
            "Take larger cells, or less current.",
        ),
        (
            "circuit-lights",
            "Each light has a place, and each place a light.",
            "Correct the count of the row, or of branches and lights.",
        ),
        ("fit-value", "What cannot be worked out cannot be checked.", "Correct the arithmetic."),
    ),
    *table(
        CodeGroup.GEOMETRY,
        Severity.WARNING,
        (
            "letters-mirrored",
            "Both hands are cut from one template, so one of them bears its words mirrored.",
            "Make left and right parts of their own, or accept it where nothing is read.",
        ),
        (
            "casing-tight",
            "Elastic that is pulled out before the cloth is keeps it from opening.",
            "Take longer elastic, one that stretches more, or less cloth.",
        ),
        (
            "patch-overlap",
            "Where one patch lies on another, the lower one holds nothing and the upper one lifts.",
            "Move a row, or let both straps name the same one.",
        ),
        (
            "linkage-inner",
            "Two plates inside the same outer one lie in one layer: they clash with each other.",
            "Bring their pivots nearer to their edges, or make the outer plate longer.",
        ),
        (
            "linkage-pushes",
            "The edge of a straight plate pushes its neighbour up, and the gap shows.",
            "Dome the plates about their pivots, let them lap less, or take more of them.",
        ),
    ),
    *table(
        CodeGroup.STEPS,
        Severity.WARNING,
        ("never-held", "What no step fits is neither bought nor closed.", "Name it in a step."),
        (
            "never-closed",
            "Holes and what closes them are counted together, where a fastening names the row.",
            "Name the row in a fastening, or say kind: hole where nothing closes it.",
        ),
        (
            "thing-other",
            "What is put on a row is what the row was made for.",
            "Name the same material in both places.",
        ),
        (
            "cell-without-caution",
            "Cells and magnets hurt people who were not told how.",
            "Give the material its cautions in stock.yaml; guidegen's own stock has some.",
        ),
        (
            "taken-in-late",
            "An edge that is still to be pleated or gathered is longer than its partner.",
            "Fold or gather first, then join.",
        ),
        (
            "linkage-early",
            "What is joined so that it moves can no longer be bent or cut well.",
            "Join the row after all its plates are cut and formed.",
        ),
        ("held-twice", "What two steps count is bought twice.", "Name it in one of them."),
    ),
)
