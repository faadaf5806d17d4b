"""The nesting solver in its own process: whatever happens there, an answer or one error comes."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.errors import SolverError
from guidegen.layout.nesting.solver_messages import (
    NestAnswer,
    NestRequest,
    Search,
    SolverItem,
    SolverPlace,
    SolverSheet,
    is_enough,
    read_answer,
    read_request,
    write_message,
)
from guidegen.layout.nesting.solver_process import solve_apart

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
REQUEST = NestRequest(
    sheets=(SolverSheet(100, 100, 5, 4, 1, 5),),
    items=(SolverItem(SQUARE, (), 4),),
    spacing=3,
    rim=5,
    searches=(Search(((0, 0, False), (90, 90, False)), (), 1),),
    seconds=2,
    enough=(5, 1),
)


def program(text: str) -> tuple[str, ...]:
    """A command that runs some Python in place of the solver."""
    return (sys.executable, "-c", text)


def test_real_solver() -> None:
    """Four squares of 40 mm fit one sheet of 100 mm with 3 mm between and 5 mm of rim."""
    answer = solve_apart(REQUEST)
    ((kind, places),) = answer.sheets
    assert kind == 0
    assert len(places) == 4
    for place in places:
        assert place.angle in (0, 90)
        assert 4.99 <= place.x - (40 if place.angle == 90 else 0) <= 55.01


def test_modules_of_the_author(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A Python file in the folder that guidegen was called in is never run."""
    (tmp_path / "json.py").write_text("raise SystemExit('the wrong json')", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert len(solve_apart(REQUEST).sheets) == 1


def test_messages() -> None:
    """A request and an answer come through their text unchanged."""
    assert read_request(write_message(REQUEST)) == REQUEST
    answer = NestAnswer(((0, (SolverPlace(0, 5, 5, 90, False),)),))
    assert read_answer(write_message(answer) + "\n", REQUEST) == answer


def test_enough() -> None:
    """The search may end at the price and number of sheets that no plan can go below."""
    one = NestAnswer(((0, ()),))
    two = NestAnswer(((0, ()), (0, ())))
    assert is_enough(one, REQUEST)
    assert not is_enough(two, REQUEST)
    packs = replace(REQUEST, sheets=(SolverSheet(100, 100, 2.5, 4, 2, 5),), enough=(5, 2))
    assert is_enough(two, packs)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("import os; os.abort()", "failed"),
        ("raise SystemExit('out of memory')", "out of memory"),
        ("raise MemoryError", "MemoryError"),
        ("print('hello')", "cannot be read"),
        ("pass", "cannot be read"),
        ("print('[1, 2]')", "cannot be read"),
        ("print('{\"sheets\": [[0, [{}]]]}')", "cannot be read"),
        ("print('{\"sheets\": [[7, []]]}')", "cannot be read"),
        (
            'print(\'{"sheets": [[0, [{"item": 0, "x": NaN, "y": 0, "angle": 0,\'\n'
            "'\"flipped\": false}]]]}')",
            "NaN|nan",
        ),
        ("print('{\"sheets\": []}', end='')", "cannot be read"),
        ("print('[' * 100000)", "cannot be read"),
        ("import sys; sys.stdout.buffer.write(b'\\xff\\n')", "cannot be read"),
    ],
)
def test_crash_and_garbage(text: str, words: str) -> None:
    """A crash or an answer that is none ends in a SolverError with a reason."""
    with pytest.raises(SolverError, match=words):
        solve_apart(REQUEST, program(text))


def test_hang() -> None:
    """A process that does not answer is stopped soon after its time."""
    late = replace(REQUEST, seconds=0.2)
    with pytest.raises(SolverError, match="in time"):
        solve_apart(late, program("import time; time.sleep(60)"), grace=0.2)


def test_hang_after_a_plan() -> None:
    """A plan that was found before the process had to be stopped is used."""
    text = "import time; print('{\"sheets\": []}', flush=True); time.sleep(60)"
    answer = solve_apart(replace(REQUEST, seconds=0.5), program(text), grace=1.0)
    assert answer == NestAnswer(())


def test_no_such_command() -> None:
    """A solver that cannot be started is a SolverError too."""
    with pytest.raises(SolverError, match="started"):
        solve_apart(REQUEST, ("/nowhere/solver",))
