"""What the system tells of memory in → bytes that may still be used, within every limit."""

import ctypes
import gc
import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

PLENTY = 1 << 60
"""Bytes where the system tells nothing."""

_V1 = "memory"
_NAMES = {
    "": ("memory.max", "memory.current", "inactive_file"),
    _V1: ("memory.limit_in_bytes", "memory.usage_in_bytes", "total_inactive_file"),
}
"""Limit, use, and what of it are files that can be dropped, in version 2 and version 1 (Linux,
Documentation/admin-guide/cgroup-v2.rst and cgroup-v1/memory.rst; from memory)."""


def clear_rarely() -> None:
    """Let Python look for waste less often.

    It looks through all that guides and booklets are made of, again and again: a tenth of the
    time of a press. Measured: it takes no more memory at the most.
    """
    gc.set_threshold(200_000, 10, 10)


def free_memory(root: Path = Path("/")) -> int:
    """Bytes that are free or could be: of the machine, and of each group that limits this process.

    `root` is where /proc and /sys lie.
    """
    return min((_of_machine(root), *_of_groups(root)))


def _of_machine(root: Path) -> int:
    with suppress(OSError, ValueError, IndexError):
        for line in (root / "proc/meminfo").read_text(encoding="ascii").splitlines():
            if line.startswith("MemAvailable:"):
                return int(line.split()[1]) * 1024
    return _of_windows() if hasattr(ctypes, "windll") else _of_mac()


class _MemoryStatus(ctypes.Structure):
    """MEMORYSTATUSEX of sysinfoapi.h (Microsoft, "MEMORYSTATUSEX structure"; from memory)."""

    _fields_ = (
        ("length", ctypes.c_uint32),
        ("load", ctypes.c_uint32),
        *((name, ctypes.c_uint64) for name in ("total", "free", "pages", "free_pages")),
        *((name, ctypes.c_uint64) for name in ("space", "free_space", "extended")),
    )


def _of_windows() -> int:
    """Bytes that Windows has free; very much where it does not say."""
    status = _MemoryStatus()
    status.length = ctypes.sizeof(status)
    kernel = vars(ctypes)["windll"].kernel32
    return int(status.free) if kernel.GlobalMemoryStatusEx(ctypes.byref(status)) else PLENTY


def _of_mac() -> int:
    """Half of the memory of a Mac, which tells no simpler way what of it is free. Our choice."""
    if not hasattr(os, "sysconf"):
        return PLENTY
    try:
        return os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE") // 2
    except (OSError, ValueError):
        return PLENTY


def _of_groups(root: Path) -> Iterator[int]:
    """What is left in each control group of this process, and in those around it."""
    try:
        lines = (root / "proc/self/cgroup").read_text(encoding="utf-8").splitlines()
    except (OSError, ValueError):
        return
    for line in lines:
        _, _, rest = line.partition(":")
        controllers, _, path = rest.partition(":")
        if controllers not in _NAMES:
            continue
        top = root / "sys/fs/cgroup" / controllers
        folder = top / path.lstrip("/")
        # In a container the path may be one of the machine's, which is not to be seen: the
        # groups above it are tried all the same, up to the top, which is the container's own.
        for group in (folder, *folder.parents):
            if not group.is_relative_to(top):
                break
            yield _of_group(group, *_NAMES[controllers])


def _of_group(group: Path, limit: str, use: str, files: str) -> int:
    """What is left in one group; very much where it has no limit."""
    try:
        most = int((group / limit).read_text(encoding="ascii"))
        used = int((group / use).read_text(encoding="ascii"))
    except (OSError, ValueError):  # "max" is no number
        return PLENTY
    with suppress(OSError, ValueError):
        for line in (group / "memory.stat").read_text(encoding="ascii").splitlines():
            name, _, value = line.partition(" ")
            if name == files:
                used -= int(value)
    return max(0, most - max(0, used))
