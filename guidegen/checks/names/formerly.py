"""Former names lead to what is there, and none of them is the name of something that lives."""

from collections.abc import Collection, Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Problem


def check_formerly(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Former sizes and steps of a guide; what they lead to is looked up with all other names."""
    formerly = file.guide.formerly
    # Sizes are folders, which some systems tell apart by more than capital letters only.
    sizes = {size.casefold() for size in file.size_names()}
    seen: set[str] = set()
    for old in formerly.sizes:
        if old.casefold() in sizes | seen:
            yield _alive(file, ("formerly", "sizes", old), "size", old)
        seen.add(old.casefold())
    steps = {step.id for step in file.guide.steps}
    for old in formerly.steps:
        if old in steps:
            yield _alive(file, ("formerly", "steps", old), "step", old)


def check_former_guides(content: Content) -> Iterator[Problem]:
    """Former folders of guides: no guide or language stands there, and one guide claims each."""
    taken: dict[str, str] = {file.id: file.id for file in content.guides}
    languages: Collection[str] = {tag.casefold() for tag in content.site.languages[1:]}
    for file in content.guides:
        for index, old in enumerate(file.guide.formerly.guides):
            trail: Trail = ("formerly", "guides", index)
            if old in languages:
                yield _alive(file, trail, "language", old)
            elif old in taken:
                what = "guide" if taken[old] == old else f"former name of {taken[old]}"
                yield _alive(file, trail, what, old)
            taken.setdefault(old, file.id)


def _alive(file: GuideFile, trail: Trail, what: str, old: str) -> Problem:
    message = f'"{old}" is the name of a {what} that is there: its address cannot lead elsewhere'
    if what.startswith("former"):
        message = f'"{old}" is a {what} as well: one address cannot lead to two guides'
    return file.source.problem("formerly-alive", trail, message, key=isinstance(trail[-1], str))
