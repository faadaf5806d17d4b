"""Views: what pages and booklets show of a guide."""

from dataclasses import replace

import pytest
from render.page_samples import downloads, make_materials, sample

from guidegen.buildfile.derive.caution_places import CautionPlaces, caution_places
from guidegen.buildfile.records.fastening import PointKind
from guidegen.geometry.pieces.records import BeltRound, EdgeRef, FittedStrap, PointRow, RowPoint
from guidegen.layout.records import CutLength, LengthPiece, LengthPlan
from guidegen.pictures.pen.records import Drawing
from guidegen.quantities import SPACE
from guidegen.render.text.links import DownloadInfo, SiteLinks, described_things
from guidegen.render.views.cautions import all_cautions, step_cautions_view, waived_cautions
from guidegen.render.views.counts import label_rows, part_words, piece_words, whole_words
from guidegen.render.views.downloads import all_downloads, size_downloads
from guidegen.render.views.guide import change_views, facts_view
from guidegen.render.views.materials import materials_view
from guidegen.render.views.pieces import cut_plan_views, piece_views, stack_views
from guidegen.render.views.scene import Scene, drawing, number_runs, step_links, title_block
from guidegen.render.views.steps import stage_views, step_view
from guidegen.words import Foreign

NO_CAUTIONS = CautionPlaces((), (), ())


def scene():
    """The sample guide as seen from its first page."""
    content, plan, pictures = sample()
    links = SiteLinks("cuff/index.html", described_things(content, plan), "cuff")
    return Scene(content, plan, pictures, links)


def plain(text):
    """Text with ordinary spaces."""
    return text.replace(SPACE, " ")


def places_of(name):
    """Where the cautions of a step of the sample stand."""
    here = scene()
    steps = here.guide.steps
    number = [step.id for step in steps].index(name)
    return step_cautions_view(here, caution_places(steps, here.content.stock)[number])


def test_cautions_of_a_step_stand_in_three_forms():
    """DANGER is in full in the step, the others are one line each, gravest first; the panels before
    the step have what the lines shorten, and the danger too."""
    view = places_of("glue")
    assert [caution.word for caution in view.full] == ["DANGER"]
    assert [caution.word for caution in view.lines] == ["WARNING", "NOTICE"]
    assert all(caution.short for caution in view.lines)
    assert {c.id for c in view.panels} == {c.id for c in (*view.full, *view.lines)}


def test_all_cautions_name_their_steps_and_what_brings_them():
    """The safety page has each caution once, with steps, sources and official words."""
    views = {caution.id: caution for caution in all_cautions(scene())}
    assert set(views) == {"vapour", "skin", "blade", "waste"}
    assert [step.words for step in views["vapour"].steps] == ["2"]
    assert views["vapour"].brought_by == "Contact cement"
    assert views["waste"].brought_by == ""
    h225, unknown = views["vapour"].statements
    assert h225.text == "Highly flammable liquid and vapour."
    assert (unknown.code, unknown.text) == ("X999", "")
    assert [item.words for item in views["blade"].protection] == ["Safety goggles"]
    assert not views["waste"].alert


def test_waived_cautions_keep_their_reason():
    """What an author leaves out is told with step and reason."""
    (waived,) = waived_cautions(scene())
    assert (waived.title, waived.step.words, waived.reason) == (
        "Smell of new foam", "2", "No foam is heated.",
    )  # fmt: skip


def test_step_shows_what_is_at_hand():
    """A step lists its pieces, tools, materials, joins and people."""
    cut, glue, strap = (step_view(scene(), step, NO_CAUTIONS) for step in scene().guide.steps)
    assert plain(cut.all_pieces) == "All 10 pieces and 2 spare"
    assert [item.words for item in cut.tools] == ["Craft knife"]
    assert [item.words for item in cut.protection] == ["Safety goggles"]
    assert glue.joins == ("Seam: A left to A right", "Layers: Badge on cuff")
    assert [(item.words, item.note) for item in glue.materials] == [
        ("Contact cement", "both faces")
    ]
    assert (plain(glue.hands), plain(glue.wait)) == ("2 people", "10 min")
    assert plain(strap.materials[0].note) == "2 × 300 mm"
    assert strap.picture.src == "guide.files/strap%20photo.png.1.png"


def test_what_was_counted_before_says_so():
    """A material that is only at hand again says that it was counted; one that is used as well
    does not."""
    step = scene().guide.steps[1]
    (use,) = step.uses
    again = use.model_copy(update={"counted": False, "note": None})
    only = step_view(scene(), step.model_copy(update={"uses": (again,)}), NO_CAUTIONS)
    assert [(item.words, item.note) for item in only.materials] == [
        ("Contact cement", "counted before")
    ]
    both = step_view(scene(), step.model_copy(update={"uses": (use, again)}), NO_CAUTIONS)
    assert [item.note for item in both.materials] == ["both faces"]


def test_pieces_at_hand_are_grouped_by_part():
    """Left and right of a part stand together; more than one of a label is counted."""
    guide_scene = scene()
    step = guide_scene.guide.steps[0].model_copy(update={"parts": ("cuff",)})
    (cuff,) = step_view(guide_scene, step, NO_CAUTIONS).pieces
    assert ([label.words for label in cuff.labels], cuff.name, cuff.count) == (
        ["A-L", "A-R"], "Cuff", "",
    )  # fmt: skip
    step = guide_scene.guide.steps[0].model_copy(update={"parts": ("badge",)})
    (badge,) = step_view(guide_scene, step, NO_CAUTIONS).pieces
    assert plain(badge.count) == "8 times and 2 spare"


def test_many_parts_are_said_by_the_ends_of_a_row_on_paper():
    """Labels in a row without a gap in the kit are one entry; A10 comes after A9, not after A1."""
    labels = {f"p{n}": f"A{n}" for n in (10, 1, 2, 3, 5, 9)} | {"q1": "B1", "q2": "B2"}
    assert label_rows(labels, labels) == [("p1", "p2", "p3", "p5", "p9", "p10"), ("q1",), ("q2",)]
    # A3 lies elsewhere: what stands on both sides of it is no row.
    assert label_rows(labels, labels.keys() - {"p3"}) == [
        ("p1",), ("p2",), ("p5", "p9", "p10"), ("q1",), ("q2",),
    ]  # fmt: skip
    paper = replace(scene(), paper=True)
    step = paper.guide.steps[0].model_copy(update={"parts": ("badge",) * 12})
    (row,) = step_view(paper, step, NO_CAUTIONS).pieces
    assert (len(row.labels), row.name, row.count) == (1, "", "")


def test_stages_begin_where_the_stage_changes():
    """Steps are grouped in the author's order; a stage that comes again gets its own id."""
    stages = stage_views(scene())
    assert [(stage.id, stage.name) for stage in stages] == [
        ("stage-cutting", "Cutting"), ("stage-gluing", "Gluing"), ("stage-strapping", "Strapping"),
    ]  # fmt: skip
    _content, plan, _ = sample()
    steps = (*plan.file.guide.steps, plan.file.guide.steps[0].model_copy(update={"id": "more"}))
    guide = plan.file.guide.model_copy(update={"steps": steps})
    again = replace(scene(), plan=replace(plan, file=replace(plan.file, guide=guide)))
    assert [stage.id for stage in stage_views(again)][-1] == "stage-cutting-2"


@pytest.mark.parametrize(
    ("numbers", "runs"),
    [([], []), ([4], [[4]]), ([1, 2], [[1], [2]]), ([1, 2, 3, 5, 6], [[1, 2, 3], [5], [6]])],
)
def test_runs_of_numbers(numbers, runs):
    """Three or more numbers in a row stand together."""
    assert number_runs(numbers) == runs


def test_steps_are_linked_by_number():
    """References to steps are in order, each once; unknown ids are left out."""
    links = step_links(scene(), ("strap", "cut", "cut", "gone"))
    assert [link.words for link in links] == ["1", "3"]
    (run,) = step_links(scene(), ("strap", "cut", "glue"))
    assert (run.words, run.href) == ("1–3", "steps.html#step-cut")


def test_materials_say_need_packs_and_rest():
    """A buying list has the exact figure beside packs, and what stays over."""
    view = materials_view(scene(), scene().plan.sizes[0].materials)
    foam, (cement, webbing) = view.sheets[0], view.others
    assert plain(foam.need) == "0.037 m²"
    assert foam.packs == ("1 × sheet 500 × 500 mm",)
    assert [plain(text) for text in (cement.need, cement.spread, cement.left)] == [
        "25 ml", "20 ml to 34 ml", "225 ml",
    ]  # fmt: skip
    assert plain(cement.packs[0]) == "1 × tin, 250 ml"
    assert plain(webbing.packs[0]) == "1 × 5 m"
    assert [tool.name for tool in view.protection] == ["Safety goggles"]
    assert view.protection[0].sign.alt == "Sign M004"


def test_materials_say_what_the_kit_weighs_and_what_a_script_reckons_with():
    """Foam and finished weight; of a line the most, which packs cover, and the likely figure less
    what is at hand; shop, alternative and the author's note, and the steps that use it."""
    materials = make_materials(22.0)
    line = replace(
        materials.lines[1], need=60.0, high=80.0, have=15.0, alternative="Water-based cement",
        note="Stir *well*.", shop="hardware store",
    )  # fmt: skip
    known = replace(
        materials, lines=(materials.lines[0], line), weight=120.0, finished_weight=150.0
    )
    view = materials_view(scene(), known)
    assert (plain(view.weight), plain(view.finished_weight)) == ("120 g", "150 g")
    (other,) = view.others
    assert (other.figures, other.likely) == (("65", "ml"), "45")
    assert (other.shop, other.alternative) == ("hardware store", "Water-based cement")
    assert "<em>well</em>" in other.note
    assert [shop.name for shop in view.shops][-1] == "hardware store"
    enough = materials_view(scene(), replace(known, lines=(replace(line, have=100.0),)))
    assert (enough.others[0].figures[0], enough.others[0].likely) == ("0", "0")
    for finished in (120.0, 120.9):  # no more than the foam, as far as words can tell
        assert (
            materials_view(scene(), replace(known, finished_weight=finished)).finished_weight == ""
        )
    assert materials_view(scene(), replace(known, finished_weight=121.0)).finished_weight
    assert materials_view(scene(), replace(known, weight=0.0, finished_weight=0.0)).weight == ""


def test_pieces_say_counts_and_features():
    """Counts tell hands and spares; grooves and textures are in words."""
    _content, plan, pictures = sample()
    cuff, badge = piece_views(scene(), plan.sizes[1].kit, plan.sizes[1], pictures.sizes["M"])
    assert (cuff.count, badge.count) == ("1 left + 1 right", f"8 + 2{SPACE}spare")
    assert cuff.on_fold
    assert cuff.thickness == ""
    assert plain(cuff.features[0]) == (
        "V-groove on the back: 40° wide, 3 mm deep, mouth 2.2 mm, 2 mm left"
    )
    assert badge.features == ("Texture: cross-hatch",)


def test_pieces_say_their_holes_and_what_is_worn_over_them():
    """Equal holes of several rows together, slots with both sizes; a belt at the edges under it."""
    _content, plan, pictures = sample()
    size = plan.sizes[1]
    spot = RowPoint((0.0, 0.0), (1.0, 0.0))
    part = size.kit.pieces[0].part
    rows = (
        PointRow(part, "a", PointKind.RIVET, (spot, spot), 5.0, 0.0, 20.0, halves=2),
        PointRow(part, "b", PointKind.HOLE, (spot,), 5.0, 0.0, 0.0),
        PointRow(part, "c", PointKind.SLOT, (spot,), 4.0, 27.0, 0.0, halves=2),
        PointRow(part, "d", PointKind.STUD, (spot,), 18.0, 0.0, 0.0),
        PointRow("badge", "e", PointKind.HOLE, (spot,), 3.0, 0.0, 0.0),
    )
    edges = (EdgeRef(part, "bottom"), EdgeRef(part, "left"))
    over = BeltRound(0.0, 40.0, 60.0, 75.0, edges, 900.0)
    belt = FittedStrap("belt", "Belt", 1, (), (), 0.0, 0.0, 0.0, (0.0, 0.0), pull=0.0, belt=over)
    kit = replace(size.kit, rows=rows, straps=(belt,))
    cuff, badge = piece_views(scene(), kit, size, pictures.sizes["M"])
    assert [plain(said) for said in cuff.features[1:]] == [
        "5 holes of 5 mm",
        "2 slots, 27 mm long and 4 mm wide",
        "Worn under Belt: bottom, left",
    ]
    assert [plain(said) for said in badge.features[1:]] == ["1 hole of 3 mm"]


def test_layers_add_up_from_the_body():
    """Each layer tells the sum so far, padding included."""
    _, plan, pictures = sample()
    (stack,) = stack_views(scene(), plan.kits[1], pictures.sizes["M"])
    assert [plain(layer.total) for layer in stack.layers] == ["8 mm", "13 mm"]
    assert stack.copies == "twice"


def test_cut_plans_say_what_is_proven():
    """A plan at its lower bound says that fewer sheets cannot do."""
    _, plan, pictures = sample()
    (cut,) = cut_plan_views(scene(), plan.sizes[1], pictures.sizes["M"])
    assert plain(cut.summary) == (
        "1 sheet, 15% of the foam becomes pieces. No plan can do with fewer sheets."
    )


def test_facts_cover_all_sizes():
    """Costs range over the sizes; times are those of the time line."""
    facts = facts_view(scene())
    assert plain(facts.cost) == "€19.50 to €22"
    assert (plain(facts.hands_on), plain(facts.elapsed)) == ("2 h 5 min", "2 h 15 min")
    assert plain(facts.pieces) == "10 pieces and 2 spare"


def test_changes_are_newest_first_and_name_templates():
    """A change names the templates that older prints must replace."""
    changes = change_views(scene())
    assert [change.version for change in changes] == ["1.1", "1.0"]
    assert [item.words for item in changes[0].reprint] == ["A"]


def test_downloads_stand_in_the_order_of_need():
    """Templates come first; sizes without files are left out."""
    (size,) = all_downloads(scene(), downloads())
    assert size.caption == "Size M"
    assert [(file.title, file.paper) for file in size.files] == [
        ("Template sheets", "A4"), ("Build booklet", "US Letter"), ("Materials list", ""),
    ]  # fmt: skip
    assert plain(size.files[0].pages) == "12 pages"


def test_papers_of_readers_stand_before_those_of_print_shops():
    """A set on a large roll follows the sets for home papers, whatever its name."""
    sets = {
        f"cuff/M/templates-{paper}.pdf": DownloadInfo("templates", "M", 1, paper, 1)
        for paper in ("a0", "a4", "letter")
    }
    assert [one.paper for one in size_downloads(scene(), sets, "M")] == ["A4", "US Letter", "A0"]


def test_title_block_has_the_mandatory_fields():
    """The title block holds every mandatory data field of ISO 7200:2004.

    Field list from the help pages of a drawing program that quotes the standard
    (proficad.com/help/tb/data-fields-iso-7200.htm); the standard itself was not read.
    """
    block = title_block(scene(), "Parts list", "M", "1 of 2")
    fields = (block.owner, block.number, block.date, block.sheet, block.title)
    assert fields == ("The sample loft", "cuff-M", "2026-03-04", "1 of 2", "Mooring cuff & strap")
    assert (block.approved, block.creator, block.kind) == ("B. Tester", "A. Builder", "Parts list")


def test_drawing_titles_are_their_alternatives():
    """On paper a drawing is named by its title and what it says, as they were written."""
    drawn = Drawing(20, 10, "A & B", "One <edge>.", ())
    view = drawing(replace(scene(), paper=True), drawn)
    assert view.alt == "A & B. One <edge>." and view.said == "One <edge>."


def test_lengths_are_cut_in_the_order_of_the_plan():
    """Packs that are cut alike stand together; equal cuts are counted, the longest first."""
    _, plan, _ = sample()
    pieces = (LengthPiece(0, 600, "belt"), LengthPiece(600, 200, ""), LengthPiece(800, 200, ""))
    rolls = (CutLength("roll", 1000.0, 2.0, pieces, 0.0),) * 2
    short = CutLength("end", 500.0, 1.0, (LengthPiece(0, 450, "tab"),), 50.0)
    order = LengthPlan("webbing", (*rolls, short), 5.0, 5.0, 3)
    size = plan.sizes[0]
    assert materials_view(scene(), size.materials).cut_order == ()
    view = materials_view(scene(), replace(size.materials, lengths=(order,)))
    found = [(row.material, plain(row.pack), row.cuts, plain(row.left)) for row in view.cut_order]
    cuts = ("1 × 600 mm (23 5/8 in), belt", "2 × 200 mm (7 7/8 in)")
    assert [(name, pack, tuple(map(plain, own)), left) for name, pack, own, left in found] == [
        ("Webbing, 25 mm", "2 × roll, 1 m", cuts, ""),
        ("Webbing, 25 mm", "1 × end, 500 mm", ("1 × 450 mm (17 11/16 in), tab",), "50 mm"),
    ]


def test_counts_follow_the_size():
    """A booklet counts the pieces of its size; a page for all sizes tells which size has how many.

    Spares stand beside the count, as they stand in the kit.
    """
    content, plan, pictures = sample()
    (small, medium) = plan.sizes
    pieces = tuple(
        replace(piece, copies=piece.copies + 2) if piece.part == "badge" else piece
        for piece in medium.kit.pieces
    )
    more = replace(medium, kit=replace(medium.kit, pieces=pieces))
    plan = replace(plan, sizes=(small, more))
    links = SiteLinks("cuff/index.html", described_things(content, plan), "cuff")
    told = {}
    for size in ("", "S", "M"):
        seen = Scene(content, plan, pictures, links, size=size)
        told[size] = plain(part_words(seen, "badge"))
    assert told["S"] == "8 times and 2 spare"
    assert told["M"] == "10 times and 2 spare"
    assert told[""] == "8 times and 2 spare (S), 10 times and 2 spare (M)"
    seen = Scene(content, plan, pictures, links)
    assert plain(piece_words(seen)) == "10 to 12 pieces, by size"
    assert plain(whole_words(replace(seen, size="M"))) == "All 12 pieces and 2 spare"


def test_a_title_that_names_the_pass_says_it_once():
    """'Paint blue: second coat' needs no 'second coat' beside it; 'Paint blue' does."""
    step = scene().guide.steps[0]
    for title, again in (("Paint blue: Second coat", ""), ("Paint blue", "second coat")):
        second = step.model_copy(update={"title": title, "again": "second coat"})
        assert step_view(scene(), second, NO_CAUTIONS).again == again


def test_a_title_block_in_another_language_says_in_which_its_names_are():
    """Names without a translation stay as they are, and screen readers learn how to read them."""
    here = scene()
    block = title_block(here, "Build booklet")
    assert (block.creator_in, block.approved_in) == ("", "")
    names = {"author": Foreign("La voilerie", "fr"), "approved_by": "Two test builders"}
    guide = here.guide.model_copy(update=names)
    plan = replace(here.plan, file=replace(here.plan.file, guide=guide))
    block = title_block(replace(here, plan=plan), "Build booklet")
    assert (block.creator_in, block.approved_in) == ("fr", "")
