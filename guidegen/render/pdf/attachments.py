"""A guide's source files in → files to attach to its archived booklet."""

from dataclasses import dataclass

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.yaml.tree import Source
from guidegen.render.views.photos import bare_photo

MEDIA_TYPES = {
    "jpeg": "image/jpeg",
    "jpg": "image/jpeg",
    "md": "text/markdown",  # RFC 7763
    "png": "image/png",
    "svg": "image/svg+xml",
    "webp": "image/webp",
    "yaml": "application/yaml",  # RFC 9512
}


@dataclass(frozen=True, slots=True)
class Attached:
    """A file inside a PDF."""

    name: str
    """Without folders."""
    description: str
    media_type: str
    data: bytes


def source_files(content: Content, file: GuideFile) -> tuple[Attached, ...]:
    """All that the guide was pressed from: build files, texts, drawings and pictures.

    Files of subfolders have hyphens in the place of slashes; the description tells where a file
    belongs in the content folder.
    """
    texts = {
        "site.yaml": _text(content.site_source),
        "stock.yaml": _text(content.stock_source),
        f"{file.id}/guide.yaml": _text(file.source),
    }
    texts |= {f"{file.id}/{name}": text for name, text in sorted(file.texts.items())}
    texts |= {f"{file.id}/{name}": text for name, text in sorted(file.drawings.items())}
    files = {path: text.encode("utf-8") for path, text in texts.items()}
    files |= {
        f"{file.id}/{name}": bare_photo(name, data) for name, data in sorted(file.pictures.items())
    }
    start = f"{file.id}/"
    return tuple(
        Attached(
            path.removeprefix(start).replace("/", "-"),
            f"Source of this guide, in the content folder: {path}",
            MEDIA_TYPES.get(path.rpartition(".")[2].lower(), "application/octet-stream"),
            data,
        )
        for path, data in files.items()
    )


def _text(source: Source) -> str:
    """A file as it was read, its lines ended alike."""
    return "".join(f"{line}\n" for line in source.lines)
