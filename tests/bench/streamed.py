"""Our side of a measure with the rig's stream coming in at ten frames a second."""

from __future__ import annotations

import itertools
import socket
import sys
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager

from tests.bench import timed
from tests.bench.ours import SPARE, book_with
from tests.bench.ratio import Sample

A_SECOND = 10


@contextmanager
def sending() -> Iterator[int]:
    """Send frames ten times a second on a port of this machine; yield the port."""
    over = threading.Event()
    with closing(socket.create_server(("127.0.0.1", 0))) as server:
        server.settimeout(0.2)
        sender = threading.Thread(target=_serve, args=(server, over), daemon=True)
        sender.start()
        try:
            yield server.getsockname()[1]
        finally:
            over.set()
            sender.join()


def _serve(server: socket.socket, over: threading.Event) -> None:
    while not over.is_set():
        try:
            line, _ = server.accept()
        except TimeoutError:
            continue
        with closing(line):
            _frames(line, over)


def _frames(line: socket.socket, over: threading.Event) -> None:
    for number in itertools.count():
        moved = number % 7 / 10
        frame = f"&&\r\n0110{50 + moved}\r\n0114{88 + moved}\r\n0121{120 + 10 * moved}\r\n!!\r\n"
        try:
            line.sendall(frame.encode())
        except OSError:
            return
        if over.wait(1 / A_SECOND):
            return


@contextmanager
def painted_joint(run: int) -> Iterator[Sample]:
    """Yield a sample: Enter to the joint typed shown as saved, the stream coming in [s]."""
    with sending() as port, book_with(run) as path:
        rig = ["--rig", f"127.0.0.1:{port}", "--rig-units", "field"]
        command = [sys.executable, "-m", "screens.start", "open", path, *rig]
        with timed.Program(command=command).started() as terminal:
            numbers = iter(range(run + 1, run + SPARE))
            terminal.wait_for(f"NEXT  joint {run + 1}")
            terminal.wait_for("RIG  hook load")

            def sample() -> float:
                number = next(numbers)
                terminal.type(str(number))
                terminal.wait_for(f"joint {number}, ")
                terminal.watch(0.1)
                return terminal.time_to(f"  {number} run", "enter")

            yield sample
