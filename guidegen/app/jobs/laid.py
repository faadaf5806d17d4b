"""Units of work as `guides.py` has them → the same, what they make laid down beside the output.

A worker of this machine writes there itself: the process that leads gets names and sums, and never
holds documents or drawings. Where no folder is named, as for workers of a cluster, all is handed
back.
"""

import pickle
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.app.jobs.guides import (
    EarlierPress,
    GuideFiles,
    MadePages,
    MadeSize,
    make_guide_files,
    make_pages,
    make_size,
)
from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.render.site.versions import KeptVersion
from guidegen.render.text.links import DownloadInfo
from guidegen.render.text.templates_engine import Theme
from guidegen.write.loose import LooseFile, set_down

type FileMade = bytes | LooseFile
"""A file of the output, as bytes or laid down."""


@dataclass(frozen=True)
class LaidSize:
    """Everything that was made for one size."""

    files: Mapping[str, FileMade]
    """By path from out/."""
    downloads: Mapping[str, DownloadInfo]
    keys: Mapping[str, str]
    shown: MadeSize | LooseFile
    """What pages show of it; laid down, it is a pickle of ours, read by workers of this press."""


@dataclass(frozen=True)
class LaidFiles:
    """Files of all sizes or pages of a guide; pages have no downloads."""

    files: Mapping[str, FileMade]
    keys: Mapping[str, str]
    downloads: Mapping[str, DownloadInfo]


def lay_size(
    folder: Path | None,
    content: Content,
    plan: GuidePlan,
    name: str,
    theme: Theme,
    *,
    earlier: EarlierPress | None = None,
) -> LaidSize:
    """The size of this name, as `make_size` makes it. Raises OutputError."""
    made = make_size(content, plan, name, theme, earlier)
    shown = replace(made, files={}, downloads={}, keys={})
    return LaidSize(
        _laid(folder, made.files),
        made.downloads,
        made.keys,
        shown if folder is None else set_down(folder, pickle.dumps(shown)),
    )


def lay_guide_files(
    folder: Path | None, content: Content, plan: GuidePlan, earlier: EarlierPress | None = None
) -> LaidFiles:
    """What is for all sizes, as `make_guide_files` makes it. Raises OutputError."""
    made: GuideFiles = make_guide_files(content, plan, earlier)
    return LaidFiles(_laid(folder, made.files), made.keys, made.downloads)


def lay_pages(  # noqa: PLR0917 - what is large is sent to a cluster once, by its position
    folder: Path | None,
    content: Content,
    plan: GuidePlan,
    sizes: Mapping[str, MadeSize | LooseFile],
    downloads: Mapping[str, DownloadInfo],
    theme: Theme,
    *,
    earlier: EarlierPress | None = None,
    versions: Sequence[KeptVersion] = (),
) -> LaidFiles:
    """Pages of a guide, as `make_pages` makes them. Raises OutputError."""
    made = {size: _shown(one) for size, one in sizes.items()}
    plan = replace(plan, sizes=tuple(one.plan for one in made.values()))
    pictures = {size: one.pictures for size, one in made.items()}
    pages: MadePages = make_pages(
        content, plan, pictures, downloads, theme, earlier=earlier, versions=versions
    )
    return LaidFiles(_laid(folder, pages.files), pages.keys, {})


def _laid(folder: Path | None, files: Mapping[str, bytes]) -> Mapping[str, FileMade]:
    if folder is None:
        return files
    return {name: set_down(folder, data) for name, data in files.items()}


def _shown(one: MadeSize | LooseFile) -> MadeSize:
    if isinstance(one, MadeSize):
        return one
    made = pickle.loads(one.read())  # noqa: S301 - a worker of this press wrote it beside out/
    if not isinstance(made, MadeSize):
        raise TypeError(type(made))
    return made
