"""A site and its guides in → whether pages make templates to measure, and the files for that.

Press asks once, before any page is made: where the packages cannot be had, no page offers it.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import replace

from guidegen.app.measured.bundle import WORKER, Bundle, library_licences, make_bundle
from guidegen.app.measured.order import pack_order
from guidegen.app.measured.packages import NotToBeHad
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.site import Site
from guidegen.problems import Problem
from guidegen.render.fonts.fallback_fonts import own_letters
from guidegen.render.site.measured import MeasuredOffer
from guidegen.render.text.links import MEASURED_INDEX
from guidegen.shipped import GEOS_LICENCE, MEASURED, MEASURED_LIBRARIES

WHERE = ("made-to-measure",)


def bundle_for(content: Content) -> tuple[Content, Bundle | None, list[Problem]]:
    """The content as it is then, the files for its site, and what is wrong with them."""
    if not content.site.made_to_measure:
        return content, None, []
    try:
        return content, make_bundle(content.site.languages), []
    except NotToBeHad as error:
        problem = content.site_source.problem("measured-files", WHERE, str(error))
        site = content.site.model_copy(update={"made_to_measure": False})
        return replace(content, site=site), None, [problem]


def lacking_files(site: Site) -> tuple[str, ...]:
    """A word for the key of what is carried over, where the packages cannot be had."""
    if not site.made_to_measure:
        return ()
    try:
        make_bundle(site.languages)
    except NotToBeHad:
        return ("without templates to measure",)
    return ()


def site_files(bundle: Bundle) -> Mapping[str, bytes]:
    """All files of a bundle, with the one that tells pages where they lie, by path from out/."""
    told = {
        "core": bundle.core.rpartition("/")[2] + "/",
        "own": bundle.own.rpartition("/")[2] + "/",
        "worker": WORKER,
        "bytes": bundle.bytes,
        "files": sorted(path.partition("/")[2] for path in bundle.files),
    }
    index = json.dumps(told, sort_keys=True).encode() + b"\n"
    texts = {
        MEASURED.text: MEASURED.data,
        GEOS_LICENCE: bundle.geos_licence,
        MEASURED_LIBRARIES: library_licences(),
    }
    return {**bundle.files, **texts, MEASURED_INDEX: index}


def offer_of(content: Content, file: GuideFile) -> MeasuredOffer | None:
    """What a guide's page says and loads; None where it offers nothing."""
    guide, site = file.guide, content.site
    if not site.made_to_measure or not guide.made_to_measure.offered:
        return None
    if not guide.measurements or not guide.sizes:
        return None
    order = pack_order(content, file)
    if not _can_letter(order):
        return None
    data = order.encode()
    name = f"measured-{hashlib.sha256(data).hexdigest()[:16]}.json"
    papers = (*site.papers, *site.template_papers)
    return MeasuredOffer(name, data, papers)


def _can_letter(order: str) -> bool:
    """Whether the family of template labels has all the letters that an order may show."""
    own = own_letters("Barlow Condensed")
    return not any(letter.isalpha() and ord(letter) not in own for letter in set(order))
