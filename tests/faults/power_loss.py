"""Power lost at any moment: what the disk may hold then, made from what a program asked of it.

What was synced is there. Of what was written since, any part may be: each write whole, not at
all, or torn into its 512-byte sectors; each name made or taken away since its folder was synced,
or not yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from tests.faults.traced import Call, Cut, Gone, Made, Said, Synced, Wrote

SECTOR = 512
WHOLE, NONE = 0.4, 0.7
"""Draws under the first write it all, under the second nothing, above it single sectors."""


@dataclass(slots=True)
class _File:
    held: bytearray
    """What is on the disk for certain."""
    since: list[Wrote | Cut] = field(default_factory=list)
    """What was written since it was synced."""


class Disk:
    """A folder on a disk: what is on it for certain, and what may be."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.names = {str(each): _File(bytearray(each.read_bytes())) for each in folder.iterdir()}
        self.pending: list[tuple[str, _File | None]] = []
        """Names made or taken away since the folder was synced."""

    def asked(self, call: Call) -> None:
        """Take up a call of the program."""
        if isinstance(call, Wrote | Cut):
            if (file := self._file(call.path)) is not None:
                file.since.append(call)
        elif isinstance(call, Made):
            if Path(call.path).parent == self.folder and self._file(call.path) is None:
                self.pending.append((call.path, _File(bytearray())))
        elif isinstance(call, Gone):
            self.pending.append((call.path, None))
        elif isinstance(call, Synced):
            self._synced(call.path)

    def image(self, draw: Random) -> dict[str, bytes]:
        """Return files that the disk may hold if the power goes now, by name."""
        names = dict(self.names)
        for path, file in self.pending:
            if draw.random() < 0.5:
                _put(names, path, file)
        return {Path(path).name: _may_hold(file, draw) for path, file in names.items()}

    def _file(self, path: str) -> _File | None:
        """Return the file that a name stands for to the program."""
        for name, file in reversed(self.pending):
            if name == path:
                return file
        return self.names.get(path)

    def _synced(self, path: str) -> None:
        if Path(path) == self.folder:
            for name, file in self.pending:
                _put(self.names, name, file)
            self.pending = []
        elif (file := self._file(path)) is not None:
            for change in file.since:
                _change(file.held, change)
            file.since = []


def images(
    disk: Disk, calls: Sequence[Call], count: int, draw: Random
) -> Iterable[tuple[list[str], dict[str, bytes]]]:
    """Yield what was said, and files that the disk may hold, at so many moments in order."""
    moments = sorted(draw.randrange(len(calls) + 1) for _ in range(count))
    said: list[str] = []
    done = 0
    for moment in moments:
        for call in calls[done:moment]:
            disk.asked(call)
            if isinstance(call, Said):
                said.append(call.text)
        done = moment
        yield list(said), disk.image(draw)


def _put(names: dict[str, _File], path: str, file: _File | None) -> None:
    if file is None:
        names.pop(path, None)
    else:
        names[path] = file


def _may_hold(file: _File, draw: Random) -> bytes:
    content = bytearray(file.held)
    for change in file.since:
        share = draw.random()
        if isinstance(change, Cut):
            if share < 0.5:
                _change(content, change)
        elif share < WHOLE:
            _change(content, change)
        elif share >= NONE:
            for sector in _sectors(change):
                if draw.random() < 0.5:
                    _change(content, sector)
    return bytes(content)


def _sectors(wrote: Wrote) -> Iterable[Wrote]:
    """Yield a write by the sectors of the disk that it touches."""
    end = wrote.offset + len(wrote.content)
    start = wrote.offset
    while start < end:
        stop = min(end, (start // SECTOR + 1) * SECTOR)
        part = wrote.content[start - wrote.offset : stop - wrote.offset]
        yield Wrote(wrote.path, start, part)
        start = stop


def _change(content: bytearray, change: Wrote | Cut) -> None:
    if isinstance(change, Cut):
        del content[change.size :]
        content.extend(bytes(change.size - len(content)))
        return
    content.extend(bytes(max(0, change.offset - len(content))))
    content[change.offset : change.offset + len(change.content)] = change.content
