"""What importing makes anew in each browser → made once at press, and taken up there.

Data classes write the text of their methods and compile it, and patterns of text are compiled from
theirs: half of the time of an import. Both are kept by what they are made from, so that a class or
pattern that is not among them is made as ever.
"""

import builtins
import dataclasses
import marshal
import re
from collections.abc import Callable
from pathlib import Path
from types import CodeType
from typing import Any

FILE = Path(__file__).parent / "recorded.bin"
"""Written at press by the Python that reads it; beside sources there is none."""

type _Pattern = tuple[str | bytes, int]
"""What is compiled, and its flags."""


def record() -> Callable[[], bytes]:
    """Remember from now on; the function that is returned gives what was made, and ends it."""
    # The compiler of `re` and its parts have no public names.
    regex: Any = re._compiler  # type: ignore[attr-defined]
    own_compile, machine = regex.compile, regex._sre
    texts: dict[str, CodeType] = {}
    patterns: dict[_Pattern, tuple[Any, ...]] = {}

    def execute(text: str, *spaces: dict[str, Any]) -> None:
        texts[text] = compile(text, "<string>", "exec", dont_inherit=True)
        builtins.exec(texts[text], *spaces)  # noqa: S102 - what the data class wrote

    class Machine:
        """The engine, whose orders are noted."""

        def __getattr__(self, name: str) -> object:
            return getattr(machine, name)

        def compile(self, *order: Any) -> Any:  # noqa: ANN401 - the engine's own kinds
            self.order = order
            return machine.compile(*order)

    noting = Machine()

    def noted(pattern: Any, flags: int = 0) -> Any:  # noqa: ANN401 - as in `re`
        regex._sre = noting
        try:
            found = own_compile(pattern, flags)
        finally:
            regex._sre = machine
        if isinstance(pattern, str | bytes):
            asked, told, code, groups, names, numbers = noting.order
            plain = [int(one) for one in code]
            patterns[pattern, int(flags)] = asked, int(told), plain, groups, dict(names), numbers
        return found

    vars(dataclasses)["exec"], regex.compile = execute, noted

    def written() -> bytes:
        del vars(dataclasses)["exec"]
        regex.compile = own_compile
        return marshal.dumps((sorted(texts.items()), sorted(patterns.items(), key=repr)))

    return written


def replay(data: bytes | None = None) -> None:
    """Take up what was recorded, here beside this module; where there is nothing, do nothing."""
    if data is None:
        if not FILE.is_file():
            return
        data = FILE.read_bytes()
    told_texts, told_patterns = marshal.loads(data)  # noqa: S302 - of this very bundle
    texts: dict[str, CodeType] = dict(told_texts)
    patterns: dict[_Pattern, tuple[Any, ...]] = dict(told_patterns)
    regex: Any = re._compiler  # type: ignore[attr-defined]
    own_compile, machine = regex.compile, regex._sre

    def execute(text: str, *spaces: dict[str, Any]) -> None:
        builtins.exec(texts.get(text, text), *spaces)  # noqa: S102 - what the data class wrote

    def compiled(pattern: Any, flags: int = 0) -> Any:  # noqa: ANN401 - as in `re`
        known = isinstance(pattern, str | bytes) and patterns.get((pattern, int(flags)))
        return machine.compile(*known) if known else own_compile(pattern, flags)

    vars(dataclasses)["exec"], regex.compile = execute, compiled
