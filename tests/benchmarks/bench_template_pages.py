"""How few template pages the demo could do with: a long search by an outside packing library.

Large templates lie as guidegen tiles them, in each of its ways; all that fit a page are packed by
packingsolver into the free places beside them and onto fresh pages with both check squares. The
least counts stand in tests/layout/paper/best_page_counts.json.

    python tests/benchmarks/bench_template_pages.py slipway-marshal M a4 --seconds 60
"""

import argparse
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import packingsolver
from packingsolver import irregular
from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.paper.arrangement import _frame_choices, _orders
from guidegen.layout.paper.frame import CELL, OVERLAP, paper_frames
from guidegen.layout.paper.items import SPACE, PaperItem, _lay, _room_below, collect_items
from guidegen.layout.paper.packing import Pages, angles_for
from guidegen.layout.paper.sheets import SQUARE, Sheet
from guidegen.layout.paper.squares import corner_squares
from guidegen.layout.paper.tiles import Tiler
from guidegen.layout.paper.tiling import cells_up

TURNS = [(angle, angle, False) for angle in (0.0, 90.0, 180.0, 270.0)]
ROOM = SQUARE * CELL
EXACT = 0.3
"""mm; outlines are grown and simplified by it, so that the library has fewer corners to try."""


def polygon(item: PaperItem, angle: float = 0.0) -> Polygon:
    """A template, or an array with its label, as one polygon; grown by a hair."""
    laid = _lay(item, angle)
    rings = [ring for ring, _ in laid.rings]
    area = [*rings, _room_below(rings, item.room)] if item.room else rings
    grow = EXACT if len(area) == 1 else SPACE + EXACT
    whole = unary_union([Polygon(ring).buffer(grow) for ring in area])
    if len(area) > 1:
        whole = whole.buffer(2 * SPACE).buffer(-3 * SPACE)
    else:
        for hole in laid.rings[0][1]:
            whole = whole.difference(Polygon(hole).buffer(-EXACT))
    return orient(whole.simplify(EXACT))


def shape(ring) -> irregular.Shape:
    """A ring for the library."""
    points = list(orient(Polygon(ring)).exterior.coords)[:-1]
    return irregular.build_shape([irregular.BuildShapeElement(x, y) for x, y in points])


def squares_at(spots) -> list[Polygon]:
    """Rooms of check squares, by their lower left corners in cells."""
    return [box(x * CELL, y * CELL, x * CELL + ROOM, y * CELL + ROOM) for x, y in spots]


def fresh_pages(frames) -> Iterator[Polygon]:
    """Empty pages, with their check squares cut out."""
    for frame in frames:
        for one in corner_squares(frame):
            cut = unary_union(squares_at((one.mm, one.inch))).buffer(0.01, join_style=2)
            yield orient(box(0, 0, frame.window_width, frame.window_height).difference(cut))


def free_places(sheets: list[Sheet]) -> Iterator[Polygon]:
    """Free paper on printed pages, apart from what several pages show."""
    for sheet in sheets:
        taken = []
        for one in sheet.laid:
            at = (one.x * CELL - one.turned.left, one.y * CELL - one.turned.bottom)
            taken.append(affinity.translate(polygon(one.item, one.turned.angle), *at).buffer(SPACE))
        for tile in sorted(sheet.tiles):
            squares = sheet.squares.get(tile)
            kept = [*taken, *(squares_at((squares.mm, squares.inch)) if squares else [])]
            window = box(*(edge * CELL for edge in sheet.grid.alone(tile)))
            free = window.difference(unary_union(kept)).buffer(-SPACE).buffer(SPACE).simplify(EXACT)
            for place in getattr(free, "geoms", [free]):
                if place.area > ROOM**2 / 2 and not place.interiors:
                    yield orient(place)


def further_pages(items, sheets, frames, seconds: float) -> int | None:
    """Fresh pages that the library needs for all items beside the sheets; None: none found."""
    builder = irregular.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.VariableSizedBinPacking)
    builder.set_item_item_minimum_spacing(2 * SPACE)
    costs = []
    for page in fresh_pages(frames):
        costs.append(1)
        builder.add_bin_type(
            shape(page.exterior), cost=1.0, copies=40, item_bin_minimum_spacing=SPACE
        )
    for place in free_places(sheets):
        costs.append(0)
        builder.add_bin_type(
            shape(place.exterior), cost=0.02, copies=1, item_bin_minimum_spacing=SPACE
        )
    for item in items:
        whole = polygon(item)
        holes = [shape(hole) for hole in whole.interiors]
        builder.add_item_type(
            irregular.ShapeWithHoles(shape(whole.exterior), holes),
            copies=1,
            allowed_rotations=TURNS,
        )
    parameters = irregular.OptimizeParameters()
    parameters.optimization_mode = packingsolver.OptimizationMode.Anytime
    parameters.time_limit = seconds
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    solution = irregular.optimize(builder.build(), parameters).solution
    if not solution.full():
        return None
    bins = [solution.bin(number) for number in range(solution.number_of_different_bins())]
    return sum(costs[one.bin_type_id] * one.copies for one in bins)


def by_themselves(items, frames, tiler: Tiler, angles) -> tuple[list[PaperItem], list[Sheet]]:
    """Templates too large to lie beside the usual places of check squares, each on its page."""
    pages = Pages(frames, angles)
    largest = [
        item
        for item in items
        if not any(
            pages.fill(frame, [item], squares)
            for frame in frames
            for squares in corner_squares(frame)
        )
    ]
    sheets: list[Sheet] = []
    for item in largest:
        own, stuck = pages.pack([item])
        sheets += own or tiler.lay_out_deep(stuck)
    return largest, sheets


def search(guide: str, size: str, paper: str, seconds: float) -> None:
    """Print the count of each way to lay the large templates."""
    content = read_content(Path("content"))
    file = next(file for file in content.guides if file.id == guide)
    items = collect_items(make_kit(file, content.stock, size)[0])
    frames = paper_frames(paper)
    angles = {id(item): angles_for(item, frames) for item in items}
    large = [item for item in items if not angles[id(item)]]
    whole = [item for item in items if angles[id(item)]]
    tiler = Tiler(frames, paper_frames(paper, deep=True), cells_up(OVERLAP))
    alone, own_pages = by_themselves(whole, frames, tiler, angles)
    rest = [item for item in whole if item not in alone]
    for chosen in _frame_choices(frames) if large else [frames]:
        for order in _orders(large):
            tiled = replace(tiler, frames=chosen).lay_out(order, shift=False) if large else []
            sheets = [*tiled, *own_pages]
            known = sum(len(sheet.tiles) for sheet in sheets)
            more = further_pages(rest, sheets, frames, seconds)
            found = "nothing found" if more is None else f"{known + more} pages"
            print(f"{guide} {size} {paper}: {found}", flush=True)


def main() -> None:
    """Search as asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("guide")
    parser.add_argument("size")
    parser.add_argument("paper")
    parser.add_argument("--seconds", type=float, default=60.0)
    asked = parser.parse_args()
    search(asked.guide, asked.size, asked.paper, asked.seconds)


if __name__ == "__main__":
    main()
