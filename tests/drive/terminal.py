"""A real program in a real pseudo-terminal, driven by keys and read through its screen.

    with Terminal([sys.executable, "-m", "screens.start", "demo"], size=(80, 24)) as terminal:
        terminal.wait_for("NEXT")
        terminal.press("f4", "enter")
        terminal.wait_for(re.compile(r"joint +87"))

The program's output is read only inside the calls below (nothing runs in the background), so a
test that waits for something else meanwhile calls `watch(seconds)`.
"""

from __future__ import annotations

import os
import re
import select
import signal
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import TypeVar

from ptyprocess import PtyProcess

from tests.drive.emulator import Emulator
from tests.drive.keys import ESCAPE, EXTENDED_ESCAPE, key_bytes
from tests.drive.surroundings import environment

Found = TypeVar("Found")

PATIENCE = 15.0
"""Seconds to wait for a screen before a test fails; a loaded machine needs far less."""

_CHUNK = 512
"""Bytes written at a time: a terminal's input queue holds 4,096."""

_LONE_ESCAPE = 0.15
"""Seconds after which a plain escape byte counts as the key and not as the start of another."""


class ScreenFailure(AssertionError):
    """What was waited for did not come; the message shows the screen as it was."""


@dataclass(frozen=True, slots=True)
class Death:
    """How the program ended: by a signal, or by itself with an exit code."""

    pid: int
    signal: int | None
    exit_code: int | None

    @property
    def by_sigkill(self) -> bool:
        """Tell whether signal 9 ended it."""
        return self.signal == signal.SIGKILL


def _mind_the_keyboard() -> None:
    """Let ctrl+c interrupt the program, also where the tests themselves run in the background."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Terminal:
    """One program in one pseudo-terminal, `size` in columns and rows."""

    def __init__(
        self,
        command: Sequence[str | Path],
        *,
        size: tuple[int, int] = (80, 24),
        env: Mapping[str, str] | None = None,
        cwd: Path | None = None,
        patience: float = PATIENCE,
    ) -> None:
        self.command = [str(part) for part in command]
        self.size = size
        self.patience = patience
        self.death: Death | None = None
        self.last_read = time.perf_counter()
        """When the newest bytes arrived [s, time.perf_counter]."""
        self._emulator = Emulator(*size, answer=self._write)
        self._process = PtyProcess.spawn(
            self.command,
            cwd=str(cwd) if cwd else None,
            env=environment(env),
            dimensions=(size[1], size[0]),
            preexec_fn=_mind_the_keyboard,
        )
        self._open = True

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.stop()

    # What it shows

    @property
    def raw(self) -> bytes:
        """Every byte the program has sent, for scanning."""
        return bytes(self._emulator.raw)

    @property
    def pid(self) -> int:
        """Number of the process."""
        return int(self._process.pid)

    def screen(self) -> list[str]:
        """Return the rows now on the screen, without the blanks at their ends."""
        self._read_available()
        return self._emulator.lines()

    def text(self) -> str:
        """Return the screen as one text, rows parted by line ends."""
        return "\n".join(self.screen())

    def in_reverse(self) -> list[str]:
        """Return what is shown in reverse in each row that has some: the look of a refusal."""
        self._read_available()
        return self._emulator.in_reverse()

    # What it is told

    def press(self, *keys: str) -> None:
        """Press keys by name: "enter", "escape", "f4", "up", "ctrl+p", "shift+tab", "a"."""
        for key in keys:
            if key == "escape":
                self._press_escape()
            else:
                self._write(key_bytes(key))

    def type(self, text: str) -> None:
        """Type a text, one key a character."""
        self._write(text.encode())

    def paste(self, text: str) -> None:
        """Paste a text as a terminal does, marked as pasted."""
        self._write(b"\x1b[200~" + text.encode() + b"\x1b[201~")

    def resize(self, columns: int, rows: int) -> None:
        """Change the size of the terminal; the program is told by signal."""
        self._read_available()
        self.size = (columns, rows)
        self._emulator.resize(columns, rows)
        self._process.setwinsize(rows, columns)

    # What is waited for

    def wait_for(
        self, wanted: str | re.Pattern[str], timeout: float | None = None
    ) -> re.Match[str]:
        """Wait until the screen holds a text or matches a pattern; return the match."""
        pattern = _pattern(wanted)
        found = self._wait(lambda: pattern.search(self._shown()), timeout)
        if found is None:
            raise self.failure(f"the screen never showed {_said(wanted)}")
        return found

    def wait_until(self, look: Callable[[list[str]], Found], what: str) -> Found:
        """Wait until something is found in the rows of the screen; return it."""
        found = self._wait(lambda: look(self._emulator.lines()), None)
        if not found:
            raise self.failure(f"the screen never came to show {what}")
        return found

    def watch_for(self, wanted: str | re.Pattern[str], seconds: float) -> re.Match[str] | None:
        """Return the match as soon as the screen holds it; nothing if it does not in that time."""
        pattern = _pattern(wanted)
        return self._wait(lambda: pattern.search(self._shown()), seconds, step=0.002)

    def wait_for_reverse(self, but: Sequence[str] = (), timeout: float | None = None) -> str:
        """Wait until something else than `but` is shown in reverse; return it in one line."""
        found = self._wait(
            lambda: [row for row in self._emulator.in_reverse() if row not in but], timeout
        )
        if not found:
            raise self.failure("the screen never showed anything new in reverse")
        return " ".join(found)

    def wait_gone(self, unwanted: str | re.Pattern[str], timeout: float | None = None) -> None:
        """Wait until the screen no longer holds a text or matches a pattern."""
        pattern = _pattern(unwanted)
        if not self._wait(lambda: pattern.search(self._shown()) is None, timeout):
            raise self.failure(f"the screen went on showing {_said(unwanted)}")

    def wait_ready(self, timeout: float | None = None) -> None:
        """Wait until the program takes single keys (no line editing by the terminal)."""
        if not self._wait(self._takes_keys, timeout, step=0.001):
            raise self.failure("the program never began to take single keys")

    def wait_exit(self, timeout: float | None = None) -> int:
        """Wait until the program ends by itself; return its exit code."""
        self._wait(lambda: None, timeout)
        if self.death is None:
            raise self.failure("the program did not end")
        if self.death.exit_code is None:
            raise self.failure("the program did not end by itself")
        return self.death.exit_code

    def wait_death(self, timeout: float | None = None) -> Death:
        """Wait until the program has ended, however it does; return how."""
        self._wait(lambda: None, timeout)
        if self.death is None:
            raise self.failure("the program did not end")
        return self.death

    def wait_still(self, seconds: float = 0.2, timeout: float | None = None) -> None:
        """Wait until the program has sent nothing for so long."""
        if not self._wait(lambda: time.perf_counter() - self.last_read >= seconds, timeout):
            raise self.failure("the screen never came to rest")

    def time_to(self, wanted: str | re.Pattern[str], *keys: str, quiet: float = 0.03) -> float:
        """Press keys; return how long it took until the bytes that complete a text had come [s].

        Output is only collected while it comes and drawn in the pauses, piece by piece with the
        time of each, so that the emulator's own work is outside the time.
        """
        pattern = _pattern(wanted)
        self._read_available()
        deadline = time.monotonic() + self.patience
        began = time.perf_counter()
        self.press(*keys)
        painted = None
        while painted is None and self.death is None and time.monotonic() < deadline:
            for moment, piece in self._collect(quiet):
                self._emulator.feed(piece)
                if painted is None and pattern.search(self._shown()):
                    painted = moment
            if not self._process.isalive():
                self._reap(self.patience)
        if painted is not None:
            return painted - began
        raise self.failure(f"the screen never showed {_said(wanted)}")

    def watch(self, seconds: float) -> None:
        """Let the program run and read what it sends meanwhile."""
        self._wait(lambda: None, seconds)

    # How it ends

    def kill9(self) -> Death:
        """Kill the program with signal 9; return the proof that this is what ended it.

        The screen stays as it was last painted. Fails if the program had ended before.
        """
        if self.death is not None:
            raise self.failure("the program had ended before it was killed")
        os.kill(self.pid, signal.SIGKILL)
        death = self._reap(self.patience)
        if death is None or not death.by_sigkill:
            raise self.failure("signal 9 is not what ended the program")
        return death

    def stop(self) -> None:
        """End the program if it still runs and close the terminal; may be called twice."""
        for number in (signal.SIGTERM, signal.SIGKILL):
            if self.death is None:
                os.kill(self.pid, number)
                self._reap(2.0)
        if self._open:
            self._open = False
            self._process.delayafterclose = 0.0
            self._process.close()

    def failure(self, what: str) -> ScreenFailure:
        """Make the error that says what went wrong and shows the screen."""
        columns, rows = self.size
        edge = "+" + "-" * columns + "+"
        shown = "\n".join(f"|{line:<{columns}}|" for line in self._emulator.lines())
        command = " ".join(self.command)
        return ScreenFailure(
            f"{what} ({self._state()}; {columns}x{rows}; {command})\n{edge}\n{shown}\n{edge}"
        )

    def _state(self) -> str:
        if self.death is None:
            return "still running"
        if self.death.signal is not None:
            return f"ended by signal {self.death.signal}"
        return f"ended with exit code {self.death.exit_code}"

    # The pseudo-terminal

    def _shown(self) -> str:
        return "\n".join(self._emulator.lines())

    def _takes_keys(self) -> bool:
        local_modes = termios.tcgetattr(self._process.fd)[3]
        return not local_modes & termios.ICANON

    def _press_escape(self) -> None:
        if self._emulator.extended_keys:
            self._write(EXTENDED_ESCAPE.encode())
        else:
            self._write(ESCAPE.encode())
            self.watch(_LONE_ESCAPE)

    def _write(self, sent: bytes) -> None:
        """Write in small pieces, reading meanwhile: a program that is not read stops reading."""
        deadline = time.monotonic() + self.patience
        while sent:
            if time.monotonic() > deadline:
                raise self.failure("the program stopped taking keys")
            _, writable, _ = select.select([], [self._process.fd], [], 0.05)
            if writable:
                written = self._write_some(sent[:_CHUNK])
                sent = sent[written:]
            if sent:
                self._read_available()

    def _write_some(self, sent: bytes) -> int:
        try:
            return os.write(self._process.fd, sent)
        except OSError as error:
            self._reap(1.0)
            raise self.failure("the program takes no keys any more") from error

    def _wait(
        self, look: Callable[[], Found | None], timeout: float | None, step: float = 0.05
    ) -> Found | None:
        """Read until `look` finds something, the program has ended or the time is over."""
        deadline = time.monotonic() + (self.patience if timeout is None else timeout)
        self._read_available()
        while not (found := look()):
            if self.death is not None or time.monotonic() > deadline:
                return None
            self._read(min(step, max(0.0, deadline - time.monotonic())))
        return found

    def _read_available(self) -> None:
        while self._read(0.0):
            pass

    def _read(self, seconds: float) -> bool:
        """Take in the next piece of output; tell whether there was one."""
        if self.death is not None or not self._output_waits(seconds):
            return False
        if self._take_piece():
            return True
        self._reap(self.patience)
        return False

    def _output_waits(self, seconds: float) -> bool:
        return bool(select.select([self._process.fd], [], [], seconds)[0])

    def _take_piece(self) -> bool:
        """Read and draw one piece; False when the program has closed its end."""
        piece = self._receive()
        self._emulator.feed(piece)
        return bool(piece)

    def _receive(self) -> bytes:
        """Read one piece and note when it came; empty when the program has closed its end."""
        with suppress(OSError):  # Linux says by an error that the other end is closed
            piece = os.read(self._process.fd, 65536)
            self.last_read = time.perf_counter()
            return piece
        return b""

    def _collect(self, quiet: float) -> list[tuple[float, bytes]]:
        """Read without drawing until nothing comes for so long; return pieces and their times."""
        pieces = []
        while self._output_waits(quiet) and (piece := self._receive()):
            pieces.append((self.last_read, piece))
        return pieces

    def _reap(self, seconds: float) -> Death | None:
        """Collect the ending program, read its last output, remember how it died."""
        deadline = time.monotonic() + seconds
        while self._process.isalive():
            if time.monotonic() > deadline:
                return None
            if not (self._output_waits(0.005) and self._take_piece()):
                time.sleep(0.001)
        while self._output_waits(0.0) and self._take_piece():
            pass
        self._emulator.finish()
        self.death = Death(self.pid, self._process.signalstatus, self._process.exitstatus)
        return self.death


def _pattern(wanted: str | re.Pattern[str]) -> re.Pattern[str]:
    return re.compile(re.escape(wanted)) if isinstance(wanted, str) else wanted


def _said(wanted: str | re.Pattern[str]) -> str:
    return repr(wanted if isinstance(wanted, str) else wanted.pattern)
