"""What imports compile anew is recorded once and taken up again, with the same result."""

import dataclasses
import re
from collections.abc import Iterator
from typing import Any

import pytest

from guidegen.app.measured.compiled import said_of
from guidegen.app.measured.standins import recorded


@pytest.fixture
def own() -> Iterator[None]:
    """Python's own ways are put back afterwards."""
    regex: Any = re._compiler  # type: ignore[attr-defined]
    compile_pattern = regex.compile
    yield
    regex.compile = compile_pattern
    vars(dataclasses).pop("exec", None)
    re.purge()


def make() -> tuple[type, "re.Pattern[str]"]:
    """A data class and a pattern, made anew."""
    re.purge()
    point = dataclasses.make_dataclass("Point", ["x", ("y", int, 3)], frozen=True, order=True)
    return point, re.compile(r"(?P<word>[a-zé]+)-(\d{2,3})", re.IGNORECASE)


@pytest.mark.usefixtures("own")
def test_what_is_taken_up_is_what_was_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """A recorded class and pattern work as they did and are not compiled again; others are made as
    ever."""
    written = recorded.record()
    make()
    data = written()
    assert "exec" not in vars(dataclasses)
    recorded.replay(data)
    monkeypatch.setattr("re._parser.parse", lambda *_: pytest.fail("the pattern was parsed again"))
    point, pattern = make()
    assert point(1) == point(1, 3) < point(2) and repr(point(1)) == "Point(x=1, y=3)"
    with pytest.raises(dataclasses.FrozenInstanceError):
        point(1).x = 2
    found = pattern.fullmatch("Été-123")
    assert found is not None and found["word"] == "Été" and found[2] == "123"
    assert pattern.flags == re.IGNORECASE | re.UNICODE and pattern.groupindex == {"word": 1}
    monkeypatch.undo()
    assert re.compile("other-[0-9]").fullmatch("other-7")
    assert dataclasses.make_dataclass("Other", ["z"])(5).z == 5


def test_without_a_recording_nothing_changes() -> None:
    """Beside the sources there is none, and taking up nothing leaves Python as it is."""
    before = vars(re._compiler)["compile"]  # type: ignore[attr-defined]
    recorded.replay()
    assert vars(re._compiler)["compile"] is before  # type: ignore[attr-defined]


def test_a_failure_of_node_is_told_in_a_line() -> None:
    """The line that names the error, and never the script around it; nothing where it said nothing."""
    stderr = (
        "file:///pyodide.mjs:1\n" + "var x;" * 9000 + "\n\nRangeError: no memory\n    at f (a:1)\n"
    )
    assert said_of(stderr) == "RangeError: no memory"
    assert len(said_of("var x;" * 9000)) == 200
    assert said_of("") == ""
