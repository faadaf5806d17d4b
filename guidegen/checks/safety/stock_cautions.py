"""Cautions of the stock say whom to turn to and what to wear; chemicals never come without one."""

from collections.abc import Iterator

from guidegen.buildfile.derive.caution_places import MOST_LETTERS
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.safety.cautions import Caution, SignalWord
from guidegen.buildfile.records.safety.statements import STATEMENTS
from guidegen.problems import Problem, did_you_mean

GRAVE = (SignalWord.DANGER, SignalWord.WARNING)
"""Words of hazards that can kill or cause serious injury (ANSI Z535.6)."""

EQUIPMENT = frozenset({"M004", "M009", "M016", "M017"})
"""ISO 7010 signs of equipment that one wears: eye protection, gloves, mask, respirator."""


def check_stock_cautions(content: Content) -> Iterator[Problem]:
    """First aid and equipment of grave cautions, signs, official statements, chemicals."""
    source = content.stock_source
    for name, caution in content.stock.cautions.items():
        if caution.word in GRAVE:
            yield from _grave(content, name, caution)
        yield from _short(content, name, caution)
        missing = _signs(content, caution)
        if missing:
            yield source.problem(
                "sign-without-equipment",
                ("cautions", name, "signs"),
                f"{', '.join(missing)} is shown, but no equipment with that sign is listed",
            )
        for index, code in enumerate(caution.statements):
            if code.replace(" ", "") not in STATEMENTS:
                hint = did_you_mean(code, STATEMENTS)
                yield source.problem(
                    "unknown-statement",
                    ("cautions", name, "statements", index),
                    f'the official words of "{code}" are not kept here{hint}',
                )
    for name, material in content.stock.materials.items():
        if material.kind is MaterialKind.LIQUID and not material.cautions:
            yield source.problem(
                "chemical-without-caution",
                ("materials", name),
                f"{material.name} is a liquid, but brings no caution",
                key=True,
            )


def _short(content: Content, name: str, caution: Caution) -> Iterator[Problem]:
    """The line before an action is there, and is a line."""
    source = content.stock_source
    if caution.word is SignalWord.DANGER:
        return  # always in full
    if caution.short is None:
        yield source.problem(
            "no-short-caution",
            ("cautions", name),
            f'the caution "{name}" has no short form',
            key=True,
        )
    elif len(caution.short) > MOST_LETTERS:
        yield source.problem(
            "long-short-caution",
            ("cautions", name, "short"),
            f"the short form has {len(caution.short)} letters, expected {MOST_LETTERS} or fewer",
        )


def _grave(content: Content, name: str, caution: Caution) -> Iterator[Problem]:
    source = content.stock_source
    if caution.first_aid is None:
        yield source.problem(
            "no-first-aid",
            ("cautions", name),
            f"{caution.word} without a line of first aid",
            key=True,
        )
    if not caution.protection and caution.no_protection is None:
        yield source.problem(
            "no-protection",
            ("cautions", name),
            f"{caution.word} without protective equipment",
            key=True,
        )


def _signs(content: Content, caution: Caution) -> list[str]:
    """Signs that order equipment which the caution does not list."""
    tools = content.stock.tools
    listed = {tools[tool].sign for tool in caution.protection if tool in tools}
    return [sign for sign in caution.signs if sign in EQUIPMENT and sign not in listed]
