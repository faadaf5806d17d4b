"""Shapes are known, and have the dimensions or the drawing that they need."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Part
from guidegen.buildfile.records.vocabulary import DRAWING, LINING, SHAPES
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.problems import Problem, did_you_mean


def check_shapes(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Shape names, dimension names, drawings, and keys that go with one kind only."""
    labels: dict[str, str] = {}
    site = content.site
    papers = {name.casefold() for name in (*site.papers, *site.template_papers)}
    for part_id, part in file.guide.parts.items():
        trail: Trail = ("parts", part_id)
        if part.label in labels:
            yield file.source.problem(
                "double-label",
                (*trail, "label"),
                f'the label "{part.label}" already stands for {labels[part.label]}',
            )
        labels.setdefault(part.label, part_id)
        if part.label.casefold() in papers:
            message = f'"{part.label}" is a paper that the templates are printed on'
            yield file.source.problem("label-like-paper", (*trail, "label"), message)
        if part.shape != LINING:
            yield from _given(
                part, ("lining_of", "inset"), "is for linings only", trail, file.source
            )
        if part.shape == DRAWING:
            yield from _drawn(part, trail, file)
        elif part.shape == LINING:
            yield from _lining(part, trail, file.source)
        elif part.shape in SHAPES:
            yield from _computed(part, trail, file.source)
        else:
            hint = did_you_mean(part.shape, [DRAWING, LINING, *SHAPES])
            yield file.source.problem(
                "unknown-name", (*trail, "shape"), f'no shape "{part.shape}"{hint}'
            )


NOT_OF_LININGS = (
    "dimensions", "drawing", "drawing_per_size", "edges", "spread", "grade", "scale", "on_fold",
    "hand",
)  # fmt: skip
"""Fields whose values a lining takes from the part that it lines."""


def _given(
    part: Part, fields: tuple[str, ...], says: str, trail: Trail, source: Source
) -> Iterator[Problem]:
    """Keys that the author gave, and that mean nothing here."""
    for field in fields:
        if field in part.model_fields_set:
            key = field.replace("_", "-")
            yield source.problem("unknown-key", (*trail, key), f'"{key}" {says}', key=True)


def _lining(part: Part, trail: Trail, source: Source) -> Iterator[Problem]:
    if part.lining_of is None:
        yield source.problem(
            "missing-key", (*trail, "shape"), 'a lining needs "lining-of": the part that it lines'
        )
    says = f"comes from the part that a lining lines: {part.lining_of}"
    yield from _given(part, NOT_OF_LININGS, says, trail, source)


def _drawn(part: Part, trail: Trail, file: GuideFile) -> Iterator[Problem]:
    if part.drawing is None and not part.drawing_per_size:
        yield file.source.problem(
            "missing-key", trail, 'a drawn part needs the key "drawing": the name of an SVG file'
        )
    missing = [s for s in file.size_names() if s not in part.drawing_per_size]
    if part.drawing is None and part.drawing_per_size and missing:
        yield file.source.problem(
            "missing-key", (*trail, "drawing-per-size"), f"no drawing for {', '.join(missing)}"
        )
    if part.dimensions:
        yield file.source.problem(
            "unknown-key",
            (*trail, "dimensions"),
            "a drawn part has no dimensions; it is graded by spread, grade or scale",
            key=True,
        )


def _computed(part: Part, trail: Trail, source: Source) -> Iterator[Problem]:
    kind = SHAPES[part.shape]
    names = {dimension.name for dimension in kind.dimensions}
    for name in part.dimensions:
        if name not in names:
            yield source.problem(
                "unknown-key",
                (*trail, "dimensions", name),
                f'a {kind.name} has no "{name}"{did_you_mean(name, names)}',
                key=True,
            )
    for dimension in kind.dimensions:
        if dimension.default is None and dimension.name not in part.dimensions:
            at = "dimensions" if part.dimensions else "shape"
            yield source.problem(
                "missing-key",
                (*trail, at),
                f'a {kind.name} needs "{dimension.name}": {dimension.help}',
            )
    drawn_only = {
        "drawing": part.drawing,
        "drawing-per-size": part.drawing_per_size,
        "edges": part.edges,
        "spread": part.spread,
        "grade": part.grade,
        "scale": part.scale,
    }
    for key, value in drawn_only.items():
        if value:
            yield source.problem(
                "unknown-key",
                (*trail, key),
                f'"{key}" is for drawn parts only; this one is a {kind.name}',
                key=True,
            )
    edges = kind.half_edges if part.on_fold else kind.edges
    if part.on_fold is not None and not kind.half_edges:
        yield source.problem(
            "bad-value", (*trail, "on-fold"), f"a {kind.name} is not made on the fold"
        )
        return
    if part.on_fold not in {None, "centre"}:
        yield source.problem(
            "bad-value", (*trail, "on-fold"), 'a computed shape is folded at its "centre"'
        )
    for key, names_given in (("allowances", part.allowances), ("bevels", part.bevels)):
        for edge in names_given:
            if edge not in edges:
                hint = did_you_mean(edge, edges)
                yield source.problem(
                    "unknown-name", (*trail, key, edge), f'no edge "{edge}"{hint}', key=True
                )
