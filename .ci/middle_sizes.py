"""Copy content with the middle size of each guide alone, for a press that a gate has time for.

A guide without sizes is copied as it is. Sizes stand one on a line, as they do in content/. Which
warnings of the press come of that alone is printed: suppressions for other sizes seem unused.
"""

import re
import shutil
import sys
from pathlib import Path

SIZES = re.compile(r"^sizes:\n(?P<lines>(?:  \S.*\n)+)", re.MULTILINE)
SUPPRESSIONS = re.compile(r"^suppress:", re.MULTILINE)


def middle_alone(text: str) -> str:
    """A build file with the middle one of its sizes."""

    def middle(found: re.Match[str]) -> str:
        lines = found["lines"].splitlines(keepends=True)
        return f"sizes:\n{lines[len(lines) // 2]}"

    return SIZES.sub(middle, text)


def main() -> None:
    """Copy the folder that is named first to the one named second."""
    content, to = map(Path, sys.argv[1:])
    shutil.copytree(content, to)
    for guide in to.glob("*/guide.yaml"):
        text = guide.read_text(encoding="utf-8")
        middle = middle_alone(text)
        guide.write_text(middle, encoding="utf-8")
        if middle != text and SUPPRESSIONS.search(text):
            name = guide.parent.name
            print(f"{name} in its middle size: what it suppresses in others is warned of as unused")


if __name__ == "__main__":
    main()
