"""Named files in → one archive with a manifest of checksums; the same bytes for the same files."""

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest date that a ZIP archive can hold: no clock enters the bytes."""

MANIFEST = "manifest.json"


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
    """What is wrong with an archive made by `pack_zip`, in words; nothing when it is whole."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            manifest = json.loads(archive.read(MANIFEST))
            listed: dict[str, dict[str, object]] = manifest["files"]
            names = set(archive.namelist()) - {MANIFEST}
            faults = [f"{name} is not in the archive" for name in sorted(set(listed) - names)]
            faults += [f"{name} is not in the manifest" for name in sorted(names - set(listed))]
            for name in sorted(names & set(listed)):
                if archive.getinfo(name).file_size != listed[name]["bytes"]:
                    faults.append(f"{name} has another size")
                elif hashlib.sha256(archive.read(name)).hexdigest() != listed[name]["sha256"]:
                    faults.append(f"{name} was changed")
    except (zipfile.BadZipFile, KeyError, ValueError, TypeError) as error:
        return [f"not a pack made by guidegen: {error}"]
    return faults
