"""The stock that comes with guidegen, and a site's own on top of it."""

from pathlib import Path

import pytest
from samples import GUIDE, SITE, changed, write_content
from trade_translations import LANGUAGES, read_shipped

from guidegen.buildfile.derive.caution_places import MOST_LETTERS
from guidegen.buildfile.read import trade
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.fingerprint import OWN
from guidegen.buildfile.read.reader import read_content, read_what_holds
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.checks.run import SHARED
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.buying.packs import choose_packs
from guidegen.layout.records import LengthCut
from guidegen.problems import collect
from guidegen.quantities import spent_words
from guidegen.words import ENGLISH, SPACE

OWN_STOCK = """\
extends: trade
materials:
  foam-10:
    shops: [corner]
    sheets: [{name: mat, width: 580, height: 580, price: 5}]
  rope: {name: Rope, kind: length, packs: [{amount: 10000}]}
tools:
  marker: {note: }
rules:
  - {first: print, then: cut, level: warn, reason: Ours}
"""


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Content:
    """A site whose stock lies on top of the shipped one."""
    return _read(tmp_path_factory.mktemp("site"), OWN_STOCK)


def _read(folder: Path, stock: str) -> Content:
    site = f"{SITE}languages: [en, de]\nshops: {{corner: {{name: Corner shop}}}}\n"
    content, _ = read_what_holds(write_content(folder, site=site, stock=stock, guide=GUIDE))
    assert content is not None
    return content


def test_the_shipped_stock_holds(tmp_path: Path) -> None:
    """No check of what guides share finds anything in it: no name, caution, word, rate or sheet."""
    content = _read(tmp_path, "extends: trade\n")
    content, _ = collect(read_translations(tmp_path, content))
    assert [str(problem) for check in SHARED for problem in check(content)] == []


def test_it_has_no_prices_and_no_shops() -> None:
    """Prices and shops are local: none of its materials has one."""
    for name, material in trade.trade_stock().materials.items():
        assert not material.priced, name
        assert material.shops == (), name


def test_it_has_what_each_craft_needs() -> None:
    """Foam of 10 mm, hot glue, heat, bevels and grooves; card, cloth and wood with their work."""
    stock = trade.trade_stock()
    assert {"foam-10", "foam-5", "hot-glue", "card-300", "canvas", "plywood-3"} <= {
        *stock.materials
    }
    work = {"heat-form", "bevel", "groove", "score-card", "sew-machine", "saw", "glue-wood"}
    assert work <= {*stock.processes}
    liquids = [m for m in stock.materials.values() if m.kind is MaterialKind.LIQUID]
    assert all(material.cautions for material in liquids)


@pytest.mark.parametrize("language", LANGUAGES)
def test_its_translations_are_whole(language: str) -> None:
    """Each text has its translation, made from the text that stands there now.

    The note of originals is written anew by `./start python tests/trade_translations.py`.
    """
    made, wrong = read_shipped(language)
    assert (wrong, made.missing, made.outdated) == ([], (), frozenset())
    note = trade.TRADE / "translated" / f"stock.{language}.json"
    assert note.read_text(encoding="utf-8") == made.kept


def test_short_cautions_are_short_in_each_language() -> None:
    """The line before an action has at most 60 letters, also where it is translated."""
    for language in LANGUAGES:
        texts = read_shipped(language)[0].texts
        shorts = {trail: text for trail, text in texts.items() if trail[-1] == "short"}
        assert len(shorts) == len(trade.trade_stock().cautions)
        assert {t: len(s) for t, s in shorts.items() if len(s) > MOST_LETTERS} == {}


def test_an_entry_changes_key_by_key(content: Content) -> None:
    """What the site writes takes the place of that key; all others stay, an empty key goes."""
    foam, shipped = content.stock.materials["foam-10"], trade.trade_stock().materials["foam-10"]
    assert foam.shops == ("corner",)
    assert [sheet.name for sheet in foam.sheets] == ["mat"]
    assert (foam.name, foam.cautions) == (shipped.name, shipped.cautions)
    assert trade.trade_stock().tools["marker"].note is not None
    assert content.stock.tools["marker"].note is None
    assert [*content.stock.materials][-1] == "rope"


def test_a_rule_about_the_same_takes_its_place(content: Content) -> None:
    """The site's rule counts and the shipped one is gone; all others are there once."""
    same = [rule for rule in content.stock.rules if (rule.first, rule.then) == ("print", "cut")]
    assert [rule.reason for rule in same] == ["Ours"]
    assert len(content.stock.rules) == len(trade.trade_stock().rules)


def test_places_lead_to_the_file_that_says_it(content: Content) -> None:
    """What the site wrote is shown in its file, what is shipped in the shipped one."""
    source, stock = content.stock_source, content.stock
    shipped = (trade.TRADE / "stock.yaml").read_text(encoding="utf-8").splitlines()
    own = source.place(("materials", "foam-10", "sheets", 0, "price"))
    assert (own.file.rpartition("/")[2], own.line) == ("stock.yaml", 5)
    other = source.place(("materials", "foam-10", "density"))
    assert other.file == trade.SHOWN
    assert shipped[other.line - 1].strip().startswith("density")
    for index, rule in enumerate(stock.rules):
        place = source.place(("rules", index, "then"))
        assert rule.then in place.text, index
    # A key that the site's own rule leaves out is told at that rule, not in the shipped file.
    assert source.place(("rules", 0, "wait")).file.endswith("/stock.yaml")


def test_shipped_translations_lie_under_the_sites_own(tmp_path: Path) -> None:
    """German comes with the shipped stock; a text that the site has changed waits for its own."""
    stock = changed(OWN_STOCK, "foam-10:\n", "foam-10:\n    name: Thick mat\n")
    content, _ = collect(read_translations(tmp_path, _read(tmp_path, stock)))
    made = content.shared_translations["de"][1]
    assert made.texts["materials", "foam-6", "name"] == "Schaumstoffplatte, 6 mm"
    assert ("materials", "foam-10", "name") in made.missing
    assert ("materials", "foam-10", "note") in made.texts
    (tmp_path / "stock.de.yaml").write_text(
        "materials: {foam-10: {name: Dicke Matte}, foam-6: {name: Platte}}\n", encoding="utf-8"
    )
    content, _ = collect(read_translations(tmp_path, _read(tmp_path, stock)))
    made = content.shared_translations["de"][1]
    assert made.texts["materials", "foam-10", "name"] == "Dicke Matte"
    assert made.texts["materials", "foam-6", "name"] == "Platte"


def test_a_site_without_extends_has_its_own_alone(tmp_path: Path) -> None:
    """Without the key nothing is added: sites of before stay as they are."""
    content = read_content(write_content(tmp_path))
    assert content.stock.extends is None
    assert "plywood-3" not in content.stock.materials


def test_sections_left_empty_are_the_shipped_ones(tmp_path: Path) -> None:
    """A section with nothing but comments in it takes nothing away."""
    content = _read(tmp_path, "extends: trade\nmaterials:\nrules:\n")
    assert content.stock.materials == trade.trade_stock().materials
    assert content.stock.rules == trade.trade_stock().rules


def test_a_change_of_it_makes_guides_anew() -> None:
    """Its files count among those of the program, which every kept document depends on."""
    assert ".yaml" in OWN
    assert ".json" in OWN


def test_unknown_prices_choose_by_amount_and_tell_none() -> None:
    """Without prices the packs with the least left over are taken, and no sum is told."""
    glue = trade.trade_stock().materials["contact-cement"]
    assert [(p.count, p.amount, p.price) for p in choose_packs(240, glue.packs, "ml", ENGLISH)] == [
        (1, 250.0, 0.0)
    ]
    assert [p.amount for p in choose_packs(600, glue.packs, "ml", ENGLISH)] == [650.0]
    tape = trade.trade_stock().materials["webbing-25"]
    cuts = (LengthCut("webbing-25", 400, 2, "strap"),)
    plan = plan_lengths("webbing-25", tape.packs, cuts, ENGLISH)
    assert ([pack.amount for pack in plan.packs], plan.cost, plan.least_cost) == (
        [1000.0],
        0.0,
        0.0,
    )


def test_sums_say_what_they_do_not_hold() -> None:
    """A sum of money names the things whose price nobody knows."""
    assert spent_words(12.5, 0, "EUR", ENGLISH) == "€12.50"
    assert spent_words(12.5, 1, "EUR", ENGLISH) == f"€12.50 and 1{SPACE}thing without a price"
    assert spent_words(0, 3, "EUR", ENGLISH) == f"3{SPACE}things without a price"
    assert spent_words(0, 0, "EUR", ENGLISH) == "€0"
