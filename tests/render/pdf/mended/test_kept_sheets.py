"""Style sheets that are read once for all documents that have them."""

from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import write_pdf

PAGE = (
    "<html lang=en><head><title>t</title><style>{}</style></head><body><h1>Cuff</h1></body></html>"
)
RULES = "@page {{ size: {0}mm {0}mm; @top-left {{ content: 'A' }} }} h1 {{ color: #123456 }}"


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The sheets that the library reads."""
    write_pdf(PAGE.format(""), files={})
    parser = import_module("weasyprint").tinycss2
    found: list[str] = []
    parse = parser.parse_stylesheet
    monkeypatch.setattr(
        parser, "parse_stylesheet", lambda text, **how: found.append(text) or parse(text, **how)
    )
    return found


def test_a_sheet_is_read_once_and_serves_each_document(read: list[str]) -> None:
    """Rules of elements, pages and margins hold in the second document as in the first."""
    first, second = (write_pdf(PAGE.format(RULES.format(61)), files={}) for _ in range(2))
    assert first == second
    assert first != write_pdf(PAGE.format(RULES.format(62)), files={})
    assert read == [RULES.format(61), RULES.format(62)]


@pytest.mark.parametrize(
    "rules",
    [
        "@layer one { h1 { color: #111111 } } h1 { color: #222222 }",
        "@counter-style own { system: cyclic; symbols: x }",
        "@Layer one { h1 { color: #333333 } }",
        "@l\\61yer one { h1 { color: #444444 } }",
    ],
)
def test_sheets_that_add_to_a_document_are_read_for_each(read: list[str], rules: str) -> None:
    """What a document gains beside rules is not lost with the second one."""
    assert write_pdf(PAGE.format(rules), files={}) == write_pdf(PAGE.format(rules), files={})
    assert read == [rules, rules]


def test_a_faulty_sheet_is_told_of_each_document(read: list[str]) -> None:
    """An unknown property is told the second time as well."""
    for _ in range(2):
        messages: list[str] = []
        write_pdf(PAGE.format("h1 { colour: red }"), files={}, messages=messages)
        assert len(messages) == 1
        assert "colour" in messages[0]
    assert len(read) == 2
