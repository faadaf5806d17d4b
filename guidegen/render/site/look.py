"""The finished thing in one size → what a page says of it: its views, and how it is turned."""

import json
from dataclasses import dataclass

from guidegen.render.text.links import all_sides
from guidegen.render.views.guide import finished_drawings
from guidegen.render.views.scene import DrawingView, Scene


@dataclass(frozen=True, slots=True)
class LookView:
    """The finished thing as a page shows it."""

    views: tuple[DrawingView, ...]
    """Front, three quarters, back."""
    href: str
    """The sheet of all sides, from which a script turns it."""
    sides: str
    """JSON: what each side of that sheet is called."""
    painted: bool
    """Whether it can be shown in the colours that steps give it."""


def look_view(scene: Scene, size: str = "") -> LookView | None:
    """The finished thing in `size`, of the middle size where none is given; None where nothing says
    how its parts sit."""
    chosen = size or scene.plan.usual.size
    views = finished_drawings(scene, chosen)
    if not views:
        return None
    return LookView(
        views,
        scene.links.file(all_sides(scene.plan.file.id, chosen)),
        json.dumps(side_names(scene), ensure_ascii=False),
        any("data-paint" in view.svg for view in views),
    )


def side_names(scene: Scene) -> list[str]:
    """What the views around are called, from the front on to the thing's left."""
    say = scene.words.say
    front, back = say("From the front"), say("From the back")
    front_left, back_left = say("From the front and the left"), say("From the back and the left")
    front_right, back_right = (
        say("From the front and the right"),
        say("From the back and the right"),
    )
    left, right = say("From the left"), say("From the right")
    return [
        front, front_left, front_left, left, back_left, back_left,
        back, back_right, back_right, right, front_right, front_right,
    ]  # fmt: skip
