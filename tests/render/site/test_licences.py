"""Works of others in a site: each with its licence beside it, and one page that names them all."""

from fnmatch import fnmatch
from functools import cache
from importlib.metadata import version
from pathlib import Path

import pytest
from render.html_reader import Page
from render.page_samples import home_files, sample, theme

from guidegen.app.commands.licences import licences_words
from guidegen.render.text.links import LICENCES
from guidegen.shipped import GUIDEGEN, SEARCHING, SHIPPED, Shipped
from guidegen.write.search_index import index_pages

ROOT = Path(__file__).parents[3]
MADE_HERE = (
    "*.html", "*.xml", "*.webmanifest", "things.js", "*/guide.files/*", "theme.files/card.png",
    "search.files/fragment/*", "search.files/index/*", "search.files/pagefind-entry.json",
    "search.files/*.pf_meta",
)  # fmt: skip
"""Made of the author's texts and drawings, whose licence is the guide's."""


@cache
def shared_files() -> dict[str, bytes]:
    """What every site has besides its guides, with an index for searching."""
    content, plan, pictures = sample()
    files = home_files(content, [plan], pictures, theme())
    page = b'<html lang="en"><body><main data-pagefind-body><h1>a</h1>foam</main>'
    index, failure = index_pages({"a.html": page})
    assert not failure
    return files | index


def test_each_file_of_others_has_its_licence_beside_it() -> None:
    """A file that the site's author did not make belongs to one work, whose text is there."""
    files = shared_files()
    texts = {one.text for one in SHIPPED}
    for path in set(files) - texts:
        works = [one for one in SHIPPED if any(fnmatch(path, form) for form in one.files)]
        if not any(fnmatch(path, form) for form in MADE_HERE):
            assert len(works) == 1, path
            assert works[0].text in files, path
    assert texts <= set(files)


@pytest.mark.parametrize("work", SHIPPED, ids=lambda one: one.name)
def test_a_text_names_the_holder_and_grants_something(work: Shipped) -> None:
    """Each text has the notice that the table names, and the words of its licence."""
    text = shared_files()[work.text].decode("utf-8")
    assert work.holder in text
    words = {"MIT": "Permission is hereby granted", "OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1"}
    assert words.get(work.licence, "GNU GENERAL PUBLIC LICENSE") in text


def test_the_text_of_the_search_program_is_that_of_the_version_in_use() -> None:
    """Another version may be made of other parts: its list has to be looked up anew."""
    text = SEARCHING.data.decode("utf-8")
    assert f"Pagefind {version('pagefind-bin')}, unchanged" in text
    for name in ("pagefind_microjson", "minicbor", "wasm-bindgen", "bit-set", "write-json"):
        assert name in text


def test_the_code_has_the_licence_of_the_repository() -> None:
    """What is shipped as guidegen's licence is the first part of LICENSE."""
    assert (ROOT / "LICENSE").read_text("utf-8").startswith(GUIDEGEN.data.decode("utf-8"))


def test_every_page_leads_to_the_page_of_licences() -> None:
    """The foot of each page links to it; it links to every text."""
    files = shared_files()
    pages = [path for path in files if path.endswith(".html") and path != LICENCES]
    assert len(pages) > 3
    for path in pages:
        assert LICENCES in _addresses(files[path]), path
    assert {one.text for one in SHIPPED} <= _addresses(files[LICENCES])


def _addresses(html: bytes) -> set[str]:
    return {link.get("href", "") for link in Page(html.decode()).all("a")}


def test_one_command_tells_it_all(tmp_path: Path) -> None:
    """Works, licences and places stand in one page of words, with the guides of the content."""
    words = licences_words(ROOT / "guidegen" / "starter")
    assert "first-cuff: CC BY-SA 4.0" in words
    for work in SHIPPED:
        assert f"{work.name}: {work.licence}" in words
        assert work.text in words
    assert len(words.splitlines()) < 60
    assert "no guide can be read" in licences_words(tmp_path / "nowhere")
