"""A reader's measurements in → templates, pieces, amounts and refusals out, as `guidegen fit` has.

Runs in the reader's browser and imports no more than that takes (tests/app/measured lists it).
Answers are plain values that a page can show.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256

from guidegen.app.measured.bodies import MADE, judge_body, whole_kit
from guidegen.app.measured.order import unpack_order
from guidegen.app.measured.template_pages import material_names, sheet_head, template_pdf
from guidegen.assembly.body.proportions import find_body
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.errors import ContentError
from guidegen.geometry.fit.advice import leading, rank_sizes, size_table
from guidegen.geometry.fit.doubts import TICK_SURE
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.buying.consumption import piece_area
from guidegen.layout.paper.frame import printer_margins
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.bodies.nested_sizes import draw_nested
from guidegen.pictures.bodies.own_body import draw_own_body
from guidegen.pictures.pen.records import Drawing
from guidegen.problems import Place, Problem
from guidegen.quantities import area_words, length_words
from guidegen.render.text.svg import page_svg
from guidegen.words import Words

_FRACTION = re.compile(r"-?\d+\.\d+(?:e-?\d+)?")

type Told = dict[str, object]

STAGES = ("kit", "sheets", "pages")
"""What is told of while templates are made, in this order."""


@dataclass
class Workbench:
    """One guide, and the body for which it was made last."""

    content: Content
    _kit: Kit | None = field(default=None, repr=False)
    _nearest: str = ""
    _body: Mapping[str, float] = field(default_factory=dict, repr=False)

    @property
    def file(self) -> GuideFile:
        """The guide."""
        return self.content.guides[0]

    @property
    def words(self) -> Words:
        """How its language says things."""
        return self.content.words

    def make_kit(self, body: Mapping[str, float], *, sure: bool) -> Told:
        """Pieces and amounts for a body in mm, or what keeps it from being made."""
        place = Place("measurements")
        # Scripts have one kind of number, and 263.0 arrives as 263.
        body = {name: float(value) for name, value in body.items()}
        self._kit = None
        file, words = self.file, self.words
        wrong, waived = judge_body(file, body, place, sure=sure, words=words, insist=TICK_SURE)
        if wrong:
            return {"problems": [_said(problem) for problem in wrong]}
        try:
            kit = whole_kit(
                file, self.content.stock, MADE, body, words=words, place=place, reader=words
            )
        except ContentError as error:
            return {"problems": [_said(problem) for problem in error.problems]}
        ranked = rank_sizes(size_table(file), leading(file), body)
        self._kit, self._nearest, self._body = kit, ranked[0][0] if ranked else "", body
        return {
            "problems": [],
            "waived": [*waived],
            "nearest": self._nearest,
            "pieces": self._pieces(kit),
            "amounts": self._amounts(kit),
        }

    def make_pages(
        self, paper: str, *, both_sides: bool, card: bool, tell: Callable[[str], object]
    ) -> bytes:
        """The template PDF of the kit that was made last."""
        kit, content = self._made(), self.content
        tell("sheets")
        how = {"overlap": 0.0} if card else {}
        margins = printer_margins(content.site, paper)
        templates = lay_out_templates(kit, paper, both_sides=both_sides, margins=margins, **how)
        tell("pages")
        head = sheet_head(content, self.file)
        return template_pdf(content, self.file, templates, kit, head)

    def check(self, body: Mapping[str, float]) -> list[Told]:
        """What is doubtful or impossible about a body in mm, as far as no kit is needed for it."""
        body = {name: float(value) for name, value in body.items()}
        place = Place("measurements")
        wrong, _ = judge_body(
            self.file, body, place, sure=False, words=self.words, insist=TICK_SURE
        )
        return [_said(problem) for problem in wrong]

    def nested(self) -> Iterable[str]:
        """The body over the nearest size's, then outlines of each piece over its, as SVG."""
        kit = self._made()
        yield page_svg(self._figures())
        sized = whole_kit(self.file, self.content.stock, self._nearest, words=self.words)
        theirs = {piece.key: piece for piece in sized.pieces}
        mine = self.words.say("yours")
        for piece in kit.pieces:
            other = theirs.get(piece.key)
            if other is not None and not piece.mirrored:
                pair = [(self._nearest, other), (mine, piece)]
                yield page_svg(draw_nested(pair, mine, "mine", self.words))

    def _figures(self) -> Drawing:
        size = size_table(self.file)[self._nearest]
        own, other = find_body(self._body), find_body(size)
        return draw_own_body(own, other, self._nearest, self.words)

    def mark(self) -> str:
        """Equal for equal kits, wherever they were made.

        SHA-256 of all that is in the kit, lengths to a millionth of a mm: sines of two systems
        differ in their last digit.
        """
        said = _FRACTION.sub(lambda found: _millionths(found[0]), repr(self._made()))
        return sha256(said.encode()).hexdigest()

    def _made(self) -> Kit:
        if self._kit is None:
            raise ValueError("there is no kit yet")
        return self._kit

    def _pieces(self, kit: Kit) -> list[Told]:
        names = material_names(self.content)
        return [
            {
                "label": piece.label,
                "name": piece.name,
                "count": piece.copies,
                "material": names.get(piece.material, piece.material),
                "size": _box_words(piece, self.words),
            }
            for piece in kit.pieces
        ]

    def _amounts(self, kit: Kit) -> list[Told]:
        """mm² of foam by material, of all copies; not laid on sheets."""
        areas: dict[str, float] = {}
        for piece in kit.pieces:
            areas.setdefault(piece.material, 0.0)
            areas[piece.material] += piece.copies * piece_area(piece)
        names = material_names(self.content)
        return [
            {
                "material": names.get(material, material),
                "area": area_words(area, self.words),
            }
            for material, area in sorted(areas.items())
        ]


def open_workbench(order: str) -> Workbench:
    """A workbench for the guide of an order."""
    return Workbench(unpack_order(order))


def _millionths(number: str) -> str:
    """A number to six places; what is left of nothing has no sign."""
    return f"{round(float(number), 6) + 0.0:.6f}"


def _said(problem: Problem) -> Told:
    return {
        "code": problem.code,
        "measurement": problem.path,
        "message": problem.message,
        "cure": problem.cure,
    }


def _box_words(piece: Piece, words: Words) -> str:
    """Width and height of the piece as cut."""
    left, low, right, high = bounds((piece.shape.ring(),))
    return f"{length_words(right - left, words)} × {length_words(high - low, words)}"
