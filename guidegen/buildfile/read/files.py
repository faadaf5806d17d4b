"""Paths in → bytes and text of ordinary files of bounded size, or what is wrong with them."""

import stat
from pathlib import Path

from guidegen.buildfile.yaml.characters import forbidden_at, forbidden_words
from guidegen.problems import Checked, Place, Problem


def file_bytes(path: Path, limit: int, shown: str) -> Checked[bytes | None]:
    """A regular file's bytes; a pipe or a device would block, so it is refused."""
    try:
        info = path.stat()
        if not stat.S_ISREG(info.st_mode):
            yield file_problem("not-a-file", shown, "expected an ordinary file")
            return None
        if info.st_size > limit:
            message = f"the file is larger than {limit / 1e6:g} MB"
            yield file_problem("too-large-file", shown, message)
            return None
        with path.open("rb") as stream:
            return stream.read(limit + 1)[: limit + 1]
    except FileNotFoundError:
        yield file_problem("no-file", shown, "there is no such file")
    except OSError as error:
        yield file_problem("unreadable", shown, f"cannot be read: {error.strerror}")
    return None


def decoded(data: bytes, shown: str) -> Checked[str | None]:
    """The text of a file; None, and a problem, where it is not UTF-8 without control codes."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        place = Place(shown, line)
        message = "the file is not UTF-8 text; save it with that encoding"
        yield Problem("not-utf-8", place, "", message)
        return None
    at = forbidden_at(text)
    if at >= 0:
        place = Place(shown, text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at))
        message = forbidden_words(text, at)
        yield Problem("character", place, "", message)
        return None
    return text


def file_problem(code: str, shown: str, message: str) -> Problem:
    """A problem with a file as a whole."""
    return Problem(code, Place(shown), "", message)
