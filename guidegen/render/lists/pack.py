"""Named files in → one archive with a manifest of checksums; the same bytes for the same files."""

import hashlib
import io
import json
import zipfile
import zlib
from collections.abc import Iterator, Mapping

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest date that a ZIP archive can hold: no clock enters the bytes."""

MANIFEST = "manifest.json"

MAX_MANIFEST = 10_000_000
"""Bytes of a manifest. Our choice: a kit of a thousand files takes 200 kB."""
MAX_MEMBERS = 10_000
"""Files of a pack. Our choice: above any kit."""
_MEMBER = b"PK\x01\x02"
"""How a file's entry in an archive's directory begins; PKWARE, APPNOTE.TXT 6.3.10, 4.3.12."""

MAX_UNPACKED = 2_000_000_000
"""Bytes of all files of a pack that is verified. Our choice: above any kit, below a bomb."""


def pack_zip(files: Mapping[str, bytes], about: Mapping[str, str]) -> bytes:
    """An archive of `files` with manifest.json: `about` (guide, version, …) and SHA-256 sums."""
    manifest = {
        **about,
        "files": {
            name: {"sha256": hashlib.sha256(data).hexdigest(), "bytes": len(data)}
            for name, data in sorted(files.items())
        },
    }
    text = json.dumps(manifest, indent=2, ensure_ascii=False) + "\n"
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        for name, data in [*sorted(files.items()), (MANIFEST, text.encode())]:
            info = zipfile.ZipInfo(name, _EPOCH)
            # PDFs and fonts are compressed already; deflate would only cost time.
            packed = name.endswith((".pdf", ".woff2", ".png", ".zip"))
            info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
            info.external_attr = 0o644 << 16
            archive.writestr(info, data)
    return stream.getvalue()


def verify_pack(data: bytes) -> list[str]:
    """What is wrong with an archive made by `pack_zip`, in words; nothing when it is whole.

    The archive may come from anybody: its sizes are bounded before anything is unpacked.
    """
    if data.count(_MEMBER) > MAX_MEMBERS:
        # Told before the directory is read: each of its entries costs memory.
        return [f"not a pack made by guidegen: more than {MAX_MEMBERS} files"]
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return list(_faults(archive))
    except (
        zipfile.BadZipFile,
        zlib.error,
        KeyError,
        ValueError,
        TypeError,
        RuntimeError,  # encrypted, or compressed in another way
        EOFError,
        RecursionError,  # a manifest of brackets
    ) as error:
        return [f"not a pack made by guidegen: {error}"]


def _faults(archive: zipfile.ZipFile) -> Iterator[str]:
    if sum(info.file_size for info in archive.infolist()) > MAX_UNPACKED:
        raise ValueError(f"it unpacks to more than {MAX_UNPACKED / 1e9:g} GB")
    if len(set(archive.namelist())) != len(archive.namelist()):
        yield "a file stands in the archive twice"
    if archive.getinfo(MANIFEST).file_size > MAX_MANIFEST:
        raise ValueError(f"its manifest is larger than {MAX_MANIFEST / 1e6:g} MB")
    listed: dict[str, dict[str, object]] = json.loads(archive.read(MANIFEST))["files"]
    names = set(archive.namelist()) - {MANIFEST}
    yield from (f"{name} is not in the archive" for name in sorted(set(listed) - names))
    yield from (f"{name} is not in the manifest" for name in sorted(names - set(listed)))
    for name in sorted(names & set(listed)):
        if archive.getinfo(name).file_size != listed[name]["bytes"]:
            yield f"{name} has another size"
        elif _sum(archive, name) != listed[name]["sha256"]:
            yield f"{name} was changed"


def _sum(archive: zipfile.ZipFile, name: str) -> str:
    """SHA-256 of one file, unpacked bit by bit."""
    summary = hashlib.sha256()
    with archive.open(name) as stream:
        while chunk := stream.read(1 << 20):
            summary.update(chunk)
    return summary.hexdigest()
