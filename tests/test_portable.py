"""No call that only some systems have: the program runs on Windows laptops too."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = {
    *("fcntl", "termios", "tty", "pty", "pwd", "grp", "resource", "posix", "syslog", "crypt"),
    *("readline", "curses", "spwd", "nis"),
}
"""Modules that Python has on POSIX systems alone (its library reference, "Availability: Unix")."""
NAMES = {
    "os": {
        *("fork", "forkpty", "getuid", "geteuid", "getgid", "getegid", "setuid", "chown", "fchown"),
        *("fchmod", "mkfifo", "mknod", "nice", "getloadavg", "statvfs", "sync", "killpg", "setsid"),
        *("openpty", "getpgid", "wait3", "wait4", "O_DIRECTORY", "O_NOFOLLOW", "O_SYNC", "pread"),
        *("pwrite", "uname", "chroot", "sched_getaffinity", "posix_fadvise"),
    },
    "signal": {
        *("SIGKILL", "SIGHUP", "SIGTSTP", "SIGCONT", "SIGSTOP", "SIGUSR1", "SIGUSR2", "SIGWINCH"),
        *("SIGALRM", "alarm", "setitimer", "pause", "pthread_sigmask"),
    },
    "socket": {"AF_UNIX", "socketpair"},
    "time": {"tzset"},
    "asyncio": {"add_signal_handler"},
}
PLACES = ("/tmp", "/dev/", "/proc/", "/etc/", "/var/", "/usr/", "/home/")


KNOWN = {"tally/book/medium.py": "what Linux says of its drives; elsewhere nothing is read there"}
"""Files that may name such a place, and why."""


def files() -> list[Path]:
    return sorted(
        path for room in ("tally", "screens", "demo_db") for path in (ROOT / room).rglob("*.py")
    )


def posix_only(source: str) -> Iterator[str]:
    """Yield what stands in a source that other systems do not have, line and name."""
    tree = ast.parse(source)
    guarded = {
        inside
        for node in ast.walk(tree)
        if isinstance(node, ast.If | ast.IfExp) and _asks(node.test)
        for inside in ast.walk(node)
    }
    docs = {id(each.value) for each in ast.walk(tree) if isinstance(each, ast.Expr)}
    for node in ast.walk(tree):
        if node in guarded:
            continue
        yield from (f"line {node.lineno}: {name}" for name in _found(node) if id(node) not in docs)  # type: ignore[attr-defined]


def _asks(test: ast.expr) -> bool:
    """Tell whether a condition asks for the system, or whether it has a name."""
    words = {getattr(each, "attr", getattr(each, "id", "")) for each in ast.walk(test)}
    return bool(words & {"hasattr", "platform"}) or ("os" in words and "name" in words)


def _found(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (each.name for each in node.names if each.name.split(".")[0] in MODULES)
    elif isinstance(node, ast.ImportFrom):
        module = (node.module or "").split(".")[0]
        if module in MODULES:
            yield module
        yield from (
            f"{module}.{each.name}" for each in node.names if each.name in NAMES.get(module, ())
        )
    elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        if node.attr in NAMES.get(node.value.id, ()):
            yield f"{node.value.id}.{node.attr}"
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield from (place for place in PLACES if node.value.startswith(place))


def test_nothing_is_called_that_only_posix_systems_have():
    found = {
        str(path.relative_to(ROOT)): told
        for path in files()
        if (told := list(posix_only(path.read_text("utf-8"))))
    }
    assert set(found) == set(KNOWN), found


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("import fcntl", ["line 1: fcntl"]),
        ("from os import fork", ["line 1: os.fork"]),
        ("import os\nos.kill(1, signal.SIGKILL)", ["line 2: signal.SIGKILL"]),
        ("open('/tmp/x')", ["line 1: /tmp"]),
        ("if hasattr(os, 'O_DIRECTORY'):\n    os.open('.', os.O_DIRECTORY)", []),
        ("if sys.platform != 'win32':\n    import pwd", []),
        ('"""Docs may name /tmp."""', []),
    ],
)
def test_what_only_posix_systems_have_is_seen(source, found):
    assert list(posix_only(source)) == found
