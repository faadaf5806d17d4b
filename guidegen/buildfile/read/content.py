"""What the buildfile stage puts out: the whole content, read and typed."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source
from guidegen.words import Words

ONE_SIZE = "one-size"
"""Name of the only size of a guide without a size table."""


@dataclass(frozen=True)
class GuideFile:
    """One guide with where everything stands."""

    id: str
    """Name of its folder; part of addresses."""
    guide: Guide
    source: Source
    """Places in guide.yaml."""
    drawings: Mapping[str, str] = field(default_factory=dict)
    """SVG text by file name."""
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    """Photos and other pictures that steps and the cover name, by file name."""
    text_files: Mapping[str, Source] = field(default_factory=dict)
    """The Markdown file of each key whose value names one: overview, wearing, care."""
    drawing_files: Mapping[str, str] = field(default_factory=dict)
    """Path as the author would type it, by drawing name: for messages about a drawing."""
    texts: Mapping[str, str] = field(default_factory=dict)
    """Longer texts that guide.yaml names, by file name; their words stand in the guide as well."""
    letters: Mapping[str, str] = field(default_factory=dict)
    """Outlines of what is written on its parts, by `letters_key`: capitals are 1 high."""
    translations: Mapping[str, Translation] = field(default_factory=dict)
    """Its texts in further languages, by language."""

    @property
    def folder_shown(self) -> str:
        """The guide's folder as the author would type it, with a slash at its end."""
        return self.source.file.removesuffix("guide.yaml")

    def size_names(self) -> tuple[str, ...]:
        """Sizes in the author's order; 'one-size' where there is no size table."""
        return tuple(self.guide.sizes) or (ONE_SIZE,)


@dataclass(frozen=True)
class Content:
    """A whole content folder."""

    site: Site
    site_source: Source
    stock: Stock
    stock_source: Source
    guides: tuple[GuideFile, ...]
    """By id."""
    words: Words
    """How the language of these texts says what guidegen adds."""
    print_profile: bytes = b""
    """The ICC profile that site.yaml names; empty for none."""
    shared_translations: Mapping[str, tuple[Translation, Translation]] = field(default_factory=dict)
    """Texts of site.yaml and of stock.yaml in further languages, by language."""
    languages: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Guides that each language of the site has, the site's own language first; empty for a site
    in one language."""

    @property
    def language(self) -> str:
        """BCP 47 tag of the language in which all these texts are, or ought to be."""
        return self.words.language
