"""Content with its translations in → the content in each language, and what is kept of it."""

from collections.abc import Iterator
from pathlib import Path

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.translated import language_folder, translated
from guidegen.buildfile.read.translation_reader import kept_file
from guidegen.errors import ContentError, UsageError
from guidegen.problems import Place, Problem, did_you_mean
from guidegen.render.text.templates_engine import Theme
from guidegen.words import Words, read_words
from guidegen.write.plans import load_plans, save_plans


def all_languages(content: Content, theme: Theme) -> Iterator[tuple[str, Content]]:
    """Each language's folder under out/ with the content in it, the site's own language first."""
    for language in content.site.languages:
        yield language_folder(content, language), translated(content, theme_words(theme, language))


def in_language(content: Content, theme: Theme, language: str) -> Content:
    """Content of one guide in a language of the site; in the site's own for an empty one.

    Raises UsageError where site or guide do not have it, ContentError where the theme's words of
    it are no catalogue.
    """
    languages = content.site.languages
    if language and language not in languages:
        hint = did_you_mean(language, languages)
        raise UsageError(f'the site does not speak "{language}"{hint}')
    said = translated(content, theme_words(theme, language or languages[0]))
    if len(said.guides) < len(content.guides):
        (guide,) = content.guides
        raise UsageError(
            f'"{guide.id}" has no guide.{language}.yaml: it does not speak "{language}"'
        )
    return said


def theme_words(theme: Theme, language: str) -> Words:
    """The words of a language; a theme's languages/<language>.po lies over the package's.

    Raises ContentError where it is no catalogue.
    """
    name = f"languages/{language}.po"
    data = theme.files.get(name)
    try:
        return read_words(language, [data] if data else [])
    except ValueError as error:
        place = Place(f"themes/{theme.name}/{name}")
        problem = Problem("theme-template", place, "", str(error))
        raise ContentError([problem]) from None


def keep_translations(folder: Path, content: Content) -> list[Problem]:
    """Write beside the build files which originals their translations were made from."""
    kept = [
        (kept_file(folder / file.id, "guide", language), made.kept)
        for file in content.guides
        for language, made in file.translations.items()
    ]
    for language, both in content.shared_translations.items():
        for name, made in zip(("site", "stock"), both, strict=True):
            kept.append((kept_file(folder, name, language), made.kept))
    problems = []
    for path, text in kept:
        failure = save_plans(path, text) if text and load_plans(path) != text else ""
        if failure:
            place = Place(path.as_posix())
            problems.append(Problem("plan-kept", place, "", failure))
    return problems
