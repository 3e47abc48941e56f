"""A terminal screen drawn by pyte, made to understand what Textual sends.

pyte knows the VT102 and ends a sequence at the first character it does not expect, so that the
rest of it lands on the screen as text. Everything outside its vocabulary is taken out first.
"""

from __future__ import annotations

import codecs
import re
import unicodedata
from collections.abc import Callable

import pyte
from wcwidth import wcwidth

from tests.drive.escapes import SEQUENCE, UNFINISHED

SYNCHRONIZED = "2026"
_PASSED_MODES = {"?5", "?6", "?7", "?25"}
_CONTROLS = frozenset("\x07\x08\t\n\x0b\x0c\r")
SCROLL_BAR = dict.fromkeys(range(0x2580, 0x25A0))
"""The blocks that the ends of a scroll bar are drawn with, left out of what is read."""
_PYTE_FINALS = frozenset(pyte.Stream.csi)


class Emulator:
    """The screen of one terminal: feed it bytes, read its lines.

    A frame that the program sends inside a synchronized update (mode 2026) appears whole or not
    at all, as on a terminal that has the mode; `answer` receives the replies to queries.
    """

    def __init__(self, columns: int, lines: int, answer: Callable[[bytes], None]) -> None:
        self.raw = bytearray()
        self.extended_keys = False
        self.alternate = False
        self._answer = answer
        self._decode = codecs.getincrementaldecoder("utf-8")("replace").decode
        self._waiting = ""
        self._passed: list[str] = []
        self._in_frame = False
        self._rows: dict[int, str] = {}
        self._main = pyte.Screen(columns, lines)
        self._screen = self._main
        self._stream = pyte.Stream(self._screen)

    def feed(self, sent: bytes) -> None:
        """Take in the next bytes of the program."""
        self.raw += sent
        text = self._waiting + self._decode(sent)
        unfinished = UNFINISHED.search(text)
        cut = unfinished.start() if unfinished else len(text)
        self._waiting = text[cut:]
        self._take(text[:cut])
        if not self._in_frame:
            self._draw()

    def finish(self) -> None:
        """Draw what is left: the program has ended and will not complete its frame."""
        self._in_frame = False
        self._draw()

    def lines(self) -> list[str]:
        """Return the rows of the screen without the blanks at their ends."""
        for row in self._screen.dirty:
            cells = self._screen.buffer[row]
            shown = "".join(cells[column].data for column in range(self._screen.columns))
            self._rows[row] = shown.rstrip()
        self._screen.dirty.clear()
        return [self._rows.get(row, "") for row in range(self._screen.lines)]

    def in_reverse(self) -> list[str]:
        """Return what is shown in reverse in each row that has some: the look of a refusal."""
        rows = []
        for row in range(self._screen.lines):
            cells = (self._screen.buffer[row][column] for column in range(self._screen.columns))
            said = "".join(cell.data for cell in cells if cell.reverse)
            rows.append(said.translate(SCROLL_BAR).strip())
        return [row for row in rows if row]

    def cursor(self) -> tuple[int, int]:
        """Return column and row of the cursor, counted from 0."""
        return self._screen.cursor.x, self._screen.cursor.y

    def resize(self, columns: int, lines: int) -> None:
        """Change the size of the screen; rows are lost at the bottom, not at the top as in pyte."""
        self._rows.clear()
        for screen in {self._main, self._screen}:
            for row in range(lines, screen.lines):
                screen.buffer.pop(row, None)
            screen.lines = min(lines, screen.lines)
            screen.resize(lines, columns)
            screen.dirty = set(range(lines))

    def _take(self, text: str) -> None:
        at = 0
        for found in SEQUENCE.finditer(text):
            self._passed.append(_drawable(text[at : found.start()]))
            at = found.end()
            self._obey(found)
        self._passed.append(_drawable(text[at:]))

    def _obey(self, found: re.Match[str]) -> None:
        if found["final"]:
            self._obey_csi(found["given"], found["between"], found["final"])
        elif found["control"] in _CONTROLS or (found["short"] or " ") in "cDEHM78":
            self._passed.append(found[0])

    def _obey_csi(self, given: str, between: str, final: str) -> None:
        if between or given[:1] in ("<", "=", ">"):
            self._obey_extension(given, between + final)
        elif given[:1] == "?":
            self._switch(given, final)
        elif final in "nc":
            self._report(given, final)
        elif final in _PYTE_FINALS:
            plain = ";".join(part.partition(":")[0] for part in given.split(";"))
            self._passed.append(f"\x1b[{plain}{final}")

    def _obey_extension(self, given: str, ending: str) -> None:
        """Answer a query for a mode; note whether the extended key protocol is on."""
        if ending == "$p" and given[:1] == "?":
            state = 2 if given[1:] == SYNCHRONIZED else 0
            self._answer(f"\x1b[{given};{state}$y".encode())
        elif ending == "u" and given[:1] in "<>":
            self.extended_keys = given[0] == ">"

    def _switch(self, given: str, final: str) -> None:
        if given == "?" + SYNCHRONIZED:
            self._draw()
            self._in_frame = final == "h"
        elif given in ("?1049", "?1047", "?47"):
            self._draw()
            self._show_alternate(final == "h")
        elif given in _PASSED_MODES and final in "hl":
            self._passed.append(f"\x1b[{given}{final}")

    def _show_alternate(self, on: bool) -> None:
        self.alternate = on
        self._screen = pyte.Screen(self._main.columns, self._main.lines) if on else self._main
        self._stream = pyte.Stream(self._screen)
        self._screen.dirty.update(range(self._screen.lines))

    def _report(self, given: str, final: str) -> None:
        if final == "c":
            self._answer(b"\x1b[?62;22c")
        elif given == "6":
            self._draw()
            column, row = self.cursor()
            self._answer(f"\x1b[{row + 1};{column + 1}R".encode())

    def _draw(self) -> None:
        self._stream.feed("".join(self._passed))
        self._passed.clear()


def _drawable(text: str) -> str:
    """Leave out what has no width of its own: pyte drops the rest of the text after it."""
    if text.isascii():
        return text
    return "".join(c for c in text if wcwidth(c) > 0 or unicodedata.combining(c))
