"""The handbook: every key in it, every chapter in its index, every link leads somewhere."""

import re
from pathlib import Path

import pytest
from handbook_keys import CHAPTER, keys_chapter
from key_words import unread

HANDBOOK = Path(__file__).parent.parent / "guidegen" / "handbook"
CHAPTERS = sorted(path.relative_to(HANDBOOK).as_posix() for path in HANDBOOK.rglob("*.md"))


def anchors(path: Path) -> set[str]:
    """Addresses of the headings of a chapter, as common renderers of Markdown make them."""
    headings = re.findall(r"^#+ (.*)$", path.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def test_the_chapter_of_keys_is_whole() -> None:
    """It is what the models say; if not: ./start python tests/handbook_keys.py"""
    assert CHAPTER.read_text(encoding="utf-8") == keys_chapter()


def test_every_key_says_what_it_is_for() -> None:
    """No key of any file is without a word of explanation."""
    silent = re.findall(r"^\| (\S+) \| .* \|  \| [^|]*\|$", keys_chapter(), re.MULTILINE)
    assert silent == []


def test_every_key_says_who_reads_it() -> None:
    """Each key has a reader: a function that is there and speaks of the key.

    If not: ./start python tests/key_readers.py, and then ./start python tests/handbook_keys.py.
    """
    assert unread() == []
    assert re.findall(r"^\| (\S+) \|.*\|  \|$", keys_chapter(), re.MULTILINE) == []


def test_every_chapter_is_in_the_index() -> None:
    """Whoever looks for a chapter finds it in the index by what they want to do."""
    text = (HANDBOOK / "index.md").read_text(encoding="utf-8")
    linked = set(re.findall(r"\]\(([\w/-]+\.md)", text))
    assert linked == set(CHAPTERS) - {"index.md"}


def test_the_index_parts_chapters_as_the_folders_do() -> None:
    """Each table of tasks of the index leads to the chapters of one folder, and each folder has one."""
    text = (HANDBOOK / "index.md").read_text(encoding="utf-8")
    tasks = text.partition("## By question")[0].split("\n## ")[1:]
    folders = [set(re.findall(r"\]\((\w+)/[\w-]+\.md\)", table)) for table in tasks]
    assert all(len(folder) == 1 for folder in folders), folders
    assert len(folders) == len(set.union(*folders))


def test_no_two_chapters_have_one_name() -> None:
    """Pages of the handbook's site lie in one folder, each named as the file of its chapter."""
    names = [Path(chapter).name for chapter in CHAPTERS]
    assert sorted(set(names)) == sorted(names)


def test_no_picture_is_without_a_chapter() -> None:
    """Every figure beside the chapters is shown by one of its folder, or led to."""
    pictures = list(HANDBOOK.glob("*/**/*.svg"))
    assert len(pictures) > 40
    for picture in pictures:
        folder = HANDBOOK / picture.relative_to(HANDBOOK).parts[0]
        address = f"({picture.relative_to(folder).as_posix()})"
        assert any(address in path.read_text(encoding="utf-8") for path in folder.glob("*.md")), (
            picture
        )


@pytest.mark.parametrize("name", CHAPTERS)
def test_links_of_chapters_lead_somewhere(name: str) -> None:
    """Files and headings that a chapter leads to are there."""
    path = HANDBOOK / name
    dead = []
    text = re.sub(r"```.*?```|`[^`]*`", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    for target in re.findall(r"\]\(([^)\s]+)\)", text):
        file, _, anchor = target.partition("#")
        if "://" in target:
            continue
        where = (path.parent / file) if file else path
        if not where.exists() or (anchor and anchor not in anchors(where)):
            dead.append(target)
    assert dead == []
