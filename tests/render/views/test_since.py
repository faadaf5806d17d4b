"""What holders of older versions are told, and where the code of their booklet leads."""

from dataclasses import replace

from render.page_samples import downloads, sample, theme

from guidegen.buildfile.records.guide import Change
from guidegen.pictures.records import GuidePictures
from guidegen.render.site.frame import site_links
from guidegen.render.site.pages import render_guide
from guidegen.render.views.report import since_anchor, since_code, since_views
from guidegen.render.views.scene import Scene

ADDRESS = "https://loft.sample.example/guides/"
LOG = (
    Change(version="1.0", date="2026-01-01", text="First edition."),
    Change(version="1.1", date="2026-02-01", text="Longer cuff.", parts=("cuff",)),
    Change(version="1.2", date="2026-03-01", text="A word."),
)


def scene(log=LOG, version="1.2", address=ADDRESS) -> Scene:
    """The sample guide with a log of changes, on its own page."""
    content, plan, pictures = sample()
    content = replace(content, site=content.site.model_copy(update={"address": address}))
    guide = plan.file.guide.model_copy(update={"changes": log, "version": version})
    plan = replace(plan, file=replace(plan.file, guide=guide))
    assert isinstance(pictures, GuidePictures)
    return Scene(content, plan, pictures, site_links(content, plan, "cuff/index.html", "piece"))


def told(view_scene):
    """Version, newer versions and labels of pieces to print again."""
    return [
        (one.version, one.newer, tuple(link.words for link in one.reprint))
        for one in since_views(view_scene)
    ]


def test_pieces_of_all_newer_versions_are_printed_again():
    """Who holds 1.0 prints what 1.1 changed, though 1.2 changed none; who holds 1.1 prints none."""
    assert told(scene()) == [
        ("1.2", (), ()),
        ("1.1", ("1.2",), ()),
        ("1.0", ("1.2", "1.1"), ("A",)),
    ]


def test_a_guide_without_log_has_a_place_for_its_version():
    """The booklet of a first version leads to a place that is there from the first day."""
    assert told(scene((), "1.0")) == [("1.0", (), ())]


def test_the_code_of_a_booklet_leads_to_its_version():
    """The address has an id that the guide's page has, also years later."""
    code = since_code(scene(LOG[:1], "1.0"))
    assert code is not None
    assert code.href == f"{ADDRESS}cuff/#since-1.0"
    later = scene()
    html = render_guide(later.content, later.plan, later.pictures, theme(), downloads())
    assert 'id="since-1.0"' in html["cuff/index.html"].decode()
    assert since_code(scene(address=None)) is None


def test_places_are_plain_ids():
    """A version in words gives an id without blanks."""
    assert since_anchor("2nd edition, spring") == "since-2nd-edition-spring"
