"""Styles of elements that are worked out once for all documents of the same sheets."""

from collections.abc import Iterator
from importlib import import_module
from itertools import product
from typing import Any
from xml.etree.ElementTree import Element

import pytest

from guidegen.render.pdf.html_pdf import lay_out, write_pdf
from guidegen.render.pdf.mended.kept_sheets import is_of_page
from guidegen.render.pdf.mended.kept_styles import SVG, _anchors, _own

type Theirs = Any
"""What the library hands over."""

SHEET = """
@page { size: 90mm 120mm; @bottom-left { content: counter(page) } }
p:nth-child(2) { color: #345678; border-left: 1mm solid }
li::marker { color: #987654 }
.note::before { content: "Note: "; font-weight: 700 }
a::after { content: " (" target-counter(var(--to), page) ")" }
table { border-collapse: collapse; padding: 2mm }
td { border: .2mm solid; margin: 3mm }
:lang(de) { font-style: italic }
svg { background: #ddeeff }
"""
BODY = """
<h1 id=top>{0}</h1><p>Cut {0}.</p><p class=note>Glue <em>both</em> faces.</p>
<ul><li>Knife<li style="color: #aa0000">Foam {0}</ul>
<p style="--to: '#end'"><a href="#end" name=here>the end</a> <span lang=de>Ende</span></p>
<table><tr><td>a<td style="padding: 1mm">{0}</table>
<svg width=20 height=12 viewBox="0 0 20 12"><path d="M0 0H20V12Z"/></svg>
<svg width=9 height=12 viewBox="0 0 20 12"><path d="M0 0H20V12Z"/></svg>
<h2 id=end>End</h2>
"""


def page(sheet: str, body: str) -> str:
    """A document."""
    return f"<html lang=en><head><title>t</title><style>{sheet}</style></head><body>{body}</body></html>"


@pytest.fixture
def css() -> Theirs:
    """The library's module, mended."""
    write_pdf(page("", "<p>x"), files={})
    return import_module("weasyprint").css


@pytest.fixture
def computed(css: Theirs, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The elements whose styles are worked out; kinds of page are not among them."""
    asked: list[str] = []
    compute = css.StyleFor.set_computed_styles

    def noted(style_for: Theirs, element: Theirs, *args: Theirs, **kwargs: Theirs) -> None:
        if isinstance(element, Element):
            asked.append(element.tag)
        compute(style_for, element, *args, **kwargs)

    monkeypatch.setattr(css.StyleFor, "set_computed_styles", noted)
    return asked


def test_documents_look_as_the_library_makes_them(
    css: Theirs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rules, attributes, ids, languages, sizes of drawings and what stands before, beside and after
    an element are the same in the first, in the same and in another document.
    """
    documents = [page(SHEET, BODY.format(word)) for word in ("Cuff", "Cuff", "Collar")]
    kept = [write_pdf(one, files={}, variant="pdf/ua-1") for one in documents]
    monkeypatch.setattr(css.StyleFor, "__init__", css.StyleFor.guidegen)
    assert kept == [write_pdf(one, files={}, variant="pdf/ua-1") for one in documents]
    assert kept[0] == kept[1] != kept[2]


def test_a_second_document_works_out_only_what_is_new(computed: list[str]) -> None:
    """Another text costs nothing; another attribute, and what stands in its element, do."""
    sheet = f"{SHEET} em {{ color: #012345 }}"
    write_pdf(page(sheet, BODY.format("Cuff")), files={})
    assert computed.count("td") > 0
    computed.clear()
    write_pdf(page(sheet, BODY.format("Collar")), files={})
    assert computed == []
    write_pdf(page(sheet, BODY.format("Cuff").replace("class=note", "class=x id=y")), files={})
    assert sorted(set(computed)) == ["em", "p"]
    computed.clear()
    # What a link leads to is no matter of what stands in it.
    write_pdf(page(sheet, BODY.format("Cuff").replace("class=note", "class=note id=z")), files={})
    assert sorted(set(computed)) == ["p"]


def test_shares_of_a_page_follow_the_page_of_each_document(css: Theirs) -> None:
    """Half the width of the page is another length on another page, in sheets and attributes."""
    del css
    narrow, wide = (f"@page {{ size: {width}mm 80mm; margin: 0 }}" for width in (50, 100))
    for rule, style in (("p { margin-left: 50vw }", ""), ("p { color: #010101 }", "width: 50pvw")):
        body = f"<p style='{style}'>x"
        lefts = []
        for sheet in (narrow, wide):
            # The sizes stand in a sheet of their own, so that the other is the same.
            html = page(rule, body).replace("</head>", f"<style>{sheet}</style></head>")
            box = lay_out(html, files={})._document.pages[0]._page_box  # type: ignore[attr-defined]
            found = next(one for one in box.descendants() if one.element_tag == "p")
            lefts.append((found.margin_left, found.width))
        assert lefts[0] != lefts[1]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("width: 50vw", True),
        ("width: 2.5DVMIN", True),
        ("width: 1pvh", True),
        (r"width: 5\76 w", True),
        ("width: 5mm; content: 'v2 vw'", False),
        ("font: 700 12pt x; color: #5b6469", False),
    ],
)
def test_lengths_in_shares_of_the_page_are_known(text: str, expected: bool) -> None:
    """CSS Values and Units 4, 6.1.2: the units of the viewport; an escape may hide one."""
    assert is_of_page(text) is expected


def test_every_unit_of_the_page_that_the_library_knows_is_known_here(css: Theirs) -> None:
    """None of them would be taken for a length that is the same in all documents."""
    units = import_module("weasyprint.css.units").VIEWPORT_UNITS
    assert units
    assert all(is_of_page(f"width: 3{unit}") for unit in units)


@pytest.mark.parametrize(
    "body", ["<p style='colour: red'>x", "<p id=twice>x<p id=twice>x", "<p style='width: 1'>x"]
)
def test_what_is_told_is_told_of_each_document(css: Theirs, body: str) -> None:
    """A faulty attribute or an id that stands twice is told the second time as well."""
    del css
    told = []
    for _ in range(2):
        messages: list[str] = []
        write_pdf(page(SHEET, body), files={}, messages=messages)
        told.append(messages)
    assert told[0]
    assert told[0] == told[1]


def test_nothing_else_of_an_element_makes_declarations(css: Theirs) -> None:
    """Of all that an element may say, the library asks for what stands in the key, by tag."""

    class Asked(dict[str, str]):
        """Attributes that note what is asked for."""

        names: set[str] = set()  # noqa: RUF012 - one for each class, which stands in this test

        def get(self, name: str, default: Theirs = None) -> Theirs:
            self.names.add(name)
            return {"width": "3", "height": "4"}.get(name, default)

    class One:
        """An element that notes what is asked for."""

        def __init__(self, tag: str) -> None:
            self.tag, self.asked = tag, Asked()
            self.get = self.asked.get

        def iter(self) -> Iterator["One"]:
            return iter([self])

    for tag in ("p", "a", "td", "img", SVG):
        theirs, ours = One(tag), One(tag)
        Asked.names = set()
        list(css.find_style_attributes(theirs, False, "http://guide.invalid/"))
        asked = Asked.names
        Asked.names = set()
        _own(ours)
        _anchors(ours)
        assert Asked.names == asked, tag


def test_orders_of_rules_hold_among_kept_styles(
    css: Theirs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What outweighs what is the same as by the library: origin, importance, attribute, place."""
    rules = [".x { color: #110000 }", "p { color: #220000 !important }", "#i { color: #330000 }"]
    bodies = [
        f"<p class=x{' id=i' * has_id}{style}>x"
        for has_id, style in product((0, 1), ("", " style='color: #440000'"))
    ]
    sheets = [" ".join(rules[n:] + rules[:n]) for n in range(3)] + [rules[0], rules[2]]

    def colours() -> list[object]:
        found = []
        for sheet, body in product(sheets, bodies):
            document: Any = lay_out(page(sheet, body), files={})._document
            boxes = document.pages[0]._page_box.descendants()
            found.append(next(str(b.style["color"]) for b in boxes if b.element_tag == "p"))
        return found

    kept = [colours(), colours()]
    monkeypatch.setattr(css.StyleFor, "__init__", css.StyleFor.guidegen)
    assert kept == [colours()] * 2
    assert len(set(kept[0])) == len(rules) + 2  # an attribute; nothing at all
