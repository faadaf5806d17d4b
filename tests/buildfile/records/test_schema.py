"""JSON Schema of the build files."""

import json
from pathlib import Path

import jsonschema
import pytest
import yaml

from guidegen.app.commands.begin import begin
from guidegen.app.jobs.opening import open_content
from guidegen.app.jobs.schemas import (
    FOLDER,
    all_schemas,
    refresh_schemas,
    without_schema,
    write_schemas,
    write_site_schemas,
)

SHIPPED = Path(__file__).parents[3] / "guidegen" / "buildfile" / "records" / "schemas"


def test_the_shipped_files_are_current() -> None:
    """guidegen/buildfile/records/schemas holds what `guidegen schema` writes today.

    After a change of the models: ./start guidegen schema --to guidegen/buildfile/records/schemas
    """
    assert {path.name: path.read_text(encoding="utf-8") for path in SHIPPED.iterdir()} == (
        all_schemas()
    )


def test_files_that_name_no_schema_are_told(tmp_path: Path) -> None:
    """Each build file without the line for editors is named, with the line that it lacks."""
    begin(tmp_path / "mine")
    assert without_schema(tmp_path / "mine") == {}
    path = tmp_path / "mine" / "first-cuff" / "guide.yaml"
    first, _, rest = path.read_text(encoding="utf-8").partition("\n")
    path.write_text(rest, encoding="utf-8")
    assert without_schema(tmp_path / "mine") == {"first-cuff/guide.yaml": first}


def test_written_where_one_asks(tmp_path: Path) -> None:
    """Each file is valid JSON and describes the keys that authors write, in kebab case."""
    paths = {path.name: path for path in write_schemas(tmp_path / "deep" / "folder", all_schemas())}
    schema = json.loads(paths["guide.schema.json"].read_text(encoding="utf-8"))
    assert "licence-words" in schema["required"]
    part = schema["$defs"]["Part"]
    assert "tapered-tube" in part["properties"]["shape"]["enum"]
    tube = next(
        rule["then"]
        for rule in part["allOf"]
        if rule["if"]["properties"]["shape"]["const"] == "tapered-tube"
    )
    assert "girth-top" in tube["properties"]["dimensions"]["required"]


def test_editors_offer_the_ids_of_the_stock(tmp_path: Path) -> None:
    """A new site's schemas offer its materials, tools and processes, and take what is not there yet."""
    folder = tmp_path / "mine"
    begin(folder)
    path = folder / FOLDER / "guide.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    material = schema["$defs"]["Part"]["properties"]["material"]
    assert "foam-6" in material["anyOf"][0]["enum"] and material["anyOf"][1]["type"] == "string"
    guide = yaml.safe_load((folder / "first-cuff" / "guide.yaml").read_text(encoding="utf-8"))
    assert not isinstance(guide["date"], str)  # to YAML 1.1 it is a date, to 1.2 a text
    jsonschema.validate(guide, schema)
    guide = json.loads(json.dumps(guide, default=str)) | {"version": 1.0}
    jsonschema.validate(guide, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(guide | {"date": "1st of May"}, schema)
    guide["parts"][next(iter(guide["parts"]))]["material"] = "foam-new"
    jsonschema.validate(guide, schema)


def test_schemas_follow_the_stock(tmp_path: Path) -> None:
    """A material that is added is offered by the next look at the site; what is the same stays."""
    folder = tmp_path / "mine"
    begin(folder)
    stock = folder / "stock.yaml"
    text = stock.read_text(encoding="utf-8")
    stock.write_text(
        text.replace(
            "  foam-6:",
            "  foam-66: {name: New, kind: count, packs: [{amount: 1, price: 1}]}\n  foam-6:",
            1,
        )
    )
    before = {path: path.stat().st_mtime_ns for path in (folder / FOLDER).iterdir()}
    opened = open_content(folder)
    assert opened.content is not None, opened.problems
    refresh_schemas(folder, opened.content)
    assert '"foam-66"' in (folder / FOLDER / "guide.schema.json").read_text(encoding="utf-8")
    after = {path: path.stat().st_mtime_ns for path in (folder / FOLDER).iterdir()}
    assert {path.name for path in after if after[path] == before[path]} >= {"materials.schema.json"}
    assert write_site_schemas(folder)


def test_files_of_a_new_site_name_their_schemas(tmp_path: Path) -> None:
    """The first line of each build file leads an editor to a schema that is there."""
    folder = tmp_path / "mine"
    begin(folder)
    for name in ("site.yaml", "stock.yaml", "first-cuff/guide.yaml"):
        first = (folder / name).read_text(encoding="utf-8").splitlines()[0]
        target = first.removeprefix("# yaml-language-server: $schema=")
        assert ((folder / name).parent / target).is_file(), first
