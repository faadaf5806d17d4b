"""A pressed site in → the pages of every document on A4, so that none grows unseen.

./start python tests/benchmarks/count_pages.py out [class-folder …]

Of each guide its middle size is counted; folders of classes are counted whole. It counts nothing
that a press has not written: run it before and after a change of the theme.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

import pypdfium2


def pages_of(path: Path) -> int:
    """Pages of one document."""
    with pypdfium2.PdfDocument(path) as document:
        return len(document)


def middle_size(guide: Path) -> Path | None:
    """The folder of the size that most readers have: M where there is one, else the middle one."""
    sizes = sorted(path for path in guide.iterdir() if (path / "index.html").is_file())
    usual = [path for path in sizes if path.name == "M"]
    return (usual or sizes[len(sizes) // 2 :] or [None])[0]


def documents(out: Path) -> Iterator[Path]:
    """Every document of the usual sizes on A4, guide by guide."""
    for guide in sorted(path.parent for path in out.glob("*/guide.files")):
        size = middle_size(guide)
        if size is not None:
            yield from sorted(size.glob("*-a4.pdf"))


def main(out: str, *classes: str) -> None:
    """Print a line for each document."""
    for path in documents(Path(out)):
        print(f"{pages_of(path):4}  {path.relative_to(out)}")
    for folder in classes:
        for path in sorted(Path(folder).glob("*.pdf")):
            print(f"{pages_of(path):4}  {path}")


if __name__ == "__main__":
    main(*sys.argv[1:])
