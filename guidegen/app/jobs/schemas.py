"""The models → JSON Schema files, for editors and for programs that read what we put out."""

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from guidegen.app.jobs.opening import open_content
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.meanings import Named
from guidegen.buildfile.records.schema import STOCK_SCHEMA, extending, schema_texts, with_names
from guidegen.errors import OutputError
from guidegen.render.lists.materials_json import FILE as MATERIALS_SCHEMA
from guidegen.render.lists.materials_json import materials_schema

FOLDER = ".schema"
"""Where a site's schemas stand; the first lines of its build files name them there."""


MODELINE = "yaml-language-server:"
"""What servers of the YAML language look for in a comment at the beginning of a file."""


def all_schemas() -> dict[str, str]:
    """File name to JSON Schema text: of the files that authors write, and of materials.json."""
    return schema_texts() | {MATERIALS_SCHEMA: materials_schema()}


def site_schemas(content: Content | None) -> dict[str, str]:
    """The same; in these editors offer the ids of the site's own stock."""
    texts = all_schemas()
    if content is None:
        return texts
    names = _names(content)
    if content.stock.extends is not None:
        texts[STOCK_SCHEMA] = extending(texts[STOCK_SCHEMA])
    return {name: with_names(text, names) for name, text in texts.items()}


def write_site_schemas(content: Path) -> list[Path]:
    """Write a site's schemas into its own folder. Raises OutputError, UsageError."""
    return write_schemas(content / FOLDER, site_schemas(open_content(content).content))


def write_schemas(folder: Path, texts: Mapping[str, str]) -> list[Path]:
    """Write schema files, those that are different. Raises OutputError."""
    paths = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in texts.items():
            path = folder / name
            # A file that is as it was is left alone: editors and previews watch it.
            if not path.is_file() or path.read_text(encoding="utf-8") != text:
                path.write_text(text, encoding="utf-8", newline="\n")
            paths.append(path)
    except OSError as error:
        raise OutputError(f"cannot write in {folder}: {error.strerror}") from None
    return paths


def without_schema(content: Path) -> dict[str, str]:
    """Build files of a site that name no schema, with the line that makes editors use it."""
    found: dict[str, str] = {}
    for pattern, name, up in (
        ("site.yaml", "site", ""),
        ("stock.yaml", "stock", ""),
        ("*/guide.yaml", "guide", "../"),
    ):
        for path in sorted(content.glob(pattern)):
            with suppress(OSError, UnicodeDecodeError):
                if MODELINE not in path.read_text(encoding="utf-8")[:2000]:
                    line = f"# {MODELINE} $schema={up}{FOLDER}/{name}.schema.json"
                    found[path.relative_to(content).as_posix()] = line
    return found


def refresh_schemas(folder: Path, content: Content) -> None:
    """Bring a site's schemas up to date, where it has some and they can be written."""
    if (folder / FOLDER).is_dir():
        with suppress(OutputError):
            write_schemas(folder / FOLDER, site_schemas(content))


def _names(content: Content) -> dict[Named, tuple[str, ...]]:
    stock = content.stock
    sheets = tuple(name for name, one in stock.materials.items() if one.kind == "sheet")
    return {
        Named.MATERIAL: tuple(stock.materials),
        Named.SHEET: sheets,
        Named.TOOL: tuple(stock.tools),
        Named.PROCESS: tuple(stock.processes),
        Named.CAUTION: tuple(stock.cautions),
        Named.SHOP: tuple(content.site.shops),
    }
