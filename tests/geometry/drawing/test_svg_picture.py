"""SVG pictures are published as a new tree of known parts, never as the bytes that came."""

import re

import pytest

from guidegen.geometry.drawing.svg_document import DrawingError
from guidegen.geometry.drawing.svg_picture import MAX_COST, clean_picture

SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9">'
AWAY = "https://away.example/x"

HIDING = {
    # A comment that begins in one string and ends in another hides nothing from a tokenizer.
    "style element": f'<style>a{{content:"/*"}} rect{{mask-image:url({AWAY})}} b{{content:"*/"}}</style>',
    "attribute": f"<rect style=\"font-family:'/*';mask-image:url({AWAY});cursor:'*/'\"/>",
    "font face": f'<style>a{{content:"/*"}} @font-face{{src:url({AWAY})}} b{{content:"*/"}}</style>',
    "charset": f'<style>@charset "/*";@import "{AWAY}"; b{{content:"*/"}}</style>',
    "bad string": f'<style>a{{content:"/*\n}} rect{{fill:url({AWAY})}} b{{content:"*/"}}</style>',
    "cdata": f'<style><![CDATA[a{{content:"/*"}} rect{{fill:url({AWAY})}}]]></style>',
    "escaped": f"<style>rect{{fill:\\75\\72\\6c({AWAY})}}</style>",
    "image-set": f'<rect style="mask-image:image-set(&quot;{AWAY}&quot; 1x)"/>',
    "attr": f'<rect data-x="{AWAY}" style="mask-image:url(attr(data-x))"/>',
    "variable": f'<rect style="--a:url({AWAY});fill:var(--a)"/>',
    "presentation": f'<rect fill="url({AWAY})"/>',
    "nested": f"<style>@media all{{rect{{fill:url({AWAY})}}}}</style>",
    "link": f'<a href="{AWAY}"><rect/></a>',
    "xlink": f'<use xlink:href="{AWAY}#a"/>',
    "instruction": f'<?xml-stylesheet href="{AWAY}"?><rect/>',
    "script": f'<script href="{AWAY}"/>',
    "handler": f"<rect onclick=\"fetch('{AWAY}')\"/>",
    "animation": f'<a><set attributeName="href" to="{AWAY}"/><rect/></a>',
    "animated style": f'<rect><set attributeName="fill" to="url({AWAY})"/></rect>',
    "image": f'<image href="{AWAY}"/>',
    "filter": f'<filter id="f"><feImage href="{AWAY}"/></filter>',
    "html": f'<foreignObject><img xmlns="http://www.w3.org/1999/xhtml" src="{AWAY}"/></foreignObject>',
    "notes": f'<n:x xmlns:n="urn:notes"><style>@import "{AWAY}"</style></n:x>',
    "base": f'<g xml:base="{AWAY}"><use href="#a"/></g>',
    "words": f'<style>rect{{content:"&lt;/style&gt;&lt;script&gt;"}}</style><text>{AWAY}</text>',
}


@pytest.mark.parametrize("case", HIDING)
def test_nothing_points_outside_however_it_is_hidden(case):
    """A picture that hides an address from a careless reader is refused, or loses the address."""
    try:
        text = clean_picture(f"{SVG}{HIDING[case]}</svg>".encode(), "a.svg").decode()
    except DrawingError as error:
        assert error.problem.place.file == "a.svg"
        return
    shown = re.sub(r"<text>[^<]*</text>", "", text)  # words that are only read lead nowhere
    assert "away.example" not in shown
    assert "script" not in shown.replace("&lt;/style&gt;&lt;script&gt;", "")
    assert "@" not in text


def test_a_picture_keeps_how_it_looks():
    """Shapes, gradients, patterns, styles, words and their blanks are all still there."""
    parts = (
        '<style>.a, rect.b { fill: #ff0000; stroke: url("#g") !important }</style>'
        '<defs><linearGradient id="g"><stop offset="50%" stop-color="rgb(1 2 3 / 50%)"/></linearGradient>'
        '<pattern id="p" width="4" height="4" patternTransform="rotate(45)"><path d="M0,0 L4 4z"/></pattern></defs>'
        '<g id="one" transform="translate(1 2) scale(2)"><rect class="b" style="fill:url(#p);opacity:.5" x="1"/></g>'
        '<use href="#one"/><text x="1" font-family="Sans, &apos;A B&apos;" xml:space="preserve">one '
        "<tspan>two</tspan> three &lt;</text><title>Words</title>"
    )
    text = clean_picture(f"{SVG}{parts}</svg>".encode(), "a.svg").decode()
    shown = text.replace("&quot;", '"').replace('url("#p")', "url(#p)")
    for kept in (
        '.a, rect.b { fill: #ff0000; stroke: url("#g") !important }',
        'stop-color="rgb(1 2 3 / 50%)"', 'patternTransform="rotate(45)"', 'd="M0,0 L4 4z"',
        'transform="translate(1 2) scale(2)"', 'fill: url(#p); opacity: .5',
        '<use href="#one">', 'xml:space="preserve">one <tspan>two</tspan> three &lt;</text>',
        "<title>Words</title>", 'viewBox="0 0 9 9"',
    ):  # fmt: skip
        assert kept in shown, kept
    assert clean_picture(text.encode(), "a.svg").decode() == text


def uses(levels: int, each: int) -> str:
    """Groups that use one another."""
    groups = "".join(
        f'<g id="g{n}">{f"""<use href="#g{n - 1}"/>""" * each}</g>' for n in range(1, levels + 1)
    )
    return f'<g id="g0"><rect/></g>{groups}<use href="#g{levels}"/>'


def patterns(levels: int, each: int, where: str) -> str:
    """Patterns that fill one another, by attribute, style or style sheet."""
    fill = {"attribute": 'fill="url(#p{})"', "style": 'style="fill:url( &quot;#p{}&quot;)"'}
    made, sheet = "", ""
    for n in range(1, levels + 1):
        paint = fill.get(where, 'class="c{}"').format(n - 1)
        sheet += f".c{n - 1}{{fill:url(#p{n - 1})}}" if where == "sheet" else ""
        made += f'<pattern id="p{n}" width="1" height="1">{f"<rect {paint}/>" * each}</pattern>'
    first = '<pattern id="p0" width="1" height="1"><rect/></pattern>'
    return f'<style>{sheet}</style>{first}{made}<rect fill="url(#p{levels})"/>'


BOMBS = {
    "uses": uses(8, 10),
    "deep uses": uses(300, 1),
    "patterns": patterns(8, 10, "attribute"),
    "patterns by style": patterns(8, 10, "style"),
    "patterns by sheet": patterns(8, 10, "sheet"),
    "itself": '<g id="a"><use href="#a"/></g>',
    "each other": '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>',
    "pattern of itself": '<pattern id="a"><rect fill="url(#a)"/></pattern>',
    "words": f"<text>{'w ' * 600_000}</text>",
    "elements": "<rect/>" * (MAX_COST + 1),
}


@pytest.mark.parametrize("case", BOMBS)
def test_a_picture_that_unfolds_is_refused_with_its_place(case):
    """Few lines that would draw millions of things are told, in little time."""
    with pytest.raises(DrawingError) as caught:
        clean_picture(f"{SVG}\n{BOMBS[case]}</svg>".encode(), "a.svg")
    assert caught.value.problem.place.line >= 1
    assert caught.value.problem.code in {"drawing-too-large", "drawing-use"}


def test_a_picture_of_many_things_is_let_through():
    """Ten times ten times ten uses, and fifteen thousand shapes, are drawn."""
    assert clean_picture(f"{SVG}{uses(3, 10)}</svg>".encode(), "a.svg")
    assert clean_picture(f"{SVG}{'<rect/>' * 15_000}</svg>".encode(), "a.svg")


@pytest.mark.parametrize(
    "inside", ['<rect transform="translate(\\1 2)"/>', "<style>rect { fill: \\1 }</style>"]
)
def test_an_escape_of_styles_makes_no_letter_that_xml_forbids(inside):
    """An escape becomes one letter once it is read: what is written is still well-formed."""
    page = f'<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm">{inside}</svg>'
    made = clean_picture(page.encode(), "a.svg")
    assert b"\x01" not in made
    assert clean_picture(made, "a.svg") == made
