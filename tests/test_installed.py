"""The built package by itself: no checkout in sight, it begins, presses and explains a site."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def package(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with what a wheel of this checkout installs."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--quiet",
         "--disable-pip-version-check", "--wheel-dir", folder, ROOT],
        check=True, capture_output=True,
    )  # fmt: skip
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "installed")
    return folder / "installed"


def run_installed(package: Path, folder: Path, *command: str) -> str:
    """What a command prints that finds the installed guidegen, in a folder far from the checkout."""
    tools = package.parent / "tools"
    tools.mkdir(exist_ok=True)
    code = f"import guidegen; assert guidegen.__file__.startswith({str(package)!r});"
    code += "from guidegen.cli import run; run()"
    program = tools / "guidegen"
    program.write_text(
        f'#!/bin/sh\nexec "{sys.executable}" -P -c "{code}" "$@"\n', encoding="utf-8"
    )
    program.chmod(0o755)
    settings = {
        **os.environ, "PYTHONPATH": str(package), "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
    }  # fmt: skip
    # Where Python may not keep what it compiles, each command would compile the package again.
    settings.pop("PYTHONDONTWRITEBYTECODE", None)
    done = subprocess.run(
        command, cwd=folder, env=settings, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_an_installed_guidegen_makes_a_site(package: Path, tmp_path: Path) -> None:
    """begin, proof and press from the package alone, in the site's folder, with its own colours."""
    run_installed(package, tmp_path, "guidegen", "begin", "mine")
    site = tmp_path / "mine"
    (site / "theme").mkdir()
    (site / "theme" / "own.css").write_text(":root { --accent: #123456; }", encoding="utf-8")
    assert (site / ".gitignore").is_file()
    quick = ("--editions", "checklist", "--workers", "1", "--nesting-time", "0")
    said = run_installed(package, site, "sh", "publish.sh", *quick)
    assert "0 errors" in said
    assert "1 guide in 3 sizes" in said
    out = site / "out"
    for size in ("S", "M", "L"):
        assert (out / "first-cuff" / size / "index.html").is_file()
        assert (out / "first-cuff" / size / "templates-a4.pdf").read_bytes().startswith(b"%PDF")
    assert "Glue the shield on" in (out / "first-cuff" / "steps.html").read_text(encoding="utf-8")
    assert "--accent: #123456" in (out / "theme.files" / "site.css").read_text(encoding="utf-8")


def test_the_wheel_carries_what_a_user_needs(package: Path) -> None:
    """Themes, starter, handbook, languages and licences; no test, no content of the demo."""
    for name in (
        "themes/workshop/base.html.j2", "themes/harbour/own.css", "starter/site.yaml", "trade/stock.yaml", "crafts/wood/stock.yaml",
        "handbook/begin/installing.md", "languages/de.po", "licences/guidegen.txt", "py.typed",
    ):  # fmt: skip
        assert (package / "guidegen" / name).is_file(), name
    (about,) = package.glob("*.dist-info")
    assert (about / "licenses" / "LICENSE").is_file()
    told = (about / "METADATA").read_text(encoding="utf-8")
    for line in (
        "Requires-Python: >=3.12", "License-Expression: MIT", "License-File: LICENSE", "Keywords: ", "Author: the authors of guidegen",
        "Classifier: Programming Language :: Python :: 3.14", "Classifier: Operating System :: Microsoft :: Windows",
    ):  # fmt: skip
        assert f"\n{line}" in told, line
    assert {path.name for path in package.iterdir()} == {"guidegen", about.name}
