"""WeasyPrint's page references, filled in before a page is laid out instead of after it.

WeasyPrint 70 lays out a page that names another page ("page 7") with the number missing, puts the
number in and lays it out anew, up to three times in all. Two things cause that: a reference
counts as one to the number of its own page as well (a list shared by mistake), and a reference
back, whose number is known, waits until its page has been laid out. Both are mended here, from
outside and only where the library still is as described. Bytes stay the same: the numbers are
what the last of those layouts shows. Content names its target by a string (`'#id'`), not by
attr(), under which WeasyPrint forgets the name.
"""

from collections.abc import Callable, Mapping
from types import ModuleType
from typing import Protocol


class _Lookup(Protocol):
    """A place in the text that shows the number of a page."""

    pending: bool
    parse_again: Callable[[Mapping[str, list[int]]], None]


class _Collector(Protocol):
    counter_lookup_items: Mapping[object, _Lookup]


class _Context(Protocol):
    """What the library knows while it lays out: counters of each page, places to fill."""

    page_maker: list[tuple[object, object, object, list[Mapping[str, list[int]]], object]]
    target_collector: _Collector


def mend_page_references(targets: ModuleType, page: ModuleType) -> None:
    """Mend `weasyprint.css.targets` and `weasyprint.layout.page`, once.

    Another version of them is left as it is.
    """
    item = getattr(targets, "CounterLookupItem", None)
    if item is None or not hasattr(page, "remake_page") or hasattr(page, "guidegen"):
        return
    make_item, make_page = item.__init__, page.remake_page

    def make_mended(
        lookup: _Lookup, again: object, own: list[str], others: dict[str, list[str]]
    ) -> None:
        # A list that is also among those of other pages was never meant for the own page.
        mine = [] if any(names is own for names in others.values()) else own
        make_item(lookup, again, mine, others)

    def make_known(index: int, context: _Context, root_box: object, html: object) -> object:
        # What waits was named on an earlier page. A target on the page itself is not known yet.
        counters = context.page_maker[index][3][1]
        for waiting in context.target_collector.counter_lookup_items.values():
            if waiting.pending:
                waiting.pending = False
                waiting.parse_again(counters)
        return make_page(index, context, root_box, html)

    item.__init__ = make_mended
    page.remake_page = make_known  # type: ignore[attr-defined]
    page.guidegen = True  # type: ignore[attr-defined]
