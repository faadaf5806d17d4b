"""The name and bytes of a file in → its mesh in mm out, or a refusal with a word and a place."""

from pathlib import PurePath

import numpy as np

from guidegen.bench.forms.reading.limits import MOST_BYTES, Bad, checked
from guidegen.bench.forms.reading.obj_file import read_obj
from guidegen.bench.forms.reading.ply_file import read_ply
from guidegen.bench.forms.reading.stl_file import read_stl
from guidegen.bench.forms.records import ReadMesh, refuse
from guidegen.errors import UsageError

ENDINGS = (".obj", ".stl", ".ply")
UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4}
"""mm of each. The inch by the international agreement of 1959."""
SMALLEST, LARGEST = 10.0, 5000.0
"""mm of the longest side of a form. Our choice: a knob, a winged back piece with room."""


def read_form(data: bytes, name: str, unit: str) -> ReadMesh:
    """The mesh, its points in mm. Raises FormError, UsageError where no unit is stated."""
    ending = PurePath(name).suffix.lower()
    if ending not in ENDINGS:
        raise refuse("form-file", name, f'the ending "{ending}" is not read; expected one of '
                     + ", ".join(ENDINGS))  # fmt: skip
    if len(data) > MOST_BYTES:
        raise refuse("form-large", name, f"larger than {MOST_BYTES // 10**6} MB; reduce the mesh")
    try:
        if ending == ".obj":
            mesh = checked(read_obj(data.decode("utf-8-sig", "replace")))
        else:
            mesh = checked(read_stl(data) if ending == ".stl" else read_ply(data))
    except Bad as error:
        raise error.named(name) from None
    used = mesh.points[np.unique(mesh.faces)]
    sides = used.max(axis=0) - used.min(axis=0)
    longest = float(sides.max())
    if unit not in UNITS:
        raise UsageError(_ask(name, longest))
    if not SMALLEST <= longest * UNITS[unit] <= LARGEST:
        raise refuse(
            "form-unit", name,
            f"in {unit} its longest side is {longest * UNITS[unit]:.4g} mm; expected "
            f"{SMALLEST:.0f} to {LARGEST:.0f} mm. {_sizes(longest)}",
        )  # fmt: skip
    return ReadMesh(
        mesh.points * UNITS[unit],
        mesh.faces,
        mesh.islands,
        mesh.materials,
        mesh.names,
        mesh.lines,
    )


def _ask(name: str, longest: float) -> str:
    return (
        f"{name} does not say in which unit it is, and a guess makes pieces that fit nobody: "
        f"say --unit mm, cm, m or inch. {_sizes(longest)}"
    )


def _sizes(longest: float) -> str:
    told = ", ".join(f"in {unit} {longest * mm:.4g} mm" for unit, mm in UNITS.items())
    return f"Its longest side is {told}"
