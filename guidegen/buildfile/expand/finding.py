"""A guide's plain values and what a sequence looks for in → the ids of the parts that it finds.

Parts are looked at before they are typed: what is wrong in one is told when the guide is.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.expand.expansion_records import Values, texts
from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.musts import Makes
from guidegen.buildfile.records.steps import PartsFound
from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.buildfile.yaml.tree import Value


@dataclass(frozen=True, slots=True)
class SheetFacts:
    """What finding parts asks of a material."""

    made_of: str
    thickness: float
    """mm; 0 where it is not known."""


@dataclass(frozen=True)
class PartFinder:
    """Finds parts of one guide."""

    guide: Values
    sheets: Mapping[str, SheetFacts]
    """By id of the material."""
    steps: Iterable[Values] = field(default=())
    """Plain steps of the guide, as far as they are known."""

    def parts(self, wanted: PartsFound) -> tuple[str, ...]:
        """Ids of the parts that meet all that is wanted, in the order of the guide."""
        worked = self._worked(wanted.done_by) if wanted.done_by else None
        parts = self.guide.get("parts")
        return tuple(
            part_id
            for part_id, part in (parts.items() if isinstance(parts, dict) else ())
            if isinstance(part, dict)
            and self._is(part, wanted)
            and (worked is None or part_id in worked)
        )

    def _is(self, part: Values, wanted: PartsFound) -> bool:
        facts = self.sheets.get(str(part.get("material")))
        if wanted.made_of and (facts is None or facts.made_of not in wanted.made_of):
            return False
        thickness = facts.thickness if facts is not None else 0.0
        if thickness < wanted.thick or (wanted.thin is not None and thickness >= wanted.thin):
            return False
        if wanted.hand is not None and part.get("hand", "one") != wanted.hand:
            return False
        if wanted.on_fold is not None and (part.get("on-fold") is not None) != wanted.on_fold:
            return False
        return not wanted.wants or any(_WANTS[kind](part) for kind in wanted.wants)

    def _worked(self, processes: Iterable[str]) -> frozenset[str]:
        """Parts on which a step does one of these kinds of work, by themselves or in a joint."""
        found: set[str] = set()
        for step in self.steps:
            if str(step.get("process")) in processes:
                found |= {*texts(step.get("parts"))}
                for name in texts(step.get("seams")):
                    seam = self._entry("seams", name)
                    found |= {edge.partition(".")[0] for edge in texts(seam.get("join"))}
                for name in texts(step.get("stacks")):
                    layers = self._entry("stacks", name).get("layers")
                    rows = layers if isinstance(layers, list) else []
                    found |= {str(row.get("part")) for row in rows if isinstance(row, dict)}
        return frozenset(found)

    def _entry(self, section: str, name: str) -> Values:
        entries = self.guide.get(section)
        entry = entries.get(name) if isinstance(entries, dict) else None
        return entry if isinstance(entry, dict) else {}


def _formed(part: Values) -> bool:
    """Computed shapes that go round something are formed, unless the part says otherwise."""
    formed, shape = part.get("formed"), str(part.get("shape"))
    return formed is True or (formed is None and shape in SHAPES and SHAPES[shape].curved)


def _trimmed(part: Values) -> bool:
    allowances = part.get("allowances")
    found = allowances.values() if isinstance(allowances, dict) else ()
    return any(isinstance(one, dict) and one.get("kind") == "trim" for one in found)


_WANTS: Mapping[Makes, Callable[[Values], bool]] = {
    Makes.TEXTURE: lambda part: bool(part.get("texture")),
    Makes.BEVEL: lambda part: bool(part.get("bevels")),
    Makes.GROOVE: lambda part: bool(part.get("grooves")),
    Makes.FORM: _formed,
    Makes.TRIM: _trimmed,
    Makes.JOIN: lambda part: True,
}


def plain_steps(entries: Iterable[Value]) -> list[Values]:
    """Those entries of a guide's steps that stand for themselves."""
    return [entry for entry in entries if isinstance(entry, dict) and "process" in entry]


def sheet_facts(materials: Mapping[str, Material]) -> dict[str, SheetFacts]:
    """What the stock says of its sheets; a thickness that does not hold is told with the stock."""
    found = {}
    for name, material in materials.items():
        try:
            thickness = material.thickness.value({}) if material.thickness is not None else 0.0
        except ExpressionError:
            thickness = 0.0
        found[name] = SheetFacts(material.made_of, thickness)
    return found
