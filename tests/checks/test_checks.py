"""Each check has a guide that keeps it and one that breaks it."""

import ast
from pathlib import Path

import pytest
from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import CHECKS, SHARED, run_checks

PACKAGE = Path(__file__).parents[2] / "guidegen" / "checks"


def test_every_check_runs() -> None:
    """A check that neither list of run.py has is named here."""
    written = {
        node.name
        for path in PACKAGE.rglob("*.py")
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef) and node.name.startswith("check_")
    }
    listed = {check.__name__ for check in (*CHECKS, *SHARED)}
    assert written - listed == set()


def _report(folder: Path) -> str:
    return "\n".join(str(problem) for problem in run_checks(read_content(folder)))


def test_the_sample_keeps_every_check(tmp_path: Path) -> None:
    """The unbroken sample has nothing to report, so each finding below comes from its break."""
    assert _report(write_content(tmp_path)) == ""


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("material: foam-5", "material: foam-12",
         'parts.cuff.material: no material "foam-12" in stock; did you mean "foam-10"?'),
        ("material: foam-5", "material: cement", 'no material "cement" in stock'),
        ("shape: disc", "shape: disk", 'no shape "disk"; did you mean "disc"?'),
        ("{diameter: 60}", "{diametre: 60}", 'a disc has no "diametre"; did you mean "diameter"?'),
        ("{diameter: 60}", "{}", 'a disc needs "diameter"'),
        ("label: B", "label: A", 'the label "A" already stands for cuff'),
        ("copies: 2", "copies: 2\n    drawing-per-size: {}\n    spread: []\n    scale: {x: 2}",
         '"scale" is for drawn parts only'),
        ("copies: 2", "copies: 2\n    on-fold: centre", "a disc is not made on the fold"),
        ("copies: 2", "copies: 2\n    bevels: {top: {angle: 45, direction: inward}}",
         'no edge "top"; there are: rim'),
        ("copies: 2", "copies: 2\n    placements: [{part: cuf}]", 'did you mean "cuff"?'),
        ("cuff.side-2]", "cufff.side-2]", 'no part "cufff" in this guide; did you mean "cuff"?'),
        ("cuff.side-2]", "side-2]", 'expected part.edge, such as cuff.side, found "side-2"'),
        ("wrist: 160}", "wirst: 160}", 'no measurement "wirst"; did you mean "wrist"?'),
        ("S: {forearm: 250, wrist: 160}", "S: {forearm: 250}", "sizes.S: no wrist"),
        ("S: {forearm: 250,", "S: {forearm: 25,", "outside what the guide calls plausible"),
        ("S: {forearm: 250, wrist: 160}", "S: {forearm: 250, wrist: 0}", "more than nothing"),
        ("sizes:\n", "drawn-for: L\nsizes:\n", 'no size "L"; there are: M, S'),
        ("  room: 20", "  room: top - forearm", "needs itself, by way of room, top"),
        ("  room: 20", "  wrist: 20", '"wrist" is a measurement already'),
        ("top: forearm + room", "top: forarm + room",
         'values.top: "forarm + room": no measurement or value "forarm"; did you mean "forearm"?'),
        ("diameter: 60", "diameter: 60 / (forearm - 280)", "divides by zero (size M)"),
        ("process: cutting", "process: cuting", 'no process "cuting" in stock; did you mean "cutting"?'),
        ("material: cement, glue", "material: cemment, glue", 'did you mean "cement"?'),
        ("glue: [cuff-side, badge]", "glue: [cuff-sid]", 'no seam or stack "cuff-sid" in this guide'),
        ("seams: [cuff-side]\n", "seams: []\n", "seams.cuff-side: no step joins this seam"),
        ("stacks: [badge]\n", "stacks: []\n", "stacks.badge: no step joins this stack"),
        ("    process: painting\n", "    process: painting\n    seams: [cuff-side]\n",
         "2 steps join this seam: Glue the cuff; Paint"),
        ("    parts: [cuff, plate]\n    text", "    parts: [cuff]\n    text", "parts.plate: warning: no step cuts this part"),
        ("id: bend", "id: cut", 'step 1 is called "cut" already'),
        ("title: Bend the cuff", "title: Bend the cuff\n    needs: [paint]",
         '"paint" must come before this step, but stands after it'),
        ("title: Bend the cuff", "title: Bend the cuff\n    cautions: [blad]",
         'no caution "blad" in stock; did you mean "blade"?'),
        ("title: Bend the cuff", "title: Bend the cuff\n    waive: [{caution: blade, reason: none}]",
         'the caution "blade" does not reach this step'),
        ("title: Cut the pieces",
         "title: Cut the pieces\n    waive: [{caution: blade, reason: pre-cut}]",
         '"pre-cut" is no reason to leave out "blade"; expected why it cannot do harm here'),
        ("title: Cut the pieces",
         "title: Cut the pieces\n    waive: [{caution: blade, reason: the leader cuts before}]",
         "steps[0].waive[0].caution: advice: the caution \"blade\" is left out: the leader cuts"),
        ("(piece:cuff)", "(piece:cufff)", 'piece:cufff, which does not exist; did you mean "cuff"?'),
    ],
)  # fmt: skip
def test_broken_guides(tmp_path: Path, old: str, new: str, message: str | None) -> None:
    """A guide with one break is reported at the break, in words that cure it."""
    report = _report(write_content(tmp_path, guide=changed(GUIDE, old, new)))
    if message is None:
        assert report == ""
    else:
        assert message in report


def test_unused_part(tmp_path: Path) -> None:
    """A part that no step uses is an error."""
    guide = GUIDE.replace("[cuff, plate]", "[cuff]")
    assert "parts.plate: no step uses this part" in _report(write_content(tmp_path, guide=guide))


def test_order_rule(tmp_path: Path) -> None:
    """Painting before heat forming breaks the stock's rule, and both steps and the reason are told."""
    guide = changed(GUIDE, "process: forming", "process: painting")
    guide = changed(
        guide,
        "    process: painting\n    parts: [cuff]\n    uses",
        "    process: forming\n    parts: [cuff]\n    uses",
    )
    report = _report(write_content(tmp_path, guide=guide))
    assert '"Paint" (forming) must come before "Bend the cuff" (painting) on cuff' in report
    assert "heat blisters paint" in report


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("cautions: [blade]", "cautions: [blaed]", 'no caution "blaed" in stock; did you mean "blade"?'),
        ("tools: [knife]", "tools: [knive]", 'no tool "knive" in stock; did you mean "knife"?'),
        ("then: painting", "then: paint", 'rules[0].then: no process "paint" in stock'),
        ("protection: [goggles]", "protection: [google]", 'did you mean "goggles"?'),
        ("width: 580,", "width: wrist,", 'materials.foam-10.sheets[0].width: "wrist": no measurement'),
        ("width: 580,", "interlock: 300, width: 580,",
         "sheets[0].interlock: 300 mm on each side leave nothing of the sheet"),
        ("thickness: 10\n", "thickness: -10\n", "materials.foam-10.thickness: expected 0 or more"),
        ("[{name: mat, width: 580, height: 580, price: 5}]",
         "[{name: mat, width: 580, height: 580, price: 5}, {name: mat, width: 9, height: 9, price: 1}]",
         'sheets[1].name: two sheets of foam-10 are called "mat"'),
        ("[{amount: 2000, price: 3}, {amount: 5000, price: 6}]", "[{amount: 270, price: 3}]",
         "280 mm in size M, but Webbing, 25 mm is sold in lengths up to 270 mm"),
    ],
)  # fmt: skip
def test_broken_stock(tmp_path: Path, old: str, new: str, message: str) -> None:
    """Names inside stock.yaml are checked as well."""
    assert message in _report(write_content(tmp_path, stock=changed(STOCK, old, new)))


def test_measurements_want_sizes_and_names_of_their_own(tmp_path: Path) -> None:
    """Measurements without a size table, and one called as the drawn size's are, both are told."""
    bare = "".join(
        line
        for line in GUIDE.splitlines(True)
        if not line.startswith(("sizes:", "  S: {", "  M: {"))
    )
    assert "there are measurements, so sizes are needed too" in _report(
        write_content(tmp_path / "bare", guide=bare)
    )
    drawn = GUIDE.replace("wrist", "drawn_wrist")
    found = _report(write_content(tmp_path / "drawn", guide=drawn))
    assert '"drawn_wrist" is no name for a measurement' in found


def test_the_size_that_drawings_are_for_may_be_named(tmp_path: Path) -> None:
    """Each size of the guide is a valid `drawn-for`, and its measurements come by that name."""
    for size in ("S", "M"):
        guide = changed(GUIDE, "sizes:\n", f"drawn-for: {size}\nsizes:\n")
        guide = changed(guide, "  room: 20", "  room: forearm - drawn_forearm + 20")
        assert _report(write_content(tmp_path, guide=guide)) == ""


@pytest.mark.parametrize(
    ("named", "message"),
    [
        ("[hardware, art]", ""),
        ("[hardwear]", 'shops[0]: no shop "hardwear" in site.yaml; did you mean "hardware"?'),
        ("[art, bakery]", 'materials.cement.shops[1]: no shop "bakery" in site.yaml'),
    ],
)
def test_shops_are_those_of_the_site(tmp_path: Path, named: str, message: str) -> None:
    """An item is sold where site.yaml says that readers buy; another name is told, with the nearest."""
    site = SITE + "shops:\n  hardware: {name: Hardware shop}\n  art: {name: Art shop}\n"
    stock = changed(STOCK, "Contact cement\n", f"Contact cement\n    shops: {named}\n")
    report = _report(write_content(tmp_path, site=site, stock=stock))
    assert (message in report) if message else report == ""


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        ("papers: [a44]", 'papers[0]: no paper "a44"; did you mean "a4"?'),
        ("papers: [roll-24in]", 'papers[0]: no paper "roll-24in"'),
        ("papers: [a4, a4]", 'papers[1]: "a4" stands twice'),
        ("papers: []", "expected one paper or more"),
        ("template-papers: [a9]", 'template-papers[0]: no paper "a9"'),
        (
            "printer-margins: {a44: {side: 5}}",
            'printer-margins.a44: no paper "a44"; did you mean "a4"?',
        ),
        ("template-papers: [a0, roll-24in]", ""),
    ],
)
def test_papers(tmp_path: Path, lines: str, message: str) -> None:
    """Papers of the site are known ones, each once; rolls are for templates only."""
    report = _report(write_content(tmp_path, site=SITE + lines + "\n"))
    assert (message in report) if message else report == ""
