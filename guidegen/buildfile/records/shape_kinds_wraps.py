"""Shapes that go around a body: tubes, belts, lames, rows of scales."""

from guidegen.buildfile.records.shape_kinds import BACKING, NEUTRAL, WRAP, Dimension, ShapeKind

WRAPS = (
    ShapeKind(
        "tapered-tube",
        "A tube around a limb, wider at one end; a cylinder where both girths agree.",
        (
            Dimension("girth-top", "body girth at the upper rim; 0 for a point"),
            Dimension("girth-bottom", "body girth at the lower rim; 0 for a point"),
            Dimension("length", "length along the slope, in the middle of the piece"),
            *WRAP,
            Dimension("gap", "opening left between the closing edges", 0),
            Dimension("overlap", "extra length that lies over the other side", 0),
            Dimension("flare-top", "extra girth at the upper rim, so that it stands off", 0),
            Dimension("flare-bottom", "extra girth at the lower rim, so that it stands off", 0),
            Dimension("slant-top", "how much the tube is shorter at its closing edges, above", 0),
            Dimension(
                "slant-bottom", "how much the tube is shorter at its closing edges, below", 0
            ),
            Dimension("scallops-top", "number of scallops along the upper rim, 0 for none", 0),
            Dimension("scallops-bottom", "number of scallops along the lower rim, 0 for none", 0),
            Dimension("scallop-depth", "how deep the rim is cut in between two scallops", 10),
        ),
        ("bottom", "side", "top", "side-2"),
        ("bottom", "side", "top", "centre"),
        curved=True,
    ),
    ShapeKind(
        "horn-segment",
        "One of several segments of a horn that tapers, bends and may wind like a spiral.",
        (
            Dimension("girth", "girth of the horn at its wide end, inside"),
            Dimension("length", "along the middle of the horn, as if it were straight"),
            Dimension("segments", "how many segments the horn has"),
            Dimension("segment", "which one this is, 1 at the wide end"),
            Dimension("bend", "degrees by which the whole horn bends, shared by its joints", 0),
            Dimension("twist", "degrees by which each bend is led round against the last", 0),
            Dimension("tip", "girth of a blunt tip; 0 for a point", 0),
            *WRAP,
        ),
        ("bottom", "side", "top", "side-2"),
        curved=True,
    ),
    ShapeKind(
        "belt",
        "A belt or strap around a body, with a row of holes at its right end.",
        (
            Dimension("girth", "body girth where it is worn"),
            Dimension("width", "across the belt"),
            *WRAP,
            Dimension("overlap", "how far one end lies over the other when it is closed", 80),
            Dimension("tip", "length of the pointed end; 0 cuts it square", 0),
            Dimension("holes", "number of holes; the middle one fits the girth", 0),
            Dimension("pitch", "from one hole to the next", 20),
            Dimension("hole", "diameter of a hole", 5),
        ),
        ("bottom", "right", "top", "left"),
    ),
    ShapeKind(
        "lame",
        "One of several bands that overlap down a limb, each as wide as the limb is there.",
        (
            Dimension("girth-top", "body girth where the uppermost lame begins"),
            Dimension("girth-bottom", "body girth where the lowest lame ends"),
            Dimension("length", "from there to there, along the slope"),
            Dimension("lames", "how many lames in the row"),
            Dimension("lame", "which one this is, 1 for the uppermost"),
            Dimension("overlap", "how far a lame lies over the next", 20),
            *WRAP,
            Dimension("gap", "part of the girth that stays free", 0),
        ),
        ("bottom", "side", "top", "side-2"),
        ("bottom", "side", "top", "centre"),
        curved=True,
    ),
    ShapeKind(
        "scale-row",
        "A row of scales in one piece, hanging from a band that the next row covers.",
        (
            Dimension("length", "along the band"),
            Dimension("scales", "number of scales"),
            Dimension("depth", "length of a scale below the band"),
            Dimension("band", "width of the band, covered by the row above"),
            Dimension("point", "length of the pointed end of a scale; 0 makes it round", 0),
            Dimension("slit", "width of the cut between two scales", 2),
        ),
        ("bottom", "right", "top", "left"),
    ),
    ShapeKind(
        "gore",
        "One of several equal gores of a dome or ball: a cap, a helmet, a knob.",
        (
            Dimension("gores", "number of gores all round"),
            Dimension("radius", "inner radius of the dome at its widest"),
            Dimension("rise", "inner height of the dome; 0 makes it part of a ball", 0),
            Dimension(
                "arc", "from crown to rim along the inside; 0 ends it at the widest place", 0
            ),
            BACKING,
            NEUTRAL,
        ),
        ("rim", "right", "left"),
        ("rim", "right", "centre"),
        curved=True,
    ),
    ShapeKind(
        "cap-half",
        "One of two halves of a cap that meet in a seam over the crown, from front to back.",
        (
            Dimension("length", "inner length of the cap, front to back"),
            Dimension("width", "inner width of the cap, side to side"),
            Dimension("rise", "inner height of the cap"),
            BACKING,
            NEUTRAL,
        ),
        ("rim", "crown"),
        ("rim", "crown", "centre"),
        curved=True,
    ),
    ShapeKind(
        "dome",
        "A round cap from one piece, what is too much at its rim taken out by darts.",
        (
            Dimension("radius", "inner radius of the ball that it is part of"),
            Dimension("arc", "from crown to rim along the inside"),
            Dimension("darts", "number of darts, 2 to 12"),
            Dimension("tip", "from the crown to the tips of the darts", 20),
            BACKING,
            NEUTRAL,
        ),
        tuple(
            name
            for number in range(1, 13)
            for name in (f"rim-{number}", f"dart-{number}a", f"dart-{number}b")
        ),
        edges_vary=True,
        curved=True,
    ),
)
