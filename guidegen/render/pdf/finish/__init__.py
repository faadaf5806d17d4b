"""PDF bytes in → the same pages with what viewers, printers, presses and archives ask for.

The only package that imports pikepdf. The same input gives the same bytes.
"""

from guidegen.render.pdf.finish.base import page_count
from guidegen.render.pdf.finish.copies import Intent, PressSheet, prepare_press, seal_archive
from guidegen.render.pdf.finish.layers import Switch, add_layers
from guidegen.render.pdf.finish.screen import ask_true_scale
from guidegen.render.pdf.finish.sheets import (
    Marks,
    PlacedPage,
    SheetSide,
    place_pages,
)
from guidegen.render.pdf.finish.tags import add_tags

__all__ = [
    "Intent",
    "Marks",
    "PlacedPage",
    "PressSheet",
    "SheetSide",
    "Switch",
    "add_layers",
    "add_tags",
    "ask_true_scale",
    "page_count",
    "place_pages",
    "prepare_press",
    "seal_archive",
]
