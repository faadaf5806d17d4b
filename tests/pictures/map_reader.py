"""A page map as it was drawn → which of its words and leaders stand over one another."""

from collections.abc import Iterator
from itertools import combinations

from shapely import LineString, box
from shapely.geometry import Polygon

from guidegen.geometry.outline.measures import flatten
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.pen.records import Drawing, Lettering, Path, Rectangle


def clashes(drawing: Drawing) -> Iterator[str]:
    """A sentence for each pair: names, page numbers, and leaders that run through either."""
    words = [
        (item.words, _box(item))
        for item in drawing.items
        if isinstance(item, Lettering) and "strong" not in item.css
    ]
    words += [
        ("a page number", box(item.x, item.y, item.x + item.width, item.y + item.height))
        for item in drawing.items
        if isinstance(item, Rectangle) and item.css == "page-number"
    ]
    leaders = [
        LineString([point for run in item.runs for point in flatten(run)])
        for item in drawing.items
        if isinstance(item, Path) and item.css == "leader"
    ]
    sheet = box(0, 0, drawing.width, drawing.height)
    for (one, here), (other, there) in combinations(words, 2):
        if here.intersection(there).area > 0:
            yield f"{one} over {other}"
    for name, place in words:
        if not sheet.contains(place):
            yield f"{name} beyond the map"
        # A leader ends at its own words.
        if any(leader.intersection(place).length > 0.01 for leader in leaders):
            yield f"a leader through {name}"
    for one, other in combinations(leaders, 2):
        if one.crosses(other):
            yield "a leader across another"


def _box(item: Lettering) -> Polygon:
    """Around words that stand level about their middle."""
    wide = text_width(item.words, item.size, item.weight) / 2
    x, y = item.at
    return box(x - wide, y - item.size * 0.15, x + wide, y + item.size * 0.85)
