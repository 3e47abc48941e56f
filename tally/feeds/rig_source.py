"""Where a rig stream comes from: a TCP line that is called, one that is waited for, a serial
line, or a file that was recorded.

A source is opened, read and closed by one thread. Reading waits a quarter of a second at most;
a line that is lost raises LineLost with a sentence, and may be opened again.
"""

from __future__ import annotations

import socket
from abc import ABC, abstractmethod
from pathlib import Path
from typing import Any, BinaryIO

from tally.errors import InputError, ShoedownError
from tally.units import shown

LOOPBACK = "127.0.0.1"
PIECE = 65_536
WAIT = 0.25
"""[s] that one look at a line may take."""
CONNECT_WAIT = 5.0
BAUD = 9600
HOW = (
    "Say HOST:PORT, listen:PORT, serial:PORT or serial:PORT@BAUD, or file:PATH, "
    "like 10.20.0.5:5005 or serial:COM3@9600."
)


class LineLost(ShoedownError):
    """The line could not be opened, or was lost."""


class SourceEnded(ShoedownError):
    """A recorded file is read to its end."""


class Source(ABC):
    """One place that bytes come from."""

    live = True
    """Whether it says what is now; a recorded file says what was."""

    @property
    @abstractmethod
    def name(self) -> str:
        """How a person knows it; it stands in the record."""

    @abstractmethod
    def open(self) -> None:
        """Open the line, or raise LineLost."""

    @abstractmethod
    def read(self) -> bytes:
        """Return what came, or nothing if nothing did for a while."""

    @abstractmethod
    def close(self) -> None:
        """Close the line; it may be closed already."""

    def hang_up(self) -> None:
        """Let go of a line that was lost, so that it may be opened again."""
        self.close()

    def write(self, sent: bytes) -> None:
        """Send something back on the same line."""
        raise LineLost(f"Nothing can be sent back to {self.name}.")


def source_at(address: str) -> Source:
    """Return the source that an address names.

    >>> source_at("listen:5005").name, source_at("10.20.0.5:5005").name
    ('waiting for a call at 127.0.0.1:5005', '10.20.0.5:5005')

    Raises
    ------
    InputError
        If it names none.
    """
    how, _, rest = address.strip().partition(":")
    if how == "file" and rest:
        return RecordedFile(Path(rest))
    if how == "serial" and rest:
        port, _, baud = rest.partition("@")
        return SerialLine(port, _whole(baud or str(BAUD), address, 10_000_000))
    if how == "listen":
        host, _, port = rest.rpartition(":")
        return TcpListener(host or LOOPBACK, _whole(port, address, 65_535))
    host, _, port = address.strip().rpartition(":")
    if not host:
        raise _no_address(address)
    return TcpClient(host.strip("[]"), _whole(port, address, 65_535))


def _whole(text: str, address: str, most: int) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= most):
        raise _no_address(address)
    return int(text)


def _no_address(address: str) -> InputError:
    return InputError(f'"{shown(address, 60)}" is no address of a rig stream. {HOW}')


class _TcpLine(Source):
    """What both ends of a TCP line share once they are connected."""

    _line: socket.socket | None = None

    def read(self) -> bytes:
        assert self._line is not None, "read before it was opened"
        try:
            piece = self._line.recv(PIECE)
        except TimeoutError:
            return b""
        except OSError as fault:
            raise LineLost(f"The line to {self.name} was lost: {_why(fault)}.") from None
        if not piece:
            raise LineLost(f"The other end of {self.name} closed the line.")
        return piece

    def write(self, sent: bytes) -> None:
        if self._line is None:
            raise LineLost(f"There is no line to {self.name} to send on.")
        try:
            self._line.sendall(sent)
        except OSError as fault:
            raise LineLost(f"Nothing could be sent to {self.name}: {_why(fault)}.") from None

    def close(self) -> None:
        if self._line is not None:
            self._line.close()
            self._line = None


class TcpClient(_TcpLine):
    """A TCP line that we call."""

    def __init__(self, host: str, port: int) -> None:
        self._place = (host, port)

    @property
    def name(self) -> str:
        return f"{self._place[0]}:{self._place[1]}"

    def open(self) -> None:
        try:
            self._line = socket.create_connection(self._place, timeout=CONNECT_WAIT)
        except (OSError, UnicodeError) as fault:
            raise LineLost(f"Nobody answers at {self.name}: {_why(fault)}.") from None
        self._line.settimeout(WAIT)


class TcpListener(_TcpLine):
    """A TCP line that the rig calls; one at a time, on this machine only unless a host is named."""

    def __init__(self, host: str, port: int) -> None:
        self._place = (host, port)
        self._door: socket.socket | None = None

    @property
    def name(self) -> str:
        return f"waiting for a call at {self._place[0]}:{self.port}"

    @property
    def port(self) -> int:
        """The port; where 0 was asked for, the free one that was given."""
        return int(self._door.getsockname()[1]) if self._door else self._place[1]

    def open(self) -> None:
        try:
            if self._door is None:
                self._door = socket.create_server(self._place, backlog=1)
                self._door.settimeout(WAIT)
        except (OSError, UnicodeError, OverflowError) as fault:
            raise LineLost(f"Nobody can call {self.name}: {_why(fault)}.") from None

    def read(self) -> bytes:
        if self._line is None and not self._answered():
            return b""
        return super().read()

    def hang_up(self) -> None:
        super().close()  # the door stays open for the next call

    def _answered(self) -> bool:
        assert self._door is not None, "read before it was opened"
        try:
            self._line, _caller = self._door.accept()
        except TimeoutError:
            return False
        except OSError as fault:
            raise LineLost(f"No call could be taken at {self.name}: {_why(fault)}.") from None
        self._line.settimeout(WAIT)
        return True

    def close(self) -> None:
        super().close()
        if self._door is not None:
            self._door.close()
            self._door = None


class SerialLine(Source):
    """A serial line, by pyserial, which comes with the extra `rig`."""

    def __init__(self, port: str, baud: int) -> None:
        self._port, self._baud = port, baud
        self._line: Any = None

    @property
    def name(self) -> str:
        return f"serial line {self._port} at {self._baud} baud"

    def open(self) -> None:
        try:
            import serial
        except ImportError:
            raise InputError(
                "A serial line wants pyserial: install it with pip install 'shoedown[rig]'."
            ) from None
        try:
            self._line = serial.serial_for_url(
                self._port, baudrate=self._baud, timeout=WAIT, write_timeout=CONNECT_WAIT
            )
        except (OSError, ValueError) as fault:
            raise LineLost(f"The {self.name} could not be opened: {_why(fault)}.") from None

    def read(self) -> bytes:
        try:
            return bytes(self._line.read(max(1, min(PIECE, self._line.in_waiting))))
        except (OSError, TypeError) as fault:  # TypeError: it was pulled out while being read
            raise LineLost(f"The {self.name} was lost: {_why(fault)}.") from None

    def write(self, sent: bytes) -> None:
        if self._line is None:
            raise LineLost(f"There is no {self.name} to send on.")
        try:
            self._line.write(sent)
        except OSError as fault:
            raise LineLost(f"Nothing could be sent on {self.name}: {_why(fault)}.") from None

    def close(self) -> None:
        if self._line is not None:
            self._line.close()
            self._line = None


class RecordedFile(Source):
    """A stream that was recorded to a file."""

    live = False

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: BinaryIO | None = None

    @property
    def name(self) -> str:
        return f"file {shown(self._path.name, 60)}"

    def open(self) -> None:
        try:
            self._file = self._path.open("rb")
        except (OSError, ValueError) as fault:
            raise InputError(f"The {self.name} could not be opened: {_why(fault)}.") from None

    def read(self) -> bytes:
        assert self._file is not None, "read before it was opened"
        piece = self._file.read(PIECE)
        if not piece:
            raise SourceEnded(f"The {self.name} is read to its end.")
        return piece

    def close(self) -> None:
        if self._file is not None:
            self._file.close()
            self._file = None


def _why(fault: Exception) -> str:
    return shown(getattr(fault, "strerror", None) or str(fault) or type(fault).__name__, 120)
