"""A content folder and what was read of it in → the same with the translations that lie beside.

content/
  site.de.yaml               texts of site.yaml in another language
  stock.de.yaml              texts of stock.yaml
  translated/de.json         which originals they were made from
  <guide>/guide.de.yaml      texts of guide.yaml, and so on
"""

from collections.abc import Callable, Collection, Iterable
from dataclasses import replace
from pathlib import Path

from guidegen.buildfile.read.amounts import amount_problems
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.file_names import leads_out
from guidegen.buildfile.read.reader import FolderReader, read_file, read_inside, shown_path
from guidegen.buildfile.read.trade import on_top_of_trade, usual_in_use
from guidegen.buildfile.records.walk import texts_of
from guidegen.buildfile.translate.translation import Translation, read_translation
from guidegen.buildfile.translate.usual_texts import on_top_of_usual
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Source, Value, read_tree
from guidegen.problems import Checked, collect

KEPT = "translated"
"""Folder for what is kept of translations, beside the build file."""


def kept_file(folder: Path, name: str, language: str) -> Path:
    """Where is kept which originals a translation of `name`.yaml was made from."""
    return folder / KEPT / f"{name}.{language}.json"


def read_translations(
    folder: Path,
    content: Content,
    others: Iterable[str] = (),
    only: Collection[str] | None = None,
) -> Checked[Content]:
    """The content with its translations into the further languages of the site, or `only` some.

    A guide without one has no pages in that language. `others` are guides that the site has as
    well, though they were not read.
    """
    languages = content.site.languages
    further = [name for name in languages[1:] if only is None or name in only]
    if not further:
        return content
    guides = []
    for file in content.guides:
        found = {}
        for language in further:
            if _file(folder, file.id, language).exists():
                reader = FolderReader(folder / file.id, f"{shown_path(folder)}/{file.id}")
                made = yield from _read(
                    folder / file.id, "guide", language, file.guide, reader.take_long_texts
                )
                text = (folder / file.id / "guide.yaml").read_text(encoding="utf-8")
                usual = usual_in_use(content.stock, languages[0], language)
                found[language] = on_top_of_usual(made, text, content.stock, usual)
        guides.append(replace(file, translations=found))
    shared = {}
    for language in further:
        site = yield from _read(folder, "site", language, content.site)
        stock = yield from _read(folder, "stock", language, content.stock)
        shared[language] = site, on_top_of_trade(stock, content.stock, languages[0])
    return replace(
        content,
        guides=tuple(guides),
        shared_translations=shared,
        languages=_guides_by_language(
            folder, languages, {*others, *(file.id for file in content.guides)}
        ),
    )


def _guides_by_language(
    folder: Path, languages: tuple[str, ...], names: set[str]
) -> dict[str, frozenset[str]]:
    first, *further = languages
    guides = {first: frozenset(names)}
    for language in further:
        guides[language] = frozenset(n for n in names if _file(folder, n, language).exists())
    return guides


def _file(folder: Path, guide: str, language: str) -> Path:
    """Where the texts of a guide lie in a further language."""
    return folder / guide / f"guide.{language}.yaml"


def _read(
    folder: Path,
    name: str,
    language: str,
    record: Model,
    prepare: Callable[[Value, Source], Checked[Value]] | None = None,
) -> Checked[Translation]:
    """One translation; without texts where there is no file, or where it does not hold."""
    path = folder / f"{name}.{language}.yaml"
    shown = f"{shown_path(folder)}/{path.name}"
    original = texts_of(record)
    nothing = Translation(language, Source(shown, ()), missing=tuple(original))
    text = (yield from read_inside(folder, path.name, shown)) if path.exists() else None
    if text is None:
        return nothing
    value, source, found = read_tree(text, shown)
    yield from found
    if found:
        return nothing
    kept = kept_file(folder, name, language)
    inside = kept.is_file() and not leads_out(kept, folder)
    # What is wrong with what we keep ourselves is not told: unread, it is as good as not there.
    before = collect(read_file(kept, ""))[0] if inside else None
    if prepare is not None:
        value = yield from prepare(value, source)
    made, wrong = read_translation(language, value, source, original, before or "")
    yield from wrong
    too_much = amount_problems(made.texts, source)
    yield from too_much
    return nothing if too_much else made
