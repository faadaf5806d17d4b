"""Copy content with the middle size of each guide alone, for a press that a gate has time for.

A guide without sizes is copied as it is. Sizes stand one on a line, as they do in content/. What is
found in other sizes alone is not found then: the press may tell that nothing is left to suppress.
"""

import re
import shutil
import sys
from pathlib import Path

SIZES = re.compile(r"^sizes:\n(?P<lines>(?:  \S.*\n)+)", re.MULTILINE)


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
        guide.write_text(middle_alone(text), encoding="utf-8")


if __name__ == "__main__":
    main()
