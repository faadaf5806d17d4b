"""Classes, ids and labels of an element in → what its path is for."""

import re
from dataclasses import dataclass

from guidegen.geometry.drawing.records import ROLE_WORDS, Role
from guidegen.geometry.drawing.svg_document import NAME_KEYS, Element

_ENCODED = re.compile(r"_x([0-9A-Fa-f]{2,4})_")
_COPY = re.compile(r"_\d+_$")
"""What some editors put behind an id that is already there."""


@dataclass(frozen=True, slots=True)
class DrawnMeaning:
    """What a path is for, said by itself or by the nearest group that says it."""

    role: Role = Role.NONE
    name: str = ""
    """Name that goes with the role, as in 'corner-shoulder'."""


def plain_name(text: str) -> str:
    """A name as build files write it: lower case words with hyphens.

    Some editors write letters that ids do not allow as _x5F_ and the like.
    """
    decoded = _ENCODED.sub(lambda match: chr(int(match[1], 16)), text)
    return re.sub(r"[^a-z0-9]+", "-", decoded.lower()).strip("-")


def own_meaning(element: Element) -> DrawnMeaning | None:
    """The role that an element states itself: by class, then label, then id; None without one."""
    labels = [element.get(name, "") for name in NAME_KEYS]
    named = [found for label in labels if (found := _meaning_in(label)) is not None]
    named = [meaning for meaning in named if _is_meant(meaning, element)]
    # The class before label and id: editors give every path an id of their own making, perhaps
    # after another that it was copied from, but a class is written on purpose.
    for word in element.get("class", "").split():
        role = ROLE_WORDS.get(word.lower())
        if role is not None:
            name = next((m.name for m in named if m.role is role), "")
            return DrawnMeaning(role, name or _last_of(element))
    return named[0] if named else None


def role_of_name(text: str) -> Role:
    """The role that a name of a layer or object states: 'Fold lines' is a fold."""
    meaning = _meaning_in(text)
    return meaning.role if meaning is not None else Role.NONE


def _is_meant(meaning: DrawnMeaning, element: Element) -> bool:
    """Scales are also a kind of armour: an id alone makes a scale line only with a length."""
    if meaning.role is not Role.SCALE:
        return True
    return bool(element.get("data-length") or stated_length(meaning.name))


def stated_length(name: str) -> str:
    """'100-mm' and '2-5-in' -> '100mm' and '2.5in'; empty for other names."""
    match = re.fullmatch(r"(\d+)(?:-(\d+))?-?(mm|cm|in)", name)
    if match is None:
        return ""
    return f"{match[1]}.{match[2] or 0}{match[3]}"


def own_name(element: Element) -> str:
    """An element's label, or its id: its name where its role does not bring one."""
    return next((steps[-1] for steps in _own_steps(element)), "")


def group_names(element: Element) -> tuple[str, ...]:
    """Names by which a build file finds an element: its own, and the parts that it states.

    'front/corner-shoulder' and 'corner-front/shoulder' belong to the part 'front', wherever they
    stand in the drawing.
    """
    steps = next(iter(_own_steps(element)), ())
    parts = list(steps[:-1])
    if parts and _role_in(steps[-1]) is None and (meaning := _role_in(parts[0])) is not None:
        parts[0] = meaning.name
    return tuple(name for name in (*parts, "-".join(steps)) if name)


def _own_steps(element: Element) -> list[tuple[str, ...]]:
    """The names of an element, what editors show first, each taken apart at its slashes."""
    return [steps for key in NAME_KEYS if (steps := name_steps(element.get(key, "")))]


def name_steps(text: str) -> tuple[str, ...]:
    """'Front/Corner knee' -> 'front', 'corner-knee'."""
    decoded = _ENCODED.sub(lambda match: chr(int(match[1], 16)), text)
    return tuple(name for step in decoded.split("/") if (name := plain_name(step)))


def _last_of(element: Element) -> str:
    """The name behind a slash: 'shoulder' of 'front/shoulder'; empty without one."""
    steps = next(iter(_own_steps(element)), ())
    return steps[-1] if len(steps) > 1 else ""


def _meaning_in(text: str) -> DrawnMeaning | None:
    """The role that a name states, in its last step or in its first."""
    # 'corner-shoulder_2_' is what an editor makes of the second 'corner-shoulder' of a file; in
    # 'corner_2_' the number is all there is to tell it from others.
    short = _meaning_of(_COPY.sub("", text))
    return short if short is not None and short.name else _meaning_of(text)


def _meaning_of(text: str) -> DrawnMeaning | None:
    steps = name_steps(text)
    if not steps:
        return None
    last, first = _role_in(steps[-1]), _role_in(steps[0])
    if last is None and first is not None and len(steps) > 1:
        return DrawnMeaning(first.role, steps[-1])
    return last


def _role_in(name: str) -> DrawnMeaning | None:
    """'corner-shoulder' -> corner, 'shoulder'; 'holes' and 'hole2' -> hole."""
    # The word ends at a hyphen or a digit: "holes" is a role, "holster" is not.
    match = re.match(r"([a-z]+?)s?(?:-(.+)|(\d.*))?$", name)
    if match is None or match[1] not in ROLE_WORDS:
        return None
    return DrawnMeaning(ROLE_WORDS[match[1]], match[2] or match[3] or "")
