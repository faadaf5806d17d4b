"""Paths and references to pages, worked out once, where WeasyPrint and pydyf do not.

WeasyPrint 70 reads the path of an icon anew at each place where it stands. pydyf 0.13 lists all
pages of a document for each reference to one of them. Numbers are written by kind at once. Mended
from outside, and only where the libraries still are as described; files keep their bytes.
"""

import re
from collections.abc import Callable
from types import ModuleType
from typing import Any, Protocol

MOST = 20_000
"""Paths that are kept. Our choice: those of a few booklets, some 30 MB."""

_PLAIN = re.compile(r"[MmLlHhVvCcSsQqTtAaZz0-9eE+\-., \n\r\t]*")
"""A path without units and shares, whose curves follow from its text alone."""


class _Stream(Protocol):
    stream: list[bytes]


class _Svg(Protocol):
    stream: _Stream


class _Node(Protocol):
    vertices: list[object]

    def get(self, name: str, default: str = "") -> str: ...


type _Draw = Callable[[_Svg, _Node, float], None]


def mend_paths(svg: ModuleType, pydyf: ModuleType) -> None:
    """Mend `weasyprint.svg` and `pydyf`, once. Other versions of them are left as they are."""
    if hasattr(pydyf, "guidegen"):
        return
    if "path" in getattr(svg, "TAGS", {}) and hasattr(svg, "path"):
        svg.path = svg.TAGS["path"] = _kept(svg.TAGS["path"])  # type: ignore[attr-defined]
    if isinstance(getattr(pydyf.PDF, "page_references", None), property):
        pydyf.PDF.page_references = property(_kept_references(pydyf.PDF.page_references))
    if hasattr(pydyf, "_to_bytes"):
        pydyf._to_bytes = _by_kind(pydyf._to_bytes)  # type: ignore[attr-defined]
    pydyf.guidegen = True  # type: ignore[attr-defined]


def _kept(draw: _Draw) -> _Draw:
    """`draw`, asked once for each text of a path."""
    known: dict[str, tuple[list[bytes], list[object]]] = {}

    def path(svg: _Svg, node: _Node, font_size: float) -> None:
        text, drawn, vertices = node.get("d", ""), svg.stream.stream, node.vertices
        if text not in known:
            svg.stream.stream, node.vertices = [], []
            try:
                draw(svg, node, font_size)
                made = (svg.stream.stream, node.vertices)
            finally:
                svg.stream.stream, node.vertices = drawn, vertices
            if len(known) >= MOST:
                known.clear()
            if _PLAIN.fullmatch(text):
                known[text] = made
        else:
            made = known[text]
        drawn.extend(made[0])
        vertices.extend(made[1])

    return path


def _kept_references(references: property) -> Callable[[Any], tuple[bytes, ...]]:
    """All references to pages of a file, listed anew only when it has more pages."""

    def page_references(pdf: Any) -> tuple[bytes, ...]:  # noqa: ANN401 - a file of the library
        count = len(pdf.pages["Kids"])
        known = getattr(pdf, "guidegen_references", None)
        if known is None or known[0] != count:
            known = pdf.guidegen_references = (count, references.__get__(pdf))
        listed: tuple[bytes, ...] = known[1]
        return listed

    return page_references


def _by_kind(to_bytes: Callable[[Any], bytes]) -> Callable[[Any], bytes]:
    """`to_bytes`, with the usual kinds told at once."""

    def written(item: Any) -> bytes:  # noqa: ANN401 - whatever stands in a file
        kind = type(item)
        if kind is bytes:
            return bytes(item)
        if kind is float:
            return number_bytes(item)
        if kind is str:
            return str(item).encode("ascii")
        return to_bytes(item)

    return written


def number_bytes(value: float) -> bytes:
    """A number as pydyf writes it: to six places, and without a point if it is whole."""
    if value.is_integer():
        return b"%d" % value
    return f"{value:f}".rstrip("0").encode("ascii")
