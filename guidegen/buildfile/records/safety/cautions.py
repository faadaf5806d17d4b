"""Safety messages: signal words, signs, what a room must have, and who may do such work."""

from enum import StrEnum
from typing import Literal

from pydantic import Field

from guidegen.buildfile.records.meanings import CodeText, ForAuthor, ToolRef, Translated
from guidegen.buildfile.yaml.fields import Model


class SignalWord(StrEnum):
    """Signal words of ANSI Z535.6 and ISO 3864-2, gravest first."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


class Young(StrEnum):
    """Who may do work that brings a caution, least strict first. Local rules come before it."""

    MAY = "may"
    """Young people too."""
    WATCHED = "watched"
    """Young people only with a competent adult beside them."""
    ADULTS = "adults"
    """Adults only."""


class Reader(StrEnum):
    """Whom a caution addresses."""

    ALL = "all"
    """Whoever does the step."""
    LEADER = "leader"
    """Whoever leads a group: it stands on the leader's paper and in the safety chapter alone."""


SignCode = Literal[
    "M004", "M009", "M011", "M016", "M017", "M021", "M055",
    "P002", "P003",
    "W001", "W012", "W017", "W021", "W022", "W071",
]  # fmt: skip
"""ISO 7010 signs that guidegen draws."""


class RoomNeed(StrEnum):
    """What a room must have for some work. Common practice, no source; local rules come first."""

    AIR = "air"
    """Fresh air: outdoors, extraction, or windows open on two sides."""
    SOCKET = "socket"
    """A socket for each of the tool."""
    WATER = "water"
    """Running water."""
    HEATPROOF = "heatproof"
    """A place that heat does not harm, away from everything that burns."""


class Caution(Model):
    """One safety message: what may happen, what then, how to avoid it."""

    word: SignalWord
    """Signal word after ANSI Z535.6: how grave the harm is."""
    title: Translated
    """A few words to find it by, such as 'Sharp blade'."""
    short: Translated | None = None
    """What to do, in at most 60 letters: the line before every action that it belongs to. Without
    it the whole caution stands there."""
    hazard: Translated
    """What is dangerous about it."""
    consequence: Translated
    """What happens if it is not avoided."""
    avoid: Translated
    """What to do so that it does not happen."""
    signs: tuple[SignCode, ...] = ()
    """ISO 7010 signs to draw beside it."""
    first_aid: Translated | None = None
    """One line that sends to the label, the safety data sheet and professional help."""
    statements: tuple[CodeText, ...] = ()
    """Codes of official hazard and precaution statements, such as H225."""
    protection: tuple[ToolRef, ...] = ()
    """Protective equipment, ids of tools."""
    reader: Reader = Reader.ALL
    """Whom it addresses."""
    young: Young = Young.MAY
    """Whether young people may do such work; for workshops and schools."""
    words: tuple[ForAuthor, ...] = Field((), max_length=40)
    """Words in a step's text, or in the name of a tool, that speak of this hazard: proof tells
    where they stand and the caution does not. In the language of the build files."""
    no_protection: Translated | None = None
    """Why no equipment helps, where DANGER or WARNING names none."""
    room: tuple[RoomNeed, ...] = ()
    """What a room must have for work that brings it; for workshops."""
