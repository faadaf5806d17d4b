"""site.yaml: what the whole site is called and how it is published."""

from collections.abc import Iterable
from typing import Annotated

from pydantic import AfterValidator, Field, model_validator

from guidegen.buildfile.records.meanings import Prose, ProseLine, Translated
from guidegen.buildfile.records.report import ReportAddress
from guidegen.buildfile.yaml.fields import Id, Model
from guidegen.documents import Edition
from guidegen.errors import UsageError
from guidegen.problems import did_you_mean
from guidegen.units import PRINTER_MARGIN_END, PRINTER_MARGIN_SIDE
from guidegen.words import known_language


def _language(tag: str) -> str:
    if not known_language(tag):
        raise ValueError(f'no known language has the tag "{tag}"; expected one such as en or de-AT')
    return tag


Language = Annotated[
    str, Field(pattern=r"^[a-z]{2,3}(-[A-Z]{2})?$", max_length=6), AfterValidator(_language)
]
"""BCP 47 tag: a language, perhaps with a country."""


def choose_editions(names: Iterable[str]) -> tuple[Edition, ...]:
    """Editions by name, or every one for 'all'. Raises UsageError for an unknown name."""
    chosen: list[Edition] = []
    for name in names:
        if name == "all":
            chosen.extend(Edition)
        elif name in list(Edition):
            chosen.append(Edition(name))
        else:
            hint = did_you_mean(name, ["all", *Edition])
            known = ", ".join(Edition)
            raise UsageError(f'there is no edition "{name}"{hint} (all, or some of {known})')
    return tuple(edition for edition in Edition if edition in chosen)


LEAST_SESSION = 0.25
"""Hours in which something can be done at all."""


class PrinterMargins(Model):
    """What a printer leaves white, in mm on the paper held upright."""

    side: float = Field(PRINTER_MARGIN_SIDE, ge=0, le=40)
    """Left and right. Plotters leave this much all round a drawing on a roll."""
    end: float = Field(PRINTER_MARGIN_END, ge=0, le=40)
    """Top and bottom, where the paper enters and leaves."""


class WorkingHours(Model):
    """When readers work, for the calendar of a build. Drying and curing go on at night."""

    evening: float = Field(3, ge=0, le=6)
    """Hours on each of five days a week, from six in the evening on; 0 for none."""
    free_day: float = Field(7, ge=0, le=14)
    """Hours on each of the two free days before them, from ten in the morning on; 0 for none."""

    @model_validator(mode="after")
    def _some(self) -> "WorkingHours":
        hours = [length for length in (self.evening, self.free_day) if length]
        if not hours or min(hours) < LEAST_SESSION:
            raise ValueError(
                "expected at least a quarter of an hour (0.25) in the evening, on a free day or "
                "both, and 0 for a kind of day without work"
            )
        return self


class Shop(Model):
    """Where readers buy: a kind of shop, or one of them."""

    name: Translated
    """What it is called: a heading of the list of what to buy."""
    note: ProseLine | None = None
    """What to ask for there, when it is open, in a line."""
    address: str | None = Field(None, pattern=r"^https://[^\s]+$", max_length=300)
    """Its page, with https://."""


class Site(Model):
    """Settings of one site; every one has a working default but the title."""

    title: Translated
    """Name of the site."""
    tagline: Translated | None = None
    """One sentence under the name."""
    about: Prose | None = None
    """A paragraph for the home page, CommonMark."""
    publisher: Translated
    """Who answers for the guides: legal owner of the title block."""
    contact: ProseLine | None = None
    """What to say to readers who found a mistake, in words."""
    report: ReportAddress | None = None
    """Where "Report a mistake" leads from each page, step and piece: a mail address, or the
    address of a form with https://. After its "?" it may have holes that are filled in: {guide},
    {version}, {size}, {step}, {piece}, {page}. A mail address alone gets a subject and a text."""
    address: str | None = Field(None, pattern=r"^https://[^\s]+/$", max_length=200)
    """Where the site will be published, with https:// and a slash at the end."""
    path: str | None = Field(None, pattern=r"^/([A-Za-z0-9._~-]+/)*$", max_length=200)
    """Where on its host the site stands, where its whole address is not known or not to be told:
    / or /guides/. The page for addresses that do not exist then looks as all others do at once."""
    languages: tuple[Language, ...] = Field(("en",), min_length=1, max_length=40)
    """Languages of the site, as tags such as de or de-AT. The first one is that of the build files;
    the others are made from the translations beside them: guide.de.yaml, stock.de.yaml."""
    translated_editions: tuple[Edition, ...] = ()
    """Forms in which booklets are made in the further languages; by default the same as in the
    first one."""
    theme: Id = "workshop"
    """Folder in themes/."""
    currency: str = Field("EUR", pattern=r"^[A-Z]{3}$")
    """ISO 4217 code of all prices."""
    prices_of: Translated = "unknown date"
    """When the prices were collected."""
    shops: dict[Id, Shop] = Field(default_factory=dict, max_length=40)
    """Where readers buy, in the order of the lists of what to buy; stock.yaml names them by id."""
    papers: tuple[Id, ...] = ("a4", "letter")
    """Papers for templates and booklets."""
    template_papers: tuple[Id, ...] = ()
    """More papers and rolls for templates, such as a0 for a print shop."""
    printer_margins: dict[Id, PrinterMargins] = Field(default_factory=dict, max_length=20)
    """For a paper or roll: what your printer leaves white at its edges, where that is not the usual
    6.35 mm at the sides and 12.7 mm at the ends. Template pages keep clear of it."""
    working_hours: WorkingHours = Field(default_factory=WorkingHours)
    """How long readers work, in the evening and on a free day: the days from start to end are
    worked out from it."""
    editions: tuple[Edition, ...] = ()
    """Forms in which booklets are made. None chooses screen, summary, checklist and bench-card, and
    fold for guides whose booklet has at most 40 pages."""
    keep_versions: bool = False
    """Whether what was published of a guide's older versions stays reachable: a press that finds
    another version than the last one keeps the old documents in versions.kept/, and publishes
    them below the guide."""

    @model_validator(mode="after")
    def _one_path(self) -> "Site":
        if self.address and self.path:
            raise ValueError("expected address or path: an address tells the path as well")
        return self

    made_to_measure: bool = False
    """Whether readers may make templates to their own measurements, on the guide's page and in
    their own browser. It adds about 10 MB to the site, which a browser loads when asked to."""
    print_profile: str | None = Field(
        None, pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]*\.icc$", max_length=80
    )
    """ICC profile of your print shop's press, a file beside site.yaml: the print-shop edition is
    then meant for it, in colour where it has four inks. Without one it is for black ink alone."""
