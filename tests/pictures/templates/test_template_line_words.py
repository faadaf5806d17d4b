"""Every bevel, fold and inner line of a template says what it is, however little room there is."""

from dataclasses import replace
from itertools import pairwise

import pytest
from layout.template_samples import disc, half_plate, pair, piece, rectangle, ridge, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import elements, words
from pictures.english import draw_template_pages, line_words, plan_nest, plan_sheet
from pictures.picture_samples import sample_kit as seamed_kit
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.ops import unary_union

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import BevelledEdge, InnerLine, Line, LineKind, MatchMark
from guidegen.geometry.pieces.records import GrooveCut, Kit, Piece
from guidegen.layout.paper.nested_templates import lay_out_nested
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pieces.seam_words import seam_letters
from guidegen.pictures.templates.lines import cut_runs, frame_of
from guidegen.pictures.templates.symbols import GrooveSymbol, HandSymbol, Symbol
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH


def strip(width: float, back: float, length: float = 180.0):
    """A strip whose long edges are bevelled inward at 45°, as far back as the foam is thick."""
    bevels = (
        BevelledEdge("lower", 45, "inward", (Line((0, back), (length, back)),)),
        BevelledEdge("upper", 45, "inward", (Line((length, width - back), (0, width - back)),)),
    )
    return replace(rectangle(length, width), bevels=bevels)


def studs():
    """Small discs, drawn several times side by side, their rim bevelled outward."""
    bevel = BevelledEdge("rim-0", 30, "outward", disc(6).edges[0].run)
    return replace(disc(9), bevels=(bevel,))


def notes_of(*pieces: Piece, paper: str = "a4"):
    """Template, sheet by sheet: its plan and what its pages say, moved to the sheet."""
    templates = lay_out_templates(Kit("k", "M", (), (), pieces, (), ()), paper)
    for sheet in templates.sheets:
        plan = plan_sheet(templates, sheet, {}, "Lamp kit · size M")
        for one in plan.pages:
            for note in one.notes:
                yield sheet, one, note


NARROW = {
    "wide": strip(40, 10),
    "narrow": strip(16, 6),
    "very narrow": strip(10, 4),
    "ridge": ridge(),
    "studs": studs(),
}


@pytest.mark.parametrize("name", NARROW)
def test_every_bevel_has_its_words_and_its_section(name):
    """As many notes with angle, direction and a section as there are bevelled edges."""
    shape = NARROW[name]
    copies = 40 if name == "studs" else 1
    told = [
        note
        for _, _, note in notes_of(piece("keel", "C1", "Keel strip", shape, copies=copies))
        if isinstance(note.block.symbol, Symbol)
    ]
    assert len(told) == len(shape.bevels)
    for note, bevel in zip(told, shape.bevels, strict=True):
        words = f"bevel {bevel.angle:g}° {bevel.direction}"
        assert note.block.lines[0].text.endswith(words)
        assert note.block.symbol.angle == bevel.angle
        assert note.block.symbol.inward == (bevel.direction == "inward")


def test_bevels_are_told_on_full_sheets():
    """Where a strip lies at the rim of the page, a number on the far face stands for the words."""
    strips = [
        piece(f"k{n}", f"C{n}", f"Keel {n}", shape) for n, shape in enumerate(NARROW.values())
    ]
    found = list(notes_of(*strips, *crowded()))
    bevels = sum(len(shape.bevels) for shape in NARROW.values())
    assert sum(isinstance(note.block.symbol, Symbol) for _, _, note in found) == bevels
    numbers = [entry for entry in found if entry[2].block.lines[0].text in {"1", "2"}]
    assert numbers
    for sheet, one, note in numbers:
        box = Polygon(note.ring(0))
        for drawn in sheet.drawn:
            frame = frame_of(drawn, -one.page.x, -one.page.y)
            for run in cut_runs(drawn.piece):
                assert not box.intersects(LineString(flatten(frame.run(run), 0.05)))


def test_words_outside_stand_at_the_edge_that_they_are_about():
    """On a strip of 16 mm each bevel is told beside its own edge, or by a leader to it."""
    found = [(*entry,) for entry in notes_of(piece("keel", "C1", "Keel strip", strip(16, 6)))]
    sheet = found[0][0]
    (drawn,) = sheet.drawn
    told = [(one, note) for _, one, note in found if isinstance(note.block.symbol, Symbol)]
    for (one, note), bevel in zip(told, drawn.piece.template.bevels, strict=True):
        frame = frame_of(drawn, -one.page.x, -one.page.y)
        edges = {
            edge.name: LineString(flatten(frame.run(edge.run), 0.05))
            for edge in drawn.piece.template.edges
        }
        place = LineString(note.leader[1:] * 2) if note.leader else Polygon(note.ring(0))
        nearest = min(("lower", "upper"), key=lambda name: edges[name].distance(place))
        assert nearest == bevel.edge
        assert edges[nearest].distance(place) < 4
        assert not Polygon(note.ring(0)).intersects(
            Polygon(flatten(frame.run(drawn.piece.template.ring()), 0.05))
        )


def crowded():
    """Strips across which lines have words that go neither inside nor beside."""
    line = InnerLine(LineKind.PLACEMENT, (Line((165, 0), (165, 19)),), "mouth of the lamp bracket")
    shape = replace(rectangle(180, 19), lines=(line,))
    return [piece(f"s{n}", f"S{n}", f"Strip {n}", shape) for n in range(1, 12)]


def test_every_strip_of_a_full_sheet_tells_its_line():
    """Each of eleven strips side by side says what its line is for."""
    texts = [note.block.lines[0].text for _, _, note in notes_of(*crowded())]
    words = "placement: mouth of the lamp bracket"
    assert sum(text.endswith(words) for text in texts) == 11


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_leader_crosses_a_cut_line(paper):
    """Leaders end at the cut line that they lead to, and pass no other on their way."""
    kits = (sample_kit().pieces, tuple(crowded()), (piece("k", "C1", "Keel", strip(10, 4)),))
    count = 0
    for pieces in kits:
        for sheet, one, note in notes_of(*pieces, paper=paper):
            if note.leader is None:
                continue
            count += 1
            (x0, y0), (x1, y1) = note.leader
            leader = LineString([(x0, y0), (x1, y1)])
            short = leader.interpolate(leader.length - 0.3) if leader.length > 0.3 else None
            cut = MultiLineString(
                [
                    flatten(frame_of(drawn, -one.page.x, -one.page.y).run(run), 0.05)
                    for drawn in sheet.drawn
                    for run in cut_runs(drawn.piece)
                ]
            )
            assert short is None or not LineString([(x0, y0), short]).crosses(cut), note
    assert count > 5


def test_all_lines_of_the_sample_are_told():
    """Every line of every template that is not a match mark has its words on one of the pages."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4")
    for sheet in templates.sheets:
        texts = [
            line.text
            for one in plan_sheet(templates, sheet, {}, "").pages
            for note in one.notes
            for line in note.block.lines
        ]
        for drawn in {each.piece.key: each for each in sheet.drawn}.values():
            for line in line_words(drawn.piece):
                text = line.block.lines[0].text
                assert not line.must or any(told.endswith(text) for told in texts), text


def test_words_without_room_stand_in_the_key():
    """Nothing is left out in silence: what no page has room for, the key says with its code."""
    lines = tuple(
        InnerLine(LineKind.PLACEMENT, (Line((1, y), (189, y)),), f"row {y} begins here")
        for y in range(3, 245, 3)
    )
    sheet = replace(rectangle(190, 247), lines=lines)
    kit = Kit("k", "M", (), (), (piece("grid", "G1", "Grid", sheet),), (), ())
    templates = lay_out_templates(kit, "a4")
    plan = plan_sheet(templates, templates.sheets[0], {}, "foot")
    said = [line.text for one in plan.pages for note in one.notes for line in note.block.lines]
    assert plan.untold
    for line in lines:
        untold = [words for code, words in plan.untold if code == "G1" and line.label in words]
        assert untold or any(line.label in text for text in said), line.label
    pages = draw_template_pages(templates, kit, HEAD)
    key = " ".join(word for page in pages[: -len(templates.pages)] for word in words(page))
    for code, text in plan.untold:
        assert code in key and text in key


def test_match_marks_have_letters_that_the_key_explains():
    """Letters are those of the steps; ids of seams, which only the author knows, appear nowhere."""
    kit = seamed_kit()
    mark = MatchMark("left", "cuff-back", (60.0, 20.0), (1.0, 0.0), 1)
    marked = [
        replace(one, template=replace(one.template, marks=(mark,))) if one.part == "cuff" else one
        for one in kit.pieces
    ]
    kit = replace(kit, pieces=tuple(marked))
    assert seam_letters(kit) == {"cuff-back": "a", "ridge": "b"}
    templates = lay_out_templates(kit, "a4")
    pages = draw_template_pages(templates, kit, HEAD)
    said = [word for page in pages for word in words(page)]
    assert "cuff-back" not in " ".join(said)
    assert "a" in said and "Match marks" in said
    assert any(word.replace("\xa0", " ").endswith("210 mm") for word in said)
    many = replace(kit, seams=tuple(replace(kit.seams[0], id=f"s{n}") for n in range(53)))
    assert [*seam_letters(many).values()][25:29] == ["z", "aa", "ab", "ac"]
    assert len(set(seam_letters(many).values())) == 53


def test_words_do_not_lie_on_each_other():
    """Notes outside keep off one another and off every template."""
    pages: dict[int, list[Polygon]] = {}
    for _, one, note in notes_of(*crowded(), piece("k", "C1", "Keel", strip(10, 4))):
        pages.setdefault(one.page.number, []).append(Polygon(note.ring(0)))
    for boxes in pages.values():
        assert unary_union(boxes).area == pytest.approx(sum(box.area for box in boxes))
        assert all(first != second for first, second in pairwise(boxes))


def symbols_of(*pieces: Piece):
    """The small pictures beside words, in the order of the notes."""
    return [note.block.symbol for _, _, note in notes_of(*pieces) if note.block.symbol]


def test_hands_are_told_apart_in_a_picture():
    """A pair, several as drawn and a half on the fold have different pictures; one piece none."""
    plain = rectangle(90, 70)
    assert symbols_of(piece("p", "P", "Plate", plain)) == []
    (both,) = symbols_of(*pair("p", "P", "Plate", plain))
    (alike,) = symbols_of(piece("p", "P", "Plate", plain, copies=2))
    (half, *_) = symbols_of(piece("p", "P", "Plate", half_plate(), fold="middle"))
    assert [(s.flipped, s.joined) for s in (both, alike, half)] == [
        (True, False),
        (False, False),
        (True, True),
    ]


def test_hand_pictures_are_handed():
    """The dashed outline is the solid one mirrored; a pair that looked alike would say nothing."""
    strokes: dict[bool, list[tuple[str, float]]] = {}
    for flipped in (True, False):
        canvas = Canvas(30, 20, "t", "d", ENGLISH)
        HandSymbol(flipped).draw(canvas, lambda u, v: (u + 10, v + 10))
        paths = elements(svg_file(canvas.drawing()), "path", "")
        strokes[flipped] = [(path.get("d"), path.get("stroke-dasharray")) for path in paths]
    (first, dashed), (same, second) = strokes[True], strokes[False]
    assert first[0] == same[0] and dashed[0] != second[0]
    assert dashed[1] and not second[1] and not first[1]


def test_grooves_carry_their_section():
    """The small section has the groove's angle and its depth as a share of the foam."""
    cut = GrooveCut(40, 8, 2, 5.8, (Line((-80, 0), (80, 0)),))
    found = symbols_of(piece("d", "D", "Disc", disc(80, groove=True), grooves=(cut,)))
    assert found == [GrooveSymbol(40, 0.8)]


def test_words_of_a_groove_stand_beside_its_rim():
    """Between rims 5.8 mm apart there is no room: the words go along the first one, told once."""
    cut = GrooveCut(40, 8, 2, 5.8, (Line((-80, 0), (80, 0)),))
    shown = piece("d", "D", "Disc", disc(80, groove=True), grooves=(cut,))
    (words,) = line_words(shown, ENGLISH)
    assert words.run == shown.template.lines[1].run
    assert words.run[0].start[1] == -2.9
    ((note,),) = [
        [note for note in found.notes if "groove" in note.block.lines[0].text]
        for _, found, _ in [next(iter(notes_of(shown)))]
    ]
    assert note.angle == 0


def test_nested_sizes_tell_their_bevels_once():
    """What is true of all sizes stands once beside the largest; what differs is left out."""
    longs = (140.0, 160.0, 180.0)
    kits = [
        Kit("k", name, (), (), (piece("keel", "C1", "Keel", strip(40, 10, long)),), (), ())
        for name, long in zip("SML", longs, strict=True)
    ]
    sets = lay_out_nested(kits, "a4")
    sheets = [templates.sheets[0] for templates in sets]
    plan = plan_nest(sets[0], sheets, ["S", "M", "L"], {}, "foot")
    bevels = [
        note
        for one in plan.pages
        for note in one.notes
        if note.block.lines[0].text.endswith("bevel 45° inward")
    ]
    assert len(bevels) == 2
    assert all(isinstance(note.block.symbol, Symbol) for note in bevels)
