"""The version of a guide is told to those who hold an older one."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.problems import Problem


def check_versions(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Where there is a log of changes, it has an entry for the version that the guide has now."""
    guide = file.guide
    told = [change.version for change in guide.changes]
    if told and guide.version not in told:
        message = (
            f"version {guide.version} is not in changes, whose newest entry tells of "
            f"{max(guide.changes, key=lambda change: change.date).version}"
        )
        yield file.source.problem("version-untold", ("version",), message)
