"""A longer sample guide whose steps tell their cautions, actions and drawings apart by number."""

import io
from dataclasses import replace
from functools import cache

import pikepdf
from render.page_samples import GUIDE, SITE, STOCK, drawn, sample, theme
from render.pdf_reader import read_pages

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.documents import Edition
from guidegen.layout.records import GuidePlan
from guidegen.layout.times.plans import plan_time
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.pen.records import Drawing, Lettering
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.booklet import Form, booklet_files, booklet_html
from guidegen.render.booklets.editions import LARGE_PRINT, EditionFile, edition_files
from guidegen.render.pdf.html_pdf import write_pdf

STEPS = 11
"""How many steps: enough to fall on page breaks in many ways."""

WORDS = ("WARNING", "CAUTION", "DANGER", "NOTICE")
ADDRESS = "https://loft.example.org/guides/"
VIDEO = "https://video.example.org/watch/cuff"


def hazard(step: int, number: int) -> str:
    """What a caution of a step says to do: no other says the same."""
    return f"Mind hazard {step}-{number} and keep both hands behind the blade at all times."


def cautions_of(step: int) -> int:
    """How many cautions a step has: none to three."""
    return (step * 7) % 4


def action(step: int) -> str:
    """The first words of a step's instruction."""
    return f"Begin action {step} now."


def _stock() -> dict:
    cautions = {
        f"hazard-{step}-{number}": {
            "word": WORDS[(step + number) % 4],
            "title": f"Hazard {step}-{number}",
            "hazard": f"Hazard {step}-{number} cuts.",
            "consequence": "Deep cuts to hands and wrists.",
            "avoid": hazard(step, number),
            "signs": ["W022"],
        }
        for step in range(STEPS)
        for number in range(cautions_of(step))
    }
    return {**STOCK, "cautions": {**STOCK["cautions"], **cautions}}


def _steps() -> list[dict]:
    filler = "Work slowly, from the middle outward, and look at the other side before you go on. "
    return [
        {
            "id": f"step-{step}",
            "title": f"Do number {step}",
            "stage": ("cutting", "gluing", "strapping")[step * 3 // STEPS],
            "parts": ["cuff", "badge"],
            "process": "cementing" if step == STEPS - 1 else None,
            "tools": ["knife"] if step % 3 == 0 else [],
            "cautions": [f"hazard-{step}-{n}" for n in range(cautions_of(step))],
            "text": f"{action(step)} " + filler * (1 + (step * 5) % 4),
            "time": "30 min",
            "wait": "2 h" if step % 2 else "0 min",
            "check": "It holds.",
            "trouble": [{"sign": "It opens", "cure": "Do it again."}] if step % 4 == 0 else [],
            "video": {"address": VIDEO, "at": "3:20"} if step == 2 else None,
        }
        for step in range(STEPS)
    ]


def drawn_words(step: int) -> str:
    """Words in the drawing of a step."""
    return f"drawn{step}x"


def _drawing(step: int) -> Drawing:
    plain = drawn(f"Drawing of step {step}")
    return replace(plain, items=(*plain.items, Lettering((10, 16), drawn_words(step), 9)))


@cache
def long_sample(address: str | None = None):
    """Content, plan and drawings of a guide with many steps; on a site with `address`, if any."""
    content, plan, pictures = sample()
    guide = Guide.model_validate({**GUIDE, "steps": _steps(), "overview": "A cuff."})
    stock = Stock.model_validate(_stock())
    file = replace(plan.file, guide=guide)
    site = Site.model_validate({**SITE, "address": address, "papers": ["a4"]})
    content = replace(content, site=site, stock=stock, guides=(file,))
    plan = GuidePlan(file, plan.sizes, gather_cautions(guide, stock), plan_time(guide, stock))
    steps = {f"step-{step}": _drawing(step) for step in range(STEPS)}
    pictures = GuidePictures(pictures.sizes, pictures.time_line, pictures.signs, steps=steps)
    return content, plan, pictures


@cache
def edition(name: str, paper: str = "a4", address: str | None = None) -> EditionFile:
    """One document of the long sample, size M."""
    content, plan, pictures = long_sample(address)
    update = {"editions": (Edition(name),), "papers": (paper,)}
    content = replace(content, site=content.site.model_copy(update=update))
    (made,) = edition_files(content, plan, "M", pictures, theme())
    return made


FORMS = {
    "both papers": (("a4", "letter"), Form()),
    "a5": (("a4",), Form("fold", ("a5",))),
    "both halves": (("a4",), Form("fold", ("a5", "half-letter"))),
    "large print": (("a4",), LARGE_PRINT),
}
"""Booklets in every form, by the papers that share its layout."""


@cache
def pages(form):
    """The long sample in one form, read back."""
    content, plan, pictures = long_sample()
    papers, how = FORMS[form]
    html = booklet_html(content, plan, "M", papers, pictures=pictures, theme=theme(), form=how)
    return read_pages(write_pdf(html, files=booklet_files(plan, pictures), variant="pdf/ua-1"))


def site_with(content, **changes: object):
    """The content on a site with other settings."""
    return replace(content, site=content.site.model_copy(update=changes))


def blank(pages):
    """A PDF of empty pages."""
    pdf = pikepdf.new()
    for _ in range(pages):
        pdf.add_blank_page(page_size=(595, 842))
    out = io.BytesIO()
    pdf.save(out)
    return out.getvalue()
