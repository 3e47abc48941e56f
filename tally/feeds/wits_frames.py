"""Frames of a WITS level 0 stream, taken from bytes as they come: torn, mixed up or whole.

A frame lies between a line && and a line !!; each line in it is a four-digit item code with its
value at once behind it. The stream has no checksum: a digit that was lost or changed inside a
line cannot be seen here, so what does not look right is never mended, and what may have been
mixed up is left out whole. Faults are counted by kind, with the last one of each in words.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from tally.units import shown

BEGIN, END = b"&&", b"!!"
LONGEST_LINE = 256
MOST_LINES = 400
_BREAKS = re.compile(rb"[\r\n]+")
_ITEM = re.compile(rb"(\d{4})([\x20-\x7e\t]*)")

Line = tuple[str, str]
"""An item code and the text of its value."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The lines of one whole frame, in their order."""

    lines: tuple[Line, ...]


@dataclass(slots=True)
class Faults:
    """What was wrong with a stream: how often by kind, and the last of each kind in a sentence."""

    counts: Counter[str] = field(default_factory=Counter)
    last: dict[str, str] = field(default_factory=dict)

    def tell(self, kind: str, sentence: str) -> None:
        """Count a fault and keep its sentence in the place of the one before."""
        self.counts[kind] += 1
        self.last[kind] = sentence

    def told(self) -> list[str]:
        """Return each kind with its count and its last sentence."""
        return [f"{kind}, {count:,}: {self.last[kind]}" for kind, count in self.counts.items()]


class FrameReader:
    """Takes bytes in pieces of any size and gives the whole frames that they end.

    Never more than one line and one frame are kept.

    >>> reader = FrameReader()
    >>> reader.feed(b"&&\\r\\n0114172.5\\r\\n01"), reader.feed(b"1241.20\\r\\n!!\\r\\n")
    ([], [Frame(lines=(('0114', '172.5'), ('0112', '41.20')))])
    """

    def __init__(self, faults: Faults | None = None) -> None:
        self.faults = Faults() if faults is None else faults
        self._rest = b""
        self._passing = False
        """Whether a line that grew too long is passed over up to its end."""
        self._open = False
        self._bad = ""
        """Why the open frame cannot be taken; its end is still waited for."""
        self._lines: list[Line] = []
        self._codes: set[str] = set()

    def feed(self, piece: bytes) -> list[Frame]:
        """Take a piece of the stream; return the frames that are whole with it."""
        return [frame for line in self._whole_lines(piece) if (frame := self._take(line))]

    def cut(self) -> None:
        """Say that the line was lost: what stands open is left out."""
        if self._open:
            self.faults.tell("torn frame", "The line was lost inside a frame; it is left out.")
        self._rest, self._passing = b"", False
        self._shut()

    def _whole_lines(self, piece: bytes) -> Iterator[bytes]:
        *whole, rest = _BREAKS.split(self._rest + piece)
        for line in whole:
            if self._passing or len(line) > LONGEST_LINE:
                self._passing = False
                self._too_long()
            elif line:
                yield line
        if self._passing or len(rest) > LONGEST_LINE:
            self._passing, rest = True, b""
            self._spoil("its line has no end")
        self._rest = rest

    def _too_long(self) -> None:
        self.faults.tell(
            "line too long", f"A line is longer than {LONGEST_LINE} letters; its frame is left out."
        )
        self._spoil("a line of it is too long")

    def _take(self, line: bytes) -> Frame | None:
        bare = line.strip(b" \t\0")
        if bare == BEGIN:
            self._begin()
        elif bare == END:
            return self._end()
        elif BEGIN in line or END in line:
            self._mixed(line)
        elif self._open:
            self._item(line)
        elif bare:
            self.faults.tell("outside a frame", f'"{_text(line)}" stands outside a frame; passed.')
        return None

    def _begin(self) -> None:
        torn = self._open
        if torn:
            self.faults.tell(
                "torn frame", "A frame began before the last one ended; both are left out."
            )
        self._shut()
        self._open = True
        if torn:
            self._spoil("it began inside another one")

    def _mixed(self, line: bytes) -> None:
        """Take a mark inside a line: two frames are mixed, or bytes between them were lost."""
        self.faults.tell(
            "torn frame", f'"{_text(line)}" has the mark of a frame inside; it is left out.'
        )
        began = line.rfind(BEGIN) > line.rfind(END)
        self._shut()
        if began:
            self._open = True
            self._spoil("it began inside a line")

    def _end(self) -> Frame | None:
        lines, bad, was_open = tuple(self._lines), self._bad, self._open
        self._shut()
        if not was_open:
            self.faults.tell("outside a frame", "An end of a frame came without its beginning.")
        elif bad:
            self.faults.tell("frame left out", f"A frame is left out: {bad}.")
        elif not lines:
            self.faults.tell("empty frame", "A frame holds no line.")
        else:
            return Frame(lines)
        return None

    def _item(self, line: bytes) -> None:
        if self._bad:
            return
        found = _ITEM.fullmatch(line.strip(b" \t"))
        if found is None:
            self._spoil(f'"{_text(line)}" is no item code of four digits and plain text')
        elif len(self._lines) >= MOST_LINES:
            self._spoil(f"it holds more than {MOST_LINES} lines, so its end was lost")
        else:
            self._keep(found[1].decode(), found[2].decode().strip())

    def _keep(self, code: str, value: str) -> None:
        if code in self._codes:
            self._spoil(f"item {code} stands in it twice, so frames are mixed")
            return
        self._codes.add(code)
        self._lines.append((code, value))

    def _spoil(self, why: str) -> None:
        if self._open and not self._bad:
            self._bad = why
            self._lines.clear()

    def _shut(self) -> None:
        self._open, self._bad = False, ""
        self._lines.clear()
        self._codes.clear()


def _text(line: bytes) -> str:
    return shown(line[:40].decode("ascii", "backslashreplace"), 40)
