"""Links to places on pieces → the piece, and places that are not there in some size."""

from collections.abc import Iterator, Sequence

from guidegen.buildfile.living.holes import Ask
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.fastening import Strap
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import texts_of
from guidegen.buildfile.translate.commonmark import OWN, PLACES, references
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.geometry.fastening.answers import answer, run_of_edge
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Problem, did_you_mean

_WORDS = {
    "groove": "groove",
    "rim": "groove with both rims on its foam",
    "spread": "spread line",
    "row": "row of points",
}
"""What a place is called where a part has none."""

CLOSED = 0.02
"""mm between both ends of an edge that closes. Outlines are flattened as finely."""


def piece_of(guide: Guide, scheme: str, name: str) -> str:
    """The part that a place lies on; empty where there is none."""
    if scheme in {"mark", "end"}:
        seam = guide.seams.get(name)
        return seam.join[0].partition(".")[0] if seam is not None else ""
    if scheme == "strap":
        strap = guide.straps.get(name)
        return strap_home(guide, strap) if strap is not None else ""
    return name.partition(".")[0]


def strap_home(guide: Guide, strap: Strap) -> str:
    """The part whose pages draw a strap; empty for none.

    The first that holds it; of a belt the first that is riveted to it, or that it lies over.
    """
    rows = [] if strap.start is None else [strap.start.row]
    rows += [
        row
        for one in guide.fastenings.values()
        if strap.material in one.layers
        for row in one.points
    ]
    return next((name.partition(".")[0] for name in (*rows, *strap.lies_over)), "")


def audit_places(file: GuideFile, kits: Sequence[Kit]) -> Iterator[Problem]:
    """Links to places that some size does not have, each told once."""
    for source, trail, text in _texts(file):
        for found in references(text):
            if found.scheme not in PLACES:
                continue
            step = _step_of(file.guide, source is file.source, trail)
            for kit in kits:
                if found.name == OWN:
                    fault = _own_fault(kit, found.scheme, step)
                else:
                    fault = _fault(file.guide, kit, found.scheme, found.name)
                if fault:
                    size = "" if kit.size == ONE_SIZE else f"in size {kit.size}: "
                    message = f"{size}{found.scheme}:{found.name}: {fault}"
                    yield source.problem("dead-place", trail, message)
                    break


def audit_techniques(file: GuideFile, stock: Stock, kits: Sequence[Kit]) -> Iterator[Problem]:
    """Steps whose technique points at a place that neither their seams nor their parts have."""
    for number, step in enumerate(file.guide.steps):
        process = stock.processes.get(step.process or "")
        schemes = {
            found.scheme: None
            for found in (references(process.how) if process is not None else ())
            if found.scheme in PLACES and found.name == OWN
        }
        for scheme in schemes:
            # One cause, one finding: audit_middles tells of it where the seam stands.
            if scheme == "mark" and process is not None and process.from_middle:
                continue  # told at the seam
            faults = ((kit, _own_fault(kit, scheme, step)) for kit in kits)
            kit, fault = next(((one, words) for one, words in faults if words), (None, ""))
            if kit is not None and process is not None:
                size = "" if kit.size == ONE_SIZE else f"in size {kit.size}: "
                message = f"{size}{process.name} points at {scheme}:own, and {fault}"
                yield file.source.problem("dead-place", ("steps", number, "process"), message)


def _step_of(guide: Guide, own: bool, trail: Trail) -> Step | None:
    """The step in which a text stands: by its number in the guide, by its id in a translation."""
    if len(trail) < 2 or trail[0] != "steps":
        return None
    if own and isinstance(trail[1], int):
        return guide.steps[trail[1]]
    return next((step for step in guide.steps if step.id == trail[1]), None)


def _own_fault(kit: Kit, scheme: str, step: Step | None) -> str:
    """Why a step has no such place of its own; empty where it has one.

    Seams are asked for their marks and ends; a step without seams joins faces, whose middle the
    eye finds. Of lines, grooves and rows one on any of the step's parts is enough.
    """
    if step is None:
        return "only steps and techniques have places of their own"
    if scheme in {"mark", "end"}:
        faults = (_seam_fault(kit, scheme, seam) for seam in step.seams)
        return next((fault for fault in faults if fault), "")
    if scheme == "strap":
        return "" if step.straps else "the step fits no strap"
    if any(_known(kit, scheme, part) for part in step.parts):
        return ""
    word = _WORDS.get(scheme, scheme)
    return f"no part of the step has a {word}"


def _seam_fault(kit: Kit, scheme: str, seam: str) -> str:
    return _no_middle(kit, seam) if scheme == "mark" else _no_ends(kit, seam)


def _no_ends(kit: Kit, seam: str) -> str:
    """Why a seam has no ends; empty where it has two."""
    joined = next((one for one in kit.seams if one.id == seam), None)
    if joined is None:
        return f"no seam {seam}{did_you_mean(seam, [one.id for one in kit.seams])}"
    try:
        run = run_of_edge(kit, joined.first.part, joined.first.edge)
    except ExpressionError as error:
        return str(error)
    # A rim that closes has no end at which one could begin.
    if distance(segment_start(run[0]), segment_end(run[-1])) > CLOSED:
        return ""
    return f"{seam} goes all the way round and has no ends"


def audit_middles(file: GuideFile, stock: Stock, kits: Sequence[Kit]) -> Iterator[Problem]:
    """Seams that a step joins from their middle outward, without a mark there."""
    for number, step in enumerate(file.guide.steps):
        process = stock.processes.get(step.process or "")
        if process is None or not process.from_middle:
            continue
        for index, seam in enumerate(step.seams):
            if f"(mark:{seam})" in step.text:
                continue  # its own words name the mark, and tell of it
            for kit in kits:
                fault = _no_middle(kit, seam)
                if fault:
                    size = "" if kit.size == ONE_SIZE else f"in size {kit.size}: "
                    message = f"{size}{process.name} begins at the middle mark: {fault}"
                    trail = ("steps", number, "seams", index)
                    yield file.source.problem("no-middle-mark", trail, message)
                    break


def _texts(file: GuideFile) -> Iterator[tuple[Source, Trail, str]]:
    numbers = {step.id: number for number, step in enumerate(file.guide.steps)}
    for trail, text in texts_of(file.guide).items():
        place: Trail = trail
        if trail[0] == "steps":
            place = ("steps", numbers[str(trail[1])], *trail[2:])
        yield file.source, place, text
    for made in file.translations.values():
        for trail, text in made.texts.items():
            yield made.source, trail, text


def _no_middle(kit: Kit, seam: str) -> str:
    """Why a seam has no middle mark; empty where it has one."""
    try:
        marks = answer(kit, Ask("marks", (seam,)))
    except ExpressionError as error:
        return str(error)
    # Marks lie evenly, so only an odd number has one in the middle.
    if marks % 2:
        return ""
    return f"{seam} has {marks:.0f} marks, expected an odd number"


def _fault(guide: Guide, kit: Kit, scheme: str, name: str) -> str:
    if scheme in {"mark", "end"}:
        return _seam_fault(kit, scheme, name)
    if scheme == "strap":
        return "" if name in guide.straps else f"no such strap{did_you_mean(name, guide.straps)}"
    part, _, own = name.partition(".")
    if part not in guide.parts:
        return f"no such part{did_you_mean(part, guide.parts)}"
    known = _known(kit, scheme, part)
    if scheme in {"groove", "rim"}:
        return "" if known else f"{part} has no {_WORDS[scheme]}"
    return "" if own in known else f"no such {scheme} on {part}{did_you_mean(own, known)}"


def _known(kit: Kit, scheme: str, part: str) -> list[str]:
    """Names of a part's edges, spread lines, grooves, grooves with both rims, or rows."""
    if scheme == "edge":
        return [name for one in kit.finished if one.part == part for name, _ in one.edges]
    if scheme == "row":
        return [row.name for row in kit.rows if row.part == part]
    piece = next(kit.built(part), None)
    if piece is None:
        return []
    if scheme == "groove":
        return ["groove" for _ in piece.grooves]
    if scheme == "rim":
        return ["rims" for groove in piece.grooves if len(groove.rims) > 1]
    # On a half template a line may be cut off that the whole piece has, and the other way round.
    lines = (*piece.template.lines, *piece.shape.lines)
    return sorted({line.label for line in lines if line.kind is LineKind.SPREAD})
