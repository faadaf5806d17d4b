"""The demo's content, read once in a process, as tests look at it and none changes it."""

from functools import cache
from pathlib import Path

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content

FOLDER = Path(__file__).parent.parent / "content"


@cache
def read_demo(*guides: str) -> Content:
    """The content with these guides; with all of them where none is named."""
    return read_content(FOLDER, guides)
