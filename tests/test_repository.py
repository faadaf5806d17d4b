"""What the project's own files keep to: where they lie, how long they are, what they say."""

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parent.parent

TOP_LEVEL = {
    "LICENSE",
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "start",
    "guidegen",
    "content",
    "themes",
    "tests",
}
"""What lies at the top besides dotfiles and the output folder."""

WRITTEN = {".py", ".html", ".css", ".js", ".svg", ".md", ".yaml", ".toml", ".txt", ""}
"""Endings of files that people write and read."""

MAX_LINES = 400
MAX_LINE = 160

LINT_MARK = re.compile(r"#\s*noqa\b(?::\s*[A-Z]+\d+(?:,\s*[A-Z]+\d+)*)?(?P<reason>.*)")
TYPE_MARK = re.compile(r"#\s*type: ignore(?!\[[\w, -]+\])")


def files(*folders: str) -> Iterator[Path]:
    """Yield the written files of some folders of the project, in order."""
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*")):
            if path.is_file() and path.suffix in WRITTEN and "__pycache__" not in path.parts:
                yield path


def said(path: Path) -> list[tuple[str, str]]:
    """Return the lines of a file, each with its place."""
    lines = path.read_text(encoding="utf-8").splitlines()
    place = path.relative_to(ROOT)
    return [(f"{place}:{number}", line) for number, line in enumerate(lines, start=1)]


def pins() -> list[tuple[str, str]]:
    """Name and version of each pin in the lock; what systems have in different versions, twice."""
    text = (ROOT / ".locks" / "requirements.txt").read_text(encoding="utf-8")
    found = re.findall(r"^([\w.-]+)==([\w.]+)", text, re.MULTILINE)
    return [(canonicalize_name(name), version) for name, version in found]


def test_top_level():
    """The top folder holds nothing but what its readers expect there."""
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert names - {"out"} == TOP_LEVEL


def test_files_are_short():
    """No file of the program, of a theme or of tests is longer than one reads in one go; prose,
    licences and the stock of the trade, which one looks things up in, may be, and so may samples.
    """
    code = [path for path in files("tests", ".ci") if path.suffix == ".py"]
    long = {
        str(path.relative_to(ROOT)): len(said(path))
        for path in (*files("guidegen", "themes"), *code)
        if path.suffix not in {".svg", ".md", ".txt"}
        and path.parent.name != "trade"
        and len(said(path)) > MAX_LINES
    }
    assert long == {}


def test_each_class_and_type_has_a_name_of_its_own():
    """A name stands for one class or alias: who reads it need not ask which one is meant."""
    places: dict[str, list[str]] = {}
    for path in sorted((ROOT / "guidegen").rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef):
                name = node.name
            elif isinstance(node, ast.TypeAlias):
                name = node.name.id
            else:
                continue
            if not name.startswith("_"):
                places.setdefault(name, []).append(path.relative_to(ROOT).as_posix())
    assert {name: where for name, where in places.items() if len(where) > 1} == {}


def test_lines_of_themes_are_short():
    """A difference of two versions of a template can be read: no line is longer than this."""
    long = [
        f"{place}: {len(line)}"
        for path in sorted((ROOT / "themes").rglob("*.*"))
        if path.suffix in {".j2", ".css", ".js"}
        for place, line in said(path)
        if len(line) > MAX_LINE
    ]
    assert long == []


def test_each_declaration_has_a_line():
    """No line of a style sheet holds two declarations: what is after one on its line is a brace."""
    crowded = []
    for path in sorted((ROOT / "themes").rglob("*.css")):
        text = path.read_text(encoding="utf-8")
        # Only the semicolons and braces of rules are looked for: others become letters.
        text = re.sub(r"(?<=;) /\*[^\n]*?\*/", "", text)  # what a declaration is for
        text = re.sub(r"/\*.*?\*/|\"[^\"]*\"|\([^()]*\)", bare_of_marks, text, flags=re.DOTALL)
        crowded += [
            f"{path.relative_to(ROOT)}:{number} {line.strip()}"
            for number, line in enumerate(text.splitlines(), start=1)
            if line.count(";") > 1 or re.search(r";\s*[^\s}]|\}\s*[^\s}]|:[^;{}]*;.*\{", line)
        ]
    assert crowded == []


def bare_of_marks(found: re.Match[str]) -> str:
    """What a comment, a string or a bracket says, without what ends a declaration."""
    return re.sub(r"[;{}]", "_", found[0])


def test_every_test_says_what_it_shows():
    """Each test has a docstring that states the behaviour that it shows."""
    silent = []
    for path in files("tests"):
        if path.suffix != ".py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.FunctionDef)
                and node.name.startswith("test_")
                and not ast.get_docstring(node)
            ):
                silent.append(f"{path.relative_to(ROOT)}:{node.lineno} {node.name}")
    assert silent == []


def test_exceptions_in_code_have_reasons():
    """Each place that asks the linter to look away says why; for types, the rule says it."""
    bare = []
    for path in files("guidegen", "tests", ".ci"):
        if path.suffix != ".py" or path == Path(__file__):
            continue
        for place, line in said(path):
            mark = LINT_MARK.search(line)
            if (mark and not re.search(r"\w+ \w+", mark["reason"])) or TYPE_MARK.search(line):
                bare.append(f"{place}: {line.strip()}")
    assert bare == []


def test_exceptions_in_settings_have_reasons():
    """Each rule that pyproject.toml switches off has its reason on the same line."""
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    lint = tomllib.loads(text)["tool"]["ruff"]["lint"]
    rules = [f'"{rule}",' for rule in lint["ignore"]]
    rules += [f'"{pattern}" = ' for pattern in lint["per-file-ignores"]]
    for rule in rules:
        lines = [line for line in text.splitlines() if line.strip().startswith(rule)]
        assert lines, rule
        assert all(re.search(r"# \w+ \w+", line) for line in lines), rule


def test_developers_has_a_section_per_stage():
    """DEVELOPERS.md explains each stage folder under a heading that names it."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    headings = "\n".join(re.findall(r"^#+ .*$", text, re.MULTILINE))
    stages = [path.parent.name for path in (ROOT / "guidegen").glob("*/__init__.py")]
    assert [stage for stage in sorted(stages) if not re.search(rf"\b{stage}\b", headings)] == []


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_links_lead_somewhere(name):
    """Each link and picture of the texts at the top leads to a file of the project."""
    text = (ROOT / name).read_text(encoding="utf-8")
    targets = re.findall(r"\]\(([^)\s]+)\)", text) + re.findall(r'(?:src|href)="([^"]+)"', text)
    local = [target.partition("#")[0] for target in targets if "://" not in target]
    assert [target for target in local if target and not (ROOT / target).exists()] == []


def test_lock_fits_the_project_file():
    """The pinned versions are those that pyproject.toml asks for; if not: ./start refresh."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    wanted = [Requirement(line) for line in [*project["dependencies"], *extras["dev"]]]
    assert "guidegen" in [requirement.name for requirement in wanted], "dev needs the other extras"
    wanted += [Requirement(line) for line in (*extras["cluster"], *extras["trace"])]
    for requirement in (one for one in wanted if one.name != "guidegen"):
        versions = [v for name, v in pins() if name == canonicalize_name(requirement.name)]
        assert versions, f"{requirement} is not in the lock"
        fitting = [version for version in versions if Version(version) in requirement.specifier]
        assert fitting, f"{requirement} is locked at {versions}"


def test_lock_is_exact_and_names_no_place():
    """Each pinned version has hashes, and the lock leaves open from where packages come."""
    text = (ROOT / ".locks" / "requirements.txt").read_text(encoding="utf-8")
    blocks = re.split(r"^(?=[\w.-]+==)", text, flags=re.MULTILINE)[1:]
    assert len(blocks) == len(pins()) > 0
    assert all("--hash=sha256:" in block for block in blocks)
    assert "://" not in text
    assert not re.search(r"^\s*-[-\w]*(index|find-links|trusted)", text, re.MULTILINE)
