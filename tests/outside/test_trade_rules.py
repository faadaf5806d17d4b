"""Rules of order of the trade: which the demo's stock has, and that each is kept and broken as told.

All rules are common practice, no source, unless marked: craft texts repeat them, none proves them.
"""

import networkx as nx
import pytest
from demo_content import read_demo

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.musts import OrderRule
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.yaml.tree import Source
from guidegen.checks.steps.order import check_order_rules
from guidegen.layout.times.audit import audit_rooms
from guidegen.words import ENGLISH

STOCK = read_demo().stock
RULES = STOCK.rules

WANTED = [
    # first, then: the first must be done on a part before the second.
    ("print", "cut"),  # scale faults cannot be undone
    ("card-fit", "cut"),  # a correction in card is cheap
    ("transfer", "cut"),  # nothing else records match marks
    ("bevel", "glue-contact"),  # a blade cannot reach the edge later
    ("groove", "glue-contact"),
    ("groove", "glue-water"),
    ("roughen", "glue-contact"),  # cement holds on rough foam without dust
    ("glue-contact", "seal"),  # cement grips foam, not a coating
    ("glue-hot", "prime"),
    (
        "heat-form",
        "texture",
    ),  # contested: forming afterwards fades it, and deep relief is pressed flat
    ("heat-form", "glue-contact"),  # formed edges meet without strain
    ("dry-fit", "glue-contact"),  # the bond is made once
    ("dry-fit", "glue-water"),
    ("glue-contact", "sand"),  # soft glue drags
    ("sand", "heat-seal"),  # sanding opens the pores again
    ("heat-seal", "seal"),  # heat blisters coatings
    ("heat-seal", "prime"),
    ("heat-form", "seal"),
    ("glue-contact", "prime"),  # cement grips foam, not paint
    ("strap", "pad"),  # padding hides anchors
    ("make-holes", "paint"),  # punching chips paint
    ("seal", "paint"),  # bare foam drinks paint
    ("prime", "paint"),
    ("paint", "weather"),  # a wash lifts wet paint
    ("weather", "clear-coat"),  # the clear coat locks the wash in
    ("clear-coat", "strap"),  # straps mark a coat that has not cured
    ("pad", "fit"),  # padding changes the girth
    ("wear-test", "carry"),  # faults are found at home
]

APART = [
    # Vapour and whatever ignites it: hot air, hot glue, sparks. Flammable vapour is heavier than
    # air and travels to ignition sources (general safety advice; the data sheet of each product
    # comes first).
    ("solvent-adhesive", "hot-air"),
    ("solvent-adhesive", "hot-glue"),
    ("solvent-adhesive", "rotary-tool"),
    ("spray-can", "hot-air"),
    ("spray-can", "hot-glue"),
    ("spray-can", "rotary-tool"),
]


def findings(rule: OrderRule, *steps: tuple[str, float]) -> list[str]:
    """Codes of what is found in a guide whose steps, on one part, bring these names and waits."""
    key = "process" if rule.by == "process" else "cautions"
    guide = Guide.model_validate(
        {
            "title": "t", "version": "1", "date": "2026-01-01", "author": "a", "licence": "l",
            "licence-words": "w", "summary": "s", "overview": "o",
            "parts": {"p": {"name": "P", "label": "P", "material": "foam-10", "shape": "disc"}},
            "steps": [
                {
                    "id": f"s{n}", "title": f"S {n}", "stage": "gluing", "text": "t", "time": 5,
                    "parts": ["p"], "wait": wait,
                    key: name if key == "process" else name.split(","),
                }
                for n, (name, wait) in enumerate(steps)
            ],
        }
    )  # fmt: skip
    stock = STOCK.model_copy(update={"rules": (rule,)})
    file = GuideFile("g", guide, Source("g.yaml", ()))
    content = Content(
        Site(title="t", publisher="p"), Source("s", ()), stock, Source("k", ()), (file,), ENGLISH
    )
    found = [*check_order_rules(content, file), *audit_rooms(file, stock)]
    assert all(rule.reason in problem.message for problem in found)
    return [problem.code for problem in found]


def name_of(rule: OrderRule) -> str:
    """For the list of tests."""
    return f"{rule.first}-{rule.then}"


def code_of(rule: OrderRule, stops: str, advises: str) -> str:
    """The code of a finding, by the rule's level."""
    return stops if rule.level == "stop" else advises


@pytest.mark.parametrize("rule", RULES, ids=name_of)
def test_each_rule_is_kept(rule):
    """In the right order, with the wait that the rule asks for, nothing is found."""
    assert findings(rule, (rule.first, rule.wait), (rule.then, 0)) == []


@pytest.mark.parametrize("rule", [rule for rule in RULES if not rule.apart], ids=name_of)
def test_each_order_is_broken(rule):
    """The other way round is found, and told with the reason; a named second pass is not."""
    assert findings(rule, (rule.then, 0), (rule.first, 0)) == [
        code_of(rule, "order-rule", "order-advised")
    ]


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.wait], ids=name_of)
def test_each_wait_is_broken(rule):
    """A minute less than the rule asks for is found."""
    codes = ("not-apart", "apart-advised") if rule.apart else ("too-soon", "sooner-than-advised")
    code = code_of(rule, *codes)
    assert findings(rule, (rule.first, rule.wait - 1), (rule.then, 0)) == [code]


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.apart], ids=name_of)
def test_each_pair_is_kept_out_of_one_step(rule):
    """What never shares a room is found in one step, whatever it waits for."""
    assert findings(rule, (f"{rule.first},{rule.then}", 1440)) == [
        code_of(rule, "not-apart", "apart-advised")
    ]


def test_the_stock_has_the_rules_of_the_trade():
    """Every rule of the list above is data of the stock."""
    kept = {(rule.first, rule.then) for rule in RULES if not rule.apart}
    assert [pair for pair in WANTED if pair not in kept] == []
    apart = {(rule.first, rule.then): rule for rule in RULES if rule.apart}
    for pair in APART:
        assert apart[pair].by == "caution"
        assert apart[pair].level == "stop"
        assert apart[pair].wait >= 30  # minutes; at least a while, and never nothing


def test_rules_do_not_contradict_each_other():
    """No two rules ask for both orders, not even by way of others (networkx finds no cycle)."""
    pairs = [(rule.first, rule.then) for rule in RULES if not rule.apart]
    assert nx.is_directed_acyclic_graph(nx.DiGraph(pairs))


def test_coats_and_glue_say_whether_they_bend():
    """Sealer and primer of the demo stay flexible, instant glue does not (common practice)."""
    flexible = {name: entry.flexible for name, entry in STOCK.materials.items()}
    assert flexible["sealer"] and flexible["primer"] and flexible["contact-cement"]
    assert flexible["instant-glue"] is False
