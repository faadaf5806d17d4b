"""Check that a press of content/ made the files that readers are promised.

It reads the content and the output by itself, without guidegen, so that both can be wrong alone.
"""

import csv
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

CONTENT = Path("content")
ONE_SIZE = "one-size"


def read_yaml(path: Path) -> Any:  # noqa: ANN401 - whatever the author wrote
    """Return the data of a YAML file."""
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def expected_files() -> Iterator[str]:
    """Yield the files that must be there, by their paths in the output folder."""
    papers = read_yaml(CONTENT / "site.yaml").get("papers", ["a4", "letter"])
    yield "index.html"
    for source in sorted(CONTENT.glob("*/guide.yaml")):
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


def main() -> int:
    """Print each fault and what was seen; return 1 if there was one."""
    out = Path(sys.argv[1])
    expected = list(expected_files())
    guides = len(list(CONTENT.glob("*/guide.yaml")))
    faults = [f"{name} {words}" for name in expected if (words := fault(out / name))]
    if not guides:
        faults.append(f"there is no guide in {CONTENT}/")
    for line in faults:
        print(line)
    print(f"{guides} guides, {len(expected)} expected files, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
