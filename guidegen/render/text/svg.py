"""A Drawing in → its SVG text out; y turns from upward to downward here and in svg_paths.

The only module that imports svgwrite. Colours are written as attributes, so that a PDF needs no
style sheet, and every element may carry a class, so that a theme can recolour it on screen.
"""

from collections.abc import Iterable
from weakref import WeakKeyDictionary
from xml.etree import ElementTree

import svgwrite
from svgwrite.base import BaseElement

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.records import (
    Circle,
    Drawing,
    Group,
    Item,
    Lettering,
    Path,
    Rectangle,
    Stroke,
)
from guidegen.render.text.lengths import DrawnWords, drawn_words, name_lengths
from guidegen.render.text.svg_paths import number, path_data
from guidegen.units import mm_text

FONT = "'Barlow Condensed', 'Noto Sans Condensed', sans-serif"
"""Family for all lettering in drawings: narrow, so that labels fit small pieces; the second one
has the alphabets that the first one lacks."""

_HEAD = ("xmlns:ev", "xmlns:xlink", "baseProfile", "version")
"""Attributes of a file's first tag that HTML does not know."""

_FILES: WeakKeyDictionary[Drawing, str] = WeakKeyDictionary()
_PAGES: WeakKeyDictionary[Drawing, str] = WeakKeyDictionary()
"""Texts of drawings that still exist: booklets, pages and lists show the same ones."""


def svg_file(drawing: Drawing) -> str:
    """The drawing as the text of a file of its own, without XML declaration."""
    text = _FILES.get(drawing)
    if text is None:
        text = _FILES[drawing] = _Writer(drawing, in_page=False).text()
    return text


def page_svg(drawing: Drawing) -> str:
    """The drawing as it stands inside HTML, the lengths in its lettering and its names marked.

    Names take no elements: for them, data-lengths says start, end and mm of each length.
    """
    text = _PAGES.get(drawing)
    if text is None:
        text = _PAGES[drawing] = _Writer(drawing, in_page=True).text()
    return text


class _Named(BaseElement):  # type: ignore[misc]
    """A title or a description, whose lengths may be marked."""

    def __init__(self, tag: str, words: str, *, marked: bool) -> None:
        super().__init__(debug=False)
        self.elementname, self._words, self._marked = tag, words, marked

    def get_xml(self) -> ElementTree.Element:
        element = ElementTree.Element(self.elementname)
        element.text = self._words
        if self._marked and (lengths := name_lengths(self._words)):
            element.set("data-lengths", lengths)
        return element


class _Spans(BaseElement):  # type: ignore[misc]
    """Words of which some stand in elements of their own."""

    elementname = "text"

    def __init__(self, parts: Iterable[DrawnWords]) -> None:
        super().__init__(debug=False)
        self._parts = parts

    def get_xml(self) -> ElementTree.Element:
        element: ElementTree.Element = super().get_xml()
        last: ElementTree.Element | None = None
        for words, data in self._parts:
            if data:
                last = ElementTree.SubElement(element, "tspan", dict(data))
                last.text = words
            elif last is None:
                element.text = (element.text or "") + words
            else:
                last.tail = (last.tail or "") + words
        return element


class _Writer:
    """One drawing on its way to SVG."""

    def __init__(self, drawing: Drawing, *, in_page: bool) -> None:
        self._drawing, self._in_page = drawing, in_page
        width, height = number(drawing.width), number(drawing.height)
        svg = svgwrite.Drawing(
            size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
        )
        svg["role"] = "img"
        if drawing.mirrored_page:
            # A drawing is laid out from the left whatever its page is: texts begin there.
            svg["direction"] = "ltr"
        svg["font-family"] = FONT
        svg["stroke-linejoin"] = "round"
        svg["fill"] = "none"
        if drawing.description:
            svg.elements.insert(0, self._name("desc", drawing.description))
        svg.elements.insert(0, self._name("title", drawing.title))
        self._svg = svg
        self._fill(svg, drawing.items)

    def text(self) -> str:
        """The whole text."""
        element = self._svg.get_xml()
        if self._in_page:
            for name in _HEAD:
                element.attrib.pop(name, None)
        return ElementTree.tostring(element, encoding="unicode")

    def _fill(self, parent: BaseElement, items: tuple[Item, ...]) -> None:
        for item in items:
            match item:
                case Group():
                    element = self._group(item)
                case Path():
                    element = self._path(item)
                case Rectangle():
                    element = self._rectangle(item)
                case Circle():
                    element = self._svg.circle(
                        center=self._at(item.centre), r=number(item.radius), fill=item.fill
                    )
                    _stroke(element, item.stroke)
                case Lettering():
                    element = self._lettering(item)
            if item.css:
                element["class"] = item.css
            parent.add(element)

    def _group(self, group: Group) -> BaseElement:
        if group.clip:
            clip = self._svg.clipPath(id=group.id)
            clip.add(self._rectangle(group.clip, drawn=False))
            self._svg.defs.add(clip)
            element = self._svg.g(clip_path=f"url(#{group.id})")
        else:
            element = self._svg.g()
            if group.id:
                element["id"] = group.id
        for name, value in (("layer", group.layer), ("show", group.shows), *group.data):
            if value:
                element[f"data-{name}"] = value
        if group.title:
            element.elements.insert(0, self._name("title", group.title))
        self._fill(element, group.items)
        return element

    def _path(self, path: Path) -> BaseElement:
        height = self._drawing.height
        data = " ".join(path_data(run, height, closed=path.closed) for run in path.runs)
        element = self._svg.path(d=data, fill=path.fill)
        if path.fill != "none":
            element["fill-rule"] = "evenodd"
            if path.opacity < 1:
                element["fill-opacity"] = number(path.opacity)
        _stroke(element, path.stroke)
        return element

    def _rectangle(self, box: Rectangle, *, drawn: bool = True) -> BaseElement:
        element = self._svg.rect(
            insert=(number(box.x), number(self._drawing.height - box.y - box.height)),
            size=(number(box.width), number(box.height)),
        )
        if drawn:
            element["fill"] = box.fill
            _stroke(element, box.stroke)
        return element

    def _lettering(self, text: Lettering) -> BaseElement:
        marked = self._in_page and text.length is None
        parts = drawn_words(text.words) if marked else ((text.words, {}),)
        x, y = self._at(text.at)
        element = _Spans(parts)
        element["x"], element["y"], element["fill"] = x, y, text.colour
        element["font-size"] = number(text.size)
        if text.anchor != "start":
            element["text-anchor"] = text.anchor
        if text.weight != 400:
            element["font-weight"] = str(text.weight)
        if text.angle:
            element["transform"] = f"rotate({number(-text.angle)} {x} {y})"
        if text.length is not None:
            element["data-mm"] = mm_text(text.length, 3)  # so that a page can show inches
        return element

    def _name(self, tag: str, words: str) -> _Named:
        return _Named(tag, words, marked=self._in_page)

    def _at(self, point: Point) -> tuple[str, str]:
        return number(point[0]), number(self._drawing.height - point[1])


def _stroke(element: BaseElement, stroke: Stroke | None) -> None:
    if stroke is None:
        return
    element["stroke"] = stroke.colour
    element["stroke-width"] = number(stroke.width)
    if stroke.dash:
        element["stroke-dasharray"] = " ".join(number(length) for length in stroke.dash)
    if stroke.cap != "butt":
        element["stroke-linecap"] = stroke.cap
