"""Signal words, official statements and signs of cautions against what is published.

Signal words: ranks and grades of ANSI Z535.4 and Z535.6, as the article "Precautionary statement" of
Wikipedia tells them; the standards themselves were not read. What each means is said in our own words. Statements: Regulation (EC) No 1272/2008 (CLP),
Annexes III and IV, consolidated text of 2025-09-01, (c) European Union, CC BY 4.0, through
mhchem/hpstatements, clp/hpstatements-en-latest.json and -de-latest.json, commit 0a2a5a1d;
clp_statements.csv and clp_statements_de.csv beside this file hold them as they stand there.

P103 and P280: Annex IV, Part 1, as Commission Regulation (EU) 2019/521 amended it, in
clp_amendments.csv. That the act changed these two in Part 1 and left the list of Part 2 (which the
source above repeats) alone was read in Yusuf-Hridoy/lingua-oracle, tests on Annex IV, which parse the
acts themselves; the English words there and in several lists of GHS statements, the German ones in
one public list of P-Sätze, P280 also in lingua-oracle. The Official Journal itself was not reached.

German signal words: GEFAHR, WARNUNG, VORSICHT, HINWEIS as in German translations of ANSI Z535.6 and
ISO 3864-2, from memory. They are not the words of CLP labels (Gefahr, Achtung).
"""

import csv
import re
from pathlib import Path

import pytest
from render.html_reader import Page
from render.page_samples import downloads, sample, theme

from guidegen.buildfile.derive.cautions import GRAVITY
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.safety.cautions import SignalWord
from guidegen.buildfile.records.safety.statements import STATEMENTS
from guidegen.buildfile.records.safety.statements_de import STATEMENTS_DE
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.site.pages import render_guide
from guidegen.words import read_words

HERE = Path(__file__).parent
STOCK = read_content(HERE.parent.parent / "content").stock

DEFINITIONS = {
    # What is sure and grave is DANGER, what is possible and grave WARNING, what is possible and
    # minor or moderate CAUTION.
    SignalWord.DANGER: "ends in death or a grave injury",
    SignalWord.WARNING: "can end in death or a grave injury",
    SignalWord.CAUTION: "can end in a lighter injury",
}

MISPRINTED = "P410+P412"
"""The consolidated text prints "Do no expose"; the words that it means are shipped."""

GHS_WORDS = {
    # Signal word of each class: UN GHS table, with Annex I of CLP at reachlex.eu as second source
    # for H222 and H229.
    "H222": "Danger", "H225": "Danger", "H229": "Danger", "H304": "Danger",
    "H226": "Warning", "H315": "Warning", "H317": "Warning", "H319": "Warning",
    "H335": "Warning", "H336": "Warning", "H361d": "Warning", "H373": "Warning",
}  # fmt: skip

SUBJECTS = {
    # ISO 7010 referents as listed in lbize/iso-7010, lib.typ (titles from Wikimedia): the sign
    # that a caution about this subject shows.
    "blade": {"W022"},
    "spent-blade": {"W022", "M004"},
    "hot-air": {"W017"},
    "hot-foam": {"W017"},
    "hot-glue": {"W017"},
    "solvent-adhesive": {"W021", "P003", "P002", "M017"},
    "ignition": {"W021", "P003", "P002"},
    "spray-can": {"W021", "P003", "M017"},
    "flame-near-foam": {"W021", "P003"},
    "dust": {"M016", "M004"},
    "rotary-tool": {"M004", "M016", "M021"},
    "instant-glue": {"M004", "M055"},
    "coatings": {"M011"},
    "children": {"M055"},
}


def words(html: str) -> str:
    """All words of a page in reading order."""
    return " ".join(Page(html).text.split())


def official(name: str = "clp_statements.csv") -> dict[str, str]:
    """Official statements by code."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        found = {row["code"]: row["text"] for row in csv.DictReader(file)}
    with (HERE / "clp_amendments.csv").open(encoding="utf-8", newline="") as file:
        language = "de" if name.endswith("_de.csv") else "en"
        return found | {row["code"]: row[language] for row in csv.DictReader(file)}


@pytest.mark.parametrize("place", ["safety page", "booklet"])
def test_signal_words_are_explained_by_their_grades(place):
    """Readers are told how sure and how grave the harm is that each word stands for, gravest first."""
    content, plan, pictures = sample()
    if place == "booklet":
        html = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    else:
        pages = render_guide(content, plan, pictures, theme(), downloads())
        html = pages["cuff/safety.html"].decode()
    text = words(html)
    at = 0
    for word, definition in DEFINITIONS.items():
        at = text.index(f"{word} Ignoring it {definition}.", at)
    assert re.search(r"NOTICE Not about injury", text[at:])


def test_the_alert_symbol_stands_with_all_words_but_notice():
    """ANSI Z535.4: NOTICE carries no safety alert symbol (from memory)."""
    content, plan, pictures = sample()
    html = render_guide(content, plan, pictures, theme(), downloads())["cuff/safety.html"].decode()
    signals = re.findall(r'<(p|span) class="signal">(.*?)</\1>', html, re.DOTALL)
    words_of = {word: [text for _, text in signals if str(word) in text] for word in SignalWord}
    assert all(words_of.values())
    for word, texts in words_of.items():
        drawn = ['class="alert"' in text for text in texts]
        assert set(drawn) == {word is not SignalWord.NOTICE}, word


def test_gravity_is_the_order_of_the_standard():
    """DANGER, WARNING, CAUTION, NOTICE (ANSI Z535.4, from memory)."""
    order = sorted(GRAVITY, key=lambda word: GRAVITY[word])
    assert [str(word) for word in order] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]


def test_statements_have_the_official_words():
    """Every statement that is shipped has the words of the regulation, and its code."""
    given = official()
    assert set(STATEMENTS) == set(given)
    assert given[MISPRINTED].count("Do no expose") == 1
    for code, text in given.items():
        assert STATEMENTS[code] == (
            text.replace("Do no ", "Do not ") if code == MISPRINTED else text
        )


def test_statements_have_the_official_words_in_german():
    """In German each statement has the regulation's own German words, none is translated here."""
    assert official("clp_statements_de.csv") == STATEMENTS_DE
    assert set(STATEMENTS_DE) == set(STATEMENTS)


def test_german_signal_words_are_those_of_safety_messages():
    """A warning is WARNUNG and not the Achtung of labels; each meaning keeps its grade."""
    words = read_words("de")
    said = [words.say(word) for word in ("DANGER", "WARNING", "CAUTION", "NOTICE")]
    assert said == ["GEFAHR", "WARNUNG", "VORSICHT", "HINWEIS"]
    grades = {
        "DANGER": "führt zum Tod",
        "WARNING": "kann zum Tod",
        "CAUTION": "kann zu einer leichteren",
    }
    for word, grade in grades.items():
        assert grade in words.say(f"Ignoring it {DEFINITIONS[SignalWord(word)]}.")


def test_joined_statements_are_made_of_their_parts():
    """A joined code such as P403+P235 has the words of its parts that stand alone as well."""
    for code, text in STATEMENTS.items():
        for part in code.split("+") if "+" in code else ():
            if part in STATEMENTS and part.startswith("P4"):
                assert STATEMENTS[part] in text


@pytest.mark.parametrize("name", STOCK.cautions)
def test_cautions_quote_statements_that_are_kept(name):
    """Each code that a caution of the demo quotes can be printed with its official words."""
    assert [code for code in STOCK.cautions[name].statements if code not in official()] == []


@pytest.mark.parametrize("name", STOCK.cautions)
def test_a_signal_word_of_the_label_is_not_played_down(name):
    """A caution that quotes a class with the GHS signal word Danger is a WARNING at least.

    Our choice: the two systems differ, but a flammable liquid can injure seriously.
    """
    caution = STOCK.cautions[name]
    if any(GHS_WORDS.get(code) == "Danger" for code in caution.statements):
        assert caution.word in {SignalWord.DANGER, SignalWord.WARNING}


@pytest.mark.parametrize(
    ("name", "codes"),
    [
        # Usual sets of such products; from memory, and the product's own data sheet comes first.
        ("solvent-adhesive", {"H225", "H304", "H315", "H319", "H336", "EUH066", "P210", "P261", "P271", "P280"}),
        ("instant-glue", {"H315", "H319", "H335", "EUH202"}),
        ("spray-can", {"H222", "H229", "H319", "H336", "EUH066", "P210", "P211", "P251", MISPRINTED}),
    ],
)  # fmt: skip
def test_chemicals_quote_their_usual_statements(name, codes):
    """Solvent cement, instant glue and spray cans carry what their labels usually do."""
    assert codes <= set(STOCK.cautions[name].statements)


@pytest.mark.parametrize(("name", "signs"), SUBJECTS.items())
def test_signs_fit_the_hazard(name, signs):
    """A caution shows the registered signs for its subject."""
    assert signs <= set(STOCK.cautions[name].signs)


def test_no_gloves_at_a_turning_tool():
    """ISO 7010 has P028, do not wear gloves, for turning tools: none are ordered there, and the
    caution says so."""
    caution = STOCK.cautions["rotary-tool"]
    assert "M009" not in caution.signs
    assert "no gloves" in caution.avoid.lower()


def test_notices_are_not_about_injury():
    """NOTICE is kept for property and rules: no hazard statement, no first aid (ANSI Z535.6)."""
    notices = [caution for caution in STOCK.cautions.values() if caution.word is SignalWord.NOTICE]
    assert notices
    for caution in notices:
        assert not [code for code in caution.statements if code.startswith(("H", "EUH"))]
        assert caution.first_aid is None


GRAVE = [
    name
    for name, caution in STOCK.cautions.items()
    if caution.word in {SignalWord.DANGER, SignalWord.WARNING}
]


@pytest.mark.parametrize("name", GRAVE)
def test_first_aid_sends_to_help(name):
    """First aid ends with somebody who knows more: doctor, label, emergency call.

    DANGER and WARNING always have a line of it. Common practice, no source.
    """
    first_aid = STOCK.cautions[name].first_aid
    assert first_aid is not None
    assert re.search(
        r"medical|doctor|poison centre|emergency|hospital|helper|fire service|label|telephone",
        first_aid,
    )


def test_dust_masks_are_not_offered_against_vapour():
    """A particle mask does not stop vapour: whatever orders M017 lists equipment of that sign.

    NIOSH and EN 149 rate particle masks for particles only (from memory).
    """
    tools = STOCK.tools
    for caution in STOCK.cautions.values():
        if "M017" in caution.signs:
            signs = {tools[name].sign for name in caution.protection}
            assert "M017" in signs
            assert "M016" not in signs


def test_liquids_bring_cautions():
    """Every liquid of the demo brings at least one caution with official statements or first aid."""
    for material in STOCK.materials.values():
        if material.kind is MaterialKind.LIQUID:
            found = [STOCK.cautions[name] for name in material.cautions]
            assert any(caution.statements and caution.first_aid for caution in found), material.name
