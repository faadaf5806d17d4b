"""Libraries that a browser has no wheel of → the stand-ins for them, under their names."""

import sys
import types

from guidegen.app.measured.standins import geos, models

_SHAPELY = ("", ".errors", ".geometry", ".geometry.base", ".geometry.polygon", ".validation")


def stand_in() -> None:
    """From now on an import of these libraries finds their stand-ins."""
    sys.modules |= {"pydantic": models, "pydantic_core": models}
    sys.modules |= {f"shapely{name}": geos for name in _SHAPELY}
    pillow, image = types.ModuleType("PIL"), types.ModuleType("PIL.Image")
    vars(pillow)["Image"] = image
    sys.modules |= {"PIL": pillow, "PIL.Image": image}
