"""Drawings and figures of all sizes in → one page for the author, whole in one file."""

from base64 import b64encode
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.pictures.pen.records import Drawing
from guidegen.render.fonts.webfonts import cut_face
from guidegen.render.text.svg import svg_file

_STYLE = Markup("""
body { font: 1.15rem/1.4 "Barlow Condensed", "Arial Narrow", sans-serif; margin: 2rem auto;
  max-width: 52rem; padding: 0 1rem; color: #1d2327; background: #fff }
h1, h2 { font-weight: 600; line-height: 1.2 } h2 { margin: 2.5rem 0 .5rem }
p { max-width: 40rem; margin: .5rem 0 1rem }
.wide { overflow-x: auto }
table { border-collapse: collapse; margin: 1rem 0; font-variant-numeric: tabular-nums }
caption { text-align: left; padding: .4rem 0; color: #5b6469 }
th, td { border-bottom: 1px solid #c4cbce; padding: .25rem .7rem; text-align: right;
  white-space: nowrap; font-weight: 400 }
thead th { border-color: #1d2327; font-weight: 600 }
tr > :first-child { text-align: left; padding-left: 0 }
figure { margin: 1.5rem 0; break-inside: avoid } svg { width: 100%; height: auto }
.over { position: relative } .over img { width: 100%; display: block }
.over svg { position: absolute; inset: 0; height: 100% }
nav ul { columns: 14rem; padding: 0; list-style: none } a { color: inherit }
@page { margin: 15mm } @media print { body { margin: 0; max-width: none; font-size: 11pt }
  nav { display: none } }
""")


@dataclass(frozen=True, slots=True)
class FigureTable:
    """A table of figures: the first column names the row."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class SizesSection:
    """One part of the page."""

    id: str
    heading: str
    words: str
    """What is to be seen, in a sentence or two."""
    tables: Sequence[FigureTable] = ()
    drawings: Sequence[Drawing] = ()
    """SVG texts of our own."""
    photo: bytes = b""
    """JPEG that lies under each drawing, as large as it is; empty for none."""


def sizes_page(title: str, language: str, sections: Sequence[SizesSection]) -> bytes:
    """An HTML page with its fonts inside; sections without tables and drawings are left out."""
    shown = [section for section in sections if section.tables or section.drawings]
    contents = _joined(
        Markup('<li><a href="#{}">{}</a></li>').format(section.id, section.heading)
        for section in shown
    )
    page = Markup(
        '<!DOCTYPE html>\n<html lang="{}"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        "<title>{}</title><style>{}{}</style></head>\n<body><main><h1>{}</h1>\n"
        "<nav><ul>{}</ul></nav>\n{}\n</main></body></html>\n"
    ).format(language, title, _fonts(), _STYLE, title, contents, _joined(map(_section, shown)))
    return page.encode()


def _section(section: SizesSection) -> Markup:
    return Markup('<section id="{}"><h2>{}</h2>\n<p>{}</p>\n{}\n{}</section>').format(
        section.id,
        section.heading,
        section.words,
        _joined(map(_table, section.tables)),
        _joined(_figure(svg_file(drawn), section.photo) for drawn in section.drawings),
    )


def _figure(svg: str, photo: bytes) -> Markup:
    drawn = Markup(svg)  # noqa: S704 - drawn by ourselves
    if not photo:
        return Markup("<figure>{}</figure>").format(drawn)
    under = Markup('<img src="data:image/jpeg;base64,{}" alt="">').format(b64encode(photo).decode())
    return Markup('<figure class="over">{}{}</figure>').format(under, drawn)


def _table(table: FigureTable) -> Markup:
    head = Markup("").join(Markup('<th scope="col">{}</th>').format(c) for c in table.head)
    rows = _joined(
        Markup('<tr><th scope="row">{}</th>{}</tr>').format(
            row[0], Markup("").join(Markup("<td>{}</td>").format(cell) for cell in row[1:])
        )
        for row in table.rows
    )
    return Markup(
        '<div class="wide"><table><caption>{}</caption><thead><tr>{}</tr></thead>'
        "<tbody>{}</tbody></table></div>"
    ).format(table.caption, head, rows)


def _joined(parts: Iterable[Markup]) -> Markup:
    return Markup("\n").join(parts)


def _fonts() -> Markup:
    """The lettering of drawings, as part of the style sheet: widths on them were worked out."""
    rules = Markup("")
    for weight in (400, 600):
        data = b64encode(cut_face(f"label-{weight}.woff2")).decode()
        rules += Markup(
            '@font-face {{ font-family: "Barlow Condensed"; font-weight: {}; '
            'src: url("data:font/woff2;base64,{}") format("woff2") }}\n'
        ).format(weight, data)
    return rules
