"""The table of documents in, the table of editions in the handbook brought up to date.

./start python tests/handbook_tables.py
"""

import re
from pathlib import Path

from guidegen.documents import BY_EDITION, Document, Edition

PRINTING = Path(__file__).parent.parent / "guidegen" / "handbook" / "printing.md"

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


if __name__ == "__main__":
    text = PRINTING.read_text(encoding="utf-8")
    PRINTING.write_text(EDITIONS.sub(lambda _: editions_words(), text), encoding="utf-8")
