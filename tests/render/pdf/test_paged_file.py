"""Files that are written in two steps, beside what WeasyPrint writes, read by pikepdf (qpdf)."""

import io
from dataclasses import dataclass

import pikepdf
import pydyf
import pytest
import weasyprint

from guidegen.render.pdf import paged_file as module
from guidegen.render.pdf.completed_tags import complete_tags
from guidegen.render.pdf.html_pdf import lay_out, write_pdf
from guidegen.render.pdf.paged_file import PagedFile, bytes_of

PAGE = """<html lang="en"><head><title>Tides (high)</title></head><body>
<h1>Tides</h1><p>See <a href="#two">the tables</a> of <a href="https://guide.invalid/">all</a>.</p>
<svg width="40" height="20" opacity="0.5"><title>A line</title>
<text x="20" y="10" text-anchor="middle">Low</text></svg>
<table id="two"><thead><tr><th>Day<th>Hour</tr></thead>
<tbody><tr><th>Monday<td>3</tr><tr><th>Tuesday<td>4</tr></tbody></table>
<p style="break-before: page">Later</p></body></html>"""


def compared(data: bytes) -> bytes:
    """A file as qpdf writes it whoever made it: objects in order, nothing packed, no name."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        pdf.save(
            out,
            static_id=True,
            stream_decode_level=pikepdf.StreamDecodeLevel.generalized,
            object_stream_mode=pikepdf.ObjectStreamMode.disable,
            compress_streams=False,
        )
    return out.getvalue()


@dataclass
class Element:
    """An element of the structure tree."""

    kind: str
    scope: str
    parent: str


def elements(data: bytes) -> list[Element]:
    """All elements of a file."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        return [
            Element(str(one.S), str(one.get("/A", {}).get("/Scope", "")), str(one.P.get("/S", "")))
            for one in pdf.objects
            if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/StructElem"
        ]


@pytest.mark.filterwarnings("ignore:.*sRGB2014:")  # the library leaves its profile open
@pytest.mark.parametrize("packed", [1000, 7])
@pytest.mark.parametrize("variant", [None, "pdf/ua-1", "pdf/a-3u"])
def test_files_hold_what_the_library_writes(
    variant: str | None, packed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same objects, however many of them are packed together; tags are completed in both."""
    monkeypatch.setattr(module, "PACKED", packed)
    ours = write_pdf(PAGE, files={}, variant=variant)

    def finish(_: object, pdf: pydyf.PDF) -> None:
        if variant == "pdf/ua-1":
            complete_tags(pdf)

    document = weasyprint.HTML(string=PAGE)
    theirs = document.write_pdf(
        finisher=finish,
        pdf_variant=variant,
        pdf_identifier=b"guidegen",
        pdf_tags=variant == "pdf/ua-1",
    )
    assert compared(ours) == compared(theirs)


def test_papers_differ_in_their_boxes_alone() -> None:
    """With the same boxes, files for two papers are the same; each has a name of its own."""
    drawn = lay_out(PAGE, files={}, variant="pdf/ua-1").draw()
    pages, names = set(), set()
    for data in (drawn.data, drawn.on_paper(210, 297), drawn.on_paper(215.9, 279.4)):
        out = io.BytesIO()
        with pikepdf.open(io.BytesIO(data)) as pdf:
            names.add(bytes(pdf.trailer.ID[1]))
            for page in pdf.pages:
                for name in {f"/{box}" for box in module.BOXES} & set(page.obj.keys()):
                    page.obj[name] = pikepdf.Array([0, 0, 100, 100])
            pdf.save(out, static_id=True)
        pages.add(out.getvalue())
    assert len(pages) == 1
    assert len(names) == 3


def test_it_tells_its_pages() -> None:
    """Two pages, counted without reading the file."""
    assert lay_out(PAGE, files={}).draw().pages == 2


def test_header_cells_tell_what_they_head() -> None:
    """Cells of a table's head are for columns, others for rows (ISO 14289-1:2014, 7.5)."""
    cells = elements(write_pdf(PAGE, files={}, variant="pdf/ua-1"))
    assert [one.scope for one in cells if one.kind == "/TH"] == ["/Column"] * 2 + ["/Row"] * 2
    assert not any(one.scope for one in cells if one.kind != "/TH")


def test_links_are_printed() -> None:
    """All annotations have the print flag, bit 3 (ISO 14289-1:2014, 7.18.1)."""
    with pikepdf.open(io.BytesIO(write_pdf(PAGE, files={}, variant="pdf/ua-1"))) as pdf:
        notes = [note for page in pdf.pages for note in page.get("/Annots", [])]
        assert len(notes) == 2
        assert all(int(note.F) & 4 for note in notes)


@pytest.mark.parametrize(
    "item",
    [
        b"q",
        "/Name",
        7,
        -2.0,
        0.125,
        pydyf.Array([1, 0.5, "/A", pydyf.Array([])]),
        pydyf.Dictionary({"A": pydyf.Dictionary({"B": 1.5}), "C": pydyf.String("(ä)")}),
        pydyf.String("plain (text)"),
    ],
)
def test_items_are_written_as_the_library_writes_them(item: object) -> None:
    """Names, numbers, arrays, dictionaries and strings."""
    assert bytes_of(item) == pydyf._to_bytes(item)


def test_a_file_is_written_from_its_objects_alone() -> None:
    """The same objects give the same bytes."""

    def made() -> bytes:
        pdf = pydyf.PDF()
        pdf.info["Title"] = pydyf.String("T")
        pdf.add_page(pydyf.Dictionary({"Type": "/Page", "MediaBox": pydyf.Array([0, 0, 9, 9])}))
        return PagedFile(pdf, None).data

    assert made() == made()
