"""Translations: which texts are missing or older than the original, and links that lead nowhere."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.walk import texts_of, wordings
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source, Trail, trail_text
from guidegen.problems import Problem


def check_translations(content: Content, file: GuideFile) -> Iterator[Problem]:
    """What a guide's translations lack, at the original."""
    for made in file.translations.values():
        for leaf, wording in wordings(file.guide):
            if wording.translated and not (wording.name and leaf.lasting in made.missing):
                yield from _gap(made, leaf.lasting, leaf.trail, file.source)


def check_shared_translations(content: Content) -> Iterator[Problem]:
    """What the translations of site.yaml and stock.yaml lack, where a guide has the language."""
    for language, (site, stock) in content.shared_translations.items():
        if content.languages[language]:
            for made, source, record in (
                (site, content.site_source, content.site),
                (stock, content.stock_source, content.stock),
            ):
                if not made.source.lines:
                    count = len(made.missing)
                    message = f"there is no {made.source.file}: {count} texts stay as they are"
                    if count:  # none where all is guidegen's own, which it has translated itself
                        yield source.problem("translation-missing", (), message)
                    continue
                for trail in texts_of(record):
                    yield from _gap(made, trail, trail, source)


def _gap(made: Translation, trail: Trail, place: Trail, source: Source) -> Iterator[Problem]:
    if trail in made.texts:
        return
    name = trail_text(trail)
    if trail in made.outdated:
        message = f"this text has changed since {made.source.file} was made: {name} there is old"
        yield source.problem("translation-outdated", place, message)
    else:
        message = f"{made.source.file} has no text for {name}"
        yield source.problem("translation-missing", place, message)
