"""All texts of templates and Python sources in, the catalogues of guidegen/languages brought up to date.

./start python tests/catalogue_texts.py
"""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import get_args

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from guidegen.buildfile.records.guide import Guide, Stage, Step
from guidegen.buildfile.records.safety.cautions import SignalWord
from guidegen.buildfile.records.vocabulary import SHAPES

ROOT = Path(__file__).parent.parent
LANGUAGES = ROOT / "guidegen" / "languages"
PLACES = (("guidegen", "**.py", "python"), ("themes/workshop", "**.j2", "jinja2.ext.babel_extract"))
KEYWORDS = {
    "_": None,
    "_n": (1, 2),
    "_p": ((1, "c"), 2),
    "say": None,
    "msg": None,
    "msgs": (1, 2),
    "many": (1, 2),
    "within": ((1, "c"), 2),
    "Measure": (1,),
}  # fmt: skip


def source_texts() -> Catalog:
    """Every text that passes through the catalogue."""
    catalogue = Catalog()
    for folder, pattern, method in PLACES:
        for file, _, text, comments, context in _found(ROOT / folder, pattern, method):
            where = [(f"{folder}/{file}", None)]
            catalogue.add(text, locations=where, auto_comments=comments, context=context)
    for text in _names():
        catalogue.add(text)
    return catalogue


def _names() -> list[str]:
    """Names in records that readers see: stages, signal words, levels, edges of computed shapes."""
    literal = [
        get_args(Guide.model_fields["level"].annotation),
        get_args(Step.model_fields["difficulty"].annotation),
    ]
    names = [*Stage, *SignalWord, *(name for names in literal for name in names)]
    edges = {edge for kind in SHAPES.values() for edge in (*kind.edges, *kind.half_edges)}
    return [*(str(name) for name in names), *sorted(edge.replace("-", " ") for edge in edges)]


def _found(folder: Path, pattern: str, method: str) -> Iterator[tuple]:
    return extract_from_dir(
        folder,
        [(pattern, method)],
        {pattern: {"trimmed": "true", "silent": "false"}},
        keywords=KEYWORDS,
    )


def read(language: str) -> Catalog:
    """The catalogue of a language."""
    return read_po(BytesIO((LANGUAGES / f"{language}.po").read_bytes()), locale=language)


def update(language: str) -> int:
    """Add new texts to a catalogue and take old ones out; how many are still to be translated."""
    catalogue = read(language)
    catalogue.update(source_texts(), no_fuzzy_matching=True)
    catalogue.obsolete.clear()
    lines = BytesIO()
    write_po(lines, catalogue, width=100, sort_output=True, no_location=True, omit_header=True)
    head = (
        f'msgid ""\nmsgstr ""\n"Language: {language}\\n"\n"MIME-Version: 1.0\\n"\n'
        '"Content-Type: text/plain; charset=utf-8\\n"\n"Content-Transfer-Encoding: 8bit\\n"\n'
        f'"Plural-Forms: {catalogue.plural_forms}\\n"\n\n'
    )
    (LANGUAGES / f"{language}.po").write_text(head + lines.getvalue().decode(), encoding="utf-8")
    return len(missing(catalogue))


def missing(catalogue: Catalog) -> list[str]:
    """Texts of a catalogue without a full translation."""
    found = []
    for message in catalogue:
        said = message.string if isinstance(message.string, tuple | list) else (message.string,)
        if message.id and (message.fuzzy or not all(said)):
            found.append(str(message.id))
    return found


if __name__ == "__main__":
    for path in sorted(LANGUAGES.glob("*.po")):
        print(f"{path.name}: {update(path.stem)} texts to translate")
