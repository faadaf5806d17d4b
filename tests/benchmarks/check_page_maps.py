"""Every guide of a site, in all sizes and on all papers → words that stand over one another on page maps.

PYTHONPATH=tests ./start python tests/benchmarks/check_page_maps.py [content]

A line for each paper: maps, leaders and clashes, on pages of the site and on key pages; 842 maps of
the demo have none. It lays out every set, which takes minutes, and exits with 1 for any clash.
"""

import sys
from collections import Counter
from pathlib import Path

from pictures.map_reader import clashes

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.records import Path as DrawnPath
from guidegen.pictures.templates.key.maps import key_scale
from guidegen.pictures.templates.page_map import draw_map, draw_page_maps
from guidegen.units import PAPERS, ROLLS
from guidegen.words import ENGLISH

ROOT = Path(__file__).parents[2]


def maps(templates: TemplateSet, kit: Kit) -> list[Drawing]:
    """Each sheet as a page of the site and a key page show it."""
    found = [*draw_page_maps(templates, kit, ENGLISH)]
    for sheet in templates.sheets:
        scale = key_scale(sheet)
        canvas = Canvas(sheet.width * scale, sheet.height * scale, "Map", "", ENGLISH)
        draw_map(canvas, templates, sheet, (0, 0), scale)
        found.append(canvas.drawing())
    return found


def main(folder: str = str(ROOT / "content")) -> int:
    """Print a line for each paper, and what is wrong."""
    content = read_content(Path(folder))
    counts: dict[str, Counter[str]] = {paper: Counter() for paper in (*PAPERS, *ROLLS)}
    for file in content.guides:
        for size in file.guide.sizes or {"one-size": None}:
            kit, _ = make_kit(file, content.stock, size)
            for paper, count in counts.items():
                for drawing in maps(lay_out_templates(kit, paper), kit):
                    wrong = [*clashes(drawing)]
                    leaders = [
                        one
                        for one in drawing.items
                        if isinstance(one, DrawnPath) and one.css == "leader"
                    ]
                    count.update(maps=1, leaders=len(leaders), clashes=len(wrong))
                    for words in wrong:
                        print(f"{file.id} {size} {paper}: {words}")
    for paper, count in counts.items():
        print(
            f"{paper:12} {count['maps']:5} maps {count['leaders']:5} leaders {count['clashes']:4} clashes"
        )
    return 1 if any(count["clashes"] for count in counts.values()) else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
