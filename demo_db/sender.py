"""Plays the rig of the invented job on a line of this machine, at its own pace or quicker.

sender = RigSender(RigData(), begin, speed=60)
sender.begin()                  # whoever calls 127.0.0.1 at sender.port hears the rig
sender.end()
"""

from __future__ import annotations

import socket
import threading
import time
from datetime import datetime, timedelta

from demo_db.rig_data import RigData

LOOPBACK = "127.0.0.1"
MOST_A_SECOND = 10.0
"""Moments sent in a real second; quicker, some of the job's seconds are left out."""


class RigSender:
    """One line; it is called again whenever it was left."""

    def __init__(self, rig: RigData, begin: datetime, *, speed: float = 1.0, port: int = 0) -> None:
        self._rig, self._begin, self.speed = rig, begin, speed
        self._door = socket.create_server((LOOPBACK, port))
        self._door.settimeout(0.25)
        self._started = time.monotonic()
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._serve, name="rig sender", daemon=True)
        self.heard = b""
        """What was sent back last."""

    @property
    def port(self) -> int:
        """Where it can be called."""
        return int(self._door.getsockname()[1])

    @property
    def over(self) -> bool:
        """Whether the job is played to its end."""
        return self.now() > self._rig.last

    def now(self) -> datetime:
        """Return the time of the job."""
        return self._begin + timedelta(seconds=self.seconds())

    def seconds(self) -> float:
        """Return the seconds of the job since it began here: a steady clock."""
        return (time.monotonic() - self._started) * self.speed

    def begin(self) -> None:
        """Begin to play; the job goes on whether somebody listens or not."""
        self._started = time.monotonic()
        self._thread.start()

    def end(self) -> None:
        """Stop, and let go of the line."""
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(timeout=5)
        self._door.close()

    def _serve(self) -> None:
        while not self._ending.is_set():
            try:
                line, _caller = self._door.accept()
            except TimeoutError:
                continue
            except OSError:
                return
            with line:
                self._play(line)

    def _play(self, line: socket.socket) -> None:
        line.settimeout(5.0)
        while not self._ending.is_set():
            try:
                line.sendall(self._rig.frames(self.now()).encode("ascii"))
                self._listen(line)
            except OSError:
                return
            self._ending.wait(max(1.0 / self.speed, 1.0 / MOST_A_SECOND))

    def _listen(self, line: socket.socket) -> None:
        """Take what was sent back, without waiting for it."""
        line.settimeout(0.001)
        try:
            heard = line.recv(4096)
        except TimeoutError:
            heard = b""
        finally:
            line.settimeout(5.0)
        self.heard = heard or self.heard
