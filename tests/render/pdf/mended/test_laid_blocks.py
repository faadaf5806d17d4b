"""Blocks of a page that are laid out once and moved."""

import inspect
from importlib import import_module

import numpy as np
import pypdfium2
import pytest

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import laid_blocks
from guidegen.render.pdf.mended.kept_block import KeptBlock, Laid

HEAD = (
    "<html lang=en><head><title>t</title><style>"
    "@page { size: 100mm 70mm; margin: 5mm; @bottom-left { content: 'page ' counter(page) } }"
    "html { font: 9pt 'Barlow' } .two { columns: 2 } .filled { columns: 2; column-fill: auto }"
    " article { break-inside: avoid; margin: 1mm 0; border: 1pt solid; padding: 1mm }"
    " .beside { float: right; width: 12mm; height: 9mm; border: 1pt solid }"
    " .clear::after { content: ''; display: block; clear: both }"
    " .holds { position: relative } .tag { position: absolute; right: 0; top: 0 }"
    " .row { display: flex; gap: 2mm } .grid { display: grid; grid-template-columns: 1fr 2fr }"
    " td { border: 1pt solid } .tint { background: #8ac } a::after { content: ' (page ' target-counter('#end', page) ')' }"
    "</style></head><body>"
)
PARTS = (
    "<h2>Part {0}</h2><div class=two><article>Trace the {0}th outline on card.</article>"
    "<article>Cut it out slowly.<ul><li>Blade<li>Ruler</ul></article><article>Keep it.</article>"
    "<article><table><colgroup><col><col class=tint></colgroup><tr><td>Glue<td>Tape</table></article>"
    "</div>"
    "<article class=clear><div class=beside>At hand</div>Coat both faces, wait, join. <a>End</a>"
    "</article><article class='holds clear'><span class=tag>{0}</span><p>Hold it for a while, then"
    " look at the seam from both sides.</article>"
    "<div class=row><div>One</div><div><p>Two and {0}</div></div>"
    "<div class=grid><div>Three</div><div><p>Four</p></div></div>"
    "<table><thead><tr><th><p>Foam<th>mm</thead><tr><td><p>Sheet {0}<td>10<tr><td><p>Strip<td>6"
    "</table><div class=filled><article>Sand.</article><article>Seal twice.</article>"
    "<article>Paint.</article></div>"
)
HTML = f"{HEAD}{''.join(PARTS.format(n) for n in range(9))}<p id=end>End</body></html>"


def letters(data: bytes) -> list[tuple[int, str, tuple[float, ...]]]:
    """Page, letter and box of every letter of a document, in pt."""
    found = []
    for number, page in enumerate(pypdfium2.PdfDocument(data)):
        text = page.get_textpage()
        for index, letter in enumerate(text.get_text_range()):
            found.append((number, letter, text.get_charbox(index)))
    return found


def ink(data: bytes) -> list[np.ndarray]:
    """Every page of a document as it prints, a pixel for each 0.5 pt."""
    return [page.render(scale=2).to_numpy() for page in pypdfium2.PdfDocument(data)]


memory_of = laid_blocks._memory_of


@pytest.fixture(name="forgetting")
def _forgetting(monkeypatch: pytest.MonkeyPatch) -> pytest.MonkeyPatch:
    """Nothing is kept."""
    monkeypatch.setattr(laid_blocks, "_memory_of", lambda context: laid_blocks._Memory())
    return monkeypatch


def test_everything_stands_where_it_stood(forgetting: pytest.MonkeyPatch) -> None:
    """Columns, floats, tables with heads and tinted columns, flexible rows, tags, marks of lists
    and page numbers: the same pages."""
    without = write_pdf(HTML, files={})
    forgetting.undo()
    with_memory = write_pdf(HTML, files={})
    for page, other_page in zip(ink(with_memory), ink(without), strict=True):
        assert np.abs(page.astype(int) - other_page).max() <= 40  # edges between two pixels
    kept, forgotten = letters(with_memory), letters(without)
    assert len(kept) > 2000
    assert [one[:2] for one in kept] == [one[:2] for one in forgotten]
    for one, other in zip(kept, forgotten, strict=True):
        assert one[2] == pytest.approx(other[2], abs=0.002)


def test_most_blocks_are_laid_out_once(forgetting: pytest.MonkeyPatch) -> None:
    """The library is asked for far fewer blocks than without keeping."""
    block = import_module("weasyprint.layout.block")
    asked: list[object] = []
    lay_out = block.block_container_layout
    forgetting.setattr(
        block,
        "block_container_layout",
        lambda context, box, *given, **named: (
            asked.append(box) or lay_out(context, box, *given, **named)
        ),
    )
    write_pdf(HTML, files={})
    without = len(asked)
    asked.clear()
    forgetting.setattr(laid_blocks, "_memory_of", memory_of)
    write_pdf(HTML, files={})
    assert len(asked) < 0.7 * without


def test_few_copies_are_looked_into(monkeypatch: pytest.MonkeyPatch) -> None:
    """Most copies stand in trials alone: what is in them is never copied."""
    moved: list[object] = []
    settled: list[object] = []
    move, copied = KeptBlock.moved, KeptBlock.copied
    monkeypatch.setattr(KeptBlock, "moved", lambda kept, *at: moved.append(kept) or move(kept, *at))
    monkeypatch.setattr(
        KeptBlock,
        "copied",
        lambda kept, box, *how: settled.append(kept.result[0]) or copied(kept, box, *how),
    )
    write_pdf(HTML, files={})
    assert settled
    assert len({id(one) for one in settled}) < 0.7 * len({id(one) for one in moved})


def test_a_copy_is_moved_as_the_library_moves(monkeypatch: pytest.MonkeyPatch) -> None:
    """Copies that wait are where copies are that the library copies and moves at once, to the last
    digit, boxes that are placed later among them.
    """
    positions: list[list[tuple[str, float, float]]] = []
    layout = import_module("weasyprint.document")
    lay_out_document = layout.layout_document

    def lay_out(*given: object) -> list[object]:
        pages = list(lay_out_document(*given))
        positions.append(
            [
                (type(box).__name__, box.position_x, box.position_y)
                for page in pages
                for box in page.descendants()
            ]
        )
        return pages

    monkeypatch.setattr(layout, "layout_document", lay_out)
    write_pdf(HTML, files={})
    move = KeptBlock.moved

    def moved_at_once(kept: KeptBlock, x: float, y: float, later: list[object]) -> Laid:
        own, *others = move(kept, x, y, later)
        own.settle()
        return own, *others

    monkeypatch.setattr(KeptBlock, "moved", moved_at_once)
    write_pdf(HTML, files={})
    assert len(positions[0]) > 1000
    assert positions[0] == positions[1]


def test_all_that_a_layout_is_given_is_looked_at() -> None:
    """What the library gives to the layout of a block is known here: more would have to be in the
    key."""
    block = import_module("weasyprint.layout.block")
    assert list(inspect.signature(block.block_box_layout).parameters) == [
        "context",
        "box",
        "bottom_space",
        "skip_stack",
        "containing_block",
        "page_is_empty",
        "absolute_boxes",
        "fixed_boxes",
        "adjoining_margins",
        "first_letter_style",
        "first_line_style",
        "discard",
        "max_lines",
    ]
