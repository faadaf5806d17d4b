"""A guide in → what ties paper to the site: where mistakes are told, what changed since a print."""

import re
from dataclasses import dataclass, replace

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.report import MAIL, split_report
from guidegen.errors import OutputError
from guidegen.geometry.pieces.records import Piece
from guidegen.render.text.links import anchor, guide_page, size_page, steps_page
from guidegen.render.text.living import settle_plain
from guidegen.render.text.qr import CodeView, code_view
from guidegen.render.text.report_address import ReportView, encoded_line, filled
from guidegen.render.views.scene import LinkView, Scene, step_numbers
from guidegen.words import msg

_NEW_LINE = "%0D%0A"
"""RFC 6068, section 5."""


@dataclass(frozen=True, slots=True)
class ReportCode:
    """What a document prints for those who found a mistake."""

    name: str
    """What to say of it: guide, version and size."""
    code: CodeView


def page_report(content: Content, path: str) -> ReportView | None:
    """The link of a page that belongs to no guide; None where the site has no address for it."""
    view = _report(content, {"site": content.site.title, "page": page_address(content, path)})
    return replace(view, size_at="") if view else None


def guide_report(scene: Scene, path: str, size: str = "") -> ReportView | None:
    """The link of a page of a guide; `size` where the page is about one."""
    return _of_guide(scene, size, {"page": page_address(scene.content, path)})


def step_report(scene: Scene, step: Step) -> ReportView | None:
    """The link of a step on the page of all steps; None on paper."""
    if scene.paper:
        return None
    name = f"{step_numbers(scene.guide)[step.id]} {step.title}"
    path = f"{steps_page(scene.plan.file.id)}#{anchor('step', step.id)}"
    page = page_address(scene.content, path)
    return _of_guide(scene, scene.size, {"step": name, "page": page})


def piece_report(scene: Scene, size: str, pieces: tuple[Piece, ...]) -> ReportView | None:
    """The link of the pieces of a part on the page of a size; None on paper."""
    if scene.paper:
        return None
    first = pieces[0]
    name = f"{' '.join(piece.label for piece in pieces)} {first.name}"
    path = f"{size_page(scene.plan.file.id, size)}#{anchor('piece', first.family)}"
    page = page_address(scene.content, path)
    return _of_guide(scene, size, {"piece": name, "page": page})


def report_code(scene: Scene, size: str, kind: str = msg("Build booklet")) -> ReportCode | None:
    """The code of a document of this `kind`; None where the site has no address for mistakes.

    A mail gets the name of the document as its subject and no text: a code of few squares is read
    from a creased page too.
    """
    address, guide = scene.content.site.report, scene.guide
    if address is None:
        return None
    number = scene.plan.file.id
    name = f"{number}-{guide.version}" + (f"-{size}" if size else "")
    base, rest = split_report(address)
    if base.startswith(MAIL) and not rest:
        address = f"{base}?subject={{guide}}"
        values = {"guide": name}
    else:
        page = scene.words.say(kind)
        values = {"guide": number, "version": guide.version, "size": size, "page": page}
    try:
        code = code_view(filled(address, values).href)
    except OutputError:  # long names of strangers: the address alone still leads there
        code = code_view(base)
    words = base.removeprefix(MAIL).removeprefix("https://").rstrip("/")
    return ReportCode(name, replace(code, words=words))


def page_address(content: Content, path: str) -> str:
    """Where a page is found: its full address where the site knows its own, else its path."""
    if content.site.address:
        page, mark, place = path.partition("#")
        return content.site.address + page.removesuffix("index.html") + mark + place
    first = next(iter(content.languages), content.language)
    return path if content.language == first else f"{content.language}/{path}"


def _of_guide(scene: Scene, size: str, place: dict[str, str]) -> ReportView | None:
    file = scene.plan.file
    sizes = scene.plan.sizes
    known = size or (sizes[0].size if len(sizes) == 1 else "")
    values = {"guide": file.id, "version": scene.guide.version, "size": known}
    return _report(scene.content, values | place)


def _report(content: Content, values: dict[str, str]) -> ReportView | None:
    address = content.site.report
    if address is None:
        return None
    if address.startswith(MAIL) and not split_report(address)[1]:
        address = _with_message(content, address, values)
    plain = {name: settle_plain(value, content.words) for name, value in values.items()}
    return filled(address, plain)


def _with_message(content: Content, address: str, values: dict[str, str]) -> str:
    """A mail address with a subject and a text in the language of the page."""
    words = content.words
    names = {
        "guide": words.say("Guide"),
        "version": words.say("Version"),
        "size": words.say("Size"),
        "step": words.say("Step"),
        "piece": words.say("Piece"),
        "page": words.say("Page"),
    }
    lines = [f"{said}: {{{name}}}" for name, said in names.items() if name in values]
    lines += ["", words.say("What I expected:"), "", words.say("What I found:"), ""]
    about = "{guide} {version}" if "guide" in values else "{site}"
    if "step" in values or "piece" in values:
        about += ", {step}{piece}"
    subject = words.say("A mistake: {about}", about="{about}").replace("{about}", about)
    body = _NEW_LINE.join(encoded_line(line) for line in lines)
    return f"{address}?subject={encoded_line(subject)}&body={body}"


@dataclass(frozen=True, slots=True)
class SinceView:
    """What holders of an older version must know."""

    version: str
    """Theirs."""
    anchor: str
    """Id of the place on the guide's page to which the code of their booklet leads."""
    newer: tuple[str, ...]
    """Versions after it, newest first; none for the newest."""
    reprint: tuple[LinkView, ...]
    """Pieces whose templates must be printed again."""
    files: str = ""
    """Where the files of that version are; empty where they were not kept."""


def since_anchor(version: str) -> str:
    """The id of a version's place: booklets in print lead to it, so it stays as it is."""
    return "since-" + re.sub(r"[^A-Za-z0-9.]+", "-", version).strip("-")


def since_views(scene: Scene) -> tuple[SinceView, ...]:
    """Every version that was told, newest first; the guide's own stands there without a log."""
    guide = scene.guide
    changes = sorted(guide.changes, key=lambda change: change.date, reverse=True)
    told = dict.fromkeys(change.version for change in changes)
    versions = [*({} if guide.version in told else {guide.version: None}), *told]
    views = []
    for index, version in enumerate(versions):
        newer = versions[:index]
        parts = {name for change in changes if change.version in newer for name in change.parts}
        links = tuple(
            LinkView(part.label, scene.links.to("piece", name), part.name)
            for name, part in guide.parts.items()
            if name in parts
        )
        views.append(SinceView(version, since_anchor(version), tuple(newer), links))
    return tuple(views)


def since_code(scene: Scene) -> CodeView | None:
    """The code of a booklet that leads to what has changed since; None without an address."""
    address = scene.content.site.address
    if not address:
        return None
    page = guide_page(scene.plan.file.id).removesuffix("index.html")
    return code_view(f"{address}{page}#{since_anchor(scene.guide.version)}")
