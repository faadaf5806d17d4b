"""What every site ships in → the page that says what is under which licence."""

from dataclasses import dataclass

from guidegen.buildfile.read.content import Content
from guidegen.render.site.frame import render_page, site_page
from guidegen.render.text.links import INDEX_FOLDER, LICENCES
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.shipped import GEOS_LICENCE, MEASURED, MEASURED_FILES, MEASURED_LIBRARIES, SHIPPED


@dataclass(frozen=True, slots=True)
class ShippedView:
    """One work that the site's author did not make."""

    name: str
    purpose: str
    licence: str
    holder: str
    source: str
    """Where it comes from, as words."""
    href: str
    """Address of the licence's text."""


def render_licences(engine: Engine, content: Content, theme: Theme) -> bytes:
    """The page of licences of a site in one language."""
    words = content.words
    page = site_page(
        content,
        theme,
        LICENCES,
        words.say("Licences"),
        words.say("What this site is made of, and what each part allows"),
    )
    # The index for searching lies in the folder of the site's first language alone.
    up = "" if content.language == next(iter(content.languages), content.language) else "../"
    works = tuple(
        ShippedView(
            one.name,
            words.say(one.purpose),
            one.licence,
            one.holder,
            one.source,
            (up if one.text.startswith((f"{INDEX_FOLDER}/", f"{MEASURED_FILES}/")) else "")
            + one.text,
        )
        for one in (*SHIPPED, *((MEASURED,) if content.site.made_to_measure else ()))
    )
    more = (
        (f"{up}{GEOS_LICENCE}", f"{up}{MEASURED_LIBRARIES}") if content.site.made_to_measure else ()
    )
    return render_page(engine, "licences.html.j2", page, works=works, more=more)
