"""The figures of the handbook about forms: ./start python tests/bench/forms/form_figures.py"""

from collections.abc import Callable
from functools import cache
from pathlib import Path

from form_shapes import along_meridians, obj, torso

from guidegen.bench.forms.drawn.form_views import form_views
from guidegen.bench.forms.drawn.strain_map import strain_map
from guidegen.bench.forms.flatten import Flattened, flatten
from guidegen.bench.forms.records import FormWishes, Shown
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

PICTURES = Path(__file__).parents[3] / "guidegen" / "handbook" / "draw" / "pictures"


@cache
def _form(panels: int) -> Flattened:
    lines = along_meridians(64, 33, 64 // panels)
    wishes = FormWishes("mm", shows=Shown.INSIDE, foam=10.0, up="z")
    return flatten(obj(torso(64, 32), lines), "torso.obj", wishes)


def draw_views() -> str:
    """A body form in eight panels, from four sides."""
    found = _form(8)
    return svg_file(form_views(found.ground.skin, found.pieces, "z", ENGLISH))


def draw_map() -> str:
    """A panel of the same form in four, which needs one more seam."""
    return svg_file(strain_map(max(_form(4).pieces, key=lambda p: p.panel.strain.high), ENGLISH))


FIGURES: dict[str, Callable[[], str]] = {"forms-views": draw_views, "forms-strain": draw_map}

if __name__ == "__main__":
    for name, draw in FIGURES.items():
        (PICTURES / f"{name}.svg").write_text(draw(), encoding="utf-8")
