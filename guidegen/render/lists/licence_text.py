"""A guide in → the words that go with its files: whose they are, what one may do with them."""

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan


def licence_text(content: Content, plan: GuidePlan, size: str) -> str:
    """The licence of a size's files, for `licence.txt` beside them.

    Official hazard statements are the work of the European Union, so the guide's licence must not
    seem to cover them: where a caution of the guide has any, they are named and left out.
    """
    guide, words = plan.file.guide, content.words
    line = words.say(
        "Size {size}, version {version} of {date}",
        size=size,
        version=guide.version,
        date=guide.date,
    )
    licence = words.say("Licence: {licence}", licence=guide.licence)
    text = (
        f"{guide.title}\n{line}\n{guide.author}, {content.site.publisher}\n\n"
        f"{licence}\n\n{guide.licence_words.strip()}\n"
    )
    names = {name for step in plan.cautions for name in step.cautions}
    if any(content.stock.cautions[name].statements for name in names):
        text += "\n" + words.say(
            "H and P statements: Regulation (EC) No 1272/2008, © European Union, CC BY 4.0. "
            "The guide's own licence does not cover them."
        )
        text += "\nhttps://creativecommons.org/licenses/by/4.0/\n"
    return text
