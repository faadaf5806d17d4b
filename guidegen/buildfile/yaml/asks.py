"""A text of arithmetic in → the questions in it about parts and seams: edge(cuff, top).

A question is a name of the arithmetic, called as it is written. Who has the parts of one size has
its number; who has not tells that there is none.
"""

import re
from dataclasses import dataclass

LENGTHS: dict[str, tuple[str, ...]] = {
    "edge": ("part", "edge"),
    "line": ("part", "line"),
    "width": ("part",),
    "height": ("part",),
    "thick": ("part",),
    "seam": ("seam",),
}
"""What arithmetic may ask while parts are made, and the names that each question takes.

edge: mm of a finished edge, as drawn. line: mm of a line that a drawing gives a name. width,
height: mm of a finished piece, lying flat. thick: mm of its foam. seam: mm of the edge that the
seam names first.
"""

NAME = r"[a-z0-9]+(?:-[a-z0-9]+)*"
_ASK = re.compile(rf"\b({'|'.join(LENGTHS)})\(\s*({NAME}(?:\s*,\s*{NAME})*)\s*\)")


@dataclass(frozen=True, slots=True)
class Ask:
    """A question about a thing of the guide: edge(chest-front, armhole)."""

    about: str
    """What is asked, such as edge."""
    names: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.about}({', '.join(self.names)})"


def take_asks(text: str, asks: list[Ask]) -> str:
    """`text` with each question as _ask_0, _ask_1, … and the questions added to `asks`.

    A question with too few or too many names stays: the arithmetic then tells of it.
    """

    def take(found: re.Match[str]) -> str:
        names = tuple(name.strip() for name in found[2].split(","))
        if len(names) != len(LENGTHS[found[1]]):
            return found[0]
        asks.append(Ask(found[1], names))
        return f"_ask_{len(asks) - 1}"

    return _ASK.sub(take, text)


def read_ask(name: str) -> Ask | None:
    """The question that a name of arithmetic stands for; None for any other name."""
    asks: list[Ask] = []
    take_asks(name, asks)
    return asks[0] if asks and str(asks[0]) == name else None


def form_of(about: str) -> str:
    """How a question is written: edge(part, edge)."""
    return f"{about}({', '.join(LENGTHS[about])})"
