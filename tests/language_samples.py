"""A tiny guide in a made-up language that runs from right to left, through the real chain."""

import re
from dataclasses import dataclass, replace
from functools import cache, partial
from pathlib import Path
from tempfile import TemporaryDirectory

from catalogue_texts import source_texts
from render.page_samples import home_files
from samples import GUIDE, SITE, STOCK, write_content

from guidegen.app.jobs.guides import gather_plan, plan_size, sheet_head
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.walk import with_texts
from guidegen.documents import BY_EDITION, BY_ID, Edition
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.records import GuidePlan
from guidegen.pictures.compose import draw_guide, draw_size
from guidegen.pictures.records import GuidePictures
from guidegen.pictures.templates.page_map import draw_page_maps
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.booklets.editions import MAKERS
from guidegen.render.booklets.summary import one_page_html, summary_html
from guidegen.render.site.pages import render_guide
from guidegen.render.text.links import DownloadInfo
from guidegen.render.text.svg import svg_file
from guidegen.render.text.templates_engine import Theme
from guidegen.words import Words

THEME = Path(__file__).parent.parent / "themes" / "workshop"
LETTERS = "אבג"
"""What stands for every text of an author."""


def made_up_words(language: str = "he") -> Words:
    """A catalogue in which each text is itself in other letters."""
    texts = {}
    for message in source_texts():
        if message.id:
            first = message.id if isinstance(message.id, str) else message.id[0]
            key = f"{message.context}\4{first}" if message.context else first
            forms = (message.id,) if isinstance(message.id, str) else message.id
            texts[key] = tuple(_other_letters(form) for form in forms)
    return Words(language, texts, "n != 1")


def _other_letters(text: str) -> str:
    """A text with one Hebrew letter in the place of each Latin one, holes left as they are."""
    parts = re.split(r"(\{\w+\})", text)
    return "".join(
        part if part.startswith("{") else re.sub("[A-Za-z]", "ש", part) for part in parts
    )


@dataclass(frozen=True)
class Made:
    """The guide in one language."""

    content: Content
    plan: GuidePlan
    pictures: GuidePictures
    pages: dict[str, str]
    """HTML of the site and of documents, and SVG of template pages, by a name."""


def read_sample(languages: str = "en") -> Content:
    """The tiny guide of the tests with what readers may see of it."""
    site = f"{SITE}languages: [{languages}]\npapers: [a4]\n"
    with TemporaryDirectory() as folder:
        return read_content(write_content(Path(folder), site=site, stock=STOCK, guide=GUIDE))


def make(content: Content) -> Made:
    """Everything in words and drawings that readers get of the content's only guide."""
    (file,) = content.guides
    theme = Theme(
        "workshop",
        {p.name: p.read_bytes() for p in sorted(THEME.iterdir()) if p.is_file()},
    )
    kits = tuple(make_kit(file, content.stock, size)[0] for size in file.size_names())
    sizes = tuple(plan_size(content, file, kit, "", 0).plan for kit in kits)
    plan = gather_plan(content, file, sizes)
    drawn = {}
    for size in sizes:
        pictures = draw_size(size, file.guide, content.stock, content.words)
        maps = {t.paper: draw_page_maps(t, size.kit, content.words) for t in size.templates}
        drawn[size.size] = replace(pictures, page_maps=maps)
    pictures = draw_guide(plan, drawn, content.stock, content.words)
    downloads = {
        f"{file.id}/M/{kind}.pdf": DownloadInfo(kind, "M", 20_000, "a4", 12) for kind in BY_ID
    }
    found = render_guide(content, plan, pictures, theme, downloads)
    found |= home_files(content, [plan], pictures, theme)
    pages = {name: data.decode() for name, data in found.items() if name.endswith(".html")}
    one_page = [edition for edition in Edition if edition not in MAKERS]
    for name, maker in (
        ("booklet", booklet_html),
        ("summary", summary_html),
        *((edition, partial(one_page_html, document=BY_EDITION[edition])) for edition in one_page),
    ):
        pages[name] = maker(content, plan, "M", ("a4",), pictures=pictures, theme=theme)
    head = sheet_head(content, plan.file)
    names = {key: entry.name for key, entry in content.stock.materials.items()}
    sheets = draw_template_pages(sizes[-1].templates[0], kits[-1], head, names)
    pages |= {f"template {number}": svg_file(one) for number, one in enumerate(sheets)}
    return Made(content, plan, pictures, pages)


@cache
def made_up() -> Made:
    """The tiny guide with texts of its author and of the catalogue in the made-up language."""
    content = read_sample("he")
    said = lambda _trail, _text: LETTERS  # noqa: E731 - one word for every text
    guides = tuple(replace(file, guide=with_texts(file.guide, said)) for file in content.guides)
    return make(
        replace(
            content,
            site=with_texts(content.site, said),
            stock=with_texts(content.stock, said),
            guides=guides,
            words=made_up_words(),
        )
    )
