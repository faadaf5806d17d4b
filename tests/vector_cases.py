"""PDF and DXF files that attack their reader or break by accident, each with what is told.

`says` is part of the message; empty where any refusal does, None where the file is read as it is.
"""

import random
import zlib
from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class VectorCase:
    """One hostile file."""

    name: str
    says: str | None
    data: bytes


SQUARE = b"20 20 300 400 re S\n"


def pdf(
    content: bytes = SQUARE,
    *,
    page: bytes = b"",
    box: bytes = b"[0 0 600 800]",
    filters: bytes = b"",
    objects: dict[int, bytes] | None = None,
    root: bytes = b"",
    pages: bytes = b"/Kids [3 0 R] /Count 1",
) -> bytes:
    """A PDF of one page with this content; `objects` are more of them, from number 5."""
    stream = b"<< /Length %d %s >>\nstream\n%s\nendstream" % (len(content), filters, content)
    bodies = {
        1: b"<< /Type /Catalog /Pages 2 0 R %s >>" % root,
        2: b"<< /Type /Pages %s >>" % pages,
        3: b"<< /Type /Page /Parent 2 0 R /MediaBox %s /Contents 4 0 R %s >>" % (box, page),
        4: stream,
        **(objects or {}),
    }
    out, places = b"%PDF-1.7\n", {}
    for number, body in sorted(bodies.items()):
        places[number] = len(out)
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    start = len(out)
    out += b"xref\n0 1\n0000000000 65535 f \n"
    for number in sorted(places):
        out += b"%d 1\n%010d 00000 n \n" % (number, places[number])
    size = max(places) + 1
    return out + b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (size, start)


def packed(data: bytes, name: bytes = b"/FlateDecode") -> dict[str, bytes]:
    """Content that is packed with zlib."""
    return {"content": zlib.compress(data, 9), "filters": b"/Filter " + name}


def form(content: bytes, resources: bytes = b"") -> bytes:
    """A form XObject."""
    head = b"/Type /XObject /Subtype /Form /BBox [0 0 600 800] /Resources << %s >>" % resources
    return b"<< %s /Length %d >>\nstream\n%s\nendstream" % (head, len(content), content)


def pdf_cases() -> Iterator[VectorCase]:
    """PDF files."""
    good = pdf()
    chance = random.Random(5)
    line = b"1 1 m 2 2 l S\n"
    forms = b"/Resources << /XObject << /F 5 0 R >> >>"
    inner = {n: form(b"/F Do " * 10, b"/XObject << /F %d 0 R >>" % (n + 1)) for n in range(5, 12)}
    spread = {**inner, 12: form(line)}
    cases: dict[str, tuple[str | None, bytes]] = {
        "empty": ("", b""),
        "begins-only": ("damaged", b"%PDF-1.7\n"),
        "words": ("", b"%PDF-1.7 and no more of it"),
        "cut-in-half": ("", good[: len(good) // 2]),
        "no-table": ("", good[: good.index(b"xref")]),
        "zeros": ("", b"%PDF-1.7\n" + bytes(100_000)),
        "noise": ("", b"%PDF-1.7\n" + chance.randbytes(100_000)),
        "no-pages": ("", pdf(pages=b"/Kids [] /Count 0")),
        "pages-of-themselves": ("", pdf(pages=b"/Kids [2 0 R] /Count 1")),
        "thousand-pages": ("at most 200", pdf(pages=b"/Kids [%s] /Count 900" % (b"3 0 R " * 900))),
        "no-box": (None, pdf(box=b"null")),
        "box-of-words": (None, pdf(box=b"[(a) (b) (c) (d)]")),
        "box-of-nothing": ("no size", pdf(box=b"[5 5 5 5]")),
        "box-without-end": ("", pdf(box=b"[0 0 1e30 1e30]", content=b"0 0 1e30 1e30 re S")),
        "no-content": ("no line", pdf(content=b"")),
        "words-only": ("words alone", pdf(content=b"BT (cut here) Tj ET")),
        "bomb": ("more than", pdf(**packed(b"0 0 m 1 1 l S\n" * 2_000_000))),
        "bomb-twice": ("packed in a way", pdf(**{**packed(zlib.compress(bytes(10**8), 9)), "filters": b"/Filter [/FlateDecode /FlateDecode]"})),
        "filter-unknown": ("packed with JPXDecode", pdf(content=b"x", filters=b"/Filter /JPXDecode")),
        "filter-damaged": ("", pdf(content=b"x\x9c123", filters=b"/Filter /FlateDecode")),
        "filter-runs": ("packed in a way", pdf(content=b"x", filters=b"/Filter /RunLengthDecode")),
        "filter-many": ("", pdf(content=b"x", filters=b"/Filter [%s]" % (b"/ASCIIHexDecode " * 50))),
        "million-lines": ("more than", pdf(**packed(line * 100_000))),
        "million-numbers": (None, pdf(content=SQUARE + b"1 " * 150_000 + b"S")),
        "text-never-closed": (None, pdf(content=SQUARE + b"(" * 200_000)),
        "arrays-never-closed": (None, pdf(content=SQUARE + b"[" * 150_000)),
        "lists-never-closed": (None, pdf(content=SQUARE + b"<<" * 150_000)),
        "picture-never-closed": ("no end", pdf(content=SQUARE + b"BI /W 1 ID " + b"x" * 100_000)),
        "saved-without-end": (None, pdf(content=SQUARE + b"q " * 90_000)),
        "brought-back-without-end": (None, pdf(content=SQUARE + b"Q " * 90_000)),
        "marks-without-end": (None, pdf(content=SQUARE + b"/A BMC " * 50_000)),
        "grows-without-end": ("leads more than", pdf(content=b"9 0 0 9 0 0 cm " * 500 + SQUARE)),
        "shrinks-to-nothing": ("", pdf(content=b"0 0 0 0 0 0 cm " + SQUARE)),
        "numbers-too-large": (None, pdf(content=b"0 0 m %s 1 l S" % (b"9" * 400))),
        "numbers-odd": ("no line", pdf(content=b"-- m 1..2 +-3 l nan inf re S")),
        "operands-missing": (None, pdf(content=b"m l c v y re 1 l 1 2 3 c S " + SQUARE)),
        "form-in-itself": ("forms inside forms", pdf(content=SQUARE + b"/F Do", page=forms, objects={5: form(b"/F Do", b"/XObject << /F 5 0 R >>")})),
        "forms-multiply": ("more than", pdf(content=b"/F Do", page=forms, objects=spread)),
        "form-without-matrix": (None, pdf(content=SQUARE + b"/F Do", page=forms, objects={5: form(line).replace(b"/BBox", b"/Matrix [1 2] /BBox")})),
        "form-not-there": (None, pdf(content=SQUARE + b"/F Do")),
        "layer-odd": (None, pdf(content=b"/OC /L BDC " + SQUARE + b"EMC", page=b"/Resources << /Properties << /L << /OCGs [] >> >> >>")),
        "layers-odd": ("", pdf(root=b"/OCProperties << /D << /OFF [1 (a) /B] >> >>")),
        "state-odd": ("damaged", pdf(content=b"/G gs " + SQUARE, page=b"/Resources << /ExtGState << /G << /D [3] >> >> >>")),
        "turned-oddly": (None, pdf(page=b"/Rotate 45")),
        "unit-odd": (None, pdf(page=b"/UserUnit 1000000")),
        "dashes-without-end": (None, pdf(content=b"[%s] 0 d " % (b"1 " * 100_000) + SQUARE)),
        "locked": ("", good.replace(b"/Root", b"/Encrypt << /Filter /Standard /V 9 >> /Root")),
        "length-lies": (None, good.replace(b"/Length 19", b"/Length 99999999")),
    }  # fmt: skip
    for name, (says, data) in cases.items():
        yield VectorCase(f"pdf-{name}", says, data)


def dxf(entities: str = "", *, head: str = "", blocks: str = "", tables: str = "") -> bytes:
    """A DXF of the oldest kind, which needs no more than entities."""
    return (
        f"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n{head}0\nENDSEC\n"
        f"0\nSECTION\n2\nTABLES\n{tables}0\nENDSEC\n"
        f"0\nSECTION\n2\nBLOCKS\n{blocks}0\nENDSEC\n"
        f"0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    ).encode()


LINE = "0\nLINE\n8\n0\n10\n0\n20\n0\n11\n50\n21\n80\n"
ARC = "0\nARC\n8\n0\n10\n0\n20\n0\n40\n{r}\n50\n{a}\n51\n90\n"


def block(name: str, inside: str) -> str:
    """A block with entities in it."""
    return f"0\nBLOCK\n8\n0\n2\n{name}\n70\n0\n10\n0\n20\n0\n30\n0\n{inside}0\nENDBLK\n8\n0\n"


def insert(name: str, more: str = "") -> str:
    """A block put somewhere."""
    return f"0\nINSERT\n8\n0\n2\n{name}\n10\n0\n20\n0\n{more}"


def dxf_cases() -> Iterator[VectorCase]:
    """DXF files."""
    chance = random.Random(6)
    good = dxf(LINE)
    nest = "".join(block(f"B{n}", insert(f"B{n + 1}") * 20) for n in range(7)) + block("B7", LINE)
    spline = "0\nSPLINE\n8\n0\n70\n8\n71\n{degree}\n72\n{knots}\n73\n{points}\n"
    bulges = "".join(f"0\nVERTEX\n8\n0\n10\n{n}\n20\n0\n42\n{'9' * 300}\n" for n in range(9))
    cases: dict[str, tuple[str | None, bytes]] = {
        "empty": ("no DXF", b""),
        "words": ("no DXF", b"cut here\n" * 100),
        "cut-in-half": ("", good[: len(good) // 2]),
        "noise": ("no DXF", chance.randbytes(50_000)),
        "zeros": ("no DXF", bytes(100_000)),
        "binary": ("binary kind", b"AutoCAD Binary DXF\r\n\x1a\x00" + bytes(100)),
        "other-format": (".dwg", b"AC1027" + bytes(100)),
        "no-entities": ("no line", dxf()),
        "section-never-closed": ("", good.replace(b"0\nENDSEC\n0\nEOF\n", b"")),
        "codes-of-words": ("damaged", good.replace(b"10\n0\n", b"ten\n0\n")),
        "numbers-of-words": ("damaged", good.replace(b"11\n50", b"11\nfifty")),
        "numbers-infinite": ("", good.replace(b"11\n50", b"11\ninf")),
        "numbers-none": ("", good.replace(b"11\n50", b"11\nnan")),
        "numbers-huge": ("", good.replace(b"11\n50", b"11\n1e300")),
        "million-lines": ("more than 12000 things", dxf(LINE * 20_000)),
        "large": ("larger than", dxf("999\n" + "x" * 9_000_000 + "\n" + LINE)),
        "blocks-multiply": ("blocks taken apart", dxf(insert("B0"), blocks=nest)),
        "block-in-itself": ("", dxf(insert("B"), blocks=block("B", insert("B")))),
        "blocks-in-a-circle": ("", dxf(insert("A"), blocks=block("A", insert("B")) + block("B", insert("A")))),
        "block-not-there": ("damaged", dxf(insert("nothing"))),
        "block-without-size": ("", dxf(insert("B", "41\n0\n42\n0\n43\n0\n"), blocks=block("B", LINE))),
        "block-put-a-million-times": ("more than", dxf(insert("B", "70\n1000\n71\n1000\n44\n1\n45\n1\n"), blocks=block("B", LINE))),
        "block-put-minus-times": ("", dxf(insert("B", "70\n-5\n71\n-5\n") + "", blocks=block("B", ""))),
        "circle-without-radius": ("no line", dxf("0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n0\n")),
        "arc-infinite": ("", dxf(ARC.format(r="1e308", a=0))),
        "arc-of-many-turns": (None, dxf(ARC.format(r=50, a=1e9))),
        "spline-of-high-degree": ("damaged", dxf(spline.format(degree=500, knots=0, points=0))),
        "spline-without-points": ("damaged", dxf(spline.format(degree=3, knots=0, points=0))),
        "spline-of-lies": ("damaged", dxf(spline.format(degree=3, knots=10**9, points=10**9))),
        "bulge-infinite": ("out of all proportion", dxf("0\nPOLYLINE\n8\n0\n66\n1\n70\n1\n" + bulges + "0\nSEQEND\n8\n0\n")),
        "polyline-never-closed": ("", dxf("0\nPOLYLINE\n8\n0\n66\n1\n" + "0\nVERTEX\n8\n0\n10\n1\n20\n1\n" * 500)),
        "line-out-of-plane": ("out of the plane", dxf(LINE + "31\n40\n")),
        "circle-standing": ("stands up", dxf("0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n9\n210\n1\n220\n0\n230\n0\n")),
        "solids-only": ("", dxf("0\nACIS\n8\n0\n1\n" + "x" * 200_000 + "\n")),
        "text-only": ("words alone", dxf("0\nTEXT\n8\n0\n10\n0\n20\n0\n40\n5\n1\ncut here\n")),
        "unit-of-stars": ("no unit for foam", good.replace(b"70\n4\n", b"70\n19\n")),
        "unit-not-known": ("does not say in which unit", good.replace(b"70\n4\n", b"70\n99\n")),
        "unit-of-words": ("damaged", good.replace(b"70\n4\n", b"70\nmm\n")),
        "layer-with-words": (None, good.replace(b"8\n0\n10", b"8\n<script>\x1b[2J\n10")),
        "deep-comments": (None, dxf("999\nx\n" * 100_000 + LINE)),
    }  # fmt: skip
    for name, (says, data) in cases.items():
        yield VectorCase(f"dxf-{name}", says, data)


def cases() -> list[VectorCase]:
    """All of them, in a fixed order."""
    return [*pdf_cases(), *dxf_cases()]
