"""Light circuits of a guide → resistor by Ohm's law, current, power, run time; what will not do.

R = (U - n * u) / I for cells of U volts and n lights of u volts in a row; bought is the next larger
value of the E24 series, so that the current stays below what was asked.
"""

from math import floor, log10

from guidegen.buildfile.records.constructions.circuits import Circuit
from guidegen.buildfile.records.materials import Material
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.pieces.records import FittedCircuit
from guidegen.units import mm_text

E24 = (
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
    3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
)  # fmt: skip
"""IEC 60063:2015, preferred values of the E24 series, tolerance 5 %."""
LEAST_OHMS = 1.0
"""Ω. Our choice: less is no resistor but a wire."""
RATED = 250.0
"""mW of the usual small resistor with leads. Common practice, no source."""
SHARE = 0.5
"""Share of it that is used, so that the resistor stays cool beside foam. Our choice."""
LEAST_DROP = 0.2
"""Share of the cells' voltage that should fall on the resistor: with less, the current follows each
change of cell and light. Common practice, no source."""


def next_e24(ohms: float) -> float:
    """The smallest value of the E24 series, in Ω, that is at least `ohms`."""
    ohms = max(ohms, LEAST_OHMS)
    decade = 10.0 ** floor(log10(ohms) + 1e-12)
    # The hair forgives arithmetic that ends at 150.0000001.
    found = next((value for value in E24 if value * decade >= ohms * (1 - 1e-9)), 10.0)
    return round(found * decade, 6)


def fit_circuits(holding: Holding) -> tuple[FittedCircuit, ...]:
    """Every circuit of the guide; those that cannot light are told and left out."""
    made = (_fit(holding, name, one) for name, one in holding.file.guide.circuits.items())
    return tuple(one for one in made if one is not None)


def _fit(holding: Holding, name: str, circuit: Circuit) -> FittedCircuit | None:
    materials = holding.stock.materials
    cell, light = materials.get(circuit.cell), materials.get(circuit.light)
    if not _sheets_known(holding, name, cell, light) or cell is None or light is None:
        return None
    if cell.cell is None or light.light is None:
        raise AssertionError("told above")
    place = ("circuits", name)
    asked: float | None = light.light.current
    if circuit.current is not None:
        asked = holding.number(circuit.current, *place, "current")
    if asked is None:
        return None
    if not 0 < asked <= light.light.current + 1e-9:
        message = (
            f"expected more than 0 and at most {light.light.current:g} mA, which "
            f"{circuit.light} takes, found {asked:g}"
        )
        holding.refuse("circuit-current", message, *place, "current")
        return None
    volts = circuit.cells * cell.cell.volts
    left = volts - circuit.in_series * light.light.volts
    if left < LEAST_DROP * volts - 1e-9:
        needed = f"{circuit.in_series} × {light.light.volts:g} V"
        message = (
            f"{volts:g} V of cells for {needed} of lights in a row: {mm_text(max(left, 0.0), 2)} V "
            f"are left for the resistor, expected {mm_text(LEAST_DROP * volts, 2)} V at least"
        )
        cure = "Take more cells, or fewer lights in a row and more branches"
        holding.refuse("circuit-volts", message, *place, "cells", cure=cure)
        return None
    exact = left / asked * 1000
    ohms = next_e24(exact)
    current = left / ohms * 1000
    fitted = FittedCircuit(
        id=name,
        name=circuit.name,
        home=circuit.on,
        copies=holding.worn(circuit.on),
        cell=circuit.cell,
        light=circuit.light,
        resistor=circuit.resistor,
        switch=circuit.switch or "",
        cells=circuit.cells,
        branches=circuit.branches,
        in_series=circuit.in_series,
        volts=volts,
        light_volts=light.light.volts,
        asked=asked,
        exact=exact,
        ohms=ohms,
        current=current,
        power=left * current,
        capacity=cell.cell.capacity,
    )
    _check(holding, name, circuit, fitted, cell)
    return fitted


def _sheets_known(
    holding: Holding, name: str, cell: Material | None, light: Material | None
) -> bool:
    """False, and problems, where the stock does not say what a data sheet says."""
    known = True
    for key, material, there in (
        ("cell", cell, cell is not None and cell.cell is not None),
        ("light", light, light is not None and light.light is not None),
    ):
        if material is not None and not there:
            message = f'{material.name} has no "{key}" in stock: its data sheet says what to write'
            holding.refuse("circuit-unknown", message, "circuits", name, key)
        known = known and there
    return known


def _check(
    holding: Holding, name: str, circuit: Circuit, fitted: FittedCircuit, cell: Material
) -> None:
    """What its cells bear, how warm its resistors get, how long it lasts, where its lights sit."""
    place = ("circuits", name)
    most = cell.cell.most if cell.cell is not None else None
    if most is not None and fitted.total > most + 1e-9:
        message = f"it takes {fitted.total:.0f} mA, and {circuit.cell} gives {most:g} mA for long"
        holding.refuse("circuit-current", message, *place, "branches")
    if fitted.power > RATED * SHARE:
        message = (
            f"each resistor turns {fitted.power:.0f} mW into heat, more than half of the "
            f"{RATED:.0f} mW of a small one"
        )
        holding.refuse("circuit-warm", message, *place, "resistor")
    if circuit.hours is not None:
        hours = holding.number(circuit.hours, *place, "hours")
        if hours is not None and fitted.hours < hours:
            message = f"it must be lit for {hours:g} h, and its cells last {fitted.hours:.1f} h"
            holding.refuse("circuit-hours", message, *place, "hours")
    row = holding.row(circuit.sits) if circuit.sits is not None else None
    if row is not None and row.count * holding.worn(row.part) != fitted.lights * fitted.copies:
        sits = row.count * holding.worn(row.part)
        message = f"{fitted.lights * fitted.copies} lights have {sits} places at {circuit.sits}"
        holding.refuse("circuit-lights", message, *place, "sits")
