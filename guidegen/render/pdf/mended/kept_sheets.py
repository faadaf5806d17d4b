"""Style sheets, read once for all documents that have them, where WeasyPrint does not.

WeasyPrint 70 reads the sheet of a document anew for each: a booklet, a summary and a card of every
size have the same few. A sheet that is read has no more to do with its document, unless it takes in
others or names layers, counters or colours of its own: such sheets are read anew here too, and so
are those of which something is told, so that it is told of each document. Mended from outside, and
only where the library still is as described; styles stay the same.
"""

import re
from collections.abc import Callable
from types import ModuleType
from typing import Any

from guidegen.render.pdf.mended.telling import listening

ALONE = re.compile(r"@(import|layer|counter-style|color-profile|[\w-]*\\)", re.IGNORECASE)
"""What a sheet adds to the document in which it stands, beside its rules; an escape may hide it."""

OF_PAGE = re.compile(r"\d([lsdp]?v([whib]|min|max)\b|\\)", re.IGNORECASE)
"""A length in shares of the page, or one that an escape may hide."""

MOST = 40
"""Sheets that are kept for a set of fonts. Our choice: each form of booklet has one."""


def mend_sheets(css: ModuleType) -> None:
    """Mend `weasyprint.css`, once. Another version of it is left as it is."""
    if hasattr(css, "CSS") and not hasattr(css.CSS, "guidegen"):
        css.CSS = _kept(css.CSS)  # type: ignore[attr-defined]


def is_of_page(text: str) -> bool:
    """Whether a style or sheet has lengths that follow from the size of the page."""
    return OF_PAGE.search(text) is not None


def says_all(sheet: Any) -> bool:  # noqa: ANN401 - a style sheet of the library
    """Whether styles follow from the rules of a sheet alone: not from the page, from layers, or
    from what links lead to.
    """
    return hasattr(sheet, "guidegen_says_all")


def _kept(read: Callable[..., Any]) -> Callable[..., Any]:
    """`read`, asked once for each text and set of fonts."""

    def sheet(
        *,
        string: str | None = None,
        media_type: str = "print",
        base_url: str | None = None,
        font_config: Any = None,  # noqa: ANN401 - fonts of the library
        page_rules: list[Any] | None = None,
        **other: Any,  # noqa: ANN401 - handed on as they are
    ) -> Any:  # noqa: ANN401 - a style sheet of the library
        anew = {"string": string, "media_type": media_type, "base_url": base_url} | other
        if string is None or font_config is None or ALONE.search(string):
            return read(font_config=font_config, page_rules=page_rules, **anew)
        # With the fonts: those that the sheet brings are among them from the first time on.
        known = font_config.__dict__.setdefault("guidegen_sheets", {})
        key = (string, media_type, base_url)
        made = known.get(key)
        if made is None:
            with listening() as told:
                made = read(font_config=font_config, **anew)
            if len(known) >= MOST:
                known.clear()
            if not told.any:
                known[key] = made
                if not is_of_page(string) and "anchor" not in string.lower():
                    made.guidegen_says_all = True
        if page_rules is not None:
            page_rules.extend(made.page_rules)
        return made

    sheet.guidegen = True  # type: ignore[attr-defined]
    return sheet
