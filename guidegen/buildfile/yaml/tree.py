"""YAML text in → plain values out, with the place of every key and value.

The only module that imports PyYAML. It listens to parse events rather than letting the library
build objects: nothing in a file can name a Python type, and depth, size and aliases are bounded
while reading, before anything has grown.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from functools import lru_cache

import yaml
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceStartEvent,
)

from guidegen.buildfile.yaml.characters import forbidden_at, forbidden_words
from guidegen.buildfile.yaml.faults import Fault, explain_fault
from guidegen.buildfile.yaml.plain import plain_value
from guidegen.problems import Place, Problem

MAX_BYTES = 1_000_000
"""Bytes in one file. Our choice: a hundred times a long hand-written guide."""
MAX_DEPTH = 24
"""Levels of nesting. Our choice: the model itself needs eight."""
MAX_VALUES = 50_000
"""Values in one file with aliases expanded. Our choice: bounds alias bombs; the demo's largest
guide has some thousand, and so many are read in 2 s."""

MAX_DUPLICATES = 50
"""Keys that stand twice and are told. Our choice: nobody reads more."""

type TrailStep = str | int
type Trail = tuple[TrailStep, ...]
type Value = bool | int | float | str | list[Value] | dict[str, Value] | None


@dataclass(frozen=True)
class Source:
    """One file as it was read, with where everything stands."""

    file: str
    """Path as the author would type it."""
    lines: tuple[str, ...]
    values: Mapping[Trail, tuple[int, int]] = field(default_factory=dict)
    """Line and column, from 1, of the value at a trail of keys and indices."""
    keys: Mapping[Trail, tuple[int, int]] = field(default_factory=dict)
    """Line and column, from 1, of the key that ends a trail."""
    moved: Mapping[Trail, Trail] = field(default_factory=dict)
    """Where the author wrote what now stands at a trail, with all below it: repeats of steps."""
    under: "Source | None" = None
    """The file that this one extends: what does not stand here stands there."""

    def written(self, trail: Trail) -> Trail:
        """The trail as the author wrote it."""
        for length in range(len(trail), -1, -1) if self.moved else ():
            if trail[:length] in self.moved:
                return (*self.moved[trail[:length]], *trail[length:])
        return trail

    def place(self, trail: Trail = (), *, key: bool = False) -> Place:
        """Place of the value at `trail` (or its key); the nearest parent's where it is missing."""
        if self.under is not None and self.under.depth(trail) > self.depth(trail):
            return self.under.place(trail, key=key)
        trail = self.written(trail)
        if key and trail in self.keys:
            return self.at(*self.keys[trail])
        while trail and trail not in self.values:
            trail = trail[:-1]
        line, column = self.values.get(trail, (0, 0))
        return self.at(line, column)

    def depth(self, trail: Trail) -> int:
        """How many steps of `trail` lead to something that stands in this very file."""
        trail = self.written(trail)
        while trail and trail not in self.values:
            trail = trail[:-1]
        return len(trail)

    def at(self, line: int, column: int) -> Place:
        """Place with its source line."""
        text = self.lines[line - 1][:400] if 0 < line <= len(self.lines) else ""
        return Place(self.file, line, column, text)

    def problem(
        self,
        code: str,
        trail: Trail,
        message: str,
        *,
        key: bool = False,
        cure: str = "",
        amount: float = 0.0,
    ) -> Problem:
        """A problem about the value at `trail`; `amount` says how much is wrong."""
        place, path = self.place(trail, key=key), trail_text(self.written(trail))
        return Problem(code, place, path, message, cure, amount)


def trail_text(trail: Trail) -> str:
    """('parts', 'cuff', 'lines', 0) -> 'parts.cuff.lines[0]'."""
    text = ""
    for step in trail:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else str(step)
    return text


def _mark(event: Event) -> tuple[int, int]:
    """Line and column of an event, from 1."""
    mark = event.start_mark
    return (mark.line + 1, mark.column + 1) if mark is not None else (1, 1)


class _Stop(Exception):
    """Reading cannot go on; carries what to tell."""

    def __init__(self, code: str, event: Event | None, message: str) -> None:
        super().__init__(message)
        self.code, self.message = code, message
        self.line, self.column = _mark(event) if event is not None else (1, 1)


def read_tree(text: str, file: str) -> tuple[Value, Source, list[Problem]]:
    """Values, their places, and what was wrong with the YAML itself.

    With any problem the value is None: half a file would bring only false errors after it.
    The last few files are kept: a preview reads them all again after an edit of one.
    """
    value, source, problems = _read(text, file)
    return _copied(value), source, [*problems]


def _copied(value: Value) -> Value:
    """A value of its own for whoever reads it: steps are expanded in it."""
    if isinstance(value, dict):
        return {key: _copied(one) for key, one in value.items()}
    return [_copied(one) for one in value] if isinstance(value, list) else value


@lru_cache(maxsize=24)
def _read(text: str, file: str) -> tuple[Value, Source, tuple[Problem, ...]]:
    if not _READ_OTHERWISE.search(text):
        with suppress(_ReadOtherwise):
            return _built(text, file, _alike_events(text), again=True)
    return _built(text, file, _events(text, yaml.SafeLoader))


_READ_OTHERWISE = re.compile(
    r"[\t\x85\u2028\u2029\ud800-\udfff\ufeff]|^( *(- *)*\?([ \r]|$)|---|\.\.\.|%)", re.MULTILINE
)
"""Where the parser in C takes what the one in Python refuses, or counts columns otherwise: at tabs,
rare breaks of lines and marks of byte order, and at lines that begin with a question mark or with
the marks of documents."""


class _ReadOtherwise(Exception):
    """The parser in C may not say the same of a text as the one in Python."""


def _built(
    text: str, file: str, events: Iterator[Event], *, again: bool = False
) -> tuple[Value, Source, tuple[Problem, ...]]:
    """What a text gives. Raises _ReadOtherwise for one that does not hold, where it is read `again`
    by the parser in Python: words about faults differ, and on some systems there is no other.
    """
    builder = _Builder()
    try:
        if len(text.encode("utf-8", "surrogatepass")) > MAX_BYTES:
            raise _Stop("too-large-file", None, f"the file is larger than {MAX_BYTES} bytes")
        value = builder.build(events)
        problems = builder.problems
    except _Stop as stop:
        value, problems = None, [(stop.code, (), stop.line, stop.column, stop.message)]
    if again and problems:
        raise _ReadOtherwise
    source = Source(file, tuple(text.splitlines()), builder.values, builder.keys)
    found = tuple(
        Problem(code, source.at(line, column), trail_text(trail), message)
        for code, trail, line, column, message in problems
    )
    return (None if found else value), source, found


def _alike_events(text: str) -> Iterator[Event]:
    """Events of the parser in C, ten times as fast, as long as the one in Python gives the same.

    Raises _ReadOtherwise where there is no such parser, and before the first event that may differ:
    in [] and {} an empty value stands one column further on, and a question mark may end a word.
    """
    loader = getattr(yaml, "CSafeLoader", None)
    if loader is None:
        raise _ReadOtherwise
    flow = 0
    """How many [] and {} are open; in them there is nothing else."""
    for event in _events(text, loader):
        if isinstance(event, CollectionStartEvent):
            flow += flow > 0 or bool(event.flow_style)
        elif isinstance(event, CollectionEndEvent):
            flow -= flow > 0
        elif flow and _may_differ(event):
            raise _ReadOtherwise
        yield event


def _may_differ(event: Event) -> bool:
    """Whether a value in [] or {} may be another one to the parser in Python."""
    if not isinstance(event, ScalarEvent) or event.style:
        return False
    return not event.value or "?" in event.value


def _events(text: str, loader: type[yaml.SafeLoader]) -> Iterator[Event]:
    try:
        yield from yaml.parse(text, Loader=loader)
    except yaml.MarkedYAMLError as error:
        fault = _fault(error, text.splitlines())
        stop = _Stop("yaml", None, f"not readable as YAML: {fault.words}")
        stop.line, stop.column = fault.line, fault.column
        raise stop from None
    except yaml.YAMLError as error:
        # A character that YAML does not allow, such as a control code.
        stop = _Stop("yaml", None, f"not readable as YAML: {str(error).splitlines()[0]}")
        position = getattr(error, "position", None)
        if isinstance(position, int):
            before = text[:position]
            stop.line = before.count("\n") + 1
            stop.column = position - (before.rfind("\n") + 1) + 1
        raise stop from None


def _fault(error: yaml.MarkedYAMLError, lines: list[str]) -> Fault:
    context, problem = error.context or "", error.problem or ""
    words = ", ".join(part for part in (context, problem) if part)
    began, mark = error.context_mark, error.problem_mark or error.context_mark
    met = Fault(words, *((mark.line + 1, mark.column + 1) if mark else (1, 1)))
    return explain_fault(
        context, problem, (began.line + 1, began.column + 1) if began else None, met, lines
    )


def _refuse_characters(event: ScalarEvent) -> None:
    """Escapes such as "\\0" and "\\ud800" bring what may not stand in a file as it is."""
    at = forbidden_at(event.value)
    if at >= 0:
        raise _Stop("character", event, forbidden_words(event.value, at))


class _Builder:
    """Turns events into values with an explicit stack: no recursion, so depth cannot crash it."""

    def __init__(self) -> None:
        self.values: dict[Trail, tuple[int, int]] = {}
        self.keys: dict[Trail, tuple[int, int]] = {}
        self.problems: list[tuple[str, Trail, int, int, str]] = []
        self._anchors: dict[str, tuple[Value, int]] = {}
        self._count = 0

    def build(self, events: Iterator[Event]) -> Value:
        root: list[Value] = []
        stack: list[_Open] = [_Open(root, (), root.append)]
        documents = 0
        for event in events:
            if isinstance(event, DocumentStartEvent):
                documents += 1
                if documents > 1:
                    raise _Stop("yaml", event, "expected one YAML document, found a second one")
            elif isinstance(event, CollectionEndEvent):
                closed = stack.pop()
                closed.close(self._anchors, self._count)
            elif isinstance(event, NodeEvent):
                self._node(event, stack)
        return root[0] if root else None

    def _node(self, event: NodeEvent, stack: list["_Open"]) -> None:
        self._count += 1
        if self._count > MAX_VALUES:
            raise _Stop("too-many-values", event, f"more than {MAX_VALUES} values in one file")
        top = stack[-1]
        if top.wants_key:
            self._key(event, top)
            return
        trail = top.trail_of_next()
        self.values[trail] = _mark(event)
        if isinstance(event, AliasEvent):
            value, size = self._anchors.get(event.anchor or "", (None, -1))
            if size < 0:
                raise _Stop(
                    "yaml", event, f"alias *{event.anchor} stands before its anchor is done"
                )
            self._count += size
            top.put(value)
            return
        tag = getattr(event, "tag", None)
        if tag is not None:
            raise _Stop("yaml-tag", event, f"tags such as {tag} are not allowed")
        if isinstance(event, ScalarEvent):
            _refuse_characters(event)
            scalar = event.value if event.style else plain_value(event.value)
            if event.anchor:
                self._anchors[event.anchor] = (scalar, 1)
            top.put(scalar)
            return
        if len(stack) > MAX_DEPTH:
            raise _Stop("too-deep", event, f"more than {MAX_DEPTH} levels of nesting")
        value = {} if isinstance(event, MappingStartEvent) else []
        assert isinstance(event, MappingStartEvent | SequenceStartEvent)  # noqa: S101 - narrows the type: the event classes end here
        top.put(value)
        stack.append(_Open(value, trail, None, event.anchor, self._count))

    def _key(self, event: NodeEvent, top: "_Open") -> None:
        if not isinstance(event, ScalarEvent):
            raise _Stop("yaml", event, "expected a plain word as key")
        _refuse_characters(event)
        if event.value == "<<":
            raise _Stop("yaml", event, "merge keys (<<) are not part of YAML 1.2; write it out")
        line, column = _mark(event)
        trail = (*top.trail, event.value)
        mapping = top.value
        if isinstance(mapping, dict) and event.value in mapping:
            if len(self.problems) >= MAX_DUPLICATES:
                raise _Stop("duplicate-key", event, f"more than {MAX_DUPLICATES} keys stand twice")
            first = self.keys[trail][0]
            self.problems.append(
                (
                    "duplicate-key",
                    trail,
                    line,
                    column,
                    f"the key stands twice, first in line {first}",
                )
            )
        else:
            self.keys[trail] = (line, column)
        top.key = event.value


@dataclass
class _Open:
    """A collection that is still being filled."""

    value: list[Value] | dict[str, Value]
    trail: Trail
    root: Callable[[Value], None] | None
    anchor: str | None = None
    started: int = 0
    key: str | None = None

    @property
    def wants_key(self) -> bool:
        return isinstance(self.value, dict) and self.key is None

    def trail_of_next(self) -> Trail:
        if self.root is not None:
            return ()
        return (*self.trail, self.key if self.key is not None else len(self.value))

    def put(self, value: Value) -> None:
        if isinstance(self.value, dict):
            if self.key is not None:
                self.value[self.key] = value
            self.key = None
        else:
            self.value.append(value)

    def close(self, anchors: dict[str, tuple[Value, int]], count: int) -> None:
        if self.anchor:
            anchors[self.anchor] = (self.value, count - self.started)
