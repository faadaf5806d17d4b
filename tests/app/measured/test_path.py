"""The way from a body to templates that runs in a reader's browser, here on this machine."""

import json
import re
import subprocess
from dataclasses import replace
from hashlib import sha256
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from measured_modules import LIST, imported_modules, order_and_body

from guidegen.app.jobs.opening import open_guide
from guidegen.app.jobs.press_state import PressOptions, read_state
from guidegen.app.measured.bodies import MADE, whole_kit
from guidegen.app.measured.bundle import _core_files, left_out
from guidegen.app.measured.making import open_workbench
from guidegen.app.measured.offer import bundle_for, offer_of
from guidegen.app.measured.packages import NotToBeHad, package_files, pinned
from guidegen.app.measured.packed import pack, unpack
from guidegen.app.measured.template_pages import sheet_head, template_pdf
from guidegen.layout.paper.frame import printer_margins
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.problems import Severity
from guidegen.write.index import Counts

FORBIDDEN = {
    "numpy",
    "scipy",
    "weasyprint",
    "pikepdf",
    "packingsolver",
    "fontTools",
    "jinja2",
    "rich",
}


def test_the_path_imports_what_the_list_says():
    """Each module that a browser would have to load is listed, and none that it cannot have.

    Write the list anew with tests/measured_modules.py.
    """
    listed = LIST.read_text(encoding="utf-8").split()
    assert imported_modules("mooring-bracer") == listed
    assert not FORBIDDEN & {name.split(".")[0] for name in listed}


def test_nothing_on_the_path_imports_what_is_left_out():
    """No listed module imports one of Python's own that the site does not send."""
    imports = re.compile(r"^(?:import|from)\s+(\w+)", re.MULTILINE)
    for name in LIST.read_text(encoding="utf-8").split():
        spec = find_spec(name)
        assert spec is not None
        assert spec.origin is not None
        text = Path(spec.origin).read_text(encoding="utf-8", errors="replace")
        assert not left_out() & set(imports.findall(text)), name


@pytest.fixture(scope="module")
def bracer():
    """The order of the bracer in German, and a body."""
    return order_and_body("mooring-bracer", "de")


def test_an_order_gives_the_templates_of_fit(bracer):
    """Pieces and template PDF of an order are those that `guidegen fit` makes of the guide."""
    order, body = bracer
    bench = open_workbench(order)
    answer = bench.make_kit(body, sure=False)
    assert answer["problems"] == []
    pdf = bench.make_pages("a4", both_sides=False, card=False, tell=str)
    opened = open_guide(
        LIST.parents[3] / "content", "mooring-bracer", LIST.parents[3] / "themes", "de"
    )
    content, file = opened.content, opened.file
    kit = whole_kit(file, content.stock, MADE, body, words=content.words)
    sheets = lay_out_templates(kit, "a4", margins=printer_margins(content.site, "a4"))
    made = template_pdf(content, file, sheets, kit, sheet_head(content, file))
    assert sha256(pdf).hexdigest() == sha256(made).hexdigest()
    assert answer["pieces"]
    # Printed in true size, named, tagged and in the page's language, as all template files are.
    with pikepdf.open(BytesIO(pdf)) as file_made:
        root = file_made.Root
        assert root.ViewerPreferences.PrintScaling == "/None"
        assert root.ViewerPreferences.DisplayDocTitle and root.Lang == "de"
        assert root.MarkInfo.Marked and "/StructTreeRoot" in root and "/Outlines" in root
        assert str(file_made.docinfo["/Title"]).startswith(file.guide.title)
    assert {piece["label"] for piece in answer["pieces"]} == {piece.label for piece in kit.pieces}


def test_refusals_have_codes_and_the_readers_language(bracer):
    """What is doubtful or impossible is told by code, in German for a German page."""
    order, body = bracer
    bench = open_workbench(order)
    first = next(iter(body))
    doubtful = bench.make_kit({**body, first: body[first] * 3}, sure=False)["problems"]
    assert {problem["code"] for problem in doubtful} == {"doubtful-body"}
    assert "mm" in doubtful[0]["message"]
    assert "nachgemessen" in doubtful[0]["cure"]
    missing = bench.make_kit({}, sure=True)["problems"]
    assert {problem["code"] for problem in missing} == {"body"}
    assert missing[0]["message"].endswith("fehlt")


def test_orders_are_the_same_text_each_time_and_hold_records_of_ours_alone(bracer):
    """Packing twice gives the same text; what names a class that is no record is refused."""
    order, _ = bracer
    assert order_and_body("mooring-bracer", "de")[0] == order
    assert pack(unpack(order)) == order
    with pytest.raises(TypeError):
        unpack(json.dumps({"classes": ["subprocess:Popen"], "record": None}))
    with pytest.raises(TypeError):
        unpack(json.dumps({"classes": ["guidegen.words:parse_catalogue"], "record": None}))


def test_without_its_packages_pages_offer_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Where npm is missing press says so at the switch, turns the offer off and goes on."""
    monkeypatch.setenv("GUIDEGEN_PACKAGES", str(tmp_path))
    monkeypatch.setattr("shutil.which", lambda name: None)
    _core_files.cache_clear()
    opened = open_guide(LIST.parents[3] / "content", "mooring-bracer", LIST.parents[3] / "themes")
    on = replace(
        opened.content, site=opened.content.site.model_copy(update={"made_to_measure": True})
    )
    content, bundle, (problem,) = bundle_for(on)
    assert bundle is None
    assert problem.code == "measured-files"
    assert problem.severity is Severity.WARNING
    assert "npm" in problem.message
    assert offer_of(content, opened.file) is None
    offer = offer_of(on, opened.file)
    assert offer is not None
    assert offer.file.startswith("measured-")


def test_another_file_than_the_pinned_one_is_refused(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """What lies in the cache under a package's name counts for nothing without its hash."""
    monkeypatch.setenv("GUIDEGEN_PACKAGES", str(tmp_path))
    monkeypatch.setattr("shutil.which", lambda name: None)
    (tmp_path / pinned()["geos-wasm"].file).write_bytes(b"not it")
    with pytest.raises(NotToBeHad):
        package_files("geos-wasm")


def test_what_was_made_without_packages_is_made_anew(tmp_path: Path) -> None:
    """A press that lacked them leaves another key, so that none takes its pages for unchanged."""
    options = PressOptions(
        LIST.parents[3] / "content", tmp_path / "out", LIST.parents[3] / "themes"
    )
    state = read_state(options)
    nothing = Counts(0, 0, 0, 0, 0)
    whole = state.index(nothing, {}).inputs
    state.lacking = ("without templates to measure",)
    assert state.index(nothing, {}).inputs != whole


def test_a_registry_that_does_not_answer_is_asked_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The small question before the large one fails quickly, and not again in the same run."""
    asked = []

    def refuse(command: list[str], **_: object) -> None:
        asked.append(command)
        raise subprocess.CalledProcessError(1, command, stderr=b"no network")

    monkeypatch.setenv("GUIDEGEN_PACKAGES", str(tmp_path))
    monkeypatch.setattr("shutil.which", lambda name: name)
    monkeypatch.setattr("subprocess.run", refuse)
    for _ in range(2):
        with pytest.raises(NotToBeHad, match="no network"):
            package_files("geos-wasm")
    ((_, question, *_),) = asked
    assert question == "view"
