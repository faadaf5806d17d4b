"""A page's HTML → what tests ask about it: ids, links, headings, texts in reading order."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"meta", "link", "img", "source", "input", "br", "hr", "col"}
"""Elements without an end tag."""


@dataclass
class Page(HTMLParser):
    """What a page holds. Reading it checks that its elements nest."""

    source: str
    ids: list[str] = field(default_factory=list)
    elements: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    headings: list[int] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    captions: int = 0

    def __post_init__(self) -> None:
        """Read the page."""
        super().__init__(convert_charrefs=True)
        self._open: list[str] = []
        self.feed(self.source)
        self.close()
        assert self._open == [], self._open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins."""
        found = {name: value or "" for name, value in attrs}
        self.elements.append((tag, found))
        if "id" in found:
            self.ids.append(found["id"])
        if len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An empty element of a drawing."""
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        """An element ends."""
        assert self._open and self._open[-1] == tag, (tag, self._open, self.getpos())
        self._open.pop()

    def handle_data(self, data: str) -> None:
        """Words."""
        if data.strip() and not {"style", "script", "svg"} & set(self._open):
            self.words.append(" ".join(data.split()))

    @property
    def text(self) -> str:
        """All words in reading order, drawings left out."""
        return " ".join(self.words)

    def all(self, tag: str) -> list[dict[str, str]]:
        """Attributes of every element with this tag."""
        return [attributes for name, attributes in self.elements if name == tag]
