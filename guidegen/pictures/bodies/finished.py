"""What is seen of the finished thing in → one drawing of it, worn or standing."""

from collections.abc import Mapping
from itertools import pairwise

from guidegen.assembly.records import Seen, SeenLines
from guidegen.buildfile.read.content import ONE_SIZE
from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.outline.records import Line, Run
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.bodies.body import BODY
from guidegen.pictures.pen.canvas import INK, Canvas, Stroke
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.tints import SOFT, Tint, foam_tint
from guidegen.words import Words, msg

SILHOUETTE = Stroke(0.5)
OUTLINE = Stroke(0.3)
CREASE = Stroke(0.15)
STRAP = Tint("fill-strap", "#98a1a5")
"""Belts: darker than any foam."""
LIMB = Stroke(0.25, colour=SOFT, cap="round")
TONE = 0.11
"""How much ink a tone of shade has. Our choice: three of them keep foam and lines apart in grey."""
PALE_TONE = 0.05
"""The same on the body, which stands back."""

TITLES: Mapping[str, str] = {
    "front": msg("From the front"),
    "three-quarter": msg("From the front and the left"),
    "back": msg("From the back"),
}


def view_title(view: str, lang: Words) -> str:
    """What a view is called."""
    return lang.say(TITLES[view])


def draw_finished(seen: Seen, guide: Guide, kit: Kit, lang: Words) -> Drawing:
    """One view of the finished thing in one size."""
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    said = view_title(seen.view, lang)
    title = (
        said if kit.size == ONE_SIZE else lang.say("{view}, size {size}", view=said, size=kit.size)
    )
    names = {name: strap.name for name, strap in guide.straps.items()}
    names |= {name: part.name for name, part in guide.parts.items()}
    shown = lang.listed([names[part] for part in seen.parts])
    description = (
        lang.say(
            "The finished thing as it is worn, drawn from its pieces. Seen are {parts}.",
            parts=shown,
        )
        if seen.figure
        else lang.say("The finished thing, drawn from its pieces. Seen are {parts}.", parts=shown)
    )
    canvas = Canvas(seen.width, seen.height, title, description, lang)
    # From the back forward, each over what it hides: the body and its shade, foam and its shade,
    # then lines from the faintest to the strongest.
    canvas.path(_rings(seen.figure), None, fill=BODY, css="body-outline", closed=True)
    for shade in seen.soft:
        canvas.path(_rings(shade), None, fill=INK, css="shade", closed=True, opacity=PALE_TONE)
    for fill in seen.fills:
        tint = foam_tint(materials, fill.name) if fill.name in materials else STRAP
        canvas.path(_rings(fill.rings), None, fill=tint.fill, css=tint.css, closed=True)
    for shade in seen.shades:
        canvas.path(_rings(shade), None, fill=INK, css="shade", closed=True, opacity=TONE)
    canvas.path(_lines(seen.limbs), LIMB, css="thin")
    canvas.path(_rings(seen.creases), CREASE, css="ink", closed=True)
    canvas.path(_rings(seen.outlines), OUTLINE, css="ink", closed=True)
    canvas.path(_rings(seen.silhouette), SILHOUETTE, css="ink", closed=True)
    return canvas.drawing()


def _rings(rings: SeenLines) -> list[Run]:
    return [
        # Without the closing side, which a closed path draws by itself.
        tuple(Line(a, b) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))[:-1]
        for ring in rings
        if len(ring) > 2
    ]


def _lines(lines: SeenLines) -> list[Run]:
    return [tuple(Line(a, b) for a, b in pairwise(line)) for line in lines if len(line) > 1]
