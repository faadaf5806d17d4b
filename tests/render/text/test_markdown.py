"""Texts of authors as HTML."""

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup
from render.html_reader import Page

from guidegen.render.text.markdown import (
    Reference,
    Target,
    plain_text,
    references,
    render_inline,
    render_markdown,
)

ALLOWED = {
    "p", "h1", "h2", "h3", "h4", "h5", "h6", "em", "strong", "a", "ul", "ol", "li", "code", "pre",
    "blockquote", "hr", "br", "img", "table", "thead", "tbody", "tr", "th", "td",
}  # fmt: skip


def resolve(scheme, name):
    """Know the piece 'cuff' alone."""
    known = (scheme, name) == ("piece", "cuff")
    return Target("#piece-cuff", "Cuff", "to-piece") if known else None


def test_reference_becomes_a_link():
    """A reference to something known links to it and names it."""
    html = render_markdown("Cut the [cuff](piece:cuff).", resolve)
    assert '<a href="#piece-cuff" title="Cuff" class="to-piece">cuff</a>' in html


@pytest.mark.parametrize(
    "url",
    ["piece:belt", "step:cuff", "javascript:alert(1)", "JaVaScRiPt:alert(1)", "data:text/html,x",
     "http://a.example/", "file:///etc/passwd", "../other.html", "//a.example/x", "vbscript:x"],
)  # fmt: skip
def test_other_links_keep_their_words_only(url):
    """A link that leads nowhere, or where it may not lead, leaves its words."""
    assert render_inline(f"see [here <b>](<{url}>) now", resolve) == "see here &lt;b&gt; now"


@pytest.mark.parametrize("url", ["https://a.example/x?y=1", "mailto:a@b.example", "#top"])
def test_outside_links_stay(url):
    """Links with https and mailto, and anchors, stay links."""
    assert f'href="{url}"' in render_inline(f"[here]({url})", resolve)


def test_raw_html_is_shown_not_obeyed():
    """HTML in a text is printed as written."""
    html = render_markdown("<script>alert(1)</script>\n\na <img src=x onerror=y> b", resolve)
    assert {tag for tag, _ in Page(html).elements} == {"p"}
    assert "&lt;script&gt;" in html


def test_only_own_pictures_are_shown():
    """A picture of the guide's files is shown with its text alternative, any other is not."""
    text = "![a cuff](cuff.png) ![no](https://a.example/x.png) ![up](../x.png)"

    def show(name, alt):
        return Markup('<img src="f/{}" alt="{}">').format(name, alt) if name == "cuff.png" else None

    images = Page(render_markdown(text, resolve, show=show)).all("img")
    assert [(image["src"], image["alt"]) for image in images] == [("f/cuff.png", "a cuff")]


def test_headings_follow_the_page():
    """The highest heading of a text gets the level asked for, lower ones follow."""
    html = render_markdown("## One\n\n### Two\n\n## Three\n\n###### Six", resolve, heading=4)
    assert Page(html).headings == [4, 5, 4, 6]


def test_table_heads_have_scope():
    """Heads of a table say that they head columns."""
    heads = Page(render_markdown("| a | b |\n|---|---|\n| 1 | 2 |", resolve)).all("th")
    assert [head["scope"] for head in heads] == ["col", "col"]


def test_references_are_listed_with_lines():
    """Every link and picture is listed in order with the line where its block begins."""
    text = "One [a](piece:a)\n\n- [b](step:b)\n- <https://c.example>\n\n![d](e.png) [f](g:h)"
    assert references(text) == [
        Reference("piece", "a", 0),
        Reference("step", "b", 2),
        Reference("https", "//c.example", 3),
        Reference("image", "e.png", 5),
        Reference("g", "h", 5),
    ]


def test_plain_text_has_no_marks():
    """Plain text keeps the words alone, in one line."""
    assert plain_text("# A *b*\n\n- [c](piece:c)\n- `d`\ne") == "A b c d e"


@given(st.text(alphabet="ab[]()<>!*_`#|-:\n \\\"'&/=jscript", max_size=200))
def test_any_text_gives_tame_html(text):
    """Whatever the text, the HTML nests, and holds no element or address beyond the known ones."""
    page = Page(render_markdown(text, resolve))
    for tag, attributes in page.elements:
        assert tag in ALLOWED
        assert set(attributes) <= {
            "href",
            "title",
            "class",
            "src",
            "alt",
            "start",
            "scope",
            "style",
        }
        assert attributes.get("href", "#").startswith(("#", "https:", "mailto:"))
        assert attributes.get("style", "text-align:").startswith("text-align:")
    references(text)
    plain_text(text)


@pytest.mark.parametrize(
    "text", ["[" * 5000, "*" * 5000, "> " * 2000 + "x", "`" * 5000, "![" * 3000]
)
def test_hostile_texts_take_little_time(text):
    """Deep or unclosed marks do not hold up the press."""
    begin = time.monotonic()
    render_markdown(text, resolve)
    assert time.monotonic() - begin < 10


def test_paged_references_are_followed_by_their_page():
    """On paper a mark for the page number stands behind the link, not inside it."""
    html = render_inline("[cuff](piece:x), and", lambda *_: Target('#a"b', "", "ref", paged=True))
    assert html == (
        '<a href="#a&quot;b" class="ref">cuff</a>'
        '<span class="on-page" style="--to: \'#a&#34;b\'"></span>, and'
    )
