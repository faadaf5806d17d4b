"""How much memory workers may take."""

import ctypes
import os
from pathlib import Path
from types import SimpleNamespace

import pytest

from guidegen.app.workers import local as workers
from guidegen.app.workers.memory import free_memory

MEGA = 1 << 20


@pytest.fixture
def system(tmp_path: Path) -> Path:
    """Files of a machine with 8192 MiB free, in the form of proc(5) and cgroups(7)."""
    write(tmp_path / "proc/meminfo", "MemTotal: 9000000 kB\nMemAvailable: 8388608 kB\n")
    return tmp_path


def write(file: Path, text: str) -> None:
    """Write a file with its folders."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="ascii")


def group(folder: Path, limit: str, used: int, files: int) -> None:
    """A group of version 2; sizes in MiB."""
    write(folder / "memory.max", limit + "\n")
    write(folder / "memory.current", f"{used * MEGA}\n")
    write(folder / "memory.stat", f"anon 1\ninactive_file {files * MEGA}\nslab 2\n")


def test_without_groups_the_machine_counts(system: Path, tmp_path: Path) -> None:
    """No limit: what the machine has; a system that tells nothing sets no bound."""
    assert free_memory(system) == 8192 * MEGA


def test_the_tightest_group_counts(system: Path) -> None:
    """Own group without a limit, the one around it with one: what is left there, files dropped."""
    write(system / "proc/self/cgroup", "0::/club/press\n")
    groups = system / "sys/fs/cgroup"
    group(groups / "club/press", "max", 100, 0)
    group(groups / "club", str(3000 * MEGA), 1200, 200)
    assert free_memory(system) == 2000 * MEGA
    group(groups / "club/press", str(900 * MEGA), 1000, 0)
    assert free_memory(system) == 0


def test_a_container_sees_its_group_at_the_top(system: Path) -> None:
    """The path may be the machine's: then the limit stands at the top of what can be seen."""
    write(system / "proc/self/cgroup", "0::/docker/0123\n")
    group(system / "sys/fs/cgroup", str(1500 * MEGA), 100, 0)
    assert free_memory(system) == 1400 * MEGA


def test_groups_of_version_1(system: Path) -> None:
    """The older files have other names."""
    write(system / "proc/self/cgroup", "9:name=systemd:/\n4:memory:/press\n0::/\n")
    folder = system / "sys/fs/cgroup/memory/press"
    write(folder / "memory.limit_in_bytes", f"{1000 * MEGA}\n")
    write(folder / "memory.usage_in_bytes", f"{700 * MEGA}\n")
    write(folder / "memory.stat", f"total_inactive_file {300 * MEGA}\n")
    assert free_memory(system) == 600 * MEGA


@pytest.mark.parametrize(("free", "count"), [(0, 1), (1500 * 10**6, 2), (10**12, 64)])
def test_workers_have_room(monkeypatch: pytest.MonkeyPatch, free: int, count: int) -> None:
    """One worker per core, fewer where 700 MB for each are not free, never none."""
    monkeypatch.setattr(workers, "free_memory", lambda: free)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: set(range(64)), raising=False)
    assert workers.usual_workers() == count


class _Kernel:
    """As the library of Windows that tells of memory."""

    def GlobalMemoryStatusEx(self, status: object) -> int:  # noqa: N802 - its name there
        """Fill the record in; the caller must have told how long it is."""
        record = status._obj  # type: ignore[attr-defined]
        assert record.length == 64  # bytes of MEMORYSTATUSEX
        record.total, record.free = 16000 * MEGA, 3000 * MEGA
        return 1


def test_windows_is_asked_for_its_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There is no /proc: its own call tells what is free, and so many workers are made."""
    windows = SimpleNamespace(kernel32=_Kernel())
    monkeypatch.setattr(ctypes, "windll", windows, raising=False)
    assert free_memory(tmp_path) == 3000 * MEGA
    windows.kernel32 = SimpleNamespace(GlobalMemoryStatusEx=lambda status: 0)
    assert free_memory(tmp_path) > 1 << 50


def test_a_mac_counts_half_of_its_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There is no /proc either: pages and their size tell what is built in."""
    pages = {"SC_PHYS_PAGES": 1 << 21, "SC_PAGE_SIZE": 4096}
    monkeypatch.setattr(os, "sysconf", pages.__getitem__)
    assert free_memory(tmp_path) == 4096 * (1 << 20)
    monkeypatch.delattr(os, "sysconf")
    assert free_memory(tmp_path) > 1 << 50


def test_no_pool_is_larger_than_windows_can_wait_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """A number of workers that is asked for is cut at 61, where Python would refuse on Windows."""
    asked = []

    def pool(count: int, **settings: object) -> object:
        asked.append(count)
        return SimpleNamespace(shutdown=lambda **how: None)

    monkeypatch.setattr(workers, "ProcessPoolExecutor", pool)
    with workers.local_pool(200):
        pass
    assert asked == [61]
