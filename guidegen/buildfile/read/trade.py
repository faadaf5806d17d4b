"""A site's stock that extends guidegen's own → both as one, with the place of every value.

guidegen/trade/
  stock.yaml        materials for foam, card, cloth and wood; tools, work, cautions, rules
  stock.de.yaml     the same in another language
  translated/       which originals those texts were made from
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

from guidegen.buildfile.records.steps import Sequence
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.records.walk import texts_of, with_texts
from guidegen.buildfile.translate.translation import Translation, read_translation
from guidegen.buildfile.yaml.tree import Source, Trail, Value, read_tree
from guidegen.words import ENGLISH

TRADE = Path(__file__).parents[2] / "trade"
"""The files of the shipped stock."""

SHOWN = "guidegen's own stock.yaml"
"""How messages call it: nobody can mend it in a site."""

EXTENDS = "extends"

_BY_FIELD = ("materials", "tools", "processes", "cautions", "terms")
"""Sections whose entries change key by key."""
_WHOLE = ("sequences",)
"""Sections whose entries are taken whole: half of one sequence and half of another is none."""

type _Identity = Callable[[dict[str, Value]], tuple[str, ...]]

_LISTS: Mapping[str, _Identity] = {
    "rules": lambda rule: tuple(str(rule.get(key, "")) for key in ("first", "then", "by")),
    "musts": lambda must: tuple(str(must.get(key, "")) for key in ("need", "when", "uses", "on")),
}
"""Sections that are lists, and by what two rules are about the same: the site's one counts."""


@cache
def trade_values() -> tuple[dict[str, Value], Source]:
    """The shipped stock as plain values, which nobody may change."""
    value, source, found = read_tree(_text("stock.yaml"), SHOWN)
    if found or not isinstance(value, dict):
        raise RuntimeError(f"{SHOWN} does not hold: {found[:1]}")
    return value, source


@cache
def trade_stock() -> Stock:
    """The shipped stock as a record."""
    stock, problems = validate(Stock, *trade_values())
    if stock is None:
        raise RuntimeError(f"{SHOWN} does not hold: {problems[0].message}")
    return stock


@cache
def trade_translation(language: str) -> Mapping[Trail, str]:
    """Its texts in a language, by lasting trail; none where guidegen has none."""
    if language == ENGLISH.language:
        return shipped_texts()
    path = TRADE / f"stock.{language}.yaml"
    # The tag of a language is checked where site.yaml is read: it cannot lead elsewhere.
    if not path.is_file():
        return {}
    value, source, _ = read_tree(_text(path.name), SHOWN)
    kept = TRADE / "translated" / f"stock.{language}.json"
    before = kept.read_text(encoding="utf-8") if kept.is_file() else ""
    return read_translation(language, value, source, shipped_texts(), before)[0].texts


def shipped_texts() -> dict[Trail, str]:
    """All texts of the shipped stock that readers see, those of its usual steps among them."""
    return texts_of(trade_stock(), expanded=True)


@cache
def usual_steps(language: str) -> Mapping[str, Sequence]:
    """The shipped sequences of steps in a language; none where guidegen has no texts in it."""
    texts = trade_translation(language)
    if not texts:
        return {}

    def change(at: Trail, text: str) -> str:
        return texts.get(at, text)

    return with_texts(trade_stock(), change, expanded=True).sequences


def usual_in_use(stock: Stock, first: str, language: str) -> Mapping[str, Sequence]:
    """The shipped sequences of a site's stock in a further language; `first` is the site's own."""
    usual, shipped = usual_steps(language), usual_steps(first) or usual_steps(ENGLISH.language)
    # A site that has changed a sequence means its own.
    return {name: usual[name] for name in usual if stock.sequences.get(name) == shipped[name]}


def with_trade(
    value: Value, source: Source, language: str = ENGLISH.language
) -> tuple[Value, Source]:
    """A site's stock on top of the shipped one, where it says so; itself where it does not.

    `language` is that of the site: the shipped texts are in it, where guidegen has them so.
    """
    if not isinstance(value, dict) or value.get(EXTENDS) != "trade":
        return value, source
    under, places = trade_values()
    if language != ENGLISH.language and (texts := trade_translation(language)):
        under = _said(under, (), texts)
    moved: dict[Trail, Trail] = {}
    merged: dict[str, Value] = {**under, **value}
    for name in (*_BY_FIELD, *_WHOLE):
        own, shipped = value.get(name), under.get(name)
        if own is None and name in value:
            merged[name] = shipped
        elif isinstance(own, dict) and isinstance(shipped, dict):
            merged[name] = _entries(shipped, own, whole=name in _WHOLE)
    for name, identity in _LISTS.items():
        own, shipped = value.get(name), under.get(name)
        if own is None and name in value:
            merged[name] = shipped
        elif isinstance(own, list) and isinstance(shipped, list):
            merged[name] = _rules(name, own, shipped, identity, moved)
    return merged, replace(source, under=replace(places, moved=moved))


def _said(value: dict[str, Value], at: Trail, texts: Mapping[Trail, str]) -> dict[str, Value]:
    """Plain values with their texts in another language."""
    return {key: _said_one(one, (*at, key), texts) for key, one in value.items()}


def _said_one(value: Value, at: Trail, texts: Mapping[Trail, str]) -> Value:
    if isinstance(value, dict):
        return _said(value, at, texts)
    if isinstance(value, list):
        return [
            _said_one(one, (*at, _lasting(one, number)), texts) for number, one in enumerate(value)
        ]
    return texts.get(at, value)


def _lasting(value: Value, number: int) -> str | int:
    """By what an entry of a list is translated: its id, or its number."""
    id_ = value.get("id") if isinstance(value, dict) else None
    return id_ if isinstance(id_, str) else number


def _entries(shipped: dict[str, Value], own: dict[str, Value], *, whole: bool) -> dict[str, Value]:
    """Entries by name, the shipped ones first and in their order."""
    merged = {**shipped, **own}
    for name in () if whole else shipped.keys() & own.keys():
        below, above = shipped[name], own[name]
        if isinstance(below, dict) and isinstance(above, dict):
            # An empty key takes the shipped one away.
            both = {**below, **above}
            merged[name] = {key: one for key, one in both.items() if one is not None}
    return merged


def _rules(
    name: str,
    own: list[Value],
    shipped: list[Value],
    identity: _Identity,
    moved: dict[Trail, Trail],
) -> list[Value]:
    """The site's rules, and behind them the shipped ones that it does not replace."""
    replaced = {identity(rule) for rule in own if isinstance(rule, dict)}
    merged = [*own]
    # Nothing of the site's own rules is to be looked for in the shipped file.
    moved |= {(name, index): ("",) for index in range(len(own))}
    for index, rule in enumerate(shipped):
        if isinstance(rule, dict) and identity(rule) not in replaced:
            moved[name, len(merged)] = (name, index)
            merged.append(rule)
    return merged


def on_top_of_trade(made: Translation, stock: Stock, first: str = ENGLISH.language) -> Translation:
    """A translation of a site's stock with the shipped texts under it, where those still fit: where
    the stock says what guidegen says in the site's `first` language."""
    if stock.extends is None:
        return made
    shipped, originals = trade_translation(made.language), trade_translation(first)
    originals = {**shipped_texts(), **originals}
    texts = {
        trail: shipped[trail]
        for trail, text in texts_of(stock).items()
        if trail in shipped and text == originals[trail] and trail not in made.outdated
    }
    missing = tuple(trail for trail in made.missing if trail not in texts)
    return replace(made, texts={**texts, **made.texts}, missing=missing)


def _text(name: str) -> str:
    return (TRADE / name).read_text(encoding="utf-8")
