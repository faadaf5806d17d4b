"""The licence of a guide by a name that readers can look up."""

import re
from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem, did_you_mean

VERSIONS = ("4.0", "3.0", "2.5", "2.0", "1.0")
"""Of the Creative Commons licences."""

KINDS = ("BY", "BY-SA", "BY-NC", "BY-NC-SA", "BY-ND", "BY-NC-ND")
"""Creative Commons licences of today."""

OTHERS = (
    "CC0-1.0", "CERN-OHL-P-2.0", "CERN-OHL-S-2.0", "CERN-OHL-W-2.0", "FSFAP", "GFDL-1.3-only",
    "GFDL-1.3-or-later", "LAL-1.3", "MIT", "MIT-0", "Unlicense",
)  # fmt: skip
"""SPDX ids of further licences for texts and drawings."""

NAMES = {
    **{f"CC {kind} {version}": f"CC-{kind}-{version}" for version in VERSIONS for kind in KINDS},
    "CC0 1.0": "CC0-1.0",
}
"""SPDX ids (SPDX License List 3) by the names in use."""

WORDS = ("all rights reserved", "public domain")
"""What is no licence and still says all."""


def check_licence(_: Content, file: GuideFile) -> Iterator[Problem]:
    """A name that no list of licences has: perhaps a slip, perhaps words of the author's own."""
    licence = file.guide.licence
    plain = re.sub(r"\s+", " ", licence.strip().casefold())
    known = {*NAMES, *NAMES.values(), *OTHERS}
    if plain in {name.casefold() for name in known} or plain in WORDS:
        return
    hint = did_you_mean(licence, known)
    yield file.source.problem(
        "unknown-licence",
        ("licence",),
        f'no licence of the name "{licence}" is known here{hint}',
    )
