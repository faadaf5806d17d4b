"""Codes of findings about drawings, pieces and seams."""

from guidegen.findings.records import Code, CodeGroup, Severity, table

DRAWINGS: tuple[Code, ...] = (
    *table(
        CodeGroup.READING,
        Severity.ERROR,
        ("drawing-xml", "The drawing is not well-formed XML.", "Save it again as plain SVG."),
        (
            "drawing-doctype",
            "Document types and entities can make a small file grow without end.",
            "Save it as plain SVG, or delete what the document type declares.",
        ),
        (
            "drawing-external",
            "A drawing that reads other files may not come out the same elsewhere.",
            "Copy what it shows into the drawing.",
        ),
        ("drawing-script", "A drawing is lines; nothing in it may run.", "Delete the script."),
        (
            "drawing-picture",
            "Only lines can be cut.",
            "Trace the picture as a path, or delete it.",
        ),
        ("drawing-too-deep", "Depth is bounded.", "Ungroup the drawing."),
        (
            "drawing-too-large",
            "Sizes and counts are bounded, and no piece is larger than a person.",
            "Simplify the path, or correct the unit of the page.",
        ),
        (
            "drawing-no-unit",
            "Without a unit nobody can say how large the piece is.",
            "Give the page width and height in mm, or draw a scale line.",
        ),
        ("drawing-value", "A number in the drawing cannot be read.", "Correct or redraw it."),
        (
            "drawing-use",
            "A clone that leads nowhere, or to itself, draws nothing.",
            "Turn the clone into a path.",
        ),
        ("drawing-text", "Letters are not outlines.", "Convert the text to paths, or delete it."),
    ),
    *table(
        CodeGroup.READING,
        Severity.WARNING,
        ("drawing-style", "A rule of style that is not understood is left out.", "Simplify it."),
    ),
)

GEOMETRY: tuple[Code, ...] = (
    *table(
        CodeGroup.GEOMETRY,
        Severity.ERROR,
        ("drawing-empty", "There is nothing to cut.", "Draw a closed outline."),
        ("drawing-open", "An outline with a gap has no inside.", "Join its ends."),
        ("drawing-crossing", "An outline that crosses itself cannot be cut.", "Redraw the place."),
        ("drawing-hole", "A hole lies inside its piece, clear of others.", "Move or redraw it."),
        ("drawing-tiny", "Too small to cut, most often a stray click.", "Delete or enlarge it."),
        (
            "drawing-duplicate",
            "The same line twice means that one copy was forgotten.",
            "Delete one of them.",
        ),
        ("drawing-corner", "A corner mark names one point of the outline.", "Move or rename it."),
        ("drawing-scale", "The check line contradicts the page.", "Correct the page's unit."),
        (
            "drawing-spread",
            "A spread line is one straight line with a name of its own.",
            "Redraw or name it.",
        ),
        (
            "drawing-two-outlines",
            "A piece has one outline.",
            "Class one of them outline, the others hole or note.",
        ),
        (
            "drawing-which-outline",
            "Nobody can say which of the paths is the outline.",
            "Give the outline the class outline.",
        ),
        ("edge-overlap", "A stretch belongs to one edge only.", "Swap or correct the corners."),
        (
            "grading-crossing",
            "The piece crosses itself after grading: it cannot be cut in that size.",
            "Look at how far it opens or moves in that size.",
        ),
        (
            "grading-shrunk",
            "An edge shrinks to a stub: the drawing cannot follow these measurements.",
            "Measure again, draw the part for such a body, or state shrinks-to.",
        ),
        (
            "grading-concave",
            "An edge or a corner that was drawn outward turns inward in that size.",
            "Measure again, or correct how the part is graded.",
        ),
        (
            "grading-thin",
            "A spike, a sliver or a notch is left in that size; foam that thin tears.",
            "Measure again, or correct how the part is graded.",
        ),
        ("spread", "The piece cannot be opened like this.", "Redraw the line, or open it less."),
        ("grade", "A corner moves farther than can be meant.", "Correct the grade rule."),
        ("scale", "A factor this large or small cannot be meant.", "Correct the factor."),
        ("out-of-range", "Outside these limits no such shape exists.", "Correct the value."),
        ("bad-count", "Pieces are counted in whole numbers.", "Give a whole number."),
        ("missing-dimension", "The shape has no size without it.", "Add the dimension."),
        ("not-a-sheet", "Pieces are cut from sheets.", "Name a sheet material of stock.yaml."),
        ("bad-fold", "A half on the fold needs a straight edge to flip at.", "Name that edge."),
        ("bad-shape", "These dimensions contradict each other.", "Correct one of them."),
        ("bad-lining", "A lining lies within the part that it lines.", "Give a smaller inset."),
        ("bad-outline", "The outline that comes out cannot be cut.", "Correct the dimensions."),
        ("bad-allowance", "The allowance does not fit the edge.", "Make it narrower."),
        ("bad-bevel", "The bevel does not fit the edge or the foam.", "Give a smaller angle."),
        (
            "bad-line",
            "An edge stands on a line of the face below.",
            "Correct the line, its edge, or its groove.",
        ),
        (
            "bad-slot",
            "A slot is cut square through the face in which an edge stands upright.",
            "Correct its fit, or let the edge stand on the face.",
        ),
        ("bad-groove", "The groove does not fit the piece.", "Move it, or fold less."),
        ("bad-placement", "What is laid on lies beside the part.", "Move it onto the part."),
        (
            "bad-split",
            "Sections come from lines that pass the outline twice, clear of holes and each other.",
            "Move or turn the line.",
        ),
        (
            "too-large",
            "A piece that fits no sheet cannot be cut.",
            "Give the part splits where it may be cut, or add a larger sheet to stock.yaml.",
        ),
    ),
    *table(
        CodeGroup.GEOMETRY,
        Severity.WARNING,
        (
            "drawing-unnamed",
            "A path without a class is left out of the piece.",
            "Give it a class, or the class note to leave it out without a word.",
        ),
        (
            "plain-scaling",
            "Scaling makes holes and the room for the foam's thickness grow along.",
            "Draw spread lines, or move corners by grade rules.",
        ),
    ),
)

CURVES: tuple[Code, ...] = (
    *table(
        CodeGroup.GEOMETRY,
        Severity.ERROR,
        (
            "bad-curve",
            "How much longer a layer is follows from one bend.",
            "State the radius or the girth that is gone round, the same for all that lies on it.",
        ),
    ),
    *table(
        CodeGroup.GEOMETRY,
        Severity.WARNING,
        (
            "layer-short",
            "What lies farther out on a bend has the longer way.",
            "Let the curve lengthen it, or make it longer.",
        ),
    ),
)

SEAMS: tuple[Code, ...] = (
    *table(
        CodeGroup.SEAMS,
        Severity.ERROR,
        (
            "seam-length",
            "Edges of different lengths cannot be joined: one buckles or a gap stays.",
            "Correct the shorter edge, state the ease, or widen the tolerance.",
        ),
        (
            "seam-corners",
            "Corners that meet say which way round two edges are joined.",
            "Name the two that meet, or take flipped away.",
        ),
    ),
    *table(
        CodeGroup.SEAMS,
        Severity.WARNING,
        (
            "seam-thickness",
            "Edges of foam of two thicknesses leave a step when they are joined edge to edge.",
            "Use foam of one thickness, or lay one piece on the other as a layer.",
        ),
        (
            "bevel-slender",
            "A knife led by hand cuts bevels of up to 60 degrees; a flatter rim frays. Common "
            "practice, no source.",
            "Share the angle between both edges of the seam, take thinner foam, or build the slope "
            "in layers.",
        ),
        (
            "layer-overhangs",
            "A layer that stands out over what it is glued on lifts, and spoils the outline.",
            "Make it smaller, move it, or say by how much it is meant to stand out: overhang: 20.",
        ),
        (
            "layers-cross",
            "Two layers cannot lie in one place, and nobody knows which goes on first.",
            "Move one of them, or name both in one layer stack, in their order.",
        ),
        (
            "seam-upside-down",
            "Edges of two pieces that lie face up run opposite ways where they meet.",
            "Say flipped: true where one piece is turned over or of the other hand, name the "
            "corners that meet, or say flipped: false where it is meant so.",
        ),
        (
            "seam-bevel",
            "A slanted edge and a square one meet in a line: glue has nothing to hold there.",
            "Bevel both edges, or neither.",
        ),
    ),
)
