"""Plans of teams in → what helpers save, in words and drawings."""

from dataclasses import dataclass

from guidegen.quantities import calendar_words, work_words
from guidegen.render.views.scene import DrawingView, Scene, drawing


@dataclass(frozen=True, slots=True)
class TeamView:
    """One row of the table."""

    people: str
    bench: str
    """Hours in which anybody works."""
    elapsed: str
    """From start to end, waits included."""
    drawing: DrawingView | None
    """None for one person."""


def team_views(scene: Scene) -> tuple[TeamView, ...]:
    """One person, then the teams that are less long at the bench; empty where none is."""
    teams = scene.plan.teams
    if len(teams) < 2:
        return ()
    return tuple(
        TeamView(
            scene.words.many("{n} person", "{n} people", team.people),
            work_words(team.busy, scene.words),
            calendar_words(team.days, team.elapsed, scene.words),
            drawing(scene, scene.pictures.teams[team.people])
            if team.people in scene.pictures.teams
            else None,
        )
        for team in teams
    )
