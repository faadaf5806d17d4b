"""Several people who build one thing together."""

from layout.step_samples import guide_of

from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.plans import plan_team, plan_teams

STOCK = Stock.model_validate(
    {
        "processes": {
            "cementing": {"name": "Cementing", "how": "so", "cautions": ["vapour"]},
            "heating": {"name": "Heating", "how": "so", "cautions": ["hot"]},
        },
        "cautions": {
            name: {
                "word": "CAUTION", "title": name, "hazard": "h", "consequence": "c", "avoid": "a",
            }
            for name in ("vapour", "hot")
        },
        "rules": [
            {"first": "vapour", "then": "hot", "by": "caution", "apart": True, "wait": "60 min",
             "reason": "it burns"},
        ],
    }
)  # fmt: skip


def test_two_people_work_side_by_side():
    """30 and 20 minutes on two pieces take 30 minutes; then both are joined in 10."""
    guide = guide_of(
        {"id": "a", "parts": ["p"], "time": 30},
        {"id": "b", "parts": ["q"], "time": 20},
        {"id": "c", "parts": ["p", "q"], "time": 10},
    )
    alone, pair = plan_team(guide, STOCK, 1), plan_team(guide, STOCK, 2)
    assert (alone.busy, alone.elapsed) == (60, 60)
    assert [(slot.step, slot.start, slot.hands) for slot in pair.slots] == [
        ("a", 0, (0,)), ("b", 0, (1,)), ("c", 30, (1,)),
    ]  # fmt: skip
    assert (pair.busy, pair.elapsed) == (40, 40)


def test_steps_that_take_two_people_bind_both():
    """While two hold one piece, nobody is free for the other; one person alone does both."""
    guide = guide_of(
        {"id": "a", "parts": ["p"], "time": 30, "hands": 2},
        {"id": "b", "parts": ["q"], "time": 20},
    )
    pair = plan_team(guide, STOCK, 2)
    assert [slot.hands for slot in pair.slots] == [(0, 1), (0,)]
    assert pair.elapsed == 50
    assert plan_team(guide, STOCK, 1).elapsed == 50


def test_what_must_not_share_a_room_stays_apart():
    """Heat comes an hour after the cement, though a second person is free at once."""
    guide = guide_of(
        {"id": "glue", "parts": ["p"], "time": 10, "process": "cementing"},
        {"id": "bend", "parts": ["q"], "time": 20, "process": "heating"},
        {"id": "cut", "parts": ["r"], "time": 15},
    )
    pair = plan_team(guide, STOCK, 2)
    assert {slot.step: slot.start for slot in pair.slots} == {"glue": 0, "cut": 0, "bend": 70}


def test_cement_is_not_opened_beside_a_heat_gun():
    """The other way round no airing is asked for, but never both at once."""
    guide = guide_of(
        {"id": "bend", "parts": ["q"], "time": 20, "process": "heating"},
        {"id": "glue", "parts": ["p"], "time": 10, "process": "cementing"},
    )
    pair = plan_team(guide, STOCK, 2)
    assert {slot.step: slot.start for slot in pair.slots} == {"bend": 0, "glue": 20}


def test_only_teams_that_help_are_told_of():
    """Steps in one chain are no faster with helpers; two chains are with two, not with three."""
    chain = [{"id": f"s{n}", "parts": ["p"], "time": 10} for n in range(3)]
    assert [team.people for team in plan_teams(guide_of(*chain), STOCK)] == [1]
    other = [{"id": f"t{n}", "parts": ["q"], "time": 10} for n in range(3)]
    assert [team.people for team in plan_teams(guide_of(*chain, *other), STOCK)] == [1, 2]
