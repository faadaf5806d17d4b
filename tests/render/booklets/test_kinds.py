"""Kinds of pieces in a booklet: what differs in lengths alone stands in one entry, with all lengths."""

from dataclasses import replace

import pytest

from guidegen.render.booklets.kinds import kind_views
from guidegen.render.views.pieces import EdgeView, MeasureView, PieceView
from guidegen.render.views.scene import LinkView


def strip(name: str, length: float) -> PieceView:
    """A strip of a given length in mm."""
    return PieceView(
        id=name,
        labels=(name.upper(),),
        name=name,
        count="1",
        material=LinkView("Foam", ""),
        thickness="6 mm",
        on_fold=False,
        measures=(MeasureView("Length", f"{length} mm", "1 in"), MeasureView("Lean", "5°", "")),
        features=(),
        note="",
        drawing=None,
        details=(),
        steps=(),
        pages=(),
        edges=(EdgeView("top", "top", f"{length} mm", "1 in"),),
    )


def test_strips_of_other_lengths_share_an_entry_with_all_their_lengths():
    """Two strips and a disc between them: two entries, and no piece and no length is lost."""
    pieces = [strip("a", 100), strip("d", 7), strip("b", 200)]
    kinds = kind_views(pieces, {"a": "strip", "b": "strip", "d": "disc"})
    assert [[one.id for one in kind.pieces] for kind in kinds] == [["a", "b"], ["d"]]
    assert kinds[0].pieces[1].measures[0].mm == "200 mm" and kinds[0].first.id == "a"


@pytest.mark.parametrize(
    "other",
    [{"note": "Trim it."}, {"count": "2"}, {"thickness": "10 mm"}, {"features": ("2 holes",)},
     {"steps": (LinkView("3", "#step"),)}, {"on_fold": True}, {"edges": ()},
     {"measures": (MeasureView("Length", "1 mm", "1 in"), MeasureView("Lean", "6°", ""))}],
    ids=lambda other: next(iter(other)),
)  # fmt: skip
def test_what_is_worked_otherwise_has_an_entry_of_its_own(other):
    """A note, a count, holes, steps, angles that differ: nobody may read them from the other piece."""
    pieces = [strip("a", 100), replace(strip("b", 200), **other)]
    assert len(kind_views(pieces, {"a": "strip", "b": "strip"})) == 2


def test_drawn_outlines_are_each_shown():
    """Lengths do not tell a drawn shape; a piece that no part of that name makes is a section."""
    pieces = [strip("a", 100), strip("b", 200)]
    assert len(kind_views(pieces, {"a": "drawing", "b": "drawing"})) == 2
    assert len(kind_views(pieces, {})) == 2
