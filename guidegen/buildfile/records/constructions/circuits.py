"""Small light circuits: cells, a switch, lights, and a resistor for each branch."""

from pydantic import Field

from guidegen.buildfile.records.meanings import MaterialRef, PartRef, RowRef, Translated
from guidegen.buildfile.yaml.fields import Model, Quantity


class PowerCell(Model):
    """What the data sheet of a cell says."""

    volts: float = Field(gt=0, le=12)
    """V of one, fresh."""
    capacity: float = Field(gt=0, le=50_000)
    """mAh that one gives."""
    most: float | None = Field(None, gt=0, le=20_000)
    """mA that may be taken from it for long."""


class Light(Model):
    """What the data sheet of a light-emitting diode says."""

    volts: float = Field(gt=0, le=12)
    """V across it while it is lit."""
    current: float = Field(gt=0, le=2000)
    """mA with which it is lit."""


class Circuit(Model):
    """Cells in a row, a switch, and branches side by side: each a resistor and lights in a row."""

    name: Translated
    """For readers."""
    on: PartRef
    """Part that carries it, one circuit for each that is worn; its pages draw the diagram."""
    cell: MaterialRef
    """Counted material with a `cell`."""
    cells: int = Field(1, ge=1, le=24)
    """How many in a row."""
    light: MaterialRef
    """Counted material with a `light`."""
    branches: int = Field(1, ge=1, le=60)
    """How many side by side, each with a resistor of its own."""
    in_series: int = Field(1, ge=1, le=12)
    """Lights in a row in each branch."""
    resistor: MaterialRef
    """Counted material: its value is worked out."""
    switch: MaterialRef | None = None
    """Counted material."""
    current: Quantity | None = None
    """mA through each branch at the most; by default what the light's data sheet says."""
    sits: RowRef | None = None
    """Row of points at which its lights sit: as many as it has lights."""
    hours: Quantity | None = None
    """h that it must be lit at the least."""
