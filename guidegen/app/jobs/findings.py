"""Content in → the kits of every size, and all that is wrong with it.

What press, proof and preview make first, so that all three tell the same.
"""

from collections.abc import Callable

from guidegen.app.jobs.size_findings import tell_once
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.run import run_checks
from guidegen.findings.records import CodeGroup
from guidegen.findings.registry import CODES
from guidegen.geometry.fastening.living_audit import audit_living
from guidegen.geometry.fastening.places import audit_middles, audit_places, audit_techniques
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.times.audit import audit_rooms
from guidegen.problems import Problem, Severity

NEEDED_FOR_PIECES = frozenset({CodeGroup.READING, CodeGroup.NAMES, CodeGroup.SIZES})
"""What must hold in a guide before its pieces are made; texts and steps need not."""

type Kits = dict[str, tuple[Kit, ...]]


type KitMaker = Callable[[Content, list[GuideFile]], tuple[Kits, list[Problem]]]


def make_kits(content: Content, files: list[GuideFile]) -> tuple[Kits, list[Problem]]:
    """Kits of every size of `files`, and what geometry finds wrong."""
    kits: Kits = {}
    problems: list[Problem] = []
    for file in files:
        words = content.words
        made = [
            make_whole_kit(file, content.stock, size, words=words) for size in file.size_names()
        ]
        problems.extend(problem for _, found in made for problem in found)
        kits[file.id] = tuple(kit for kit, _ in made if kit is not None)
    return kits, problems


def find_problems(
    content: Content, read: list[Problem], make: KitMaker = make_kits
) -> tuple[Kits, list[Problem]]:
    """Kits by guide, and all that is wrong: what was `read`, then names, then geometry."""
    problems = [*read, *run_checks(content)]
    faults = [
        p.place.file
        for p in problems
        if p.severity is Severity.ERROR and CODES[p.code].group in NEEDED_FOR_PIECES
    ]
    # Geometry of a guide with wrong names, or without a drawing, would only repeat them.
    whole = [
        file
        for file in content.guides
        if not any(fault.startswith(file.folder_shown) for fault in faults)
    ]
    kits, found = make(content, whole)
    living = [
        problem
        for file in whole
        if len(kits.get(file.id, ())) == len(file.size_names())
        for problem in (
            *audit_living(file, kits[file.id]),
            *audit_places(file, kits[file.id]),
            *audit_middles(file, content.stock, kits[file.id]),
            *audit_techniques(file, content.stock, kits[file.id]),
        )
    ]
    told = tell_once([*problems, *found, *living], content.guides)
    return kits, [*told, *_check_rooms(content, whole)]


def _check_rooms(content: Content, files: list[GuideFile]) -> list[Problem]:
    """What shares a room too soon on the time lines of guides without errors."""
    return [problem for file in files for problem in audit_rooms(file, content.stock)]
