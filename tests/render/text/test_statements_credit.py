"""Official hazard statements carry their own credit wherever their words are printed."""

from pathlib import Path

THEME = Path(__file__).parents[3] / "themes" / "workshop"


def test_every_list_of_statements_has_its_credit():
    """Each template that prints cautions with their statements in words says whose they are right
    after the list: Commission Decision 2011/833/EU lets them be used with the source named."""
    listing = [
        path
        for path in sorted(THEME.glob("*.j2"))
        if "item, where=true" in (text := path.read_text(encoding="utf-8"))
        or "item, 3, where=true" in text
    ]
    assert len(listing) >= 3
    for path in listing:
        text = path.read_text(encoding="utf-8")
        after = text.rpartition("where=true")[2]
        assert "statements_credit(cautions)" in after[:120], path.name
    macro = (THEME / "parts.html.j2").read_text(encoding="utf-8").partition("statements_credit")[2]
    for words in ("1272/2008", "© European Union", "CC BY 4.0", "does not cover them"):
        assert words in macro
