"""Documents that are read as XML: the same trees as by the rules of HTML, or none."""

import random
import re
from io import StringIO
from itertools import product
from xml.etree.ElementTree import Element

import pytest
import tinyhtml5
from tinyhtml5.constants import adjust_svg_attributes

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import plain_html
from guidegen.render.pdf.mended.plain_html import FLOW, INSIDE, INSIDE_SVG, VOID, plain_tree

PAGE = (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>A &amp; B</title>\n'
    '<style>p > a { color: red } [lang="de"] > b {}</style>\n</head>\n<body class="x">\nBODY\n</body>\n'
    "</html>\n"
)
BODY = """<header><h1 id="a">Cuff <em>M</em></h1></header>
<p class="lead">Cut <a href="#b">here</a>, it&#39;s &lt;5 mm<br>and <img src="a.svg" alt="A">.</p>
<ul><li>Knife<ul><li><p>sharp</p></li></ul></li><li><a href="#c">Foam<span>1</span></a></li></ul>
<table><caption>Sizes</caption><thead><tr><th scope="col">M</th></tr></thead>
<tbody> <tr><td>1<p>2</p></td><td><div>3</div></td></tr> </tbody></table>
<figure><svg viewBox="0 0 9 9"><title>Cuff</title><g><path d="M0 0"/></g></svg><figcaption>b</figcaption>
</figure><dl><dt>a</dt><dd>b</dd></dl><hr>"""

OTHERS = ("button", "form", "input", "math", "nobr", "option", "pre", "script", "select", "template",
          "textarea", "frameset", "noscript", "rp", "center", "marquee", "foreignObject", "clipPath")  # fmt: skip
"""Elements with rules of their own that no list here names."""


def by_html(html: str) -> Element:
    """The library's tree."""
    return tinyhtml5.parse(StringIO(html), namespace_html_elements=False)


def told(element: Element) -> list[object]:
    """All of a tree, in order."""
    return [
        (one.tag, list(one.attrib.items()), one.text or "", one.tail or "", len(one))
        for one in element.iter()
    ]


def read(html: str) -> bool:
    """Whether a document is read as XML; then its tree is the library's."""
    tree = plain_tree(html, adjust_svg_attributes)
    if tree is not None:
        assert told(tree) == told(by_html(html)), html
    return tree is not None


@pytest.mark.parametrize("end", ["", "\n", "\n</body>\n</html>", "</p>"])
def test_usual_documents_are_read_as_xml(end: str) -> None:
    """All that templates write is read, unless an element is left open or ends twice."""
    html = PAGE.replace("BODY", BODY) + end
    assert read(html) is (end in {"", "\n"})


def test_each_element_in_each_other_is_as_html_has_it() -> None:
    """All pairs of elements, and what HTML takes for no element of its own, with text around."""
    names = sorted({*FLOW, *INSIDE, *INSIDE_SVG, *VOID, *OTHERS}.union(*INSIDE.values()))
    taken = 0
    for outer, inner in product(names, repeat=2):
        inside = f"<{inner}>" if inner in VOID else f"<{inner}>x</{inner}>"
        for around in (f"<{outer}>{inside}y</{outer}>z", f"<svg><{outer}>{inside}</{outer}></svg>"):
            taken += read(PAGE.replace("BODY", around))
    assert taken > len(FLOW) ** 2 // 3


@pytest.mark.parametrize("seed", range(4))
def test_damaged_documents_are_read_as_html_or_not_at_all(seed: int) -> None:
    """Tags lost, doubled, swapped and moved, quotes and letters of all kinds put in."""
    chance = random.Random(seed)
    whole = PAGE.replace("BODY", BODY)
    parts = re.findall(r"<[^>]*>|[^<]+", whole)
    odd = ["&", "&nbsp;", "&#129;", "&#x41;", "\r", "\t", "<!-- x -->", "<p>", "</p>", "<div/>", ">",
           "<a href='x'>", "</a>", "<b title=\"a > b\">", "</b>", "<br/>", "<td>", "<svg/>", "]]>", "\f",
           "<span Title=\"x\">", "</span>", "<svg viewbox=\"0\">", "</svg>", "\ufeff", "<?x?>", "x=\"y"]  # fmt: skip
    taken = 0
    for _ in range(700):
        now = list(parts)
        for _ in range(chance.choice((1, 1, 2, 3))):
            at, other = chance.randrange(len(now)), chance.randrange(len(now))
            match chance.randrange(5):
                case 0:
                    del now[at]
                case 1:
                    now[at], now[other] = now[other], now[at]
                case 2:
                    now.insert(at, now[other])
                case 3:
                    now.insert(at, chance.choice(odd))
                case _:
                    place = chance.randrange(len(now[at]) + 1)
                    now[at] = now[at][:place] + chance.choice(odd) + now[at][place:]
        taken += read("".join(now))
    assert taken > 20


def test_letters_of_all_kinds_are_the_same() -> None:
    """Every letter of the first planes stands as it is, or the document is left to the library."""
    for start in range(0, 0x3000, 64):
        letters = "".join(
            chr(code) for code in range(start, start + 64) if chr(code) not in "<&>\"'"
        )
        read(PAGE.replace("BODY", f'<p title="{letters}">{letters}</p>'))
        for letter in letters if start < 0x100 else "":
            read(PAGE.replace("BODY", f'<p title="{letter}">{letter}</p>'))


def test_documents_are_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A document of the usual kind never comes to the library's reader; another does, and stays
    as it was.
    """
    write_pdf("<p>x", files={})
    asked: list[str] = []
    long_way = tinyhtml5.parser.HTMLParser.parse

    def parse(reader: object, source: StringIO, **how: object) -> object:
        asked.append(source.getvalue())
        return long_way(reader, source, **how)

    monkeypatch.setattr(tinyhtml5.parser.HTMLParser, "parse", parse)
    usual = PAGE.replace("BODY", "<p>x</p>")
    files = {"a.svg": b"<svg xmlns='http://www.w3.org/2000/svg' width='1' height='1'/>"}
    kept = write_pdf(usual, files=files)
    assert asked == []
    monkeypatch.setattr(plain_html, "plain_tree", lambda *_: None)
    assert write_pdf(usual, files=files) == kept
    assert asked == [usual]
