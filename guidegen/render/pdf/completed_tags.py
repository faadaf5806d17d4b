"""WeasyPrint's objects of a document in → the same with what its tags lack."""

from collections.abc import Iterator
from typing import Any

PRINT_FLAG = 4
"""Bit 3 of an annotation's flags: it is printed (ISO 32000-1:2008, table 165)."""

_HEADS = {"/THead": True, "/TBody": False}


def complete_tags(pdf: Any) -> None:  # noqa: ANN401 - the library's objects of a document
    """Complete the tags of a document: scopes of header cells, links that print.

    ISO 14289-1:2014, 7.5 asks that header cells tell what they head, 7.18.1 that annotations are
    not hidden from print; WeasyPrint 70 leaves both out.
    """
    for one in pdf.objects:
        if isinstance(one, dict) and one.get("S") == "/TH":
            one["A"]["Scope"] = "/Column" if _in_head(pdf, one) else "/Row"
    for page in _referred(pdf, pdf.pages["Kids"][::3]):
        for annotation in _referred(pdf, page.get("Annots", ())):
            annotation["F"] = annotation.get("F", 0) | PRINT_FLAG


def _in_head(pdf: Any, element: Any) -> bool:  # noqa: ANN401 - the library's
    """Whether a cell stands inside a table's head: all others are rows' headers."""
    while (kind := element.get("S")) not in _HEADS:
        if "P" not in element:
            return False
        (element,) = _referred(pdf, [element["P"]])
    return _HEADS[kind]


def _referred(pdf: Any, references: Any) -> Iterator[Any]:  # noqa: ANN401 - the library's
    """Objects by their references, or numbers."""
    for reference in references:
        number = reference if isinstance(reference, int) else int(reference.split()[0])
        yield pdf.objects[number]
