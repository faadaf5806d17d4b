"""Every code that a finding may have, with its group, weight, reason and cure: one registry."""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.findings.assembly import ASSEMBLY
from guidegen.findings.bench import FORMS, PHOTOS, VECTORS
from guidegen.findings.cautions import CAUTIONS
from guidegen.findings.fastening import HOLDING, LIVING, POINTS
from guidegen.findings.geometry import CURVES, DRAWINGS, GEOMETRY, SEAMS
from guidegen.findings.output import OUTPUT
from guidegen.findings.reading import NAMES, READING, SIZES
from guidegen.findings.records import Code
from guidegen.findings.steps import STEPS
from guidegen.findings.texts import TEXTS

CODES: Mapping[str, Code] = MappingProxyType(
    {
        code.code: code
        for code in (
            *READING,
            *DRAWINGS,
            *VECTORS,
            *FORMS,
            *PHOTOS,
            *NAMES,
            *SIZES,
            *GEOMETRY,
            *CURVES,
            *ASSEMBLY,
            *SEAMS,
            *STEPS,
            *CAUTIONS,
            *TEXTS,
            *LIVING,
            *POINTS,
            *HOLDING,
            *OUTPUT,
        )
    }
)
"""By code, in the order of the work."""

PROOF_ALONE = frozenset(one.code for one in ASSEMBLY)
"""What only proof looks for: the finished thing takes seconds to bend, and stops no press."""
