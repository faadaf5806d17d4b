"""The finished thing in → a dozen views around it, all in one window, so that it turns in place."""

import numpy as np

from guidegen.assembly.records import Assembly, Seen
from guidegen.assembly.views.raster import Camera, Window
from guidegen.assembly.views.seen import see, window_of

TURNS = 12
TILT = 8.0
"""degrees from above."""
CAMERAS = tuple(Camera(f"turn-{k * 360 // TURNS}", k * 360 / TURNS, TILT) for k in range(TURNS))
ROWS = 560
"""Cells from foot to top: these views are shown half as large as the three. Our choice."""


def see_around(assembly: Assembly) -> tuple[Seen, ...]:
    """Views from the front on round the thing to its left; none where nothing is placed."""
    if not assembly.sheets:
        return ()
    middle = np.concatenate([sheet.middle for sheet in assembly.sheets])
    axis = (middle.min(0) + middle.max(0)) / 2
    windows = [window_of(assembly, camera, ROWS) for camera in CAMERAS]
    # One scale and one height for all, the same axis in the middle of each.
    low = min(window.y for window in windows)
    high = max(window.y + window.height for window in windows)
    half, turned = 0.0, []
    for camera, window in zip(CAMERAS, windows, strict=True):
        x = float(camera.project(axis[None, :])[0, 0])
        half = max(half, x - window.x, window.x + window.width - x)
        turned.append((camera, x))
    height = high - low
    cell = height / ROWS
    width = float(np.ceil(2 * half / cell)) * cell
    found = (
        see(assembly, camera, Window(x - width / 2, low, width, height, cell), digits=1)
        for camera, x in turned
    )
    return tuple(view for view in found if view is not None)
