"""The handbook as a site, and its examples: every command and every piece of YAML in it is tried."""

import json
import re
import shlex
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import jsonschema
import pytest
from render.html_reader import Page

from guidegen.app.commands.handbook import HANDBOOK, chapter_page, handbook_files
from guidegen.app.commands.options import build_parser
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.errors import UsageError
from guidegen.render.site.handbook import page_of

SCHEMAS = Path(__file__).parent.parent / "guidegen" / "buildfile" / "records" / "schemas"
TEXTS = {
    path.relative_to(HANDBOOK).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(HANDBOOK.rglob("*.md"))
}
ENDS = re.compile(r"\s+(?:[|&;>#]| {2}|\(|to see).*$|  .*$")
"""What follows a command in its line: another one, a redirection, a remark."""


@cache
def files() -> dict[str, bytes]:
    """The site."""
    return handbook_files()


@cache
def ids(path: str) -> frozenset[str]:
    """Ids of a page."""
    return frozenset(Page(files()[path].decode()).ids)


@pytest.mark.parametrize("name", TEXTS)
def test_links_of_pages_lead_somewhere(name: str) -> None:
    """Each link, picture, script and style of a chapter's page is there, with its place on it."""
    path = page_of(name)
    for tag, attributes in Page(files()[path].decode()).elements:
        address = attributes.get("href", attributes.get("src", ""))
        if tag == "meta" or not address or address.startswith("https:"):
            continue
        file, _, place = address.partition("#")
        file = file.partition("?")[0] or path
        assert file in files(), address
        if place:
            assert place in ids(file), address


def test_every_chapter_is_read_and_searched() -> None:
    """A title, and a mark for the index of searching; links name chapters by their titles."""
    for name in TEXTS:
        html = files()[page_of(name)].decode()
        assert html.count("<h1>") == 1, name
        assert "data-pagefind-body" in html, name
        assert "style=" not in html, name
    assert ">installing.md<" not in files()["index.html"].decode()


@pytest.mark.parametrize("name", TEXTS)
def test_every_picture_of_a_chapter_is_on_its_page(name: str) -> None:
    """Each figure is shown where the chapter has it, and is there; examples show none."""
    text = re.sub(r"```.*?```|`[^`]*`", "", TEXTS[name], flags=re.DOTALL)
    page = Page(files()[page_of(name)].decode())
    shown = [attributes["src"] for tag, attributes in page.elements if tag == "img"]
    folder = Path(name).parent
    named = [(folder / src).as_posix() for src in re.findall(r"!\[[^]]*\]\(([^)]+)\)", text)]
    assert [src for src in shown if src in files() and "/" in src] == named


def commands() -> Iterator[tuple[str, str]]:
    """Every line of an example, and every example in a sentence, that calls guidegen."""
    for name, text in TEXTS.items():
        whole = text.replace("\\\n", " ")  # a line that goes on in the next
        for line in re.findall(r"^ {4,}(?:\./start )?guidegen (.*)$", whole, re.MULTILINE):
            yield name, ENDS.sub("", re.sub(r"(?<=\S) +(?=--)", " ", line))
        for words in re.findall(r"`(?:\./start )?guidegen ([a-z-][^`\n]*)`", whole):
            yield name, words


@pytest.mark.parametrize(("name", "line"), sorted(set(commands())))
def test_commands_are_real(name: str, line: str) -> None:
    """The parser takes each command as it is written."""
    words = shlex.split(line)
    if words[0] in {"fit", "class", "sizes"} and len(words) == 1:
        words.append("lamp")  # a sentence names the command, and no guide
    try:
        build_parser().parse_args(words)
    except SystemExit as end:
        assert end.code == 0, f"{name}: guidegen {line}"


def test_the_chapters_that_files_lead_to_are_there() -> None:
    """What `begin` writes and what commands say leads to the handbook by names of chapters."""
    package = HANDBOOK.parent
    texts = [
        path.read_text("utf-8") for kind in ("yaml", "py") for path in package.rglob(f"*.{kind}")
    ]
    named = {name for text in texts for name in re.findall(r"guidegen handbook ([a-z-]+)", text)}
    assert {"drawings", "shapes", "stock"} <= named
    assert all(chapter_page(name) in files() for name in named)


def test_a_chapter_that_there_is_not() -> None:
    """The nearest name is told."""
    with pytest.raises(UsageError, match='no chapter "shape"; did you mean "shapes"'):
        chapter_page("shape")


@cache
def definitions() -> tuple[jsonschema.Draft202012Validator, ...]:
    """Validators of everything that a build file may hold, of parts of it as well."""
    made = []
    for kind in ("guide", "site", "stock"):
        schema = json.loads((SCHEMAS / f"{kind}.schema.json").read_text(encoding="utf-8"))
        free(schema)
        inner = {"$defs": schema["$defs"]}
        for place in (schema, *({**one, **inner} for one in schema["$defs"].values())):
            named = {"type": "object", "additionalProperties": place, **inner}
            listed = {"type": "array", "items": place, **inner}
            made += [jsonschema.Draft202012Validator(one) for one in (place, named, listed)]
    return tuple(made)


def free(schema: object) -> None:
    """Ask for nothing: an example shows a part of what must be there."""
    if isinstance(schema, dict):
        if isinstance(schema.get("required"), list):
            del schema["required"]
        if "oneOf" in schema:  # of which several fit, once nothing has to be there
            schema["anyOf"] = schema.pop("oneOf")
        for value in schema.values():
            free(value)
    elif isinstance(schema, list):
        for value in schema:
            free(value)


def examples() -> Iterator[tuple[str, str]]:
    """All that is marked as YAML."""
    marked = re.compile(r"^( *)```yaml\n(.*?)^ *```", re.MULTILINE | re.DOTALL)
    for name, text in TEXTS.items():
        for indent, body in marked.findall(text):
            yield name, re.sub(rf"^{indent}", "", body, flags=re.MULTILINE)


OTHERS = {"teach/class.md", "publish/languages.md", "fit/sizes.md"}
"""Chapters whose examples are of files that have no schema: people, bodies, translations."""


@pytest.mark.parametrize(("name", "text"), list(examples()))
def test_examples_are_what_build_files_may_hold(name: str, text: str) -> None:
    """Each example is read, and by the schema is a part of a guide, of a stock or of a site."""
    read, _, found = read_tree(text, name)
    assert not found
    if name in OTHERS:
        return
    value = json.loads(json.dumps(read, default=str))
    assert isinstance(value, dict)
    for key, part in value.items():
        if not any(one.is_valid({key: part}) for one in definitions()):
            pytest.fail(f"{name}: {key}\n{text}")
