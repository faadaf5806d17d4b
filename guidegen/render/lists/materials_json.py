"""Size plan in → its materials list as JSON bytes out, for other programs."""

import json
from dataclasses import asdict

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan, SizePlan


def materials_json(content: Content, plan: GuidePlan, size: SizePlan) -> bytes:
    """The whole list with names of fields as in the records; UTF-8, a line end at the end.

    Amounts are in the unit of their line (sheets, ml, mm, pieces), lengths in mm, areas in mm²,
    prices in `currency`, weight in grams.
    """
    guide = plan.file.guide
    text = {
        "guide": plan.file.id,
        "title": guide.title,
        "version": guide.version,
        "date": guide.date,
        "size": size.size,
        "currency": content.site.currency,
        "prices_of": content.site.prices_of,
        **asdict(size.materials),
    }
    return (json.dumps(text, indent=2, ensure_ascii=False, default=str) + "\n").encode("utf-8")
