"""Lines of text, shaped once for all places where they are drawn, where WeasyPrint does not.

WeasyPrint 70 sets up a layout of Pango for each line that it draws, spaces too, shapes the line
again, and reads each glyph across the border to C. A line that is kept (text_lines) keeps its
glyphs here: words of tables, signs and notes stand in a booklet many times, and in those of other
sizes again. Which glyphs a font embeds, and how wide it says that they are, each document is told
as the library does it: files keep their bytes. Mended from outside, and only where the library
still is as described.
"""

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from struct import calcsize, iter_unpack
from types import ModuleType
from typing import Any

GLYPH = "=IiiiI"
"""PangoGlyphInfo: number, width, shifts to the right and up, flags (pango-glyph.h, Pango 1.50)."""

SIZE = calcsize(GLYPH)

LEAST_PANGO = 14802
"""The first version that tells the size of a font, as the library has it."""

LAID = ("layout", "language", "style")
"""What a layout holds of Pango, from its setting up to its end."""

MOST = 40_000
"""Lines that are kept. Our choice: those of a few booklets, some 40 MB."""

type _Theirs = Any
"""An object of the library."""

type Glyph = tuple[int, int, int]
"""Number, width and shift to the right, in Pango's units."""


@dataclass(slots=True)
class _Face:
    """A font in one size."""

    font: _Theirs
    """Pango's."""
    owner: _Theirs
    """The layout that keeps it alive."""
    key: int
    """The document's font, the same for all sizes."""
    size: float
    widths: dict[int, int] = field(default_factory=dict)
    """Of glyphs, in thousandths of the size."""


@dataclass(slots=True)
class _Run:
    """Glyphs of a line that follow one another in one font."""

    face: _Face
    items: list[list[Glyph]] = field(default_factory=list)
    texts: dict[int, str] = field(default_factory=dict)
    """What each glyph stands for."""
    widths: dict[int, int] = field(default_factory=dict)
    shown: bytes = b""
    """The operator that shows the glyphs where the document's font has these widths."""


class DrawnLines:
    """What is known of lines in one set of fonts; it lives as long as they do."""

    def __init__(self) -> None:
        self.faces: dict[int, _Face] = {}
        """By the place of the font in memory."""
        self._runs: dict[Hashable, list[_Run] | None] = {}

    def find(self, key: Hashable, read: Callable[[], list[_Run] | None]) -> list[_Run] | None:
        """The runs of a line, read once."""
        if key not in self._runs:
            if len(self._runs) >= MOST:
                self._runs.clear()
            self._runs[key] = read()
        return self._runs[key]


def mend_drawn_lines(line_break: ModuleType, text: ModuleType) -> None:
    """Mend `weasyprint.text.line_break` and `weasyprint.draw.text`, once.

    Another version of them is left as it is.
    """
    layout = getattr(line_break, "Layout", None)
    if (
        hasattr(text, "guidegen")
        or not all(hasattr(layout, name) for name in ("setup", "reactivate", "deactivate"))
        or not all(hasattr(text, name) for name in ("draw_first_line", "ffi", "pango"))
        or text.ffi.sizeof("PangoGlyphInfo") != SIZE
        or text.pango.pango_version() < LEAST_PANGO
    ):
        return
    _set_up_when_asked(layout)
    text.draw_first_line = _Lines(text).draw  # type: ignore[attr-defined]
    text.guidegen = True  # type: ignore[attr-defined]


def _set_up_when_asked(layout: _Theirs) -> None:
    """Let a layout that is drawn be set up only when something of Pango is asked for."""
    set_up = layout.reactivate

    def reactivate(own: _Theirs, style: _Theirs) -> None:
        own.guidegen_style = style

    def deactivate(own: _Theirs) -> None:
        for name in (*LAID, "guidegen_style"):
            own.__dict__.pop(name, None)

    def missing(own: _Theirs, name: str) -> object:
        if name not in LAID or "guidegen_style" not in own.__dict__:
            raise AttributeError(name)
        set_up(own, own.__dict__.pop("guidegen_style"))
        return own.__dict__[name]

    layout.reactivate, layout.deactivate, layout.__getattr__ = reactivate, deactivate, missing


class _Lines:
    """How lines are read and drawn."""

    def __init__(self, text: ModuleType) -> None:
        """`text` is `weasyprint.draw.text`."""
        self._ffi, self._pango, self._pixels = text.ffi, text.pango, text.FROM_UNITS
        self._empty = self._pango.PANGO_GLYPH_EMPTY
        self._unknown = self._pango.PANGO_GLYPH_UNKNOWN_FLAG
        self._library: Callable[..., list[_Theirs]] = text.draw_first_line
        self._ink, self._logical = (self._ffi.new("PangoRectangle *") for _ in range(2))

    def draw(
        self, stream: _Theirs, box: _Theirs, overflow: str, ellipsis: object, matrix: _Theirs
    ) -> list[_Theirs]:
        """Draw the line of a box as `weasyprint.draw.text.draw_first_line` does."""
        layout, style = box.pango_layout, box.style
        lines = getattr(style.font_config, "guidegen_lines", None)
        if lines is None or overflow == "ellipsis" or ellipsis != "none":
            return self._library(stream, box, overflow, ellipsis, matrix)
        if not box.text.strip():
            return []
        runs = lines.drawn.find(
            (layout.text, lines.number(style), layout.justification_spacing),
            lambda: self._read(layout, stream, lines.drawn.faces),
        )
        if runs is None:
            return self._library(stream, box, overflow, ellipsis, matrix)
        stream.set_text_matrix(*matrix.values)
        for run in runs:
            self._show(run, stream)
        return []

    def _show(self, run: _Run, stream: _Theirs) -> None:
        font = stream._fonts.get(run.face.key) or stream.add_font(run.face.font)[0]
        stream.set_font_size(font.hash, run.face.size)
        if not run.texts.keys() <= font.to_unicode.keys():
            font.to_unicode.update(run.texts | font.to_unicode)
        shown = run.shown
        if not run.widths.items() <= font.widths.items():
            # The size that comes first in a document tells the width; another may round otherwise.
            font.widths.update(run.widths | font.widths)
            shown = self._shown(run, font.widths)
        stream.stream.append(shown)

    def _read(self, layout: _Theirs, stream: _Theirs, faces: dict[int, _Face]) -> list[_Run] | None:
        """The runs of a line; None where something of it is left to the library."""
        self._pango.pango_layout_set_single_paragraph_mode(layout.layout, 1)
        first, _ = layout.get_first_line()
        text = layout.text.encode()
        runs: list[_Run] = []
        for item in self._items(first):
            face = self._face(item.item.analysis.font, layout.layout, stream, faces)
            glyphs = self._glyphs(item)
            if face is None or not glyphs:
                return None
            if not runs or runs[-1].face is not face:
                runs.append(_Run(face))
            runs[-1].items.append(glyphs)
            self._add_texts(runs[-1].texts, item, glyphs, text)
        for run in runs:
            run.widths = {glyph: self._width(run.face, glyph) for glyph in run.texts}
            run.shown = self._shown(run, run.widths)
        return runs

    def _items(self, line: _Theirs) -> Iterator[_Theirs]:
        run = line.runs
        while run != self._ffi.NULL:
            yield run.data
            run = run.next

    def _face(
        self, font: _Theirs, owner: _Theirs, stream: _Theirs, faces: dict[int, _Face]
    ) -> _Face | None:
        """The face of a font of Pango; None where glyphs of it are pictures."""
        place = int(self._ffi.cast("uintptr_t", font))
        if place not in faces:
            used, size = stream.add_font(font)
            if used.png or used.svg or used.colr or used.bitmap:
                return None
            key = next(key for key, one in stream._fonts.items() if one is used)
            faces[place] = _Face(font, owner, key, size)
        return faces[place]

    def _glyphs(self, item: _Theirs) -> list[Glyph]:
        """The glyphs of an item; none where one has no font or is not on the line."""
        count = item.glyphs.num_glyphs
        data = self._ffi.buffer(item.glyphs.glyphs, count * SIZE)
        glyphs = []
        for number, width, shift, up, _ in iter_unpack(GLYPH, data):
            if up or number & self._unknown:
                return []
            glyphs.append((number, width, shift))
        return glyphs

    def _add_texts(
        self, texts: dict[int, str], item: _Theirs, glyphs: Sequence[Glyph], text: bytes
    ) -> None:
        """Add what the glyphs of an item stand for; the first place of each tells."""
        start, length = item.item.offset, item.item.length
        backward = item.item.analysis.level % 2
        begins = self._ffi.unpack(item.glyphs.log_clusters, len(glyphs))
        ends = [length, *begins[:-1]] if backward else [*begins[1:], length]
        for (number, _, _), begin, end in zip(glyphs, begins, ends, strict=True):
            if number != self._empty and number not in texts:
                texts[number] = text[start + begin : start + end].decode()

    def _width(self, face: _Face, glyph: int) -> int:
        if glyph not in face.widths:
            self._pango.pango_font_get_glyph_extents(face.font, glyph, self._ink, self._logical)
            face.widths[glyph] = round(self._logical.width * 1000 * self._pixels / face.size)
        return face.widths[glyph]

    def _shown(self, run: _Run, widths: Mapping[int, int]) -> bytes:
        """The operator that shows the glyphs of a run, where a font says these widths."""
        size = run.face.size
        parts = []
        for glyphs in run.items:
            part = "<"
            for number, width, shift in glyphs:
                if number == self._empty:
                    part += f">{-width / size}<"
                    continue
                offset = shift / size
                if offset:
                    part += f">{-offset}<"
                part += f"{number:04x}"
                kerning = widths[number] + offset - width * 1000 * self._pixels / size
                if kerning:
                    part += f">{int(kerning)}<"
            parts.append(part[:-1] if part[-1] == "<" else f"{part}>")
        return f"[{''.join(parts)}] TJ".encode("ascii")
