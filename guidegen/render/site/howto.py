"""One guide in → its description as schema.org HowTo, for search engines, out.

The words are those of the pages; nothing is said here that a reader does not see. A data block in
a page is never run, so the content security policy keeps it from nothing.
"""

import json
from urllib.parse import urljoin

from markupsafe import Markup

from guidegen.render.site.icons import card_file
from guidegen.render.text.links import guide_page, size_page, steps_page
from guidegen.render.text.living import settle_plain
from guidegen.render.text.markdown import plain_text
from guidegen.render.views.guide import cover_photo
from guidegen.render.views.scene import Scene

CONTEXT = "https://schema.org"

type Json = str | int | float | list["Json"] | dict[str, "Json"]


def iso_duration(minutes: float) -> str:
    """'PT1H30M' or 'P2DT4H': a duration of ISO 8601-1, 5.5.2, with days of 24 hours."""
    days, rest = divmod(round(minutes), 1440)
    hours, left = divmod(rest, 60)
    time = (f"{hours}H" if hours else "") + (f"{left}M" if left else "")
    words = (f"{days}D" if days else "") + (f"T{time}" if time else "")
    return f"P{words or 'T0M'}"


def howto_block(scene: Scene) -> Markup:
    """The guide as JSON-LD, ready to stand in a script element of that type."""
    text = json.dumps(howto(scene), ensure_ascii=False, separators=(",", ":"))
    # "<" is written so that no text of an author ends the element that it stands in.
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704 - JSON without any "<"


def howto(scene: Scene) -> dict[str, Json]:
    """The guide as a schema.org HowTo.

    Addresses are full ones where the site knows its own, else relative to the page of `scene`.
    """
    guide, plan = scene.guide, scene.plan
    return {
        "@context": CONTEXT,
        "@type": "HowTo",
        "name": guide.title,
        "description": guide.summary,
        "inLanguage": scene.content.language,
        "version": guide.version,
        "dateModified": guide.date,
        "author": {"@type": "Person", "name": guide.author},
        "publisher": {"@type": "Organization", "name": scene.content.site.publisher},
        "totalTime": iso_duration(plan.time_line.elapsed),
        "performTime": iso_duration(plan.time_line.hands_on),
        **_cost(scene),
        "supply": _supplies(scene),
        "tool": [
            {"@type": "HowToTool", "name": tool.name} for tool in plan.sizes[0].materials.tools
        ],
        "step": _steps(scene),
        **_addresses(scene),
    }


def _addresses(scene: Scene) -> dict[str, Json]:
    """Where the guide and its picture are found.

    Without a photo the card stands in, which is made where the site knows its address.
    """
    photo, known = cover_photo(scene), scene.content.site.address
    image = photo.src if photo else scene.links.file(card_file(scene.plan.file.id))
    page: dict[str, Json] = {"url": _full(scene, "")} if known else {}
    picture: dict[str, Json] = {"image": _full(scene, image)} if photo or known else {}
    return page | picture


def _full(scene: Scene, href: str) -> str:
    """An address on the guide's page: with its host where the site knows it, else as it is."""
    base = scene.content.site.address
    if not base:
        return href
    return urljoin(base + guide_page(scene.plan.file.id).removesuffix("index.html"), href)


def _cost(scene: Scene) -> dict[str, Json]:
    """What it costs; nothing where some prices are not known: a part of a sum is no estimate."""
    if any(size.materials.unpriced for size in scene.plan.sizes):
        return {}
    costs = [size.materials.cost for size in scene.plan.sizes]
    amount: dict[str, Json] = {
        "@type": "MonetaryAmount",
        "currency": scene.content.site.currency,
        "minValue": round(min(costs), 2),
        "maxValue": round(max(costs), 2),
    }
    return {"estimatedCost": amount}


def _supplies(scene: Scene) -> list[Json]:
    """Materials of the usual size, which the facts of the page are about as well."""
    size = scene.plan.usual
    page = _full(scene, scene.links.file(size_page(scene.plan.file.id, size.size)))
    return [
        {"@type": "HowToSupply", "name": line.name, "url": f"{page}#material-{line.material}"}
        for line in size.materials.lines
    ]


def _steps(scene: Scene) -> list[Json]:
    page = _full(scene, scene.links.file(steps_page(scene.plan.file.id)))
    return [
        {
            "@type": "HowToStep",
            "position": number,
            "name": step.title,
            "text": settle_plain(plain_text(step.text), scene.words),
            "url": f"{page}#step-{step.id}",
        }
        for number, step in enumerate(scene.guide.steps, 1)
    ]
