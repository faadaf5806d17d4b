"""Archives with checksums."""

import io
import zipfile

from guidegen.render.lists.pack import pack_zip, verify_pack

FILES = {"b/template.pdf": b"%PDF", "a.txt": b"words" * 50}
ABOUT = {"guide": "cuff", "version": "1.0"}


def test_same_bytes_for_the_same_files() -> None:
    """No clock and no order of the mapping enters the archive."""
    assert pack_zip(FILES, ABOUT) == pack_zip(dict(reversed(FILES.items())), ABOUT)


def test_a_whole_pack_verifies() -> None:
    """An untouched archive has nothing wrong with it."""
    assert verify_pack(pack_zip(FILES, ABOUT)) == []


def _rebuilt(**changes: bytes | None) -> bytes:
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(pack_zip(FILES, ABOUT))) as old,
        zipfile.ZipFile(stream, "w") as new,
    ):
        for name in old.namelist():
            data = changes.get(name, old.read(name))
            if data is not None:
                new.writestr(name, data)
        if "extra" in changes:
            new.writestr("extra", b"?")
    return stream.getvalue()


def test_changes_are_found() -> None:
    """A changed, a missing and an added file are each named; other bytes are no pack."""
    assert verify_pack(_rebuilt(**{"a.txt": b"Words" * 50})) == ["a.txt was changed"]
    assert verify_pack(_rebuilt(**{"a.txt": b"short"})) == ["a.txt has another size"]
    assert verify_pack(_rebuilt(**{"a.txt": None})) == ["a.txt is not in the archive"]
    assert verify_pack(_rebuilt(extra=b"?")) == ["extra is not in the manifest"]
    assert "not a pack" in verify_pack(b"PK nothing")[0]
