"""Archives with checksums."""

import io
import json
import struct
import time
import tracemalloc
import warnings
import zipfile

import pytest

from guidegen.render.lists import pack
from guidegen.render.lists.pack import MANIFEST, MAX_UNPACKED, pack_zip, verify_pack

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


def test_files_have_the_rights_of_files() -> None:
    """Every file of a pack may be read by all and written by its owner (POSIX st_mode, high half
    of the external attributes: APPNOTE.TXT 4.4.15, from memory)."""
    with zipfile.ZipFile(io.BytesIO(pack_zip(FILES, ABOUT))) as archive:
        assert {info.external_attr >> 16 for info in archive.infolist()} == {0o644}
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        stored = {info.filename: info.compress_type for info in archive.infolist()}
    assert stored["b/template.pdf"] == zipfile.ZIP_STORED
    assert stored["a.txt"] == stored[MANIFEST] == zipfile.ZIP_DEFLATED


def test_a_name_that_stands_twice() -> None:
    """Two files of one name, of which one would hide the other, are told."""
    stream = io.BytesIO(pack_zip(FILES, ABOUT))
    with warnings.catch_warnings(), zipfile.ZipFile(stream, "a") as archive:
        warnings.simplefilter("ignore")
        archive.writestr("a.txt", b"words" * 50)
    assert verify_pack(stream.getvalue()) == ["a file stands in the archive twice"]


def test_more_than_may_be_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    """The sizes of all files together are bounded before anything is unpacked, to the byte."""
    whole = pack_zip(FILES, ABOUT)
    with zipfile.ZipFile(io.BytesIO(whole)) as archive:
        size = sum(info.file_size for info in archive.infolist())
    monkeypatch.setattr(pack, "MAX_UNPACKED", size)
    assert verify_pack(whole) == []
    monkeypatch.setattr(pack, "MAX_UNPACKED", size - 1)
    assert "it unpacks to more than" in verify_pack(whole)[0]
    assert MAX_UNPACKED == 2_000_000_000


def _with_manifest(manifest: bytes) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(MANIFEST, manifest)
    return stream.getvalue()


def test_a_manifest_of_blanks() -> None:
    """A manifest of hundreds of MB is told by its stated size, without being unpacked."""
    data = _with_manifest(b" " * 300_000_000)
    tracemalloc.start()
    started = time.process_time()
    assert "its manifest is larger than 10 MB" in verify_pack(data)[0]
    assert time.process_time() - started < 2
    assert tracemalloc.get_traced_memory()[1] < 50_000_000
    tracemalloc.stop()


def test_a_directory_of_millions() -> None:
    """An archive with very many entries is told before its directory is read into memory."""
    data = _with_manifest(b"{}")
    assert "more than 10000 files" in verify_pack(data + b"PK\x01\x02" * 10_001)[0]


@pytest.mark.parametrize(
    "manifest",
    [
        b"", b"[", b"[]", b"{}", b'{"files": []}', b'{"files": {"a": 1}}', b'{"files": {"a": {}}}',
        b'{"files": {"\\ud800": {}}}', b"[" * 100_000, b'{"files": {"a": {"bytes": "x", "sha256": []}}}',
        b"\xff\xfe", json.dumps({"files": None}).encode(), b"1" * 5000,
    ],
    ids=range(13),
)  # fmt: skip
def test_a_manifest_that_does_not_hold(manifest: bytes) -> None:
    """Whatever a manifest says, the faults come in words that can be written anywhere."""
    faults = verify_pack(_with_manifest(manifest))
    if manifest != b'{"files": []}':
        assert faults


def test_an_encrypted_pack() -> None:
    """A pack with a file under a password is no pack of guidegen's."""
    data = bytearray(pack_zip(FILES, ABOUT))
    for mark, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        place = data.find(mark)
        data[place + at : place + at + 2] = struct.pack("<H", 1)
    assert "not a pack made by guidegen" in verify_pack(bytes(data))[0]
