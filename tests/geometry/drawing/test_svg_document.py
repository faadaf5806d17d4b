"""The first, suspicious reading: bounded, and every element knows its place."""

import pytest
from geometry.drawing_samples import svg

from guidegen.geometry.drawing.svg_document import (
    MAX_ELEMENTS,
    MAX_TEXT,
    DrawingError,
    read_document,
)
from guidegen.geometry.drawing.svg_refusals import refuse_attribute, refuse_css, refuse_element


def refused(text: str) -> tuple[str, int, int]:
    """Code, line and column of what is refused in a drawing."""
    with pytest.raises(DrawingError) as caught:
        read_document(text, "a.svg")
    problem = caught.value.problem
    return (problem.code, problem.place.line, problem.place.column)


def test_elements_know_line_and_column():
    """An element's place is that of its opening bracket, counted from 1."""
    document = read_document(svg('<g>\n  <path id="a"\n d="M0 0"/><path id="b"/></g>'), "a.svg")
    assert document.positions[document.ids["a"]] == (3, 3)
    assert document.positions[document.ids["b"]] == (4, 12)


def test_what_is_refused_is_pointed_at():
    """The place of a refused element or attribute is that of the element."""
    assert refused(svg("<g/>\n <script/>")) == ("drawing-script", 3, 2)
    assert refused(svg('<g/>\n\n  <g onload="x()"/>')) == ("drawing-script", 4, 3)
    assert refused(svg("<g>\n</path>")) == ("drawing-xml", 3, 3)


@pytest.mark.parametrize(
    ("tags", "code", "cure"),
    [
        ("script handler listener", "drawing-script", "delete the script"),
        ("image video audio iframe canvas embed object foreignObject", "drawing-picture",
         "trace it as a path, or delete it"),
    ],
)  # fmt: skip
def test_what_runs_or_shows_pixels_is_refused_with_its_cure(tags, code, cure):
    """Each such element by name, as SVG 2 and HTML list them; a path is let in."""
    for tag in tags.split():
        refusal = refuse_element(tag, "g")
        assert refusal is not None, tag
        assert (refusal[0], refusal[2]) == (code, cure)
    assert refuse_element("path", "g") is None


def test_a_style_element_is_pointed_at():
    """A style that reaches out of the file is refused at its style element."""
    assert refused(svg("\n<style>a\n{ fill: url(x.svg#a) }</style>")) == ("drawing-external", 3, 1)


def test_sizes_are_bounded():
    """Too many characters, elements, levels and attributes are refused."""
    assert refused(svg("<!--" + "x" * MAX_TEXT + "-->"))[0] == "drawing-too-large"
    assert refused(svg("<g/>" * (MAX_ELEMENTS + 1)))[0] == "drawing-too-large"
    assert refused(svg("<g>" * 100 + "</g>" * 100))[0] == "drawing-too-deep"
    many = " ".join(f'a{number}="1"' for number in range(300))
    assert refused(svg(f"<g {many}/>"))[0] == "drawing-too-large"


def test_unending_comments_in_styles_take_no_time():
    """A style of nothing but comment openings is read in linear time."""
    assert refuse_css("/*" * 99_000) is None
    assert refuse_css("/*/" * 60_000 + "*/ a { fill: url(//b) }") is not None
    assert refuse_css("/*" * 500_000) is not None


@pytest.mark.parametrize(
    "css",
    [
        "fill: url(#paint)",
        "fill: url( '#paint' )",
        "marker: none; font-family: 'Curls'",
        "/* url(https://example.org) */ fill: none",
    ],
)
def test_styles_inside_the_file_are_allowed(css):
    """A reference by #id, and words that only look like one, are let through."""
    assert refuse_css(css) is None


@pytest.mark.parametrize(
    "css",
    [
        "fill: URL(http://example.org/)",
        "fill: url(\\68ttp://example.org/)",
        "background: image-set('a.png' 1x)",
        "fill: u\\72 l(a.svg)",
        "@IMPORT 'a.css'",
        "src: src(a)",
    ],
)
def test_styles_that_reach_out_are_refused(css):
    """However a reference out of the file is written, it is refused."""
    assert refuse_css(css) is not None


@pytest.mark.parametrize(
    "target", ["#a b", "a.svg", "//x", " javascript:x()", "#a\n(b)", "data:,x"]
)
def test_references_out_of_the_file_are_refused(target):
    """Only a plain #id may stand in href."""
    refusal = refuse_attribute("use", "href", target)
    if target == "#a b":
        # Blanks around an id are what some editors leave behind; inside it they are harmless.
        assert refusal is None
    else:
        assert refusal is not None


def test_other_namespaces_are_left_out():
    """Elements of editors' namespaces, and all in them, are not part of the tree."""
    document = read_document(
        svg('<e:a xmlns:e="https://example.org/e"><path id="x"/></e:a><g id="y"/>'), "a.svg"
    )
    assert [child.get("id") for child in document.root] == ["y"]
