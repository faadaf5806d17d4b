"""What a text of a build file means, said on the field's type: words for readers, a name, a file.

Reading, proof, translation and preview walk these types (`walk.py`); nothing else lists fields.
A new field with a text takes one of the types below. `Line` and `Text` alone do not say what they
mean: the walk refuses them.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Any

from pydantic import WithJsonSchema

from guidegen.buildfile.yaml.fields import Id, Line, SizeId, Text


class Markup(StrEnum):
    """What of CommonMark a text may hold."""

    NONE = "none"
    """Printed as it stands, brackets and all."""
    LINE = "line"
    """Emphasis and links, without a paragraph around it."""
    BLOCKS = "blocks"
    """Paragraphs, lists, tables, headings, pictures."""


@dataclass(frozen=True, slots=True)
class Wording:
    """A text in words."""

    markup: Markup = Markup.NONE
    translated: bool = True
    """Whether guide.de.yaml may hold it in another language."""
    shown: bool = True
    """False where only the author reads it."""
    from_file: bool = False
    """True where the value may be the name of a Markdown file that holds the text."""
    name: bool = False
    """A name, which may be the same in all languages: nothing is missing without a translation."""
    living: bool = False
    """Whether it may hold living numbers. Titles and names may not: they stand in lists of all
    sizes and all guides, where a number of one size would be wrong."""


NAMES_OF = "x-names-of"
"""Key of our JSON Schemas: of what kind of thing a text is the name."""


class Named(StrEnum):
    """What a name of a build file can refer to, as messages call it."""

    PART = "part"
    EDGE = "edge"
    ROW = "row of points"
    FASTENING = "fastening"
    STRAP = "strap"
    STRIP = "strip"
    LINKAGE = "linkage"
    CIRCUIT = "circuit"
    CASING = "casing"
    HARNESS = "harness"
    STEP = "step"
    SEAM = "seam"
    STACK = "stack"
    JOINT = "seam or stack"
    SIZE = "size"
    MATERIAL = "material"
    SHEET = "sheet material"
    TOOL = "tool"
    PROCESS = "process"
    CAUTION = "caution"
    SHOP = "shop"
    WORK = "process or caution"


@dataclass(frozen=True, slots=True)
class Refers:
    """A name of something else in the build files."""

    to: Named

    def __get_pydantic_json_schema__(
        self, core: object, handler: Callable[[object], dict[str, Any]]
    ) -> dict[str, Any]:
        """The schema of the name, with what it names, so that a site's own names can be offered."""
        return {**handler(core), NAMES_OF: str(self.to)}


class FileKind(StrEnum):
    """Files that a guide may name."""

    DRAWING = "drawing"
    PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class FileName:
    """The name of a file in the guide's folder."""

    kind: FileKind


@dataclass(frozen=True, slots=True)
class OutsideCode:
    """A code of some outside list, the same in every language."""


type Meaning = Wording | Refers | FileName | OutsideCode

Translated = Annotated[Line, Wording()]
"""Words for readers in one line, without CommonMark."""

ProseLine = Annotated[Line, Wording(Markup.LINE)]
"""Words for readers in one line, with emphasis and links."""

Prose = Annotated[Text, Wording(Markup.BLOCKS)]
"""Words for readers, CommonMark."""

LivingNote = Annotated[Line, Wording(living=True)]
"""Words in one line, without CommonMark, with living numbers."""

LivingLine = Annotated[Line, Wording(Markup.LINE, living=True)]
"""Words in one line, with emphasis, links and living numbers."""

LivingProse = Annotated[Text, Wording(Markup.BLOCKS, living=True)]
"""CommonMark with living numbers."""

LongProse = Annotated[Text, Wording(Markup.BLOCKS, from_file=True, living=True)]
"""The same; or the name of a Markdown file in the guide's folder."""

Verbatim = Annotated[Line, Wording(translated=False)]
"""Shown to readers the same in every language: names of persons, labels, versions."""

Attribution = Annotated[Line, Wording(name=True)]
"""Names of persons and groups: in other languages as they are, or as a translation has them."""

ForAuthor = Annotated[Line, Wording(translated=False, shown=False)]
"""Words that only authors read."""

Asking = Annotated[
    Line,
    OutsideCode(),
    WithJsonSchema({"type": ["number", "string"], "minLength": 1, "maxLength": 300}),
]
"""Arithmetic that may also ask for the things of a guide: edge(cuff, top) - 30."""

CodeText = Annotated[str, OutsideCode()]
"""A code of an outside list, such as H225 or M004."""

PartRef = Annotated[Id, Refers(Named.PART)]
StepRef = Annotated[Id, Refers(Named.STEP)]
SeamRef = Annotated[Id, Refers(Named.SEAM)]
StackRef = Annotated[Id, Refers(Named.STACK)]
JointRef = Annotated[Id, Refers(Named.JOINT)]
SizeRef = Annotated[SizeId, Refers(Named.SIZE)]
MaterialRef = Annotated[Id, Refers(Named.MATERIAL)]
SheetRef = Annotated[Id, Refers(Named.SHEET)]
ToolRef = Annotated[Id, Refers(Named.TOOL)]
ProcessRef = Annotated[Id, Refers(Named.PROCESS)]
CautionRef = Annotated[Id, Refers(Named.CAUTION)]
ShopRef = Annotated[Id, Refers(Named.SHOP)]
WorkRef = Annotated[Id, Refers(Named.WORK)]
"""A process, or a caution: the record that holds it says which."""

EdgeRef = Annotated[Line, Refers(Named.EDGE)]
"""An edge of a part: part.edge."""

FasteningRef = Annotated[Id, Refers(Named.FASTENING)]
StrapRef = Annotated[Id, Refers(Named.STRAP)]
StripRef = Annotated[Id, Refers(Named.STRIP)]
LinkageRef = Annotated[Id, Refers(Named.LINKAGE)]
CircuitRef = Annotated[Id, Refers(Named.CIRCUIT)]
CasingRef = Annotated[Id, Refers(Named.CASING)]
HarnessRef = Annotated[Id, Refers(Named.HARNESS)]
RowRef = Annotated[Line, Refers(Named.ROW)]
"""A row of points of a part: part.row."""

DrawingFile = Annotated[Line, FileName(FileKind.DRAWING)]
PictureFile = Annotated[Line, FileName(FileKind.PICTURE)]
