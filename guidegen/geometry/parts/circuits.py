"""A light circuit at one size: its resistor, current, power and run time.

Units: V, mA, Ω, mW, mAh, h.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FittedCircuit:
    """Cells in a row, a switch, and equal branches of a resistor and lights."""

    id: str
    name: str
    home: str
    """Part that carries it, and whose pages draw it."""
    copies: int
    """One for each piece of that part that is worn."""
    cell: str
    light: str
    resistor: str
    switch: str
    """Materials; the switch empty without one."""
    cells: int
    branches: int
    in_series: int
    volts: float
    """Of all cells together, fresh."""
    light_volts: float
    """Across one light."""
    asked: float
    """mA through a branch at the most."""
    exact: float
    """Ω that would give just that."""
    ohms: float
    """Ω of the next larger value of the series."""
    current: float
    """mA through a branch with it."""
    power: float
    """mW that each resistor turns into heat."""
    capacity: float
    """mAh of the cells."""

    @property
    def total(self) -> float:
        """mA that the cells give."""
        return self.current * self.branches

    @property
    def hours(self) -> float:
        """h that fresh cells last by their stated capacity."""
        return self.capacity / self.total

    @property
    def lights(self) -> int:
        """Lights of one circuit."""
        return self.branches * self.in_series

    def count(self, material: str) -> int:
        """How many of a material all circuits take."""
        each = {self.cell: 0, self.light: 0, self.resistor: 0, self.switch: 0}
        for name, number in (
            (self.cell, self.cells),
            (self.light, self.lights),
            (self.resistor, self.branches),
            (self.switch, 1),
        ):
            each[name] += number
        return each.get(material, 0) * self.copies
