"""Classes, ids and labels of an element in → what its path is for."""

import re
from dataclasses import dataclass

from guidegen.geometry.drawing.records import ROLE_WORDS, Role
from guidegen.geometry.drawing.svg_document import Element

_ENCODED = re.compile(r"_x([0-9A-Fa-f]{2,4})_")


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
    labels = [element.get(name, "") for name in ("label", "data-name", "id")]
    named = [found for label in labels if (found := _role_in(plain_name(label))) is not None]
    named = [meaning for meaning in named if _is_meant(meaning, element)]
    # The class before label and id: editors give every path an id of their own making, perhaps
    # after another that it was copied from, but a class is written on purpose.
    for word in element.get("class", "").split():
        role = ROLE_WORDS.get(word.lower())
        if role is not None:
            return DrawnMeaning(role, next((m.name for m in named if m.role is role), ""))
    return named[0] if named else None


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
    return next(
        (
            name
            for key in ("label", "data-name", "id")
            if (name := plain_name(element.get(key, "")))
        ),
        "",
    )


def _role_in(name: str) -> DrawnMeaning | None:
    """'corner-shoulder' -> corner, 'shoulder'; 'holes' and 'hole2' -> hole."""
    # The word ends at a hyphen or a digit: "holes" is a role, "holster" is not.
    match = re.match(r"([a-z]+?)s?(?:-(.+)|(\d.*))?$", name)
    if match is None or match[1] not in ROLE_WORDS:
        return None
    return DrawnMeaning(ROLE_WORDS[match[1]], match[2] or match[3] or "")
