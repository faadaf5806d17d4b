"""Documents and shapes in, their tables, sections and figures in the handbook brought up to date.

./start python tests/handbook_tables.py
"""

import re
from pathlib import Path

from guidegen.buildfile.records.vocabulary import SHAPES, Dimension, ShapeKind
from guidegen.documents import BY_EDITION, Document, Edition

HANDBOOK = Path(__file__).parent.parent / "guidegen" / "handbook"
PRINTING, SHAPES_CHAPTER = HANDBOOK / "publish" / "printing.md", HANDBOOK / "draw" / "shapes.md"

EDITIONS = re.compile(
    r"editions: \[.*?\]\n```\n\n(?:\|.*\n)+\nWithout `editions`.*?\n\n", re.DOTALL
)
"""What the table of documents says in printing.md."""


def editions_words() -> str:
    """The key of site.yaml with all editions, the table, and what is made unasked."""
    rows = [
        f"| `{edition}` | `{_file(document)}` | {document.purpose} |"
        for edition, document in BY_EDITION.items()
    ]
    table = "\n".join(["| edition | file | what it is for |", "| --- | --- | --- |", *rows])
    usual = [known for known in BY_EDITION.values() if known.usual]
    always = [f"`{known.edition}`" for known in usual if not known.most_pages]
    bounded = [
        f"`{known.edition}` where the booklet has\nat most {known.most_pages} pages"
        for known in usual
        if known.most_pages
    ]
    made = f"{', '.join(always[:-1])} and {always[-1]}"
    names = ", ".join(Edition)
    return (
        f"editions: [{names}]\n```\n\n{table}\n\n"
        f"Without `editions` there are {made}, and {' and '.join(bounded)}.\n"
        "One press may choose others: `guidegen press --editions all`.\n\n"
    )


def _file(document: Document) -> str:
    return document.file.format(paper="a4", half="a5")


def shapes_chapter(text: str) -> str:
    """The chapter on shapes with the dimensions of today, and a section for each new shape.

    What the author of a section adds below its edges stays as it is, and so do other sections,
    which come last.
    """
    head, *sections = re.split(r"^(?=## )", text, flags=re.MULTILINE)
    known = {section.split("\n", 1)[0].removeprefix("## "): section for section in sections}
    shapes = "".join(_section(kind, known.pop(name, "")) for name, kind in SHAPES.items())
    return head + shapes + "".join(known.values())


def _section(kind: ShapeKind, text: str) -> str:
    rows = "".join(map(_row, kind.dimensions))
    table = f"| dimension | what it measures | default |\n| --- | --- | --- |\n{rows}"
    if text:
        return re.sub(r"(?:^\|.*\n)+", lambda _: table, text, count=1, flags=re.MULTILINE)
    edges = f"Edges: {_names(kind.edges)}."
    if kind.half_edges:
        edges += f" Half: {_names(kind.half_edges)}."
    figure = f"![Outline of {kind.name} with its edges](shapes/{kind.name}.svg)"
    return f"## {kind.name}\n\n{kind.help}\n\n{figure}\n\n{table}\n{edges}\n\n"


def _row(dimension: Dimension) -> str:
    default = "" if dimension.default is None else f"{dimension.default:g}"
    return f"| `{dimension.name}` | {dimension.help} | {default} |\n"


def _names(edges: tuple[str, ...]) -> str:
    return ", ".join(f"`{edge}`" for edge in edges)


def _draw_shapes() -> None:
    # Here, since the tests of documents read the tables above and need no drawings.
    from geometry.shape_figures import FOLDER, figure  # noqa: PLC0415 - drawings are heavy

    for name in SHAPES:
        (FOLDER / f"{name}.svg").write_text(figure(name), encoding="utf-8")


if __name__ == "__main__":
    printing = PRINTING.read_text(encoding="utf-8")
    PRINTING.write_text(EDITIONS.sub(lambda _: editions_words(), printing), encoding="utf-8")
    chapter = SHAPES_CHAPTER.read_text(encoding="utf-8")
    SHAPES_CHAPTER.write_text(shapes_chapter(chapter), encoding="utf-8")
    _draw_shapes()
