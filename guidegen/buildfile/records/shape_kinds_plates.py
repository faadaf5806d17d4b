"""Flat plates, and plates that stand at an angle to one another: rings, ridges, boxes."""

from guidegen.buildfile.records.shape_kinds import Dimension, ShapeKind

FOUR = ("bottom", "right", "top", "left")

PLATES = (
    ShapeKind(
        "strip",
        "A straight band.",
        (Dimension("length", "along the band"), Dimension("width", "across the band")),
        FOUR,
        ("bottom", "right", "top", "centre"),
    ),
    ShapeKind("disc", "A round plate.", (Dimension("diameter", "across the disc"),), ("rim",)),
    ShapeKind(
        "ring",
        "A round plate with a round hole in its middle.",
        (
            Dimension("outside", "outer diameter"),
            Dimension("inside", "diameter of the hole"),
        ),
        ("rim",),
    ),
    ShapeKind(
        "rounded-rectangle",
        "A plate with rounded corners.",
        (
            Dimension("width", "across"),
            Dimension("height", "upright"),
            Dimension("radius", "of the corners", 0),
        ),
        FOUR,
    ),
    ShapeKind(
        "frame",
        "A plate with rounded corners and a window in its middle.",
        (
            Dimension("width", "across, outside"),
            Dimension("height", "upright, outside"),
            Dimension("web", "width of the foam around the window"),
            Dimension("radius", "of the outer corners", 0),
        ),
        FOUR,
    ),
    ShapeKind(
        "polygon",
        "A plate with equal sides and equal corners.",
        (
            Dimension("sides", "number of sides, 3 or more"),
            Dimension("across", "diameter of the circle through the corners"),
        ),
        ("rim",),
    ),
    ShapeKind(
        "gusset",
        "A rhombus that is set into a seam to give room.",
        (
            Dimension("slit", "length of each of its sides, as far as the seam is left open"),
            Dimension("opens", "how much wider the seam becomes in its middle"),
        ),
        ("lower-right", "upper-right", "upper-left", "lower-left"),
    ),
    ShapeKind(
        "godet",
        "A sector that is set into a slit of a hem, so that it swings.",
        (
            Dimension("slit", "how far the hem is slit, and length of both its sides"),
            Dimension("angle", "degrees that it opens"),
        ),
        ("hem", "right", "left"),
    ),
    ShapeKind(
        "ellipse",
        "An oval plate.",
        (Dimension("width", "across"), Dimension("height", "upright")),
        ("rim",),
    ),
    ShapeKind(
        "superellipse",
        "A plate between an oval and a rectangle.",
        (
            Dimension("width", "across"),
            Dimension("height", "upright"),
            Dimension("exponent", "2 is an oval, more is nearer to a rectangle, 1 a diamond", 2.5),
        ),
        ("rim",),
    ),
    ShapeKind(
        "star",
        "A star with equal points, one of them upright.",
        (
            Dimension("points", "number of points, 3 or more"),
            Dimension("outside", "diameter of the circle through the points"),
            Dimension("inside", "diameter of the circle through the hollows"),
        ),
        ("rim",),
    ),
    ShapeKind(
        "crescent",
        "A disc with a round bite taken from its right side.",
        (
            Dimension("diameter", "of the disc"),
            Dimension("bite", "diameter of the bite"),
            Dimension("thickness", "of the crescent in its middle"),
        ),
        ("outer", "inner"),
    ),
    ShapeKind(
        "leaf",
        "A leaf pointed at both ends, between two equal arcs.",
        (Dimension("length", "from point to point"), Dimension("width", "across its middle")),
        ("right", "left"),
        ("right", "centre"),
    ),
    ShapeKind(
        "ridge",
        "One of two strips that lean against each other and make a ridge, straight or in an arc.",
        (
            Dimension("length", "along the lower edge"),
            Dimension("base", "width of the ridge at its foot, over both strips"),
            Dimension("rise", "height of the ridge"),
            Dimension("radius", "of the curve that its foot follows; 0 for a straight ridge", 0),
            Dimension(
                "stands", "1 when its foot stands on the foam, 0 when it joins foam beside it", 0
            ),
        ),
        ("foot", "right", "crest", "left"),
        ("foot", "right", "crest", "centre"),
    ),
    ShapeKind(
        "ring-segment",
        "One of several equal straight plates that close to a ring: lying, upright or leaning.",
        (
            Dimension("segments", "number of plates, 3 or more"),
            Dimension("across", "from flat to flat of the ring at the lower edge, outside"),
            Dimension("width", "of a plate, from its lower to its upper edge"),
            Dimension("lean", "degrees that the plates lean inward: 0 upright, 90 lying flat", 90),
        ),
        FOUR,
        ("bottom", "right", "top", "centre"),
    ),
    ShapeKind(
        "box",
        "An open box from one piece: a floor and four walls that fold up at V-grooves.",
        (
            Dimension("width", "of the floor, across"),
            Dimension("depth", "of the floor, upright on the template"),
            Dimension("height", "of the box"),
            Dimension("lean", "how much wider the box is at its rim, on each side", 0),
            Dimension("floor", "foam left under the grooves", 2),
        ),
        (
            "front",
            "front-right",
            "right-front",
            "right",
            "right-back",
            "back-right",
            "back",
            "back-left",
            "left-back",
            "left",
            "left-front",
            "front-left",
        ),
    ),
)
