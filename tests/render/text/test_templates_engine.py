"""Templates of themes."""

import pytest
from markupsafe import Markup

from guidegen.errors import ContentError
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.words import ENGLISH


def engine(**files: str):
    """An engine with templates by name."""
    texts = {f"{name}.html.j2": text.encode() for name, text in files.items()}
    return Engine(Theme("test", texts), ENGLISH)


def problem(call):
    """The one problem that a call raises."""
    with pytest.raises(ContentError) as caught:
        call()
    (found,) = caught.value.problems
    return found


def test_words_are_escaped():
    """What a view says is printed, never obeyed; drawings of ours stand as they are."""
    page = engine(page="{{ words }} {{ drawing }}")
    html = page.render("page.html.j2", words='<b> & "x"', drawing=Markup("<svg/>"))
    assert html == "&lt;b&gt; &amp; &#34;x&#34; <svg/>"


def test_unknown_names_are_told_with_place():
    """A name that no view has is an error at its file and line."""
    found = problem(lambda: engine(page="one\n{{ nothing }}").render("page.html.j2"))
    assert (found.place.file, found.place.line) == ("themes/test/page.html.j2", 2)
    assert "nothing" in found.message


def test_errors_inside_a_macro_are_told_where_they_stand():
    """An error in a block that another template calls is told at its own file and line."""
    pages = engine(
        page='{% import "parts.html.j2" as parts %}\n{{ parts.show(1) }}',
        parts="{% macro show(x) %}\n\n{{ x.missing.deeper }}{% endmacro %}",
    )
    found = problem(lambda: pages.render("page.html.j2"))
    assert (found.place.file, found.place.line) == ("themes/test/parts.html.j2", 3)


def test_broken_templates_are_told_with_place():
    """A template that cannot be read is an error at its file and line."""
    found = problem(lambda: engine(page="\n{% for x in %}").render("page.html.j2"))
    assert (found.place.file, found.place.line) == ("themes/test/page.html.j2", 2)


def test_missing_templates_are_told():
    """A template that the theme lacks is named."""
    found = problem(lambda: engine(page="").render("pag.html.j2"))
    assert found.message == 'the theme has no template "pag.html.j2"'


def test_missing_files_are_told_with_a_near_name():
    """A style sheet that the theme lacks is named, with the nearest that there is."""
    found = problem(lambda: Theme("test", {"site.css": b""}).text("sites.css"))
    assert found.message == 'the theme has no file "sites.css"; did you mean "site.css"?'


def test_texts_are_utf8():
    """A template in another encoding is an error at its file."""
    found = problem(lambda: Engine(Theme("test", {"page.html.j2": b"\xff"}), ENGLISH))
    assert (found.place.file, found.message) == ("themes/test/page.html.j2", "expected UTF-8 text")


@pytest.mark.parametrize(
    "text",
    ["{{ words.__class__.__mro__ }}", "{{ ''.__class__ }}", "{{ words.append(1) }}",
     "{{ range(99999999)|length }}", "{{ cycler.__init__.__globals__ }}"],
)  # fmt: skip
def test_templates_reach_nothing_but_views(text):
    """A template cannot reach into Python, change a view, or loop without end."""
    problem(lambda: engine(page=text).render("page.html.j2", words=[1]))
