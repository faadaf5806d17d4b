"""Drawings and figures of all sizes in → one page for the author's eye."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

_STYLE = Markup("""
body { font-family: "Barlow Condensed", "Arial Narrow", sans-serif; margin: 2rem auto;
  max-width: 60rem; padding: 0 1rem; color: #1d2327; background: #fff; font-size: 1.1rem }
h1, h2 { font-weight: 600 } section { margin: 2rem 0 }
table { border-collapse: collapse; margin: 1rem 0 } caption { text-align: left; padding: .4rem 0 }
th, td { border-bottom: 1px solid #9aa3a7; padding: .3rem .8rem; text-align: right }
th[scope=row] { text-align: left; font-weight: 400 } svg { max-width: 100%; height: auto }
""")


@dataclass(frozen=True, slots=True)
class FigureTable:
    """A table of figures: the first column names the row."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def sizes_page(
    title: str, language: str, tables: Sequence[FigureTable], drawings: Sequence[str]
) -> bytes:
    """An HTML page that needs no other file. `drawings` are SVG texts of our own."""
    figures = Markup("\n").join(
        Markup("<section><figure>{}</figure></section>").format(Markup(svg))  # noqa: S704 - made by our canvas
        for svg in drawings
    )
    page = Markup(
        '<!DOCTYPE html>\n<html lang="{}"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        "<title>{}</title><style>{}</style></head>\n<body><main><h1>{}</h1>\n{}\n{}\n"
        "</main></body></html>\n"
    ).format(language, title, _STYLE, title, Markup("\n").join(map(_table, tables)), figures)
    return page.encode()


def _table(table: FigureTable) -> Markup:
    head = Markup("").join(Markup('<th scope="col">{}</th>').format(c) for c in table.head)
    rows = Markup("").join(
        Markup('<tr><th scope="row">{}</th>{}</tr>').format(
            row[0], Markup("").join(Markup("<td>{}</td>").format(cell) for cell in row[1:])
        )
        for row in table.rows
    )
    return Markup(
        "<table><caption>{}</caption><thead><tr>{}</tr></thead><tbody>{}</tbody></table>"
    ).format(escape(table.caption), head, rows)
