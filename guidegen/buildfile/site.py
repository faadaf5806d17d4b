"""site.yaml: what the whole site is called and how it is published."""

from pydantic import Field

from guidegen.buildfile.fields import Id, Line, Model, Text


class Site(Model):
    """Settings of one site; every one has a working default but the title."""

    title: Line
    """Name of the site."""
    tagline: Line | None = None
    """One sentence under the name."""
    about: Text | None = None
    """A paragraph for the home page, CommonMark."""
    publisher: Line
    """Who answers for the guides: legal owner of the title block."""
    contact: Line | None = None
    """Where readers report errata, in words or as an address."""
    address: str | None = Field(None, pattern=r"^https://[^\s]+/$", max_length=200)
    """Where the site will be published, with https:// and a slash at the end."""
    language: str = Field("en", pattern=r"^[a-z]{2}(-[A-Z]{2})?$")
    """Language of the interface and of the guides."""
    theme: Id = "workshop"
    """Folder in themes/."""
    currency: str = Field("EUR", pattern=r"^[A-Z]{3}$")
    """ISO 4217 code of all prices."""
    prices_of: Line = "unknown date"
    """When the prices were collected."""
    papers: tuple[Id, ...] = ("a4", "letter")
    """Papers for templates and booklets."""
    template_papers: tuple[Id, ...] = ()
    """More papers and rolls for templates, such as a0 for a print shop."""
