"""A content folder in → what its looks are made of: variables, parts, words; and a start to change.

Everything is read from the theme's own files, so that a new variable or part is listed by itself.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.app.jobs.languages import theme_words
from guidegen.app.jobs.opening import open_content, open_theme
from guidegen.buildfile.read.theme import OWN_THEME, own_theme
from guidegen.errors import UsageError
from guidegen.words import known_texts

TOKENS = ("tokens.css", "own.css")
"""Style sheets that give variables their values, the later over the earlier."""
OWN_STYLES = "own.css"
PARTS = (".j2", ".css", ".js", ".svg")
"""Endings of the files that are listed: templates, styles, scripts, signs."""

_ROOT = re.compile(r":root\s*\{([^}]*)\}")
_VARIABLE = re.compile(r"--([\w-]+):\s*([^;]+);[ \t]*(?:/\*(.*?)\*/)?")
_DARK = re.compile(r"@media \(prefers-color-scheme: dark\)\s*\{(.*?\})\s*\}", re.DOTALL)
_PURPOSE = re.compile(r"\s*(?:\{#|/\*|<!--)\s*(.+?)\s*(?:#\}|\*/|-->)|((?://[^\n]*\n)+)", re.DOTALL)


@dataclass(frozen=True)
class Variable:
    """A value that styles name."""

    name: str
    day: str
    dark: str = ""
    """Empty: as by day."""
    purpose: str = ""


@dataclass(frozen=True)
class Looks:
    """What a site's theme consists of."""

    theme: str
    folder: Path
    """The site's own changes, whether there are any or not."""
    variables: tuple[Variable, ...]
    parts: Mapping[str, str]
    """File → what it is."""
    own: tuple[str, ...]
    """Files of `folder`."""
    words: Mapping[str, str]
    """What pages and documents say: in English → in the site's language."""

    def summary(self) -> str:
        """Everything, for a terminal; of the words only how many there are."""
        return "\n".join(self._lines())

    def _lines(self) -> Iterator[str]:
        yield f"The theme is {self.theme}. A file in {self.folder}/ takes the place of its file."
        yield f"Yours: {', '.join(self.own) or 'none; guidegen theme --begin writes a start'}"
        yield ""
        yield f"Variables, set anew in {self.folder / OWN_STYLES}:"
        width = max(len(one.name) for one in self.variables)
        for one in self.variables:
            dark = f" (dark: {one.dark})" if one.dark else ""
            yield f"  --{one.name:<{width}}  {one.day}{dark}" + (
                f"  {one.purpose}" if one.purpose else ""
            )
        yield ""
        yield "Parts:"
        width = max(map(len, self.parts))
        for name, purpose in self.parts.items():
            yield f"  {name:<{width}}  {purpose}".rstrip()
        yield ""
        yield (
            f"Words: {len(self.words)}, changed in {self.folder}/languages/<language>.po; "
            "guidegen theme --words TEXT finds those with TEXT"
        )

    def find_words(self, text: str) -> str:
        """The words that contain a text, as entries for a file of words."""
        wanted = text.casefold()
        found = {
            english: said
            for english, said in self.words.items()
            if wanted in english.casefold() or wanted in said.casefold()
        }
        if not found:
            return f'no words contain "{text}"'
        return "\n\n".join(
            f'msgid "{_escaped(english)}"\nmsgstr "{_escaped(said)}"'
            for english, said in found.items()
        )


def read_looks(content: Path, themes: Path) -> Looks:
    """The looks of a site. Raises UsageError and ContentError as opening it does."""
    opened = open_content(content).whole()
    site = opened.site
    theme = open_theme(themes, site, content)
    files, said = theme.files, theme_words(theme, site.languages[0]).texts
    folder = content / OWN_THEME
    own = own_theme(content)
    return Looks(
        site.theme,
        folder,
        _variables([files[name].decode() for name in TOKENS if name in files]),
        {name: _purpose(files[name]) for name in sorted(files) if name.endswith(PARTS)},
        tuple(sorted(path.relative_to(own).as_posix() for path in own.rglob("*") if path.is_file()))
        if own is not None
        else (),
        {text: said.get(text, (text,))[0] for text in known_texts()},
    )


def begin_looks(looks: Looks) -> Path:
    """Write a style sheet of one's own, all values in it as they are and none in force.

    Raises UsageError where there is one.
    """
    path = looks.folder / OWN_STYLES
    if path.exists() or path.is_symlink():
        raise UsageError(f"{path} is there already; guidegen theme lists what it can change")
    path.parent.mkdir(exist_ok=True)
    path.write_text(own_styles(looks.variables), encoding="utf-8", newline="\n")
    return path


def own_styles(variables: tuple[Variable, ...]) -> str:
    """A style sheet with every variable as a comment."""
    lines = [
        "/* The looks of this site. It is read last, after all other styles.",
        "   Take a line out of its comment and change its value. */",
        "",
        ":root {",
        *(f"  /* --{one.name}: {one.day}; */{_comment(one.purpose)}" for one in variables),
        "}",
        "",
        "@media (prefers-color-scheme: dark) {",
        "  :root {",
        *(f"    /* --{one.name}: {one.dark}; */" for one in variables if one.dark),
        "  }",
        "}",
    ]
    return "\n".join(lines) + "\n"


def _comment(text: str) -> str:
    return f" /* {text} */" if text else ""


def _variables(sheets: list[str]) -> tuple[Variable, ...]:
    found: dict[str, Variable] = {}
    for sheet in sheets:
        dark = {name: value for block in _DARK.findall(sheet) for name, value, _ in _values(block)}
        for name, value, purpose in _values(_DARK.sub("", sheet)):
            before = found.get(name, Variable(name, value))
            found[name] = Variable(name, value, before.dark, purpose or before.purpose)
        for name, value in dark.items():
            before = found.get(name, Variable(name, value))
            found[name] = Variable(name, before.day, value, before.purpose)
    return tuple(found.values())


def _values(sheet: str) -> Iterator[tuple[str, str, str]]:
    for block in _ROOT.findall(sheet):
        for name, value, purpose in _VARIABLE.findall(block):
            yield name, value.strip(), purpose.strip()


def _purpose(data: bytes) -> str:
    """The comment that a file begins with, as one line."""
    found = _PURPOSE.match(data.decode("utf-8", errors="replace"))
    if found is None:
        return ""
    return " ".join((found[1] or found[2].replace("//", " ")).split())


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
