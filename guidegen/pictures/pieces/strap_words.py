"""Numbers of a strap in → the sentences that stand below its drawing."""

from guidegen.geometry.pieces.records import FittedStrap
from guidegen.words import SPACE, Words


def span_words(low: float, high: float, lang: Words) -> str:
    """'20 to 40 mm'; '40 mm' where both are the same."""
    # In whole mm both would read the same, or nearly.
    if abs(high - low) < 0.5:
        return f"{lang.number(high, 0)}{SPACE}mm"
    return lang.say("{low} to {high} mm", low=lang.number(low, 0), high=lang.number(high, 0))


def cut_words(strap: FittedStrap, lang: Words) -> str:
    """What is cut for each."""
    listed = ", ".join(f"{lang.number(one.length, 0)}{SPACE}mm" for one in strap.pieces)
    return lang.say("Cut for each: {list}.", list=listed)


def chain_words(strap: FittedStrap, lang: Words) -> list[str]:
    """What it must bridge and can, what of it overlaps, what is cut for it, and how it pulls."""
    asked, reach = span_words(*strap.asked, lang), span_words(strap.least, strap.most, lang)
    # What nobody can set is as long as it must be.
    words = (
        [lang.say("It bridges {span} and cannot be set.", span=asked)]
        if asked == reach and strap.most - strap.least < 0.5
        else [
            lang.say("It must bridge {span}.", span=asked),
            lang.say("It reaches from {span}.", span=reach),
        ]
    )
    if strap.overlap[1]:
        overlap = span_words(*strap.overlap, lang)
        words.append(lang.say("{span} of it lie on one another.", span=overlap))
    words.append(cut_words(strap, lang))
    if strap.pull >= 1:
        share = lang.percent(strap.pull / 100)
        words.append(lang.say("At the most it is pulled by {share}.", share=share))
    return words
