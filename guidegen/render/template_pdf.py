"""Template pages as SVG texts in → one PDF in true size out."""

import re
from collections.abc import Sequence
from html import escape

from guidegen.layout.records import TemplatePage, TemplateSet
from guidegen.render.fonts import font_css
from guidegen.render.pdf import write_pdf
from guidegen.render.pdf_finish import ask_true_scale

_SIZE = re.compile(r'<svg\b[^>]*?\bheight="([0-9.]+)mm"[^>]*?\bwidth="([0-9.]+)mm"')
_SIZE_OTHER = re.compile(r'<svg\b[^>]*?\bwidth="([0-9.]+)mm"[^>]*?\bheight="([0-9.]+)mm"')


def render_template_pdf(
    pages: Sequence[str], templates: TemplateSet, title: str, language: str
) -> bytes:
    """A PDF whose pages are exactly the drawings, in true size, with a bookmark for each.

    Key pages come first: as many as there are more `pages` than pages in `templates`. Raises
    MissingLibrary, OutputError.
    """
    sizes = [_page_size(svg) for svg in pages]
    kinds = {size: f"p{number}" for number, size in enumerate(dict.fromkeys(sizes))}
    rules = "".join(
        f"@page {name} {{ size: {width}mm {height}mm; margin: 0 }} .{name} {{ page: {name} }}\n"
        for (width, height), name in kinds.items()
    )
    keys = len(pages) - len(templates.pages)
    marks = ["Key"] * keys + [_bookmark(page) for page in templates.pages]
    body = "".join(
        f'<section class="{kinds[size]}" style="bookmark-label: {_quoted(mark)}">{svg}</section>\n'
        for svg, size, mark in zip(pages, sizes, marks, strict=True)
        if mark is not None
    )
    html = (
        f'<!DOCTYPE html><html lang="{escape(language)}"><head><meta charset="utf-8">'
        f"<title>{escape(title)}</title><style>{font_css(('Barlow Condensed',))}\n{rules}"
        "body { margin: 0 } section { break-after: page; bookmark-level: 1 }"
        " section:last-child { break-after: auto }"
        f" svg {{ display: block }}</style></head><body>{body}</body></html>"
    )
    return ask_true_scale(write_pdf(html, files={}), title=title, language=language)


def _page_size(svg: str) -> tuple[str, str]:
    """Width and height of a drawing in mm, as written in it."""
    if found := _SIZE_OTHER.search(svg):
        return (found[1], found[2])
    if found := _SIZE.search(svg):
        return (found[2], found[1])
    raise ValueError("a page has no size in mm")


def _bookmark(page: TemplatePage) -> str:
    code = f"{chr(65 + page.row)}{page.column + 1}"
    return f"Page {page.number}: sheet {page.sheet}, {code}"


def _quoted(words: str) -> str:
    """A CSS string inside an HTML attribute."""
    return escape("'" + words.replace("\\", "\\\\").replace("'", "\\'") + "'")
