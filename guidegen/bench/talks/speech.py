"""Plain English words that leave a thing what it is, where they stand beside its name.

"The knife", "a sharp knife", "grab the knife and" speak of the knife; a "pocket knife" and a "knife
roll" are other things. Nobody can list all other things, but the words that change nothing can be
listed: beside any other word a name stays open. General English, written from common knowledge; no
source.
"""

from guidegen.bench.talks.telling import AS_A_THING, AS_WORK, words_in

JOINING = words_in(
    """
    a an the some any this that these those each every either neither both all no none other
    another such same what which whose my your his her its our their mine yours ours one ones
    two three four five six seven eight nine ten twelve dozen few several many much more most
    less least enough and or but nor so yet because cause cos since as than then if unless until
    till while when where though although whether also too only just even still again already
    ever never always often sometimes usually mostly mainly once twice of to in on at by for
    from with without into onto over under behind beside besides between through across along
    around round about above below beneath near inside outside up down off out against after
    before during per via like toward towards upon within away back together apart i you he she
    it we they me him us them who whom myself yourself itself themselves ourselves im youre hes
    shes were theyre ive youve weve theyve ill youll hell shell well theyll id youd wed theyd
    thats theres heres whats wheres hows whos lets dont doesnt didnt isnt arent wasnt werent
    cant cannot couldnt wont wouldnt shouldnt havent hasnt aint instead afterwards anymore here
    there now today tomorrow yesterday later soon first second third next last finally yes yeah
    yep nope okay ok right oh ah um uh er hmm hey please thanks sorry anyway basically actually
    really very quite rather pretty fairly almost nearly maybe perhaps probably honestly
    literally obviously exactly simply quickly slowly gently carefully lightly firmly straight
    not s
    """
)
"""Words that join: articles, pronouns, prepositions, conjunctions, fillers."""

DOING = words_in(
    """
    is are was were be been being am has have had having do does did doing done can could will
    would shall should may might must need needs needed want wants wanted gonna wanna gotta use
    uses used using take takes took taken taking get gets got getting grab grabs grabbed
    grabbing put puts putting go goes going went gone come comes came coming make makes made
    making keep keeps kept keeping hold holds held holding let lets leave leaves left find finds
    found buy buys bought like likes love loves hate hates prefer prefers recommend say says
    said see sees saw look looks looked try tries tried trying start starts stop stops work
    works cut cuts cutting run runs running ran pull pulls pulled push pushes pushed press
    presses pressed wipe wipes wiped roll rolls rolled rub rubs rubbed brush brushes brushed
    stick sticks stuck glue glues glued clamp clamps clamped pin pins pinned tape tapes taped
    sew sews sewed sewn sewing stitch stitches stitched fold folds folded bend bends bent lay
    lays laid add adds added apply applies applied spread spreads turn turns turned wrap wraps
    wrapped wear wears wearing wore set sets setting pick picks picked bring brings give gives
    gave given pass passes dip dips dipped drag drags draw draws drew drawn mark marks marked
    trace traces traced sand sands sanded sanding score scores scored heat heats heated spray
    sprays sprayed paint paints painted seal seals sealed prime primes primed fill fills filled
    smooth smooths dry dries dried wait waits waited clean cleans cleaned wash washes washed
    change changes changed attach attaches attached fix fixes fixed fit fits fitted slide slides
    slid thread threads threaded tie ties tied tighten loosen open opens opened close closes
    closed check checks checked measure measures measured drill drills drilled hammer hammers
    hit hits tap taps tapped touch touches touched clip clips clipped peel peels peeled lift
    lifts lifted melt melts melted help helps hurt slip slips slipped snap snaps snapped break
    breaks broke means meant stays stay sits sit stands stand lives live hangs hang dulls wobble
    wobbles smells smell stinks feel feels seems seem happens borrow borrowed forget forgot plug
    plugged unplug iron ironed punch punched rivet riveted screw screwed file filed sawed match
    matches
    """
)
"""What is done with things, and what things do."""

DESCRIBING = words_in(
    """
    good bad better best worse worst nice great lovely fine okay perfect right wrong proper
    decent cheap cheaper cheapest expensive simple plain normal ordinary regular standard basic
    usual old older new newer brand fresh clean dirty dry wet damp warm hot cold cool big bigger
    biggest large larger small smaller smallest tiny little wee short shorter long longer thin
    thinner thick thicker finer fat narrow wide wider broad flat round square pointed sharp
    sharper sharpest blunt dull soft softer stiff stiffer hard harder firm strong stronger heavy
    heavier light lighter loose tight rough smooth shiny matte matt glossy clear cloudy black
    white red blue green yellow orange purple pink brown grey gray silver gold golden bronze
    copper brass dark metallic spare extra single double whole half full empty left own
    favourite favorite trusty same different special main real actual dedicated steady bare
    """
)
"""What things are like, without becoming others."""

BEFORE = JOINING | DOING | DESCRIBING | AS_A_THING | AS_WORK
"""Words before a name that leave it what it is."""
BEHIND = JOINING | DOING | (DESCRIBING & words_in("fine right nice hot cold ready sharp dry wet"))
"""Words behind a name that leave it what it is."""


def leaves_it(word: str, kept: frozenset[str]) -> bool:
    """Whether a word beside a name leaves it what it is; so does none at all, and a number."""
    return (
        not word
        or word in kept
        or word[0].isdigit()
        or (len(word) > 4 and word.endswith(("ly", "ing")))
    )
