"""A guide, the stock and one size in → its kit with all that holds it together, and words said."""

from collections.abc import Mapping
from dataclasses import replace

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.fasteners import fasten
from guidegen.geometry.fastening.fits import audit_fits
from guidegen.geometry.fastening.linkages.linking import link_plates
from guidegen.geometry.fastening.notes import speak
from guidegen.geometry.fastening.patches import audit_patches
from guidegen.geometry.fastening.straps import fit_straps
from guidegen.geometry.fastening.strips import cut_strips
from guidegen.geometry.fastening.things.casings import fit_casings
from guidegen.geometry.fastening.things.circuits import fit_circuits
from guidegen.geometry.fastening.things.harness import fit_harnesses
from guidegen.geometry.fastening.things.placing import audit_things
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.geometry.pieces.sides import merge_sides
from guidegen.problems import Problem, Severity
from guidegen.words import Words


def make_whole_kit(
    file: GuideFile,
    stock: Stock,
    size: str,
    body: Mapping[str, float] | None = None,
    *,
    words: Words,
) -> tuple[Kit | None, list[Problem]]:
    """The kit of one size, or of a body (mm by measurement), fastened and strapped.

    Numbers in its notes are written as `words` writes them. All problems come together; the kit
    is None where one of them is an error.
    """
    kit, problems = make_kit(file, stock, size, body)
    if kit is None:
        return None, problems
    drawn = size_numbers(file, size, body)[0].drawn
    held, found = _hold(file, stock, kit, drawn)
    problems += found
    sides: list[Kit] = []
    for side in kit.sides or ():
        own, found = _hold(file, stock, side, drawn)
        problems += (problem for problem in found if problem not in problems)
        sides.append(speak(own, words))
    if any(problem.severity is Severity.ERROR for problem in problems):
        return None, problems
    # Last: notes may ask for straps and fasteners too.
    held = speak(held, words)
    # Once more, for the notes of each side's own pieces.
    return merge_sides(held, *sides) if sides else held, problems


def _hold(
    file: GuideFile, stock: Stock, kit: Kit, drawn: Mapping[str, float]
) -> tuple[Kit, list[Problem]]:
    """A kit with all that holds it together; `drawn` are measurements of the drawn size."""
    holding = Holding(file, stock, kit, {**drawn, **kit.names()})
    # In this order, since each may ask for what was made before it: strips for the free length of
    # straps, fits for all of it.
    kit = replace(kit, fastened=fasten(holding), straps=fit_straps(holding))
    kit = replace(kit, strips=cut_strips(replace(holding, kit=kit)))
    kit = replace(kit, linkages=link_plates(replace(holding, kit=kit)))
    kit = replace(kit, circuits=fit_circuits(holding))
    kit = replace(kit, casings=fit_casings(replace(holding, kit=kit)))
    kit = replace(kit, harnesses=fit_harnesses(replace(holding, kit=kit)))
    audit_things(holding)
    # A fit that asks for what failed would only tell of the failure again.
    if not holding.problems:
        audit_fits(replace(holding, kit=kit))
    audit_patches(holding)
    return kit, holding.problems
