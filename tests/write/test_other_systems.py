"""What macOS and Windows do otherwise, imitated here: open files, no links, other line ends."""

import ast
import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from guidegen.app.commands.begin import typed
from guidegen.buildfile.read.file_names import stands
from guidegen.errors import OutputError
from guidegen.write import search_index, swap
from guidegen.write.staging import MARKER, staging

ROOT = Path(__file__).parents[2]


class InUse(PermissionError):
    """As Windows refuses to rename a folder of which a file is open."""

    winerror = 32

    def __init__(self) -> None:
        super().__init__(13, "Permission denied")


@pytest.fixture
def windows(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Names are not exchanged, and so many next renames as the list's one number are refused."""
    refused = [0]
    rename = Path.rename

    def refusing(self: Path, target: Path) -> Path:
        if refused[0] > 0:
            refused[0] -= 1
            raise InUse
        return rename(self, target)

    monkeypatch.setattr(swap, "_exchange", lambda first, second: False)
    monkeypatch.setattr(swap, "PAUSES", (0, 0, 0))
    monkeypatch.setattr(Path, "rename", refusing)
    return refused


def _folders(at: Path) -> tuple[Path, Path, Path]:
    new, old = at / "new", at / "out"
    for folder, words in ((new, "2"), (old, "1")):
        folder.mkdir()
        (folder / "a.txt").write_text(words)
    return new, old, at / "aside"


def test_a_file_that_is_open_for_a_moment_stops_no_press(
    tmp_path: Path, windows: list[int]
) -> None:
    """What looks for viruses opens each new file: the rename is tried again."""
    new, old, aside = _folders(tmp_path)
    windows[0] = 3
    swap.swap_in(new, old, aside)
    assert (old / "a.txt").read_text() == "2"
    assert (aside / "a.txt").read_text() == "1"


def test_a_file_that_stays_open_is_told(tmp_path: Path, windows: list[int]) -> None:
    """A viewer keeps a PDF of the old output open: the message says so, nothing has changed."""
    new, old, aside = _folders(tmp_path)
    windows[0] = 4
    with pytest.raises(OutputError, match="a program has a file of it open: close it; it is as"):
        swap.swap_in(new, old, aside)
    assert (old / "a.txt").read_text() == "1"
    assert not aside.exists()


def test_other_refusals_are_told_at_once(
    tmp_path: Path, windows: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that one may not write to stays so: nothing is tried twice."""
    new, old, aside = _folders(tmp_path)
    tries = []

    def forbidden(self: Path, target: Path) -> Path:
        tries.append(self)
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "rename", forbidden)
    with pytest.raises(OutputError, match="Permission denied; it is as it was"):
        swap.swap_in(new, old, aside)
    assert len(tries) == 1
    assert windows == [0]


def test_a_disk_without_hard_links_gets_copies(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """FAT and many network disks have no second names: what is kept or repeated is copied."""

    def no_links(*names: object, **how: object) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    source = tmp_path / "old.txt"
    source.write_text("kept")
    with staging(tmp_path / "out") as stage:
        stage.write(MARKER, b"")
        stage.keep("kept.txt", source, "0" * 64)
        stage.write("a/first.txt", b"said twice")
        stage.repeat("b/second.txt", "a/first.txt")
    assert (tmp_path / "out" / "kept.txt").read_text() == "kept"
    assert (tmp_path / "out" / "b" / "second.txt").read_text() == "said twice"


def test_the_index_tool_is_told_where_windows_lies() -> None:
    """Without SYSTEMROOT no program begins on Windows; nothing else of ours is passed on."""
    ours = {"SYSTEMROOT": r"C:\Windows", "SECRET": "x", "PATH": "y"}
    assert search_index._environment(ours) == {"SYSTEMROOT": r"C:\Windows"}
    assert search_index._environment({"SECRET": "x"}) == {}


def test_texts_are_read_and_written_alike_everywhere() -> None:
    """On Windows a text has other letters and other line ends unless it is told not to."""
    call = re.compile(r"\.(read|write)_text\(((?:[^()]|\((?:[^()]|\([^()]*\))*\))*)\)")
    silent = [
        f"{path.relative_to(ROOT)}: {found[0]}"
        for path in (ROOT / "guidegen").rglob("*.py")
        for found in call.finditer(path.read_text(encoding="utf-8"))
        if not re.search("utf-8|ascii", found[2])
        or (found[1] == "write" and "newline=" not in found[2])
    ]
    assert silent == []
    assert "* text=auto eol=lf" in (ROOT / ".gitattributes").read_text(encoding="utf-8")


def test_a_folder_is_named_as_its_shell_takes_it() -> None:
    """What `begin` tells to type next can be typed, in a shell of Unix and in one of Windows."""
    assert typed("my site", "posix") == "'my site'"
    assert typed("my site", "nt") == '"my site"'
    assert typed("my-site", "nt") == typed("my-site", "posix") == "my-site"


def test_a_name_counts_with_its_capitals(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a system finds a file by any capitals, a name is good only as the folder has it."""
    (tmp_path / "Parts").mkdir()
    (tmp_path / "Parts" / "Shield.svg").touch()
    monkeypatch.setattr(os.path, "lexists", lambda path: True)
    monkeypatch.setattr(Path, "exists", lambda self: True)
    assert stands("Parts/Shield.svg", tmp_path)
    assert not stands("Parts/shield.svg", tmp_path)
    assert not stands("parts/Shield.svg", tmp_path)


UNIX_MODULES = {
    "crypt", "curses", "fcntl", "grp", "posix", "pty", "pwd", "readline", "resource", "syslog",
    "termios", "tty",
}  # fmt: skip
"""Modules that Python has on Unix alone (Python Library Reference, "Unix-specific services")."""
UNIX_CALLS = {
    "os": {
        "chown", "fchmod", "fchown", "fork", "forkpty", "getegid", "geteuid", "getgid", "getgroups",
        "getloadavg", "getpgid", "getuid", "killpg", "lchown", "mkfifo", "mknod", "nice", "openpty",
        "posix_fallocate", "posix_spawn", "pread", "pwrite", "register_at_fork", "sched_getaffinity",
        "sched_setaffinity", "sendfile", "setpgid", "setsid", "statvfs", "sysconf", "uname", "wait",
        "waitid", "O_CLOEXEC", "O_DIRECTORY", "O_NOFOLLOW", "O_NONBLOCK", "WNOHANG",
    },
    "signal": {
        "SIGALRM", "SIGCHLD", "SIGHUP", "SIGKILL", "SIGPIPE", "SIGQUIT", "SIGUSR1", "SIGUSR2",
        "alarm", "pause", "pthread_kill", "setitimer", "sigwait",
    },
    "socket": {"AF_UNIX"},
    "time": {"tzset", "clock_gettime"},
}  # fmt: skip
"""What modules lack on Windows (Python Library Reference, "Availability: Unix")."""
UNIX_SETTINGS = {"preexec_fn", "start_new_session", "process_group", "pass_fds", "dir_fd"}


WORTH_READING = re.compile(
    rf"\b(?:{'|'.join(sorted(UNIX_MODULES))})\b|relative_to|ProcessPoolExecutor|get_context"
    + "|multiprocessing|"
    + "|".join(sorted(UNIX_SETTINGS))
    + "".join(rf"|\b{owner}\.(?:{'|'.join(names)})\b" for owner, names in UNIX_CALLS.items())
)
"""What a text has that may be such a call: only then is it parsed, which takes longer."""


def _only_on_unix(text: str) -> Iterator[str]:
    """What a program does that Windows has not, unless it asks first whether it is there."""
    if not WORTH_READING.search(text):
        return
    tree = ast.parse(text)
    guarded = {
        id(inside)
        for node in ast.walk(tree)
        if isinstance(node, ast.Try)
        and any("ImportError" in ast.unparse(one.type or node) for one in node.handlers)
        for inside in node.body
    }
    asked = set(re.findall(r'hasattr\((\w+), "(\w+)"\)', text))
    for node in ast.walk(tree):
        match node:
            case ast.Import(names=names) if id(node) not in guarded:
                yield from (one.name for one in names if one.name in UNIX_MODULES)
            case ast.ImportFrom(module=module) if module in UNIX_MODULES:
                if id(node) not in guarded:
                    yield module
            case ast.Attribute(value=ast.Name(id=owner), attr=name):
                if name in UNIX_CALLS.get(owner, ()) and (owner, name) not in asked:
                    yield f"{owner}.{name}"
            case ast.Call(func=func, args=args, keywords=given):
                yield from (one.arg for one in given if one.arg in UNIX_SETTINGS)
                named, called = {one.arg for one in given}, ast.unparse(func)
                if called.endswith("ProcessPoolExecutor") and "mp_context" not in named:
                    yield called
                if called.endswith("get_context") and [ast.unparse(one) for one in args] not in (
                    ["'spawn'"],
                    ["'forkserver' if sys.platform == 'linux' else 'spawn'"],
                ):
                    yield called
                if called.startswith("multiprocessing."):
                    yield called
            case ast.FormattedValue(value=value) if _is_shown(value):
                yield ast.unparse(value)


def _is_shown(value: ast.expr) -> bool:
    """Whether a path below a folder is written as the system has it, with \\ on Windows."""
    return isinstance(value, ast.Call) and ast.unparse(value.func).endswith("relative_to")


def test_nothing_is_asked_of_a_system_that_it_has_not() -> None:
    """Windows has no fork, no owners, no shells: nothing of ours uses what only Unix has."""
    found = {
        str(path.relative_to(ROOT)): told
        for path in sorted((ROOT / "guidegen").rglob("*.py"))
        if (told := list(_only_on_unix(path.read_text(encoding="utf-8"))))
    }
    assert found == {}


@pytest.mark.parametrize(
    "text",
    [
        "import fcntl",
        "from pwd import getpwnam",
        "os.fork()",
        "signal.signal(signal.SIGHUP, end)",
        "ProcessPoolExecutor(2)",
        'get_context("fork")',
        "subprocess.run(words, preexec_fn=limit)",
        'f"{path.relative_to(folder)}"',
    ],
)
def test_the_search_finds_each_kind(text: str) -> None:
    """Each kind of call that only Unix has is found, so that the test before can fail."""
    assert list(_only_on_unix(text))
