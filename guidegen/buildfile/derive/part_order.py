"""A guide → in which order its parts can be made, where arithmetic asks for lengths of others."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.derive.quantities import quantities
from guidegen.buildfile.derive.sizes import asking_values
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Guide, Part
from guidegen.buildfile.records.vocabulary import LINING
from guidegen.buildfile.yaml.asks import Ask
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Checked, Problem

SHAPING = ("dimensions", "spread", "grade", "scale", "inset")
"""Fields that decide a part's finished outline. All others (allowances, rows of points, copies) are
worked out when every outline is there, and so may ask for any part, their own too."""

type Node = tuple[str, str]
"""("parts", id) or ("values", name): where it stands in the build file."""


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that a part or value needs, and where its arithmetic says so."""

    of: Node
    trail: Trail


def asked_parts(guide: Guide, asks: tuple[Ask, ...]) -> Iterator[str]:
    """Parts whose outlines a question is about; none where its seam is unknown."""
    for ask in asks:
        if ask.about != "seam":
            yield ask.names[0]
        elif ask.names[0] in guide.seams:
            # The first edge: the second may be longer by the ease, and one of them has to count.
            yield guide.seams[ask.names[0]].join[0].partition(".")[0]


def part_order(file: GuideFile) -> Checked[tuple[Node, ...]]:
    """Parts, and values that ask for lengths, in an order in which each comes after what it needs,
    otherwise that of the guide. What waits for itself is left out, each ring with a problem."""
    needs = _needs(file)
    order: dict[Node, None] = {}
    lost: set[Node] = set()
    for node in needs:
        yield from _visit(file, node, needs, order, lost)
    return tuple(order)


def _visit(
    file: GuideFile,
    first: Node,
    needs: dict[Node, list[Need]],
    order: dict[Node, None],
    lost: set[Node],
) -> Iterator[Problem]:
    """Put `first` into the order, behind all that it needs; without recursion, since a hostile
    guide may hold a chain of thousands."""
    path: list[Node] = []
    stack: list[tuple[Node, bool]] = [(first, False)]
    while stack:
        node, leaving = stack.pop()
        if leaving:
            path.pop()
            if node in lost or any(need.of in lost for need in needs[node]):
                lost.add(node)
            else:
                order[node] = None
        elif node in path:
            # Only what is being visited stands on the path, so this node waits for itself.
            ring = path[path.index(node) :]
            lost.update(ring)
            yield _ring_problem(file, ring, needs)
        elif node not in order and node not in lost:
            path.append(node)
            stack.append((node, True))
            stack += [(need.of, False) for need in reversed(needs[node]) if need.of in needs]


def _ring_problem(file: GuideFile, ring: list[Node], needs: dict[Node, list[Need]]) -> Problem:
    """At the place of the first one's question about the second."""
    around = [*ring, ring[0]]
    here = next(need for need in needs[ring[0]] if need.of == around[1])
    message = f"needs its own length, by way of {' → '.join(name for _, name in around)}"
    return file.source.problem("length-cycle", here.trail, message)


def _needs(file: GuideFile) -> dict[Node, list[Need]]:
    """What each part needs before it can be made, and each value that asks for parts."""
    guide = file.guide
    later = asking_values(file)

    def of(quantity: Expression, trail: Trail) -> Iterator[Need]:
        for part in asked_parts(guide, quantity.asks):
            yield Need(("parts", part), trail)
        for name in sorted(quantity.names & later):
            yield Need(("values", name), trail)

    needs: dict[Node, list[Need]] = {
        ("values", name): list(of(guide.values[name], ("values", name))) for name in sorted(later)
    }
    for name, part in guide.parts.items():
        found = [need for trail, quantity in _shaping(part, name) for need in of(quantity, trail)]
        lined = guide.parts.get(part.lining_of or "")
        # A lining of a lining is refused where it is made, with better words than a ring's.
        if part.shape == LINING and lined is not None and lined.shape != LINING:
            found.append(Need(("parts", part.lining_of or ""), ("parts", name, "lining-of")))
        needs["parts", name] = found
    return needs


def _shaping(part: Part, name: str) -> Iterator[tuple[Trail, Expression]]:
    return (
        (("parts", name, *trail), quantity)
        for trail, quantity in quantities(part)
        if trail[0] in SHAPING
    )
