"""A guide in one language in → what its page hands to the program in the browser, out.

Without photos, longer texts and places in files: nothing is made of them there.
"""

from dataclasses import replace

from guidegen.app.measured.packed import pack, unpack
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.yaml.tree import Source


def pack_order(content: Content, file: GuideFile) -> str:
    """All that templates of the guide are made from, as JSON."""
    bare = replace(
        file,
        source=_nowhere(file.source),
        pictures={},
        text_files={},
        drawing_files={},
        texts={},
        translations={},
    )
    order = replace(
        content,
        guides=(bare,),
        site_source=_nowhere(content.site_source),
        stock_source=_nowhere(content.stock_source),
        print_profile=b"",
        shared_translations={},
        languages={},
    )
    return pack(replace(order, print_profile=None))  # type: ignore[arg-type] # bytes are no JSON


def _nowhere(source: Source) -> Source:
    return Source(source.file, ())


def unpack_order(text: str) -> Content:
    """The content of an order, with its one guide."""
    content = unpack(text)
    if not isinstance(content, Content):
        raise TypeError("not an order")
    return replace(content, print_profile=b"")
