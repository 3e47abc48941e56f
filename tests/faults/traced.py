"""A program that records entries under strace: what it asked of the disk, or with calls failing.

strace is started without --seccomp-bpf: with it an injected kill silently does not happen.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
CALLS = "openat,pwrite64,write,ftruncate,fdatasync,fsync,unlink,unlinkat,rename"
CREATES = "O_CREAT"
_HEX = r"((?:\\x[0-9a-f]{2})*)"
_WRITE = re.compile(rf'pwrite64\(\d+<{_HEX}>, "{_HEX}", \d+, (\d+)\)\s+= \d+')
_SAID = re.compile(rf'write\(1<[^>]*>, "{_HEX}", \d+\)\s+= \d+')
_CUT = re.compile(rf"ftruncate\(\d+<{_HEX}>, (\d+)\)\s+= 0")
_SYNC = re.compile(rf"f(?:data)?sync\(\d+<{_HEX}>\)\s+= 0")
_MADE = re.compile(rf'openat\([^,]*, "{_HEX}", [A-Z_|]*O_CREAT[^)]*\)\s+= \d+')
_GONE = re.compile(rf'unlink(?:at)?\((?:[^,]*, )?"{_HEX}"(?:, 0)?\)\s+= 0')


@dataclass(frozen=True, slots=True)
class Wrote:
    """Bytes written into a file at an offset."""

    path: str
    offset: int
    content: bytes


@dataclass(frozen=True, slots=True)
class Cut:
    """A file cut, or grown with noughts, to a size."""

    path: str
    size: int


@dataclass(frozen=True, slots=True)
class Synced:
    """A file or a folder whose changes reached the disk."""

    path: str


@dataclass(frozen=True, slots=True)
class Made:
    """A name that a file may have been given."""

    path: str


@dataclass(frozen=True, slots=True)
class Gone:
    """A name taken away."""

    path: str


@dataclass(frozen=True, slots=True)
class Said:
    """A line that the program printed: an entry that it was told is in the book."""

    text: str


Call = Wrote | Cut | Synced | Made | Gone | Said


def traced(arguments: Sequence[str | Path], log: Path, *, calls: str = CALLS) -> list[Call]:
    """Return what a program of ours asked of the disk, and said, in order."""
    command = ["strace", "-f", "-y", "-xx", "-s", "1000000", "-e", f"trace={calls}"]
    program = [sys.executable, "-m", *map(str, arguments)]
    subprocess.run([*command, "-o", str(log), *program], cwd=ROOT, check=True, capture_output=True)
    found = (_call(line) for line in log.read_text("ascii").splitlines())
    return [call for call in found if call is not None]


def failing(
    arguments: Sequence[str | Path], book: Path, inject: str, *, patience: float = 60.0
) -> subprocess.CompletedProcess[str]:
    """Return how a program of ours ended with a call on a book, its journal or folder failing."""
    command = [
        *on_a_book(book, inject.partition(":")[0]),
        "-o",
        "/dev/null",
        "-e",
        f"inject={inject}",
    ]
    return _run([*command, sys.executable, "-m", *map(str, arguments)], patience)


def calls_of(arguments: Sequence[str | Path], book: Path, call: str) -> int:
    """Return how many calls of a kind a program makes on a book, its journal and its folder."""
    log = book.with_suffix(".calls")
    _run([*on_a_book(book, call), "-o", str(log), sys.executable, "-m", *map(str, arguments)], 60.0)
    return sum(f"{call}(" in line for line in log.read_text("ascii").splitlines())


def on_a_book(book: Path, call: str) -> list[str]:
    """Return how strace is started for one kind of call on a book, its journal and its folder."""
    places = [str(book), f"{book}-journal", str(book.parent)]
    paths = [part for place in places for part in ("-P", place)]
    return ["strace", "-f", *paths, "-e", f"trace={call}"]


def _run(command: list[str], patience: float) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, cwd=ROOT, check=False, capture_output=True, text=True, timeout=patience
    )


def _call(line: str) -> Call | None:
    if said := _SAID.search(line):
        return Said(_plain(said[1]).decode().strip())
    if wrote := _WRITE.search(line):
        return Wrote(_path(wrote[1]), int(wrote[3]), _plain(wrote[2]))
    if cut := _CUT.search(line):
        return Cut(_path(cut[1]), int(cut[2]))
    for pattern, kind in ((_SYNC, Synced), (_MADE, Made), (_GONE, Gone)):
        if found := pattern.search(line):
            return kind(_path(found[1]))
    return None


def _plain(escaped: str) -> bytes:
    return bytes.fromhex(escaped.replace("\\x", ""))


def _path(escaped: str) -> str:
    return _plain(escaped).decode()
