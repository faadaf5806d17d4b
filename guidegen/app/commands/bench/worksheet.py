"""A talk's captions and a site in → a worksheet in a folder of its own; nothing is overwritten."""

import re
from dataclasses import dataclass
from pathlib import Path

from guidegen.bench.talks.captions import MAX_BYTES, read_cues
from guidegen.bench.talks.hearing import hear
from guidegen.bench.talks.lexicon import make_lexicon
from guidegen.bench.talks.worksheet import make_steps
from guidegen.bench.talks.writing import worksheet_text
from guidegen.buildfile.read.reader import read_shared
from guidegen.errors import ContentError, OutputError, UsageError
from guidegen.problems import collect

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_VIDEO = re.compile(r"https://[^\s<>\"#]{1,292}")


@dataclass(frozen=True)
class WorksheetOptions:
    """What to make a worksheet of, and where."""

    talk: Path
    content: Path
    guide: str = ""
    """Name of the new guide's folder; by default as the file is called."""
    video: str = ""
    """Address of the film that the captions belong to."""


@dataclass(frozen=True)
class WorksheetMade:
    """What was written."""

    file: Path
    cues: int
    open: int
    """Cues in which nothing was recognised, or several things are possible."""
    steps: int

    def summary(self) -> str:
        """The closing words: how far to trust it, what to do next."""
        return (
            f"wrote {self.file.as_posix()}: {self.cues} lines of the talk in {self.steps} steps, "
            f"{self.open} of them open\n"
            "it is a worksheet, no guide: read it against the talk. Materials and tools that it "
            "names are mostly right, and some are missed; cautions come from work and tools alone\n"
            f"  guidegen proof {self.file.parent.name}     tells what is still open"
        )


def make_worksheet(options: WorksheetOptions) -> WorksheetMade:
    """Write the worksheet. Raises UsageError, ContentError where the stock does not hold,
    OutputError."""
    name = options.guide or _name_of(options.talk)
    if not _ID.fullmatch(name) or len(name) > 48:
        raise UsageError(f'expected a name such as tool-roll for the new guide, found "{name}"')
    if options.video and not _VIDEO.fullmatch(options.video):
        raise UsageError(f'expected an address with https:// for the film, found "{options.video}"')
    folder = options.content / name
    if folder.exists() or folder.is_symlink():
        raise UsageError(f"{folder.as_posix()} is there already; name another with --to")
    cues = read_cues(_captions(options.talk))
    shared, problems = collect(read_shared(options.content))
    if shared.stock is None:
        raise ContentError(problems)
    heard = hear(cues, make_lexicon(shared.stock))
    steps = make_steps(cues, heard, shared.stock)
    text = worksheet_text(steps, shared.stock, options.talk.name, options.video)
    try:
        folder.mkdir()
        (folder / "guide.yaml").write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise OutputError(f"cannot write in {folder.as_posix()}: {error.strerror}") from None
    return WorksheetMade(
        folder / "guide.yaml", len(cues), sum(one.open for one in heard), len(steps)
    )


def _name_of(talk: Path) -> str:
    return "-".join(re.findall(r"[a-z0-9]+", talk.stem.lower()))[:48].strip("-")


def _captions(path: Path) -> str:
    """Text of a file of captions. Raises UsageError."""
    try:
        if not path.is_file():
            raise UsageError(f"there is no file {path.as_posix()}")
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UsageError(f"{path.as_posix()} is not UTF-8 text; save it so") from None
    except OSError as error:
        raise UsageError(f"{path.as_posix()} cannot be read: {error.strerror}") from None
