"""Stretches between corners and the edge names of a part in → named edges of the outline."""

from guidegen.buildfile.records.guide import EdgeSpan
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.drawn_part import DrawnPart
from guidegen.geometry.outline.records import Edge
from guidegen.problems import did_you_mean


def name_edges(job: DrawnPart, piece: DrawnPiece) -> tuple[Edge, ...]:
    """The outline's edges, counter-clockwise from the start of the part's first named edge.

    Stretches that belong to no named edge are called edge-1, edge-2, … in that order.
    """
    spans = _spans(job, piece)
    count = len(piece.stretches)
    # From the first edge that the author names, not from where the path begins: that changes with
    # every save in an editor.
    first = next(iter(spans.values()), (0, 0))[0]
    starts = {start: (name, length) for name, (start, length) in spans.items()}
    edges: list[Edge] = []
    number, step = 0, 0
    while step < count:
        index = (first + step) % count
        if index in starts:
            name, length = starts[index]
        else:
            number += 1
            # An author may have named an edge so.
            while f"edge-{number}" in job.part.edges:
                number += 1
            name, length = f"edge-{number}", 1
        runs = (piece.stretches[(index + offset) % count] for offset in range(length))
        edges.append(Edge(name, tuple(segment for run in runs for segment in run)))
        step += length
    return tuple(edges)


def span_stretches(piece: DrawnPiece, span: EdgeSpan) -> tuple[int, int]:
    """First stretch and number of stretches of an edge between two corners that exist."""
    start, end = piece.corners.index(span.start), piece.corners.index(span.end)
    return start, (end - start) % len(piece.corners) or len(piece.corners)


def _spans(job: DrawnPart, piece: DrawnPiece) -> dict[str, tuple[int, int]]:
    """First stretch and number of stretches of each named edge."""
    spans: dict[str, tuple[int, int]] = {}
    taken: dict[int, str] = {}
    for name, span in job.part.edges.items():
        if not _corners_exist(job, name, span, piece):
            continue
        start, length = span_stretches(piece, span)
        covered = [(start + offset) % len(piece.stretches) for offset in range(length)]
        other = next((taken[index] for index in covered if index in taken), None)
        if other is not None:
            job.note(
                "edge-overlap",
                ("edges", name),
                f'runs along a stretch that already belongs to the edge "{other}"',
                "edges run counter-clockwise from one corner to the other: perhaps the corners "
                "stand in the wrong order",
            )
            continue
        spans[name] = (start, length)
        taken |= dict.fromkeys(covered, name)
    return spans


def _corners_exist(job: DrawnPart, name: str, span: EdgeSpan, piece: DrawnPiece) -> bool:
    missing = False
    for key, corner in (("from", span.start), ("to", span.end)):
        if corner not in piece.corners:
            missing = True
            job.note(
                "unknown-corner",
                ("edges", name, key),
                f'no corner "{corner}" in the drawing{did_you_mean(corner, piece.corners)}',
                f'mark it with a small circle of class "corner" and the id "corner-{corner}"',
            )
    return not missing
