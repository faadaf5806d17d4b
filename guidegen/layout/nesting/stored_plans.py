"""Cut plans ↔ JSON text: what the solver found is kept, and used again while it is the answer.

A plan is filed under a digest of all that decides it, so that it is found exactly as long as
nothing that matters has changed.
"""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite

from guidegen.layout.nesting.pieces import Cutting, NestPiece, NestRing, SheetType
from guidegen.layout.records import CutPlan, CutSheet, Placed
from guidegen.problems import Place, Problem

VERSION = 1
"""Of the file; plans of another version are made again."""

MAX_CHARACTERS = 20_000_000
"""In a file of plans. Our choice: a thousand kits of a hundred pieces."""


@dataclass(frozen=True)
class StoredPlans:
    """Cut plans by the key of their task."""

    plans: Mapping[str, CutPlan] = field(default_factory=dict)

    def plan(self, key: str) -> CutPlan | None:
        """The plan for a task, if there is one. It must be checked again before use."""
        return self.plans.get(key)

    def with_plan(self, key: str, plan: CutPlan) -> "StoredPlans":
        """These plans and one more."""
        return StoredPlans({**self.plans, key: plan})


def task_key(
    material: str, pieces: Sequence[NestPiece], sheets: Sequence[SheetType], cutting: Cutting
) -> str:
    """Material and a SHA-256 of all that decides a plan; outlines to 0.01 mm."""

    def ring(points: NestRing) -> list[list[float]]:
        # Rounded, so that another machine's last digits find the plan as well; plus zero, since
        # -0.0 is written otherwise than 0.0. What is off by that much is caught by the check of
        # the plan.
        return [[round(x, 2) + 0.0, round(y, 2) + 0.0] for x, y in points]

    what = {
        "pieces": [
            [piece.key, piece.copies, ring(piece.outline), [ring(hole) for hole in piece.holes]]
            for piece in pieces
        ],
        "sheets": [
            [sheet.name, sheet.width, sheet.height, sheet.pack_price, sheet.pack, sheet.available]
            for sheet in sheets
        ],
        "cutting": [cutting.spacing, cutting.rim, cutting.rotation, cutting.flips],
    }
    # Names and colours of pieces are left out: they decide no plan.
    text = json.dumps(what, separators=(",", ":"), allow_nan=False)
    return f"{material} {hashlib.sha256(text.encode()).hexdigest()}"


def plans_text(stored: StoredPlans) -> str:
    """Plans as JSON text: sorted, a line for each piece, the same bytes for the same plans."""
    if not stored.plans:
        return json.dumps({"version": VERSION, "plans": {}}, indent=1) + "\n"
    lines = ["{", f' "version": {VERSION},', ' "plans": {']
    keys = sorted(stored.plans)
    for key in keys:
        lines.append(f"  {json.dumps(key)}: {{")
        lines += _plan_lines(stored.plans[key])
        lines.append("  }" + ("," if key != keys[-1] else ""))
    return "\n".join([*lines, " }", "}", ""])


def _plan_lines(plan: CutPlan) -> list[str]:
    head = {
        "material": plan.material,
        "thickness": plan.thickness,
        "least": plan.least,
        "method": plan.method,
        "cost": plan.cost,
        "least_cost": plan.least_cost,
    }
    lines = [f"   {json.dumps(name)}: {json.dumps(value)}," for name, value in head.items()]
    lines.append('   "sheets": [')
    for number, sheet in enumerate(plan.sheets, 1):
        size = [sheet.name, sheet.width, sheet.height, sheet.used]
        lines.append(f'    {{"sheet": {json.dumps(size)}, "placed": [')
        places = [
            "     " + json.dumps([p.piece, p.copy, p.x, p.y, p.angle, p.flipped])
            for p in sheet.placed
        ]
        lines.append(",\n".join(places))
        lines.append("    ]}" + ("," if number < len(plan.sheets) else ""))
    return [*lines, "   ]"]


def parse_plans(text: str, file: str = "plans") -> tuple[StoredPlans, list[Problem]]:
    """Plans from JSON text, none from empty text; a warning where it is not a file of plans.

    `file` is its path as the author would type it.
    """
    if not text.strip():
        return StoredPlans(), []
    try:
        if len(text) > MAX_CHARACTERS:
            raise ValueError("it is too long")
        data = json.loads(text)
        if not isinstance(data, dict):
            raise TypeError("expected an object")
        if data.get("version") != VERSION:
            return StoredPlans(), []  # from another version of guidegen: simply made again
        plans = {str(key): _plan(value) for key, value in data["plans"].items()}
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        problem = Problem(
            "stored-plans",
            Place(file),
            "",
            f"the cut plans that were kept cannot be read ({error}), so they are made again",
        )
        return StoredPlans(), [problem]
    return StoredPlans(plans), []


def _plan(data: dict[str, object]) -> CutPlan:
    sheets = data["sheets"]
    method = data["method"]
    if not isinstance(sheets, list) or method not in ("solver", "rows"):
        raise TypeError("a plan is not complete")
    return CutPlan(
        material=_word(data["material"]),
        thickness=_number(data["thickness"]),
        sheets=tuple(_sheet(sheet) for sheet in sheets),
        least=int(_number(data["least"])),
        method=_word(method),
        cost=_number(data["cost"]),
        least_cost=_number(data["least_cost"]),
    )


def _sheet(data: dict[str, list[object]]) -> CutSheet:
    name, width, height, used = data["sheet"]
    placed = tuple(_placed(place) for place in data["placed"])
    return CutSheet(_word(name), _number(width), _number(height), placed, _number(used))


def _placed(data: object) -> Placed:
    if not isinstance(data, list):
        raise TypeError("a piece's place is not a list")
    piece, copy, x, y, angle, flipped = data
    if not isinstance(copy, int) or not isinstance(flipped, bool):
        raise TypeError("a piece's place is not complete")
    return Placed(_word(piece), copy, _number(x), _number(y), _number(angle), flipped)


def _word(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"expected a word, found {value!r}")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise TypeError(f"expected a number, found {value!r}")
    return value
