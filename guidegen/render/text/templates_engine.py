"""Theme files and view records in → page texts out.

The only module that imports jinja2. Everything that a template prints is escaped unless a renderer
of ours made it; unknown names are errors with file and line; a template runs in a sandbox that
sees nothing but the records that it is given.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from jinja2 import (
    BytecodeCache,
    FunctionLoader,
    StrictUndefined,
    TemplateError,
    TemplateNotFound,
    TemplateSyntaxError,
)
from jinja2.bccache import Bucket
from markupsafe import Markup, escape

from guidegen.errors import ContentError
from guidegen.problems import Place, Problem, did_you_mean
from guidegen.render.text.cache_key import NotKnownError, shown_text, words_text
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.lengths import mark_lengths
from guidegen.render.text.living import settle
from guidegen.render.text.sandbox import Sandbox, begin_page
from guidegen.words import Foreign, Words, fill, holes

SUFFIX = ".j2"
"""Ending of the files of a theme that are templates."""


@dataclass(frozen=True)
class Theme:
    """The files of one folder in themes/."""

    name: str
    files: Mapping[str, bytes]
    """By path in the folder, with forward slashes."""

    def text(self, name: str) -> str:
        """A file as text. Raises ContentError where it is missing or not UTF-8."""
        try:
            return self.files[name].decode("utf-8")
        except KeyError:
            hint = did_you_mean(name, self.files)
            raise _error(self, name, 0, f'the theme has no file "{name}"{hint}') from None
        except UnicodeDecodeError:
            raise _error(self, name, 0, "expected UTF-8 text") from None


class _Compiled(BytecodeCache):
    """Templates that this process has compiled, by name and source: every page needs the same."""

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give what was compiled from the same source."""
        code = self._codes.get((bucket.key, bucket.checksum))
        if code is not None:
            bucket.bytecode_from_string(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled; of other sources of the same template the oldest goes."""
        self._codes[bucket.key, bucket.checksum] = bucket.bytecode_to_string()
        if len(self._codes) > MOST_COMPILED:
            del self._codes[next(iter(self._codes))]


MOST_COMPILED = 200
"""Compiled templates that are kept. Our choice: several times those of a theme."""
_COMPILED = _Compiled()


class Engine:
    """Renders the templates of one theme in one language."""

    def __init__(
        self,
        theme: Theme,
        words: Words,
        cache: DocumentCache | None = None,
        *,
        lengths: bool = False,
    ) -> None:
        """Templates are read at once, so that a broken one is found before any page is made.

        `cache` finds pages that an earlier press made; its stamp tells the theme. `lengths` in
        what is said are marked, for pages that can show other units.
        """
        self._theme = theme
        self._said = words
        self._words = words_text(words)
        self.cache = cache or DocumentCache()
        sources = {name: theme.text(name) for name in theme.files if name.endswith(SUFFIX)}
        self._environment = Sandbox(
            {name: len(text) for name, text in sources.items()},
            loader=FunctionLoader(
                # The file name is given as well, so that errors can name template and line.
                lambda name: (sources[name], name, lambda: True) if name in sources else None
            ),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            bytecode_cache=_COMPILED,
        )
        self._environment.globals.update(_sayings(words))
        self._environment.filters["said"] = said_with_lengths if lengths else said
        self._environment.filters["day"] = words.date

    def keep(self, path: str, name: str, **views: object) -> bytes:
        """What template `name` makes, as UTF-8, for the file at `path`: found, or rendered.

        A template sees nothing but its views, the words and the theme, so these are the key.
        """

        def make() -> bytes:
            return self.render(name, **views).encode()

        try:
            shown = shown_text(views)
        except NotKnownError:
            return make()
        return self.cache.make(path, (name, self._words, shown), make)

    def render(self, name: str, **views: object) -> str:
        """The text of template `name`. Raises ContentError with file and line."""
        begin_page()
        try:
            return settle(self._environment.get_template(name).render(**views), self._said)
        except TemplateNotFound as error:
            message = f'the theme has no template "{error.name}"'
            raise _error(self._theme, str(error.name or name), 0, message) from None
        except TemplateSyntaxError as error:
            message = error.message or "cannot read the template"
            raise _error(self._theme, error.name or name, error.lineno, message) from None
        except RecursionError as error:
            place = _template_line(error, name)
            raise _error(self._theme, *place, "the template calls itself without end") from None
        except (TemplateError, TypeError, ValueError, LookupError, ArithmeticError) as error:
            place = _template_line(error, name)
            raise _error(self._theme, *place, str(error) or type(error).__name__) from error


def in_language(html: Markup, text: str, tag: str = "span") -> Markup:
    """`html` of a text, marked as a gap with its language where that is not the page's."""
    if not isinstance(text, Foreign):
        return html
    language = escape(text.language)
    start = f'<{tag} class="gap" lang="{language}" data-lang="{language}" dir="auto">'
    return Markup(start) + html + Markup(f"</{tag}>")  # noqa: S704 - made of a tag and a language


def said(text: str) -> Markup:
    """A filter: an author's words outside attributes, marked where they lack a translation."""
    return in_language(escape(text), text)


def said_with_lengths(text: str) -> Markup:
    """The same, with the lengths in the words marked. What is HTML already stays as it is."""
    html = escape(text) if hasattr(text, "__html__") else mark_lengths(text)
    return in_language(html, text)


def _sayings(words: Words) -> dict[str, Callable[..., Markup]]:
    """What templates say texts with: _("Wait {time}", time=…), _n("{n} page", "{n} pages", count),
    _p("a noun", "Work").

    Values are put in by name and never formatted, so that no text can be padded without end.
    """

    def put(text: str, values: Mapping[str, object]) -> Markup:
        safe = {name: escape(value) for name, value in values.items()}
        return Markup(fill(escape(text), safe))  # noqa: S704 - text and values are escaped

    def holes_of(text: str) -> dict[str, object]:
        # The words are asked for with the holes still in them: values come in escaped.
        return {name: f"{{{name}}}" for name in holes(text)}

    def say(text: str, /, **values: object) -> Markup:
        return put(words.say(text, **holes_of(text)), values)

    def many(one: str, more: str, n: float, /, **values: object) -> Markup:
        asked = holes_of(one) | holes_of(more) | {"n": "{n}"}
        return put(words.many(one, more, n, **asked), {"n": words.number(n, 2), **values})

    def within(context: str, text: str, /, **values: object) -> Markup:
        return put(words.within(context, text, **holes_of(text)), values)

    return {"_": say, "_n": many, "_p": within}


def _template_line(error: Exception, name: str) -> tuple[str, int]:
    """Template and line where a rendering failed: the innermost frame inside a template."""
    found = (name, 0)
    trace = error.__traceback__
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.endswith(SUFFIX):
            found = (file, trace.tb_lineno)
        trace = trace.tb_next
    return found


def _error(theme: Theme, name: str, line: int, message: str) -> ContentError:
    place = Place(f"themes/{theme.name}/{name}", line)
    return ContentError([Problem("theme-template", place, "", message)])
