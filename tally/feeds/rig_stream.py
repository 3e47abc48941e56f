"""A rig stream followed by a thread of its own: what came is fetched, and the line is told of.

stream = RigStream(source_at("10.20.0.5:5005"), "field")
stream.begin()
for heard in stream.fetch(): ...     # from the thread that owns the book, as often as it likes
stream.line.words                    # "connected", "lost: ..." with the time that it began
stream.end()
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from queue import Empty, Full, Queue

from tally.errors import ShoedownError
from tally.feeds.rig_source import LineLost, Source
from tally.feeds.wits_frames import Faults, FrameReader
from tally.feeds.wits_values import Reading, WitsReader

CONNECTED, LOST, ENDED, CALLING = "connected", "lost", "ended", "calling"
MOST_WAITING = 2_000
"""Readings that wait to be fetched; a sender that is quicker waits at its own end."""
FIRST_PAUSE, LONGEST_PAUSE = 0.5, 10.0
"""[s] before a lost line is called again; it doubles."""


@dataclass(frozen=True, slots=True)
class Line:
    """How the line stands, since when by the steady clock here, and why in a sentence."""

    state: str
    since: float
    why: str = ""


@dataclass(frozen=True, slots=True)
class Heard:
    """A reading, with when it came: by the steady clock here, and as a moment with its offset."""

    reading: Reading
    seconds: float
    at: datetime


def wall() -> datetime:
    """Return the moment now with its offset."""
    return datetime.now().astimezone()


class RigStream:
    """Reads a source until it is ended; a line that is lost is called again and again."""

    def __init__(
        self,
        source: Source,
        units: str,
        *,
        steady: Callable[[], float] = time.monotonic,
        now: Callable[[], datetime] = wall,
    ) -> None:
        self.source = source
        self.faults = Faults()
        self.frames = 0
        """Whole frames taken."""
        self.line = Line(CALLING, steady())
        self._frames = FrameReader(self.faults)
        self._values = WitsReader(units, self.faults)
        self._steady, self._now = steady, now
        self._heard: Queue[Heard] = Queue(MOST_WAITING)
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._follow, name="rig stream", daemon=True)

    @property
    def units(self) -> str:
        """The unit set that it is read in."""
        return self._values.units

    def begin(self) -> None:
        """Begin to follow the source."""
        self._thread.start()

    def end(self) -> None:
        """Stop, and wait until the thread has let go of the source."""
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(timeout=2)

    def fetch(self, most: int = MOST_WAITING) -> list[Heard]:
        """Return what came since the last time, the oldest first."""
        found: list[Heard] = []
        while len(found) < most:
            try:
                found.append(self._heard.get_nowait())
            except Empty:
                break
        return found

    def send(self, text: str) -> str:
        """Send a frame back on the same line; return why it could not be, or nothing."""
        try:
            self.source.write(text.encode("ascii"))
        except ShoedownError as fault:
            return str(fault)
        return ""

    def _follow(self) -> None:
        pause = FIRST_PAUSE
        while not self._ending.is_set():
            try:
                self.source.open()
                self._read_on()
            except LineLost as lost:
                pause = FIRST_PAUSE if self.line.state == CONNECTED else pause
                self._frames.cut()
                self.source.hang_up()
                self._say(LOST, str(lost))
            except ShoedownError as end:  # the end of a file, or what no calling again mends
                self._say(ENDED, str(end))
                break
            self._ending.wait(pause)
            pause = min(2 * pause, LONGEST_PAUSE)
        self.source.close()

    def _read_on(self) -> None:
        """Read until the end is asked for; the first bytes show that the line is there."""
        while not self._ending.is_set():
            piece = self.source.read()
            if piece and self.line.state != CONNECTED:
                self._say(CONNECTED)
            self._take(piece)

    def _take(self, piece: bytes) -> None:
        for frame in self._frames.feed(piece):
            self.frames += 1
            seconds, at = self._steady(), self._now()
            reading = self._values.read(frame, seconds)
            if not self.source.live and reading.rig_time is not None:
                at = reading.rig_time.replace(tzinfo=at.tzinfo)
            self._put(Heard(reading, seconds, at))

    def _put(self, heard: Heard) -> None:
        while not self._ending.is_set():
            try:
                self._heard.put(heard, timeout=0.25)
            except Full:
                continue
            return

    def _say(self, state: str, why: str = "") -> None:
        self.line = Line(state, self._steady(), why)


def at_second(moment: datetime) -> str:
    """Return a moment as an entry keeps it.

    >>> at_second(datetime.fromisoformat("2026-03-12T03:11:57.800000-06:00"))
    '2026-03-12T03:11:57-06:00'
    """
    return (moment - timedelta(microseconds=moment.microsecond)).isoformat(timespec="seconds")
