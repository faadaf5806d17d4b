"""Findings of every size in → one finding for one fault, which names its sizes.

A fault of a drawing or a seam is found in every size that it spoils. Told once each, five sizes
bury all else. What differs between such findings are the size and figures; the figures told are
those of the size with the most.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from guidegen.buildfile.read.content import GuideFile
from guidegen.problems import Problem
from guidegen.words import ENGLISH

_FIGURE = re.compile(r"(?<![\w.-])-?\d+(?:\.\d+)?")
"""A number by itself; the digits of a name, such as edge e3 or foam-5, tell things apart."""

type _Key = tuple[object, ...]


def tell_once(problems: Iterable[Problem], files: Iterable[GuideFile]) -> list[Problem]:
    """Problems that differ in size and figures alone made one, with the worst figures."""
    sizes = {file.folder_shown: file.size_names() for file in files}
    alike: dict[_Key, list[tuple[str, Problem]]] = {}
    times: dict[_Key, int] = {}
    for problem in dict.fromkeys(problems):
        names = _sizes_of(problem, sizes)
        size = _size_in(problem.message, names)
        key: _Key = (problem.code, problem.place, problem.path, _skeleton(problem, size))
        if size:
            # Of two like faults in one size, each is a fault of its own.
            nth = times[*key, size] = times.get((*key, size), 0) + 1
            key = (*key, nth)
        else:
            key = (*key, problem)
        alike.setdefault(key, []).append((size, problem))
    return [_one(found) for found in alike.values()]


def _sizes_of(problem: Problem, sizes: Mapping[str, Sequence[str]]) -> Sequence[str]:
    return next(
        (names for folder, names in sizes.items() if problem.place.file.startswith(folder)), ()
    )


def _size_in(message: str, names: Sequence[str]) -> str:
    """The size that a message is about; empty where it names none."""
    match = re.search(r"\bsize ([A-Za-z0-9-]+)", message)
    return match[1] if match and match[1] in names else ""


def _skeleton(problem: Problem, size: str) -> str:
    words = problem.message.replace(f"size {size}", "size", 1) if size else problem.message
    return _FIGURE.sub("#", f"{words}\n{problem.cure}")


def _one(found: Sequence[tuple[str, Problem]]) -> Problem:
    """One problem for all; the first of the worst is told."""
    if len(found) == 1:
        return found[0][1]
    size, worst = max(found, key=lambda pair: pair[1].amount)
    names = ENGLISH.listed([name for name, _ in found])
    figures = {problem.message.replace(f"size {name}", "") for name, problem in found}
    told = f"sizes {names}" + (f" (figures of {size})" if len(figures) > 1 else "")
    return replace(worst, message=worst.message.replace(f"size {size}", told, 1))
