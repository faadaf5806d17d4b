"""Templates that other programs are given to write: plates, curves, circles, as lines in mm."""

from collections.abc import Callable
from math import cos, pi, radians, sin

from guidegen.geometry.drawing.curves import ellipse_cubics
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Run

type Form = tuple[Run, ...]
"""Lines of a template in mm, y upward; closed where the last ends at the first's start."""


def plate() -> Form:
    """A notched plate of straight lines."""
    points = [(40, 40), (180, 40), (180, 90), (150, 110), (180, 130), (180, 260), (40.5, 250.25)]
    return (lines_through(*points, points[0]),)


def rounded() -> Form:
    """A rounded plate, with a smaller one in it: lines and quarters of circles."""
    return (round_rectangle((30, 30, 230, 200), 25), round_rectangle((60, 60, 90, 100), 4))


def round_rectangle(box: tuple[float, float, float, float], radius: float) -> Run:
    """Four lines and four quarters."""
    left, low, right, high = box
    r = radius
    return (
        Line((left + r, low), (right - r, low)),
        Arc((right - r, low + r), r, -90, 90),
        Line((right, low + r), (right, high - r)),
        Arc((right - r, high - r), r, 0, 90),
        Line((right - r, high), (left + r, high)),
        Arc((left + r, high - r), r, 90, 90),
        Line((left, high - r), (left, low + r)),
        Arc((left + r, low + r), r, 180, 90),
    )


def disc() -> Form:
    """A disc with five holes."""
    holes = [(200 + 50 * cos(2 * pi * n / 5), 150 + 50 * sin(2 * pi * n / 5)) for n in range(5)]
    circles = [(Arc((200, 150), 110, 0, 360),), *((Arc(at, 4.5, 0, 360),) for at in holes)]
    return tuple(circles)


def cone() -> Form:
    """A part of a ring: what a cone is when it is laid flat."""
    outer, inner = Arc((200, 20), 250, 60, 60), Arc((200, 20), 120, 120, -60)
    ends = (segment_end(outer), segment_start(inner), segment_end(inner), segment_start(outer))
    return ((outer, Line(ends[0], ends[1]), inner, Line(ends[2], ends[3])),)


def leg() -> Form:
    """A shin plate of curves."""
    return (
        (
            Cubic((140, 270), (120, 210), (145, 150), (145, 100)),
            Line((145, 100), (145, 40)),
            Line((145, 40), (255, 40)),
            Line((255, 40), (255, 100)),
            Cubic((255, 100), (255, 150), (280, 210), (260, 270)),
            Cubic((260, 270), (230, 260), (170, 260), (140, 270)),
        ),
        (Cubic((150, 180), (180, 170), (230, 170), (262, 180)),),
    )


def oval() -> Form:
    """An ellipse, and a turned one in it."""
    turn = radians(30)
    u, v = (40 * cos(turn), 40 * sin(turn)), (-15 * sin(turn), 15 * cos(turn))
    return (whole_ellipse((200, 150), (160, 0), (0, 90)), whole_ellipse((200, 150), u, v))


def whole_ellipse(
    centre: tuple[float, float], u: tuple[float, float], v: tuple[float, float]
) -> Run:
    """An ellipse by its half axes."""
    start = (centre[0] + u[0], centre[1] + u[1])
    return ellipse_cubics((centre, u, v), 0, 2 * pi, (start, start))


def teeth() -> Form:
    """A wheel of two hundred points."""
    points = [
        (200 + r * cos(2 * pi * n / 200), 150 + r * sin(2 * pi * n / 200))
        for n in range(200)
        for r in [120 if n % 4 < 2 else 112]
    ]
    return (lines_through(*points, points[0]),)


def hook() -> Form:
    """Arcs of more and less than half a turn, tangent to one another, an open line."""
    return (
        (
            Line((100, 100), (200, 100)),
            Arc((200, 150), 50, -90, 230),
            Line(segment_end(Arc((200, 150), 50, -90, 230)), (100, 220)),
            Line((100, 220), (100, 100)),
        ),
        (Line((120, 120), (120, 200)), Arc((130, 200), 10, 180, -120)),
    )


FORMS: dict[str, Callable[[], Form]] = {
    "plate": plate,
    "rounded": rounded,
    "disc": disc,
    "cone": cone,
    "leg": leg,
    "oval": oval,
    "teeth": teeth,
    "hook": hook,
}


def is_ring(run: Run) -> bool:
    """Whether a run comes back to its start."""
    (x0, y0), (x1, y1) = segment_start(run[0]), segment_end(run[-1])
    return abs(x0 - x1) + abs(y0 - y1) < 1e-6
