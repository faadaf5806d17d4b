"""Order and duration of steps."""

from layout.step_samples import guide_of

from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.plans import plan_time
from guidegen.layout.times.step_graph import depends_on, gather_cautions

STOCK = Stock.model_validate(
    {
        "processes": {
            "gluing": {"name": "Gluing", "how": "so", "wait": "30 min", "cautions": ["b"]}
        },
        "tools": {"knife": {"name": "Knife", "cautions": ["a", "b"]}},
        "cautions": {
            name: {"word": word, "title": name, "hazard": "h", "consequence": "c", "avoid": "a"}
            for name, word in (("a", "CAUTION"), ("b", "DANGER"), ("c", "WARNING"))
        },
    }
)


def test_waits_are_used_for_other_work() -> None:
    """While p cures for 30 min, q is worked on for 20; then p goes on when it is ready."""
    guide = guide_of(
        {"id": "p1", "parts": ["p"], "time": 10, "process": "gluing"},
        {"id": "p2", "parts": ["p"], "time": 5, "wait": 0},
        {"id": "q1", "parts": ["q"], "time": 20},
    )
    line = plan_time(guide, STOCK)
    assert [(slot.step, slot.start) for slot in line.slots] == [("p1", 0), ("q1", 10), ("p2", 40)]
    assert (line.hands_on, line.elapsed) == (35, 45)


def test_a_step_without_parts_waits_for_all() -> None:
    """A dry fit of everything comes after all before it, and before all after it."""
    guide = guide_of(
        {"id": "p1", "parts": ["p"], "time": 1},
        {"id": "q1", "parts": ["q"], "time": 1},
        {"id": "all", "time": 1},
        {"id": "p2", "parts": ["p"], "time": 1},
    )
    assert depends_on(guide) == {
        "p1": (), "q1": (), "all": ("p1", "q1"), "p2": ("all",)
    }  # fmt: skip


def test_needs_are_kept() -> None:
    """A step waits for what it names, though it shares no part with it."""
    guide = guide_of(
        {"id": "p1", "parts": ["p"], "time": 1, "wait": 60},
        {"id": "q1", "parts": ["q"], "time": 1, "needs": ["p1"]},
    )
    assert [slot.start for slot in plan_time(guide, STOCK).slots] == [0, 61]


def test_cautions_gravest_first_and_once() -> None:
    """Process, tools and step bring their cautions; each stands once, with all that bring it."""
    guide = guide_of(
        {"id": "s", "parts": ["p"], "time": 1, "process": "gluing", "tools": ["knife"],
         "cautions": ["c"]},
        {"id": "w", "parts": ["q"], "time": 1, "tools": ["knife"],
         "waive": [{"caution": "a", "reason": "blunt"}]},
    )  # fmt: skip
    first, second = gather_cautions(guide, STOCK)
    assert first.cautions == ("b", "c", "a")
    assert first.sources == (("Gluing", "Knife"), ("this step",), ("Knife",))
    assert second.cautions == ("b",)
