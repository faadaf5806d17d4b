"""A page of a site in several languages → the same page in the others."""

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.walk import wanted_texts
from guidegen.render.text.links import HOME, relative
from guidegen.render.views.scene import LanguageView
from guidegen.words import Foreign


def language_path(content: Content, language: str, path: str) -> str:
    """Where a page lies in a language, from out/; empty where it has no translation."""
    guide = path.partition("/")[0] if "/" in path else ""
    first = next(iter(content.languages), language)
    if guide in content.languages.get(first, ()) and guide not in content.languages[language]:
        return ""
    return path if language == first else f"{language}/{path}"


def other_languages(content: Content, path: str) -> tuple[LanguageView, ...]:
    """The site's other languages, each with the way to the same page, or to its first page."""
    own = language_path(content, content.language, path)
    views = []
    for language in content.languages:
        if language == content.language:
            continue
        same = language_path(content, language, path)
        views.append(
            LanguageView(
                language,
                content.words.name(language),
                content.words.direction_of(language),
                relative(own, same or language_path(content, language, HOME)),
                root_address(content) + same.removesuffix("index.html")
                if same and content.site.address
                else "",
                bool(same),
            )
        )
    return tuple(views)


def page_addresses(content: Content, path: str) -> tuple[tuple[str, str], ...]:
    """Language and full address of a page in each language that has it; empty for one language."""
    root = root_address(content)
    if not root:
        return ()
    found = ((tag, language_path(content, tag, path)) for tag in content.languages)
    return tuple((tag, root + there.removesuffix("index.html")) for tag, there in found if there)


def root_address(content: Content) -> str:
    """Full address of the site's first language; empty where it does not know its own."""
    address = content.site.address or ""
    first = next(iter(content.languages), content.language)
    return address if content.language == first else address.removesuffix(f"{content.language}/")


def gaps_language(content: Content, path: str) -> str:
    """Name of the language of texts that have no translation, where a page may show some."""
    guide = path.partition("/")[0] if "/" in path else ""
    records = [content.site, content.stock]
    records += [file.guide for file in content.guides if file.id == guide]
    for record in records:
        for text in wanted_texts(record).values():
            if isinstance(text, Foreign):
                return content.words.say_language(text.language)
    return ""
