"""JSON Schema of the build files."""

import json
from pathlib import Path

from guidegen.app.commands.press import all_schemas, write_schemas

SHIPPED = Path(__file__).parents[3] / "guidegen" / "buildfile" / "records" / "schemas"


def test_the_shipped_files_are_current() -> None:
    """guidegen/buildfile/records/schemas holds what `guidegen schema` writes today.

    After a change of the models: ./start guidegen schema --to guidegen/buildfile/records/schemas
    """
    assert {path.name: path.read_text(encoding="utf-8") for path in SHIPPED.iterdir()} == (
        all_schemas()
    )


def test_written_where_one_asks(tmp_path: Path) -> None:
    """Each file is valid JSON and describes the keys that authors write, in kebab case."""
    paths = {path.name: path for path in write_schemas(tmp_path / "deep" / "folder")}
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
