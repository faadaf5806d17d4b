"""Check that a press of content/ made the files that readers are promised.

It reads the content and the output by itself, without guidegen, so that both can be wrong alone.

    python .ci/check_out.py OUT [CONTENT]
"""

import csv
import json
import re
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdfium2
import yaml
from pypdfium2 import raw

LEAST_WORDS, LEAST_FOLDED = 7.5, 6.0
"""pt; smallest words of booklets, and of those of half sheets, whose drawings are made smaller."""
MOST_PAGES = {
    "*/*/bench-card-*.pdf": 1,
    "*/*/summary-*.pdf": 1,
    "slipway-marshal/M/booklet-a4.pdf": 60,
    "quay-lamp/one-size/booklet-a4.pdf": 28,
    "mooring-bracer/M/booklet-a4.pdf": 21,
    "tide-herald/M/booklet-a4.pdf": 44,
}
"""Pages that documents of the demo may have: none grows unseen."""
LEAST_FULL = 1 / 3
"""Of a page of a booklet: less looks like the end of something."""
RIMS = (17.0, 21.0)
"""mm at head and foot of a page that running heads and page numbers take."""
LAID_OUT_FOR = 792.0
"""pt; height of the page that papers share, which lies in the middle of a higher one."""
INK = 200
"""Grey of 255 below which a point of a page is printed on."""
BEST = Path("tests/layout/paper/best_page_counts.json")
ONE_SIZE = "one-size"


def read_yaml(path: Path) -> Any:  # noqa: ANN401 - whatever the author wrote
    """Return the data of a YAML file."""
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def expected_files(content: Path) -> Iterator[str]:
    """Yield the files that must be there, by their paths in the output folder."""
    papers = read_yaml(content / "site.yaml").get("papers", ["a4", "letter"])
    yield "index.html"
    for source in sorted(content.glob("*/guide.yaml")):
        guide = source.parent.name
        yield f"{guide}/index.html"
        for size in read_yaml(source).get("sizes") or [ONE_SIZE]:
            folder = f"{guide}/{size}"
            yield from (f"{folder}/{name}" for name in ("index.html", "materials.csv", "pack.zip"))
            for paper in papers:
                yield from (f"{folder}/booklet-{paper}.pdf", f"{folder}/templates-{paper}.pdf")


def fault(path: Path) -> str | None:
    """Return what is wrong with a file, or None."""
    if not path.is_file():
        return "is missing"
    data = path.read_bytes()
    match path.suffix:
        case ".html":
            sound = data.lstrip()[:15].lower() == b"<!doctype html>" and b"</html>" in data
        case ".pdf":
            sound = data.startswith(b"%PDF-") and b"%%EOF" in data[-1024:]
        case ".csv":
            sound = len(list(csv.reader(data.decode("utf-8-sig").splitlines()))) > 1
        case ".zip":
            with zipfile.ZipFile(path) as pack:
                names = {name.rpartition("/")[2] for name in pack.namelist()}
                sound = pack.testzip() is None and "manifest.json" in names
        case _:
            sound = bool(data)
    return None if sound else "is not whole"


def too_many_pages(out: Path) -> Iterator[str]:
    """Yield template sets with more than a tenth more pages than the best known for them."""
    best = json.loads(BEST.read_text(encoding="utf-8"))["pages"]
    for guide, sizes in best.items():
        for size, papers in sizes.items():
            for paper, (least, _) in papers.items():
                name = f"{guide}/{size}/templates-{paper}.pdf"
                if not (out / name).is_file():
                    continue  # told as missing
                with pypdfium2.PdfDocument(out / name) as document:
                    words = document[0].get_textpage().get_text_bounded()
                said = re.search(r"Templates, .*: (\d+) pages?", words)
                if not said:
                    yield f"{name} does not say its pages"
                elif int(said[1]) > 1.1 * least:
                    yield f"{name} has {said[1]} pages, where {least} are known to do"


def grown_documents(out: Path) -> Iterator[str]:
    """Yield documents with more pages than they may have."""
    for pattern, most in MOST_PAGES.items():
        for path in sorted(out.glob(pattern)):
            with pypdfium2.PdfDocument(path) as document:
                pages = len(document)
            if pages > most:
                yield f"{path.relative_to(out)} has {pages} pages, where {most} are wanted"


def beyond_the_page(out: Path) -> Iterator[str]:
    """Yield booklets and other documents in words whose words run off the page."""
    for path in sorted(out.glob("*/*/*.pdf")):
        if path.name.startswith("templates-"):
            continue  # their lettering is held to the page by its own layout
        with pypdfium2.PdfDocument(path) as document:
            for number, page in enumerate(document, 1):
                width, height = page.get_size()
                text = page.get_textpage()
                for index in range(text.count_rects()):
                    left, low, right, high = text.get_rect(index)
                    if left < -1 or low < -1 or right > width + 1 or high > height + 1:
                        words = text.get_text_bounded(left, low, right, high).strip()[:40]
                        if words:
                            yield f'{path.relative_to(out)}, page {number}: "{words}" runs off it'
                            break


def hollow_pages(out: Path, content: Path) -> Iterator[str]:
    """Yield pages of booklets of a middle size that are under a third full within a chapter."""
    for source in sorted(content.glob("*/guide.yaml")):
        sizes = [*(read_yaml(source).get("sizes") or [ONE_SIZE])]
        folder = out / source.parent.name / sizes[len(sizes) // 2]
        for paper in read_yaml(content / "site.yaml").get("papers", ["a4", "letter"]):
            path = folder / f"booklet-{paper}.pdf"
            for number, full in hollow(path) if path.is_file() else ():
                yield f"{path.relative_to(out)}, page {number} is {full:.0%} full"


def hollow(path: Path) -> Iterator[tuple[int, float]]:
    """Yield number and share of pages that are under LEAST_FULL, but for the last of a chapter."""
    with pypdfium2.PdfDocument(path) as document:
        first = {  # pages on which a chapter begins, as bookmarks of the first level say
            mark.get_dest().get_index()
            for mark in document.get_toc()
            if mark.level == 0 and mark.get_dest()
        }
        for index, page in enumerate(document):
            if index + 1 < len(document) and index + 1 not in first:
                full = fullness(page)
                if full < LEAST_FULL:
                    yield index + 1, full


def fullness(page: pypdfium2.PdfPage) -> float:
    """How far down the room between running head and foot of a page anything is printed, 0 to 1."""
    height = page.get_height()
    beside = max(0.0, height - LAID_OUT_FOR) / 2
    head, foot = (rim / 25.4 * 72 + beside for rim in RIMS)
    picture = page.render(scale=0.5, grayscale=True)
    row, pixels = picture.stride, bytes(picture.buffer)
    top, low = int(head / 2), int((height - foot) / 2)
    for y in range(low - 1, top, -1):
        if min(pixels[y * row : y * row + picture.width]) < INK:
            return (y - top) / (low - top)
    return 0.0


def small_words(out: Path, content: Path) -> Iterator[str]:
    """Yield booklets of a middle size with words too small to read, those of drawings included."""
    for source in sorted(content.glob("*/guide.yaml")):
        sizes = [*(read_yaml(source).get("sizes") or [ONE_SIZE])]
        folder = out / source.parent.name / sizes[len(sizes) // 2]
        for path in sorted(folder.glob("booklet-*.pdf")):
            if "-large-print-" in path.name:
                continue  # what a drawing says stands below it in large words
            least = LEAST_FOLDED if "-fold-" in path.name else LEAST_WORDS
            with pypdfium2.PdfDocument(path) as document:
                for number, page in enumerate(document, 1):
                    size, letter = smallest(page.get_textpage())
                    if size < least - 0.01:
                        name = path.relative_to(out)
                        yield f'{name}, page {number}: "{letter}" is of {size:.2f} pt'


def smallest(text: pypdfium2.PdfTextPage) -> tuple[float, str]:
    """Size of the smallest words of a page, in pt as printed, and their first letters.

    Words of 1 pt and less are not to be seen: they name the edition for the foot of the page.
    """
    found = (99.0, "")
    matrix = raw.FS_MATRIX()
    for index in range(text.count_chars()):
        if chr(raw.FPDFText_GetUnicode(text, index)).strip():
            raw.FPDFText_GetMatrix(text, index, matrix)
            scale = (matrix.b**2 + matrix.d**2) ** 0.5
            size = raw.FPDFText_GetFontSize(text, index) * scale
            if 1.01 < size < found[0]:
                found = (size, text.get_text_range(index, 12))
    return found


def main() -> int:
    """Print each fault and what was seen; return 1 if there was one."""
    out, content = Path(sys.argv[1]), Path([*sys.argv[2:], "content"][0])
    expected = list(expected_files(content))
    guides = len(list(content.glob("*/guide.yaml")))
    faults = [f"{name} {words}" for name in expected if (words := fault(out / name))]
    faults += too_many_pages(out)
    faults += small_words(out, content)
    faults += grown_documents(out)
    faults += hollow_pages(out, content)
    faults += beyond_the_page(out)
    if not guides:
        faults.append(f"there is no guide in {content}/")
    for line in faults:
        print(line)
    print(f"{guides} guides, {len(expected)} expected files, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
