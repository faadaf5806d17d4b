"""The script `start`, run for real on a small project whose packages lie in a local folder."""

import os
import pty
import re
import shutil
import signal
import subprocess
from pathlib import Path

import pytest
from start_bench import INSTALLER, Bench, make_bench, write_script


@pytest.fixture
def bench(tmp_path):
    """A project that was never set up."""
    return make_bench(tmp_path)


@pytest.fixture(scope="module")
def finished(tmp_path_factory):
    """A project that two starts at once have set up, and what they said."""
    bench = make_bench(tmp_path_factory.mktemp("start"))
    both = [bench.begin("guidegen", word) for word in ("one", "two")]
    return bench, [(*process.communicate(timeout=120), process.returncode) for process in both]


@pytest.fixture
def ready(finished, tmp_path):
    """A project that is set up, with tools of its own for this test."""
    tools = tmp_path / "tools"
    shutil.copytree(finished[0].tools, tools, symlinks=True)
    settings = finished[0].settings | {"RECORD": str(tmp_path / "record")}
    return Bench(finished[0].project, tools, settings)


def test_two_at_once_set_up_once(finished):
    """Two starts at once both run their command, and only one of them sets up."""
    _, runs = finished
    assert [(out, status) for out, _, status in runs] == [
        (f"{Path.cwd()}|one\n", 0),
        (f"{Path.cwd()}|two\n", 0),
    ]
    said = "".join(err for _, err, _ in runs)
    assert said.count("making .venv") == said.count("installing the pinned packages") == 1


def test_second_start_is_silent(ready):
    """Once set up, a start runs its command without a word of its own."""
    run = ready.start("guidegen")
    assert (run.returncode, run.stderr) == (0, "")


def test_arguments_and_status_pass_through(ready):
    """The command gets its arguments unchanged where one stands; its status comes back."""
    run = ready.start("guidegen", "two words", "", "*", "fail")
    assert run.stdout == "/|two words||*|fail\n"
    assert run.returncode == 7


def test_tools_run_in_the_project_folder(ready):
    """What works on the project itself is run in its folder, from wherever it is called."""
    run = ready.start("python", "-c", "import os; print(os.getcwd())")
    assert run.stdout == f"{ready.project}\n"


def test_unknown_command(ready):
    """A command that the environment lacks is named, with the status that shells use for it."""
    run = ready.start("gidegen", "press")
    assert run.returncode == 127
    assert 'no command "gidegen"' in run.stderr


@pytest.mark.parametrize("words", [[], ["help"], ["--help"]])
def test_usage(bench, words):
    """Without a command, start explains itself and sets nothing up."""
    run = bench.start(*words)
    assert run.returncode == 0
    assert "./start guidegen press" in run.stdout
    assert "./start pytest" in run.stdout
    assert not (bench.project / ".venv").exists()


def test_unset_variables(ready):
    """HOME may be unset and PYTHONPATH may point anywhere."""
    del ready.settings["HOME"]
    (ready.tools / "echo.py").write_text("raise SystemExit('the wrong file')")
    assert ready.start("guidegen", PYTHONPATH=str(ready.tools)).returncode == 0


def test_changed_project_file_installs_only_the_project(ready):
    """A change in pyproject.toml that leaves the lock alone keeps the installed packages."""
    with (ready.project / "pyproject.toml").open("a") as file:
        file.write("# changed\n")
    run = ready.start("guidegen")
    assert run.returncode == 0
    assert run.stderr == "start: installing guidegen itself\n"


def test_changed_lock_makes_a_new_environment(ready, tmp_path):
    """A change in the lock leaves nothing behind of what was installed before it."""
    shutil.copytree(ready.project, tmp_path / "project", symlinks=True)
    bench = Bench(tmp_path / "project", ready.tools, ready.settings)
    lock = bench.project / ".locks" / "requirements.txt"
    lock.write_text(lock.read_text().splitlines(keepends=True)[0])
    run = bench.start("pytest")
    assert run.returncode == 127
    assert "making .venv" in run.stderr


def test_killed_set_up_is_done_again(bench):
    """A start that was killed while it installed leaves nothing that a later one trusts."""
    process = bench.begin("guidegen")
    for line in process.stderr:
        if "installing the pinned packages" in line:
            os.killpg(process.pid, signal.SIGKILL)
            break
    process.communicate()
    assert not (bench.project / ".venv" / "start.ready").exists()
    run = bench.start("guidegen", "again")
    assert (run.returncode, run.stdout) == (0, "/|again\n")
    assert "making .venv" in run.stderr


def test_wrong_hash_is_refused(bench):
    """A package that differs from the lock is not installed, and nothing counts as set up."""
    lock = bench.project / ".locks" / "requirements.txt"
    lock.write_text(re.sub("sha256:....", "sha256:0000", lock.read_text()))
    run = bench.start("guidegen")
    assert run.returncode == 5
    assert "DO NOT MATCH THE HASHES" in run.stderr
    assert "Could not install the packages" in run.stderr
    assert run.stdout == ""
    assert sorted(path.name for path in (bench.project / ".venv").glob("start.*")) == ["start.lock"]


def test_foreign_environment_is_left_alone(bench):
    """A folder .venv that start did not make is neither used nor removed."""
    (bench.project / ".venv").mkdir()
    (bench.project / ".venv" / "mine").touch()
    run = bench.start("guidegen")
    assert run.returncode == 4
    assert "not made by ./start" in run.stderr
    assert (bench.project / ".venv" / "mine").exists()


def fake_python(version: str, *, has_venv: bool = True) -> str:
    """Return a script that answers like a Python of that version and names itself for the rest."""
    minor = ".".join(version.split(".")[:2])
    answer = f"{minor}\n$0" if has_venv else f"without\n{minor}\n$0"
    return f'#!/bin/sh\n[ "$1" = -c ] && {{ echo "{answer}"; exit; }}\necho "chose $0"; exit 1\n'


def test_newest_python_of_pyenv(bench, tmp_path):
    """Without one on PATH, the newest version by number in pyenv's folder is taken."""
    (bench.tools / "python3").unlink()
    for version in ("3.11.9", "3.12.1", "3.13.2", "3.13.10", "3.13-dev"):
        write_script(tmp_path / "no pyenv/versions" / version / "bin/python", fake_python(version))
    run = bench.start("guidegen")
    assert f"({tmp_path}/no pyenv/versions/3.13.10/bin/python)" in run.stderr


def test_pyenv_of_the_account(bench, tmp_path):
    """Where HOME leads elsewhere, the home that the system has for this account is asked; no
    folder of one machine stands in the script."""
    (bench.tools / "python3").unlink()
    write_script(tmp_path / "home/.pyenv/versions/3.13.1/bin/python", fake_python("3.13.1"))
    bench.fake("getent", f'#!/bin/sh\necho "me:x:1:1::{tmp_path}/home:/bin/sh"\n')
    bench.settings.pop("PYENV_ROOT", None)
    run = bench.start("guidegen", HOME=str(tmp_path / "elsewhere"))
    assert f"({tmp_path}/home/.pyenv/versions/3.13.1/bin/python)" in run.stderr
    script = (Path(__file__).parent.parent / "start").read_text(encoding="utf-8")
    assert "/root/" not in script
    assert "/opt/pyenv" not in script


def test_python_of_uv(bench, tmp_path):
    """Without one on PATH or in pyenv, the Python that uv knows is taken."""
    (bench.tools / "python3").unlink()
    write_script(tmp_path / "kept by uv" / "python", fake_python("3.12.4"))
    bench.fake("uv", f'#!/bin/sh\necho "{tmp_path}/kept by uv/python"\n')
    assert f"({tmp_path}/kept by uv/python)" in bench.start("guidegen").stderr


def test_python_too_old(bench):
    """An older Python is passed over, and what to install is said."""
    bench.fake("python3", "#!/bin/sh\nexit 1\n")
    run = bench.start("guidegen")
    assert run.returncode == 4
    assert "needs Python 3.12 or newer" in run.stderr
    assert not (bench.project / ".venv").exists()


def test_python_without_venv(bench):
    """A Python that lacks its venv module leads to the name of the package that has it."""
    bench.fake("python3", fake_python("3.13.0", has_venv=False))
    bench.fake("apt-get", INSTALLER)
    bench.fake("id", "#!/bin/sh\necho 1000\n")
    run = bench.start("guidegen")
    assert run.returncode == 4
    command = "sudo apt-get install --yes --no-install-recommends python3.13-venv"
    assert f"Please run: {command}; then start again." in run.stderr
    assert not Path(bench.settings["RECORD"]).exists()


PANGO = {
    "apt-get": "apt-get install --yes --no-install-recommends"
    " libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
    "dnf": "dnf install --assumeyes pango harfbuzz",
    "brew": "brew install pango",
}


@pytest.mark.parametrize("installer", PANGO)
def test_libraries_missing_without_rights(ready, tmp_path, installer):
    """Who may not install the libraries is told the one command that does, and nothing is run."""
    ready.forget("start.ready")
    ready.fake(installer, INSTALLER)
    user = 0 if installer == "brew" else 1000  # Homebrew refuses to run as root
    ready.fake("id", f"#!/bin/sh\necho {user}\n")
    run = ready.start("guidegen", LIBRARIES=str(tmp_path / "none"))
    assert run.returncode == 4
    assert "cannot load library 'libpango-1.0-0'" in run.stderr
    sudo = "" if installer == "brew" else "sudo "
    assert f"Please run: {sudo}{PANGO[installer]}; then start again." in run.stderr
    assert not Path(ready.settings["RECORD"]).exists()
    assert ready.start("guidegen").returncode == 0


def test_libraries_missing_without_installer(ready, tmp_path):
    """On a system with an unknown package manager the libraries are named in words."""
    ready.forget("start.ready")
    run = ready.start("guidegen", LIBRARIES=str(tmp_path / "none"))
    assert run.returncode == 4
    assert "Please install Pango 1.44 or newer, and HarfBuzz with its subset library" in run.stderr
    assert ready.start("guidegen").returncode == 0


@pytest.mark.parametrize("sudo", [False, True], ids=["root", "sudo without password"])
def test_libraries_installed_with_rights(ready, tmp_path, sudo):
    """Who may install the libraries gets them, after an update where the lists are old."""
    ready.forget("start.ready")
    ready.fake("apt-get", INSTALLER)
    ready.fake("id", f"#!/bin/sh\necho {1000 if sudo else 0}\n")
    if sudo:
        ready.fake("true", "#!/bin/sh\n")
        ready.fake("sudo", '#!/bin/sh\n[ "$1" = -n ] || exit 1\nshift\nexec "$@"\n')
    run = ready.start("guidegen", LIBRARIES=str(tmp_path / "installed"))
    assert run.returncode == 0
    record = Path(ready.settings["RECORD"]).read_text().splitlines()
    assert record == [PANGO["apt-get"], "apt-get update", PANGO["apt-get"]]


@pytest.mark.parametrize(("answer", "status"), [("y", 0), ("n", 4), ("", 4)])
def test_a_person_is_asked_before_anything_is_installed(ready, tmp_path, answer, status):
    """On a terminal the command is shown, and runs only after a yes; else it is told for later."""
    ready.forget("start.ready")
    ready.fake("apt-get", INSTALLER)
    ready.fake("id", "#!/bin/sh\necho 0\n")
    command, environment = ready.command("guidegen", LIBRARIES=str(tmp_path / "installed"))
    ours, theirs = pty.openpty()
    with os.fdopen(ours, "r+b", buffering=0) as terminal:
        process = subprocess.Popen(
            command, env=environment, cwd="/", stdin=theirs, stderr=theirs, stdout=subprocess.PIPE
        )
        os.close(theirs)
        said = b""
        while b"May it run? [y/N]" not in said:
            said += terminal.read(1)
        assert PANGO["apt-get"].encode() in said
        terminal.write(f"{answer}\n".encode())
        assert process.wait(timeout=60) == status
        process.stdout.close()
    assert Path(ready.settings["RECORD"]).exists() == (answer == "y")
    if status:
        assert ready.start("guidegen").returncode == 0  # the libraries of the bench are there


TEST_TOOLS = ("poppler-utils", "chromium", "default-jre-headless")
"""Packages of the programs that only tests need, as Debian calls them."""


def test_pytest_without_its_tools(ready):
    """Tests run without their tools too, after a line for each that says how to have it."""
    ready.fake("apt-get", INSTALLER)
    ready.fake("id", "#!/bin/sh\necho 1000\n")
    run = ready.start("pytest")
    assert run.returncode == 0
    for package in TEST_TOOLS:
        assert f"sudo apt-get install --yes --no-install-recommends {package}." in run.stderr
    assert not Path(ready.settings["RECORD"]).exists()


def test_pytest_brings_its_tools(ready):
    """For root, the tools of the tests are installed before they run."""
    Path(ready.settings["RECORD"] + ".updated").touch()
    ready.fake("apt-get", INSTALLER)
    ready.fake("id", "#!/bin/sh\necho 0\n")
    assert ready.start("pytest").returncode == 0
    lines = Path(ready.settings["RECORD"]).read_text().splitlines()
    assert [line.rpartition(" ")[2] for line in lines] == list(TEST_TOOLS)


def test_pytest_uses_the_tools_that_are_there(ready):
    """Where the tools are there under any of their names, nothing is installed and nothing said."""
    for tool in ("pdftoppm", "google-chrome", "java"):
        ready.fake(tool, "#!/bin/sh\n")
    ready.fake("apt-get", INSTALLER)
    ready.fake("id", "#!/bin/sh\necho 0\n")
    run = ready.start("pytest")
    assert (run.returncode, run.stderr) == (0, "")
    assert not Path(ready.settings["RECORD"]).exists()


def test_java_that_does_not_run_is_none(ready):
    """A java that is only a stub, as on a new Mac, counts as missing."""
    ready.fake("java", "#!/bin/sh\nexit 1\n")
    assert "a Java runtime is missing" in ready.start("pytest").stderr
