"""Ordinary words → the company in which they mean a thing of the workshop.

"A bottle", "the machine" and "books" are said of many things. They are heard where a word of their
work stands near by, or where the talk calls the thing by a name of its own somewhere. General
English of workshops, written from common knowledge; no source.
"""

from collections.abc import Mapping

from guidegen.bench.talks.telling import words_in

_HOLDING = words_in(
    "hold holds held holding glue glued dry dries drying press pressed flat clamp clamps under set "
    "sets together seam layer layers edge edges weigh weight weights stack heavy while until night"
)
_TEXTURING = words_in(
    "press pressed crumple crumpled scrunch scrunched ball texture stamp roll rolled"
)
_FUMES = words_in(
    "dust dusty sand sanding fumes vapour vapor solvent cement spray wear breathe lungs respirator "
    "filter filters smell smells"
)
_SCORING = words_in("score scoring scored crease creasing fold folds folding groove")
_RIVETING = words_in("rivet rivets setter snap snaps anvil hit hits post popper poppers cap socket")
_SEWING = words_in(
    "sew sews sewing sewn stitch stitches stitched stitching thread needle seam seams fabric "
    "cloth hem canvas bobbin presser pedal straight zigzag"
)
_SANDING = words_in(
    "sand sands sanded sanding sandpaper paper grit abrasive rough smooth twenty forty dust wrapped"
)
_WIRING = words_in(
    "led leds resistor switch battery batteries cell cells wire wires solder volt volts circuit "
    "glow polarity plus minus double"
)
_BENDING = words_in(
    "bend bends bent bending wrap wraps wrapped wrapping shape shaped shaping form formed forming "
    "curve curved curl curls dome domed drape drapes draped round around over"
)
_WASHING = words_in(
    "paint paints painted brown dark black wipe wiped details corners recess recesses grime dirt "
    "brush thin thinned acrylic weathering cracks"
)
_ROLLING = words_in("roll rolls rolled rolling roller")
_WIPING = words_in(
    "wipe wipes wiped wiping dust buff buffed clean cleans rub rubbed dab damp off excess polish "
    "rag"
)
_FILING = words_in(
    "wood edge edges smooth rasp teeth half metal filing filed burr rough plywood ply saw sawn "
    "curve"
)
_DRILLING = words_in(
    "hole holes bit bits wood mil mm bore batten ply plywood screw screws pilot countersink "
    "battery cordless through charge slow drilling rivet rivets"
)

NEEDS: Mapping[tuple[str, ...], frozenset[str]] = {
    tuple(phrase.split()): words
    for phrases, words in {
        "setter, hammer, mallet, anvil": _RIVETING,
        "mask, masks": _FUMES,
        "contact": words_in("cement glue both sides tacky adhesive sticks brush"),
        "foil": _TEXTURING,
        "wire brush": words_in("texture press dab stipple grain pattern"),
        "block, cork": _SANDING,
        "jar, empty jar": _ROLLING,
        "film": words_in("plastic clear window windows visor lens lenses cut glass translucent"),
        "stone, little stone, small stone": words_in("sharp sharpen sharpens knife blade edge"),
        "light, lights, switch, cell, cells, battery, batteries": _WIRING,
        "pistol": words_in("heat hot warm air stand glue"),
        "drum": words_in("sand sanding grind grinding rotary bevel spinning spins"),
        "toothbrush, old toothbrush": words_in("texture press pits stipple pattern pores"),
        "padding": words_in("sheet soft foam comfort glue"),
        "binding": words_in("bias edge edges sew"),
        "ironing": words_in("board"),
        "spoon, empty pen, dry pen, dead pen, folder": _SCORING,
        "books, weights, heavy book, clips, little clips, small clips, pegs, peg": _HOLDING,
        "snaps": words_in("fastener fasteners press set setting poppers"),
        "watered down, thinned down": words_in("paint paints acrylic acrylics black brown"),
        "dirty water, brown water": _WASHING,
        "bucket, bottle, big bottle, glass bottle, plastic bottle, water bottle, wine bottle, "
        "beer bottle, soda bottle, pop bottle, paint tin, paint can, coffee can, soup can, "
        "drinks can, tin can, saucepan, mixing bowl, salad bowl, big jar, "
        "plastic pipe, drain pipe, cardboard tube": _BENDING,
        "glass jar, jam jar, rolling pin": _ROLLING,
        "cloth": words_in("wipe wipes wiped wiping dab dabbed buff buffed polish fluff lint"),
        "soft cloth, clean cloth, dry cloth, old cloth, damp cloth, wet cloth, old towel, "
        "piece of cloth, bit of cloth, scrap of cloth": _WIPING,
        "file, files": _FILING,
        "drill, drills": _DRILLING,
        "old t shirt, old tshirt, old tee shirt, bit of old shirt, bit of rag": _WIPING,
        "tin foil, tinfoil, kitchen foil, cooking foil, baking foil": _TEXTURING,
        "aluminium foil, aluminum foil": _TEXTURING,
        "metal tin, steel tin, metal can": words_in("rag rags lid oily oil brushes lidded fire"),
        "elastic band, elastic bands": words_in(
            "sew sewn sewing stitch strap straps head waist stretch stretches width wide inch"
        ),
        "adjuster, adjusters, slider, sliders": words_in(
            "strap straps webbing buckle belt bar fit fits length"
        ),
        "nail varnish, nail polish, clear polish": words_in(
            "fray frays fraying thread threads end ends knot edge edges webbing seal dab"
        ),
        "specs, glasses": words_in(
            "dust dusty eye eyes safety drill drilling sand sanding cut cutting snap snaps saw "
            "blade rotary grinding protect wear on"
        ),
        "strop": words_in("sharp sharpen sharpened edge blade knife"),
        "plasters, sticking plaster": words_in("first aid cut finger blood box"),
        "gun": words_in("glue stick dab blob drop blobs dabs heat warm air hot trigger nozzle"),
        "led, leds": words_in("light leg white wire wires resistor battery solder glow lamp volt"),
        "contacts": words_in("cement"),
    }.items()
    for phrase in phrases.split(", ")
}  # fmt: skip
"""Phrases that need a word of some near by: in their line, or in the one before."""

CLOTH = words_in(
    "sew sews sewing sewn stitch stitches stitched stitching seam seams fabric cloth canvas calico "
    "linen wool felt hem bobbin tailor selvedge webbing"
)
OF_A_KIND = 3
"""Words of a kind of work by which a whole talk is of it. Our choice."""
PAINTING = words_in(
    "paint paints painted painting acrylic acrylics brown silver gold coat coats primer varnish "
    "drybrush highlights weathering"
)
THROUGHOUT: Mapping[tuple[str, ...], frozenset[str]] = {
    tuple(phrase.split()): words
    for phrases, words in {
        "wash, a wash, the wash, washes, next wash, your wash": PAINTING,
        "chalk, pins, needle, needles, thread, threads, iron, the iron, an iron, my iron, "
        "your iron, machine, a machine, the machine, my machine, your machine, old machine": CLOTH,
    }.items()
    for phrase in phrases.split(", ")
}
"""Words that only talks of cloth or of painting mean as the stock does."""

_LEADING = words_in(
    "a an the my your our his her its this that on by with in over around round old"
)


def needed_by(phrase: tuple[str, ...]) -> frozenset[str] | None:
    """The words of which one must stand near a phrase; None where it says enough itself."""
    if phrase not in NEEDS and phrase[-1].endswith("s"):
        phrase = (*phrase[:-1], phrase[-1].removesuffix("s"))
    if phrase in NEEDS:
        return NEEDS[phrase]
    bare = phrase
    while len(bare) > 1 and bare[0] in _LEADING:
        bare = bare[1:]
    return NEEDS.get(bare)
