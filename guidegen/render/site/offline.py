"""Files of the site in → what a browser needs to keep them for a shed without network out."""

import hashlib
import json
from collections.abc import Mapping

from markupsafe import Markup

from guidegen.documents import DOCUMENTS
from guidegen.render.text.links import ALL_SIZES, DownloadInfo, guide_page
from guidegen.render.text.templates_engine import Engine
from guidegen.words import Words

WORKER = "worker.js"
LIST = "offline.json"
"""In a guide's folder: what is kept of it."""
KEPT = frozenset(document.id for document in DOCUMENTS if document.offline)
"""Kinds of documents that are kept with the size one chooses."""
ASKED = frozenset({"model"})
"""Kinds that are kept where one asks for them besides: large, and for programs of a computer."""


def offline_list(
    guide: str, files: Mapping[str, bytes], downloads: Mapping[str, DownloadInfo]
) -> bytes:
    """Names and bytes of a guide's pages and pictures, of the documents of each size, and of those
    that are kept where one asks for them.

    Names begin at the guide's own folder; `files` and `downloads` are by path from out/.
    """
    start = len(guide) + 1
    pages = {
        path[start:]: len(data)
        for path, data in sorted(files.items())
        if not path.endswith("card.png")
    }
    sizes, asked = (
        {
            size: {
                path[start:]: info.bytes
                for path, info in sorted(downloads.items())
                if info.kind in kinds and info.size == size
            }
            for size in sorted({info.size for info in downloads.values() if info.kind in kinds})
            if size != ALL_SIZES
        }
        for kinds in (KEPT, ASKED)
    )
    sums = hashlib.sha256()
    for path, data in sorted(files.items()):
        sums.update(f"{path} {hashlib.sha256(data).hexdigest()}\n".encode())
    sums.update(json.dumps([sizes, asked], sort_keys=True).encode())
    told = {"version": sums.hexdigest()[:12], "pages": pages, "sizes": sizes, "asked": asked}
    return json.dumps(told, ensure_ascii=False, sort_keys=True, indent=0).encode() + b"\n"


def worker_file(
    engine: Engine, files: Mapping[str, bytes], marks: Mapping[str, str], words: Words
) -> bytes:
    """The service worker: what all pages share, and a version that changes with it.

    `files` are those of the site without its guides, `marks` the addresses of those that carry a
    mark of their content.
    """
    shared = sorted(path for path in files if not path.endswith((".xml", ".txt", "card.png")))
    sums = hashlib.sha256()
    for path in shared:
        sums.update(f"{path} {hashlib.sha256(files[path]).hexdigest()}\n".encode())
    shell = [marks.get(path, path) for path in shared]
    say = words.say
    unsaved = [
        say("This page is not saved on this device"),
        say("There is no network now. Saved guides can be read; for this page, come back online."),
        say("the list of guides"),
    ]
    code = engine.render(
        "worker.js.j2",
        version=sums.hexdigest()[:12],
        shell=_script_list(shell),
        unsaved=_script_list(unsaved),
        language=words.language,
    )
    return code.encode()


def _script_list(texts: list[str]) -> Markup:
    """Texts as a list in a script."""
    return Markup(json.dumps(texts).replace("<", "\\u003c"))  # noqa: S704 - JSON, without tags


def offline_path(guide: str) -> str:
    """Where the list of a guide lies."""
    return guide_page(guide).replace("index.html", LIST)
