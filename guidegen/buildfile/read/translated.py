"""Content with its translations in → the same content in one of its languages."""

from dataclasses import replace

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.walk import with_texts
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Trail
from guidegen.words import Foreign, Words


def language_folder(content: Content, language: str) -> str:
    """Where the pages of a language lie under out/: 'de/'; empty for the site's own language."""
    return "" if language == content.site.languages[0] else f"{language}/"


def translated(content: Content, words: Words) -> Content:
    """All that has a translation, in the language of `words`; its address is that of its folder.

    Texts without a translation stay as they are, as Foreign texts that tell their language.
    """
    first, language = content.site.languages[0], words.language
    if language == first:
        return replace(content, words=words)
    site, stock = content.shared_translations[language]
    own: dict[str, object] = {"editions": content.site.translated_editions or content.site.editions}
    if content.site.address:
        own["address"] = f"{content.site.address}{language}/"
    if content.site.path:
        own["path"] = f"{content.site.path}{language}/"
    return replace(
        content,
        site=_put(content.site, site, first).model_copy(update=own),
        stock=_put(content.stock, stock, first),
        guides=tuple(
            _guide(file, file.translations[language], first)
            for file in content.guides
            if language in file.translations
        ),
        words=words,
    )


def _guide(file: GuideFile, made: Translation, first: str) -> GuideFile:
    return replace(file, guide=_put(file.guide, made, first))


def _put[M: Model](record: M, made: Translation, first: str) -> M:
    def change(trail: Trail, text: str) -> str:
        return made.texts.get(trail) or Foreign(text, first)

    return with_texts(record, change)
