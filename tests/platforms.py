"""Whether all that guidegen runs with is there, ready made, for the systems that it is for.

    ./start python tests/platforms.py        needs the network, and uv: ./start refresh brings it

The pinned versions of the lock are resolved for each system and Python as an installer would, without
fetching a file. What has no wheel is named; the exit status tells whether anything was.
"""

import os
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
PYTHONS = ("3.12", "3.13", "3.14")
PLATFORMS = (
    "x86_64-unknown-linux-gnu",
    "aarch64-unknown-linux-gnu",
    "x86_64-apple-darwin",
    "aarch64-apple-darwin",
    "x86_64-pc-windows-msvc",
)
OLDEST_MAC = {"x86_64-apple-darwin": "13.0", "aarch64-apple-darwin": "14.0"}
"""On Apple's processors no pikepdf for Python 3.13 and newer is made for macOS 13."""
_LACKS = re.compile(r"Because ([\w.-]+)(?:\{.*?\})?==(\S+) has no usable wheels")


def missing(platform: str, python: str, wanted: list[str]) -> list[str]:
    """Pins without a wheel for a system: name and version."""
    found: list[str] = []
    while True:
        names = {one.partition(" ")[0] for one in found}
        rest = [one for one in wanted if re.split(r"[<>=!~ \[;]", one)[0] not in names]
        with tempfile.TemporaryDirectory() as folder:
            done = subprocess.run(
                [
                    *(Path(sys.executable).with_name("uv"), "--no-cache", "pip", "install"),
                    *("--dry-run", "--only-binary", ":all:", "--python-platform", platform),
                    *("--python-version", python, "--target", folder),
                    *("--constraint", ROOT / ".locks" / "requirements.txt", *rest),
                ],
                env={
                    **os.environ,
                    "MACOSX_DEPLOYMENT_TARGET": OLDEST_MAC.get(platform, ""),
                    "UV_SYSTEM_CERTS": "true",
                },
                capture_output=True,
                text=True,
                check=False,
            )
        if done.returncode == 0:
            return found
        lacks = _LACKS.search(done.stderr)
        if lacks is None or lacks[1] in names:
            return [*found, " ".join(done.stderr.split())[-600:]]
        found.append(f"{lacks[1]} {lacks[2]}")


def main() -> int:
    """Print a line for each system and Python."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lacking = 0
    for platform in PLATFORMS:
        for python in PYTHONS:
            found = missing(platform, python, list(project["dependencies"]))
            lacking += len(found)
            print(f"{platform:28} {python}  {', '.join(found) or 'all there'}", flush=True)
    return 1 if lacking else 0


if __name__ == "__main__":
    sys.exit(main())
