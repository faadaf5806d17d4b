"""What tells a thing from another that is called by the same word, or from work: word lists.

General English of workshops, written entry by entry from common knowledge; no source. A stock with
ids of its own uses the rules of words; the lists by id serve the stock that comes with guidegen.
"""

from collections.abc import Mapping


def words_in(text: str) -> frozenset[str]:
    """The words of a list."""
    return frozenset(text.split())


OTHERS: Mapping[str, frozenset[str]] = {
    head: words_in(before)
    for head, before in {
        "card": "greeting playing id score punch",
        "cards": "greeting playing",
        "needle": "knitting felting darning leather fat",
        "needles": "knitting felting leather",
        "knife": "carving paring hunting whittling hot filling stripping drawing",
        "knives": "carving",
        "brush": "make scrubbing wash dry sweeping",
        "brushes": "make",
        "mat": "baking heat camping sleeping",
        "board": "skirting white black",
        "paint": "spray leather",
        "film": "cling shrink food camera",
        "tape": "packing double copper red clear mounting",
        "pins": "drawing rolling bowling push",
        "clips": "spring",
        "screw": "set",
        "screws": "set binding",
        "saw": "see reciprocating",
        "iron": "soldering curling branding",
        "machine": "washing drilling milling vending cutting",
        "glue": "spray stick",
        "thread": "cotton tacking basting screw wool woollen",
        "pen": "light",
        "gun": "spray",
        "snips": "two three four few",
        "felt": "roofing i it that you we he she they and never always",
        "elastic": "stays stay is are remains remain also more very still quite",
        "buckle": "brass",
        "buckles": "brass",
        "roller": "paint",
        "battery": "drill",
    }.items()
}
"""Plain words before a head that make it another thing all the same: a hot knife, a screw thread.
Words that are not plain (a gift card) do so without being listed: `speech.leaves_it`."""

HEADS = words_in(
    """
    can cans bottle bottles shop shops store aisle drawer drawers bag bags cutter cutters
    beveller maker makers stripper thinner thinners remover rack racks holder holders salesman
    factory dryer pot pots tray trays cup cups cupboard job jobs tracker game trick thong thing
    filling people person crowd fans battery charger hat hats coat coats shirt shoes boots apron
    trousers tent sails
    """
)
"""Words behind a thing whose compound is another thing: a paint can, a strap cutter."""
CAN_DO = words_in(
    """
    be go get dry take do come stay melt make still also only then not just run crack bend stick
    have hold sit look work help burn lift peel never always catch slip cut
    """
)
"""Words after which "can" is no can: the glue can dry."""

MAYBE_WORK = words_in(
    """
    glue paint sand seal drill saw file clamp pin screw iron tape mark fold cut print stick join
    brush clip strap hammer punch rivet machine buckle varnish lacquer cement caulk chalk
    rasp wash press prime masking mallet snap sponge thread led cramp rag
    """
)
"""Single words that are work as often as a thing."""
AS_A_THING = words_in(
    """
    a an the some your my our their his her this that these those of more with any second thin
    new another one two three four five six several few many good strong big small old little
    fat thick sharp cheap nice proper wide flat soft stiff clean dry damp wet best favourite
    favorite same other only fresh spare long short tiny fine black white red blue green brown
    grey gray silver gold golden bronze copper brass metallic yellow purple dark light clear
    matte matt satin gloss acrylic for by without per no own every extra enough using use used
    need get got grab want like take buy wool woollen cotton nylon leather which whose each
    theres heres put puts add lay sew bring pass from over under into onto through mil mils mm
    millimetre millimeter millimetres inch cm centimetre grit
    """
)
"""Words before a word that is work as often as a thing, where it is a thing."""
AS_WORK = words_in(
    """
    to you we i they gonna lets can could will would should ill youll well id dont didnt cant
    just must always never now please wanna gotta let it she he who
    """
)
"""Words before such a word where it is work, also in several: it clips on, we felt."""

FASTENED = words_in("on onto off shut together back")
"""Words behind such a word in several where it is work: the lid clips on."""

PUT_ON = words_in("brush clip stick spray iron screw sew")
"""Work that with "on" is how a thing is put on: the brush-on kind."""

AS_SUBJECT = words_in(
    """
    is are was were isnt arent wasnt works work goes comes has had wont will would can cannot
    dries needs takes stays gets wants likes
    """
)
"""Words behind such a word at the beginning of a sentence where it is a thing: chalk is nicer."""

SIDES: Mapping[str, frozenset[str]] = {
    id_: words_in(words)
    for id_, words in {
        "fabric-scissors": "fabric cloth canvas calico linen muslin lining seam seams stitch "
        "stitches stitching thread threads sew sewing hem cotton felt bias wool",
        "heat-gloves": "hot heat warm warmer degrees burn burns burned burnt heatgun oven steam",
        "cut-glove": "knife knives blade blades cut cutting sharp slice scalpel carving carve",
        "chemical-gloves": "solvent cement dye resin chemical chemicals fumes glue adhesive "
        "thinner acetone skin paint varnish stain spray sheet data label",
        "dust-mask": "dust dusty sand sanding sander grind grinding sandpaper rotary file filing",
        "respirator": "fumes fume vapour vapor vapours solvent cement spray spraying smell organic "
        "stinks lacquer varnish paint glue",
        "tape-measure": "measure measured measuring around waist chest neck wrist length "
        "measurement measurements circumference round inches centimetres",
        "masking-tape": "painters low masking painter hold holds held peel mask masked line lines "
        "edge edges stick stuck temporarily",
        "template-card": "template templates pattern patterns trace tracing stencil draw around",
        "card-300": "fold folds score scored tabs",
        "corrugated-3": "wavy corrugated box boxes shop supermarket flutes",
        "contact-cement": "solvent stink stinks stinky smelly smells fumes vapour vapor respirator",
        "hook-loop-adhesive": "adhesive sticky peel backing backed stick sticks stuck selfadhesive",
        "hook-loop-25": "sew sewn sewing stitch stitched",
        "clips": "hold holds held holding glue dry dries hem fabric seam morning edge edges",
        "buckle-25": "strap straps webbing chin belt waist release side bag backpack click squeeze",
        "buckle-50": "strap straps webbing chin belt waist release side bag backpack click squeeze",
        "rivet-setter": "rivet rivets setter anvil",
        "roller": "roll press seam glue joint down flat bond",
        "hot-glue-gun": "glue stick sticks dab dabs blob blobs drop drops",
        "heat-gun": "warm heat air seal shape bend degrees glossy shiny",
        "gummed-tape": "wet wets water damp sponge lick cardboard card box",
        "round-former": "bend over around wrap form shape curve heat bent shaped round",
        "hole-punch-18": "punch hollow",
        "contact-cement-water": "water waterbased",
        "glue-brush": "glue cement adhesive pva",
        "texture-tools": "texture textures texturing stipple grain foil dab dabbing",
        "brush-flat": "primer prime sealer seal sealing varnish coats coat base basecoat topcoat",
        "brush-fine": "detail details edges lines fine highlights tiny corners",
        "tailors-chalk": "fabric cloth chalk",
        "clear-coat-spray": "spray sprayed aerosol rattle can",
        "clear-coat-brush": "brush brushed",
        "wood-varnish": "wood grain ply plywood timber",
        "scoring-tool": "score scoring crease fold folds scored creasing",
    }.items()
}
"""Words beside which one of several things of a name is meant: gloves, by what they guard
against; scissors, by what they cut."""

UNLESS: Mapping[str, frozenset[str]] = {
    id_: words_in(words)
    for id_, words in {
        "needle": "machine jeans presser bobbin foot",
        "rag": "iron ironing press pressing steam wool between",
        "foam-5": "soft squishy squashy padding pad cushion comfort",
        "foam-2": "grey gray board",
        "contact-cement-water": "varnish lacquer",
        "thread-strong": "screw screws pilot",
        "wash": "hand sixty laundry dishes hands out comes through degrees",
        "clothes-iron": "solder soldering soldered",
        "cutting-mat": "foam eva mil mm millimetre inch puzzle floor heat",
        "sewing-machine": "drill drilling screwdriver lathe washing",
    }.items()
}
"""Words beside which a thing is not meant: a machine's needle, a pressing cloth."""
