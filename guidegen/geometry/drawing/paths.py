"""SVG text in → the visible paths of the drawing in mm, each with its role.

Walks the checked tree the way a viewer paints it: groups, transforms, nested viewports, `use` and
symbols, hidden layers left out. Every expansion is counted, so that a small file cannot unfold
into a large drawing.
"""

from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import hypot

from guidegen.geometry.drawing.records import DrawnPath, Role, SvgDrawing
from guidegen.geometry.drawing.roles import (
    DrawnMeaning,
    group_names,
    own_meaning,
    own_name,
    stated_length,
)
from guidegen.geometry.drawing.svg_document import (
    DrawingError,
    Element,
    SvgDocument,
    element_name,
    shown_name,
    survey_document,
)
from guidegen.geometry.drawing.svg_page import Viewport, inner_viewport, page_viewport
from guidegen.geometry.drawing.svg_reader import (
    MAX_CHORDS,
    MAX_EXTENT,
    MAX_SEGMENTS,
    SHAPES,
    Affine,
    SvgValueError,
    read_length,
    read_transform,
    shape_subpaths,
)
from guidegen.geometry.drawing.svg_styles import StyleSheet, read_styles
from guidegen.geometry.outline.measures import bounds, chord_count
from guidegen.problems import Problem, did_you_mean

MAX_VISITS = 20_000
"""Elements painted, with every `use` counted anew. Our choice."""
BENDS = 4
"""Diagonals of the page: no curve of a piece bends through a point farther from its ends. Our
choice: editors show nothing beyond, and such curves cost thousands of points each."""
MAX_USE_DEPTH = 8
"""`use` elements inside one another. Our choice."""

_GROUPS = frozenset({"svg", "g", "a", "switch"})
_NAMED = frozenset({Role.CORNER, Role.SPREAD})


@dataclass(frozen=True, slots=True)
class _Context:
    """What an element inherits."""

    viewport: Viewport
    hidden: bool = False
    meaning: DrawnMeaning = field(default_factory=DrawnMeaning)
    groups: tuple[str, ...] = ()
    ids: tuple[str, ...] = ()
    uses: tuple[Element, ...] = ()


@lru_cache(maxsize=64)
def read_drawing(text: str, file: str) -> tuple[SvgDrawing | None, tuple[Problem, ...]]:
    """The paths of a drawing, and all that is wrong with it; None where it cannot be read on."""
    problems: list[Problem] = []
    try:
        # What is refused is left out and told, so that all else of the drawing is looked at in
        # the same round; the errors among the problems keep it from being used.
        document, faults = survey_document(text, file)
        problems.extend(faults)
        sheet, unread = read_styles(document)
        problems.extend(unread)
        page, height, physical, sizeless = page_viewport(document)
        problems.extend(sizeless)
        # Bounded before any curve is taken apart: one with handles a kilometre away costs more
        # points than a whole wardrobe.
        reach = min(
            MAX_EXTENT,
            BENDS * hypot(page.length(page.space[0], "x"), page.length(page.space[1], "y")),
        )
        walker = _Walker(document, sheet, problems, reach=reach)
        walker.children(document.root, _Context(page))
    except DrawingError as error:
        return None, (*problems, *error.problems)
    drawing = SvgDrawing(
        file,
        tuple(walker.paths),
        tuple(walker.names),
        physical,
        height,
        document.place(document.root),
        walker.visits,
        walker.chords,
    )
    return drawing, tuple(walker.problems)


@dataclass
class _Walker:
    document: SvgDocument
    sheet: StyleSheet
    problems: list[Problem]
    paths: list[DrawnPath] = field(default_factory=list)
    names: dict[str, None] = field(default_factory=dict)
    visits: int = 0
    segments: int = 0
    chords: int = 0
    """Of what has been painted."""
    reach: float = MAX_EXTENT
    """mm that the control point of a curve may lie from its ends."""

    def children(self, element: Element, context: _Context) -> None:
        for child in element:
            self.visit(child, context)

    def visit(self, element: Element, outer: _Context) -> None:
        self.visits += 1
        # Counted before anything else is done: a few lines of `use` unfold to
        # millions of elements.
        if self.visits > MAX_VISITS:
            message = f"brings the drawing to more than {MAX_VISITS} elements"
            raise DrawingError(self.document.problem("drawing-too-large", element, message))
        if element.tag not in _GROUPS | SHAPES | {"use", "text"}:
            return
        properties = self.sheet.properties(element)
        # Not drawn at all, whatever is inside; `visibility` may be turned on again further down.
        if properties.get("display") == "none":
            return
        try:
            context = self._inside(element, properties, outer)
            self._paint(element, context)
        except SvgValueError as error:
            self.problems.append(self.document.problem("drawing-value", element, str(error)))

    def _inside(self, element: Element, properties: dict[str, str], outer: _Context) -> _Context:
        """The context of an element: its transform, visibility, role and id added."""
        transform = read_transform(properties.get("transform", ""))
        viewport = outer.viewport.moved(transform)
        visibility = properties.get("visibility", "")
        hidden = outer.hidden if visibility in {"", "inherit"} else visibility != "visible"
        context = replace(outer, viewport=viewport, hidden=hidden)
        meaning = own_meaning(element)
        if meaning is not None:
            # A path of class "corner" in the group "corner-shoulder" keeps the name of its group.
            if not meaning.name and meaning.role is outer.meaning.role:
                meaning = outer.meaning
            context = replace(context, meaning=meaning)
        name = element.get("id", "")
        if name:
            context = replace(context, ids=(*outer.ids, name))
        if shown := shown_name(element):
            context = replace(context, groups=(*outer.groups, *group_names(element)))
            self.names[shown] = None
        return context

    def _paint(self, element: Element, context: _Context) -> None:
        if element.tag == "use":
            self._use(element, context)
        elif element.tag == "svg":
            viewport = inner_viewport(element, context.viewport)
            self.children(element, replace(context, viewport=viewport))
        elif element.tag in _GROUPS:
            self.children(element, context)
        elif element.tag == "text":
            self._text(element)
        elif not context.hidden:
            self._shape(element, context)

    def _use(self, element: Element, context: _Context) -> None:
        name = element.get("href", "").strip().removeprefix("#")
        target = self.document.ids.get(name)
        if not name or target is None:
            hint = did_you_mean(name, [i for i in self.document.ids if i])
            message = f'uses "#{name[:60]}", which is not in the drawing{hint}'
            self.problems.append(self.document.problem("drawing-use", element, message))
            return
        # The way here is remembered, not all that was ever used: the same rivet may be used a
        # hundred times beside itself, but never inside itself.
        if target in context.uses or len(context.uses) >= MAX_USE_DEPTH:
            message = "uses itself, or uses are nested too deeply"
            raise DrawingError(self.document.problem("drawing-use", element, message))
        space = context.viewport.space
        x, y = (read_length(element.get(key) or "0", space[key == "y"]) for key in ("x", "y"))
        # x and y of a `use` act after its own transform; SVG 1.1, 5.6.
        viewport = context.viewport.moved(Affine(e=x, f=y))
        context = replace(context, viewport=viewport, uses=(*context.uses, target))
        if target.tag == "symbol":
            inner = inner_viewport(target, viewport, element)
            self.children(target, replace(context, viewport=inner))
        else:
            self.visit(target, context)

    def _text(self, element: Element) -> None:
        meaning = own_meaning(element)
        if meaning is not None and meaning.role is not Role.NOTE:
            message = f"is text, so it cannot be the {meaning.role}"
            cure = "turn the text into a path in your editor"
            self.problems.append(self.document.problem("drawing-text", element, message, cure))

    def _shape(self, element: Element, context: _Context) -> None:
        viewport = context.viewport
        subpaths = shape_subpaths(
            element.tag, dict(element.attrib), viewport.space, viewport.affine, self.reach
        )
        # Before the paths are kept: what is above the bound is refused while it is still text.
        self.segments += sum(len(subpath.run) for subpath in subpaths)
        self.chords += sum(chord_count(s) for subpath in subpaths for s in subpath.run)
        if self.segments > MAX_SEGMENTS or self.chords > MAX_CHORDS:
            most = MAX_CHORDS if self.chords > MAX_CHORDS else MAX_SEGMENTS
            what = "points, its curves taken apart" if self.chords > MAX_CHORDS else "segments"
            message = f"brings the drawing to more than {most} {what}"
            cure = "simplify the paths in your editor"
            raise DrawingError(self.document.problem("drawing-too-large", element, message, cure))
        role = context.meaning.role
        if not subpaths:
            if role is not Role.NONE:
                message = f"is marked as {role} but draws nothing"
                self.problems.append(self.document.problem("drawing-tiny", element, message))
            return
        left, low, right, high = bounds(tuple(subpath.run for subpath in subpaths))
        self.paths.append(
            DrawnPath(
                role,
                # Only corners and spread lines are looked up by name; an outline keeps its id for
                # messages.
                context.meaning.name or (own_name(element) if role in _NAMED else ""),
                element_name(element),
                subpaths,
                self.document.place(element),
                context.groups,
                context.ids,
                element.get("data-length", "") or stated_length(context.meaning.name),
                ((left + right) / 2, (low + high) / 2),
            )
        )
