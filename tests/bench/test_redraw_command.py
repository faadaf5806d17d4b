"""The command that turns a PDF or DXF into a drawing: what it writes, says and refuses."""

import pytest
from benchmarks.vector_writers import FORMS, by_reportlab

from guidegen.app.commands.bench.redraw import RedrawOptions, redraw_file
from guidegen.cli import main


@pytest.fixture
def plate(tmp_path):
    """A PDF of a plate."""
    path = tmp_path / "plate.pdf"
    path.write_bytes(by_reportlab(FORMS["plate"]()))
    return path


def test_a_drawing_is_written_and_the_next_step_said(plate, capsys):
    """The closing words give each piece's size, how to use it and what to type next."""
    out = plate.parent / "guide"
    status = main(["redraw", str(plate), "--out", str(out), "--length", "width=140 mm"])
    said = capsys.readouterr().out
    assert status == 0
    assert (out / "plate.svg").read_text(encoding="utf-8").startswith("<svg")
    assert "plate.svg#piece-1  140 × 220 mm  1 outline" in said
    assert "width=140 mm agrees with it" in said
    assert "drawing: plate.svg#piece-1" in said
    assert "guidegen proof guide" in said
    assert [path.name for path in out.iterdir()] == ["plate.svg"]


def test_nothing_is_overwritten_unless_asked(plate, capsys):
    """A drawing that its author has worked on stays, until --again is said."""
    out = plate.with_suffix(".svg")
    out.write_text("mine", encoding="utf-8")
    command = ["redraw", str(plate), "--out", str(plate.parent)]
    assert main(command) == 2
    assert "add --again" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == "mine"
    assert main([*command, "--again"]) == 0
    assert out.read_text(encoding="utf-8") != "mine"


def test_a_wrong_length_writes_nothing(plate, capsys):
    """What does not agree is told like a slip in a build file, and no file is made."""
    assert main(["redraw", str(plate), "--out", str(plate.parent), "--length", "width=1 in"]) == 2
    assert "nothing was made" in capsys.readouterr().err
    assert not plate.with_suffix(".svg").exists()


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--as", "black=fould"], 'did you mean "fold"'),
        (["--as", "black"], "expected LAYER=ROLE"),
        (["--as", "red=fold"], 'no layer or colour "red" in the file'),
        (["--unit", "inch"], "no such unit"),
        (["--scale", "0"], "expected a number such as 10"),
        (["--scale", "1:0"], "expected a number such as 10"),
        (["--pages", "7"], "there is no page 7"),
        (["--point", "3:A=1,2"], "there is no page 3"),
        (["--length", "breadth=3 mm"], "two points, width or height"),
    ],
)
def test_slips_on_the_command_line_are_told(plate, capsys, options, says):
    """Each option says what it expects, and the nearest name where there is one."""
    assert main(["redraw", str(plate), "--out", str(plate.parent / "o"), *options]) == 2
    assert says in capsys.readouterr().err
    assert not (plate.parent / "o").exists()


@pytest.mark.parametrize(
    ("name", "says"),
    [("a.svg", "drawing already"), ("a.jpg", "guidegen trace"), ("none.pdf", "no such file")],
)
def test_other_files_are_sent_where_they_belong(tmp_path, name, says, capsys):
    """A drawing needs nothing, a photograph is traced, and what is not there is said."""
    if not name.startswith("none"):
        (tmp_path / name).write_bytes(b"x")
    assert main(["redraw", str(tmp_path / name), "--out", str(tmp_path)]) == 2
    assert says in capsys.readouterr().err


def test_a_scale_may_be_written_as_on_a_plan(tmp_path, plate):
    """1:10 and 10 are the same scale."""
    drawn = [
        redraw_file(RedrawOptions(plate, tmp_path / scale.replace(":", "-"), scale=scale)).drawing
        for scale in ("10", "1:10")
    ]
    assert drawn[0].svg == drawn[1].svg
    assert drawn[0].parts[0].part.box[2] > 1400
