"""A stream over real lines on this machine: TCP both ways round, a serial loop, a recorded file."""

from __future__ import annotations

import gc
import socket
import time
import tracemalloc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta

import pytest

from tally.errors import InputError
from tally.feeds.rig_source import (
    LineLost,
    RecordedFile,
    SerialLine,
    Source,
    SourceEnded,
    TcpClient,
    TcpListener,
    source_at,
)
from tally.feeds.rig_stream import CONNECTED, ENDED, LOST, Heard, RigStream
from tally.feeds.rig_values import LastValues, chosen_items
from tally.feeds.wits_frames import FrameReader
from tally.feeds.wits_values import WitsReader

FRAME = b"&&\r\n0112%d\r\n0114172.5\r\n!!\r\n"


def until(true: Callable[[], bool], seconds: float = 10.0) -> None:
    """Wait for another thread, no longer than that."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.01)


@contextmanager
def following(source: Source, units: str = "field") -> Iterator[RigStream]:
    stream = RigStream(source, units)
    stream.begin()
    try:
        yield stream
    finally:
        stream.end()
    assert not stream._thread.is_alive()


def fetched(stream: RigStream, count: int) -> list[Heard]:
    found: list[Heard] = []
    until(lambda: len(found.__iadd__(stream.fetch())) >= count)
    return found


def blocks(heard: list[Heard]) -> list[float]:
    return [each.reading.values["0112"].number for each in heard]


def test_a_line_that_is_called_is_read_lost_and_called_again():
    with socket.create_server(("127.0.0.1", 0)) as rig:
        rig.settimeout(10)
        with following(TcpClient("127.0.0.1", rig.getsockname()[1])) as stream:
            line, _ = rig.accept()
            line.sendall(FRAME % 1 + FRAME % 2 + b"&&\r\n011233")
            assert blocks(fetched(stream, 2)) == [1, 2]
            assert stream.line.state == CONNECTED
            line.close()
            until(lambda: stream.line.state == LOST)
            assert stream.line.why.endswith("closed the line.")
            line, _ = rig.accept()
            line.sendall(b"3\r\n!!\r\n" + FRAME % 4)
            assert blocks(fetched(stream, 1)) == [4]
            assert stream.line.state == CONNECTED
            assert stream.faults.counts["torn frame"] == 1
            assert stream.send("&&\r\n17101077.0\r\n!!\r\n") == ""
            line.settimeout(10)
            assert line.recv(100) == b"&&\r\n17101077.0\r\n!!\r\n"
            line.close()


def test_a_line_that_is_waited_for_takes_one_call_after_the_other():
    source = TcpListener("127.0.0.1", 0)
    with following(source) as stream:
        until(lambda: source.port != 0)
        for number in (1, 2):
            with socket.create_connection(("127.0.0.1", source.port), timeout=10) as rig:
                rig.sendall(FRAME % number)
                assert blocks(fetched(stream, 1)) == [number]
            until(lambda: stream.line.state == LOST)


def test_nobody_there_is_said_in_words():
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    with following(TcpClient("127.0.0.1", port)) as stream:
        until(lambda: stream.line.state == LOST)
        assert f"Nobody answers at 127.0.0.1:{port}" in stream.line.why
        assert "no line" in stream.send("&&\r\n!!\r\n")


def test_a_serial_line_is_read_and_written():
    line = SerialLine("loop://", 9600)  # pyserial's own loop: what is written is read back
    line.open()
    line.write(FRAME % 7)
    got = b""
    while len(got) < len(FRAME % 7):
        got += line.read()
    line.close()
    assert got == FRAME % 7


def test_a_serial_line_that_is_not_there_is_lost():
    with pytest.raises(LineLost, match="could not be opened"):
        SerialLine("no-such-port", 9600).open()


def test_a_recorded_file_is_read_to_its_end_with_the_times_of_the_rig(tmp_path):
    path = tmp_path / "rig.txt"
    path.write_bytes(
        b"&&\n0105260312\n0106031157\n01121\n!!\n&&\n0105260312\n0106031158\n01122\n!!\n&&\n01123"
    )
    with following(RecordedFile(path)) as stream:
        heard = fetched(stream, 2)
        until(lambda: stream.line.state == ENDED)
    assert blocks(heard) == [1, 2]
    assert [each.at.replace(tzinfo=None) for each in heard] == [
        datetime(2026, 3, 12, 3, 11, 57),
        datetime(2026, 3, 12, 3, 11, 58),
    ]
    source = RecordedFile(path)
    source.open()
    assert source.read() == path.read_bytes()
    with pytest.raises(SourceEnded):
        source.read()
    source.close()
    with following(RecordedFile(tmp_path / "none")) as stream:
        until(lambda: stream.line.state == ENDED)
        assert "could not be opened" in stream.line.why


@pytest.mark.parametrize(
    ("address", "kind"),
    [
        ("10.20.0.5:5005", TcpClient),
        ("[::1]:5005", TcpClient),
        ("rig-data:5005", TcpClient),
        ("listen:5005", TcpListener),
        ("listen:0.0.0.0:5005", TcpListener),
        ("serial:COM3", SerialLine),
        ("serial:/dev/ttyUSB0@19200", SerialLine),
        ("file:C:\\rig\\day1.txt", RecordedFile),
    ],
)
def test_an_address_names_a_source(address, kind):
    assert type(source_at(address)) is kind


def test_a_line_is_waited_for_on_this_machine_only_unless_it_is_said_otherwise():
    assert "127.0.0.1:5005" in source_at("listen:5005").name


@pytest.mark.parametrize(
    "address",
    ["", "5005", "host:", "host:0", "host:99999", "host:abc", "listen:", "serial:", "x@y"],
)
def test_what_is_no_address_is_refused_with_what_to_say(address):
    with pytest.raises(InputError, match="Say HOST:PORT"):
        source_at(address)


# Ages

START = datetime(2026, 3, 12, 3, 11, 57).astimezone()


def heard(at: float, *lines: tuple[str, str]) -> Heard:
    from tally.feeds.wits_frames import Frame

    return Heard(WitsReader("field").read(Frame(lines), at), at, START + timedelta(seconds=at))


@pytest.mark.parametrize(
    ("interval", "age", "fresh"),
    [(1, 9, True), (1, 11, False), (0.1, 11, False), (20, 49, True), (20, 51, False),
     (600, 59, True), (600, 61, False)],
)  # fmt: skip
def test_a_value_is_live_for_a_short_while_only(interval, age, fresh):
    values = LastValues()
    for at in (0, interval):
        values.take(heard(at, ("0114", "172.5")))
    live = values.of("hook load", interval + age)
    assert live is not None
    assert (live.age, live.fresh) == (age, fresh)
    assert live.at == START + timedelta(seconds=interval)


def test_an_item_that_went_stale_gives_way_to_another_that_says_the_same():
    values = LastValues()
    values.take(heard(0, ("0114", "172.5")))
    values.take(heard(30, ("0514", "171.0")))
    live = values.of("hook load", 31)
    assert live is not None
    assert live.value.item.code == "0514"
    assert values.of("trip tank", 31) is None


def test_items_may_be_chosen_otherwise():
    values = LastValues(chosen_items("trip tank=1130, displacement tank = 1117"))
    values.take(heard(0, ("1129", "10"), ("1130", "20"), ("1117", "300")))
    assert values.of("trip tank", 1).value.number == 20
    assert values.of("displacement tank", 1).value.number == 300
    for wrong in ("trip tank", "mud bucket=1130", "trip tank=11"):
        with pytest.raises(InputError):
            chosen_items(wrong)


# A day of it


def _day(frames: int) -> float:
    """Feed that many frames at once; return the growth of memory after the first tenth.

    What is kept is so little that a share of it says nothing: it is told against 200 kB at least.
    """
    reader, values = FrameReader(), LastValues()
    numbers = WitsReader("field", reader.faults)
    taken, base = 0, 0
    tracemalloc.start()
    for number in range(frames):
        clock = f"{number // 3600 % 24:02}{number // 60 % 60:02}{number % 60:02}"
        text = (
            f"&&\r\n0104{number % 900_000}\r\n0105260312\r\n0106{clock}\r\n"
            f"0112{number % 97}.5\r\n0114{150 + number % 31}\r\n0121{800 + number % 50}\r\n"
            f"0126{400 + number % 9}\r\n0137{number}\r\n112941.{number % 10}\r\n!!\r\n"
        )
        for frame in reader.feed(text.encode()):
            taken += 1
            values.take(Heard(numbers.read(frame, float(number)), float(number), START))
        if number == frames // 10:
            gc.collect()
            base = tracemalloc.get_traced_memory()[0]
    gc.collect()
    grown = (tracemalloc.get_traced_memory()[0] - base) / max(base, 200_000)
    tracemalloc.stop()
    assert taken == frames
    assert not reader.faults.counts
    return grown


def test_an_hour_at_one_a_second_loses_no_frame_and_keeps_nothing():
    assert _day(3_600) < 0.10


@pytest.mark.long
def test_a_day_at_one_a_second_loses_no_frame_and_keeps_nothing():
    assert _day(86_400) < 0.10


def test_a_sender_that_is_quicker_than_the_reader_loses_nothing():
    """Far more than wait in the queue, sent at once, and fetched late."""
    with socket.create_server(("127.0.0.1", 0)) as rig:
        rig.settimeout(10)
        with following(TcpClient("127.0.0.1", rig.getsockname()[1])) as stream:
            line, _ = rig.accept()
            line.settimeout(20)
            time.sleep(0.2)
            import threading

            sent = b"".join(FRAME % (number % 90) for number in range(6_000))
            sender = threading.Thread(target=line.sendall, args=(sent,))
            sender.start()
            until(lambda: stream.frames >= 2_000)
            found = fetched(stream, 6_000)
            sender.join()
            line.close()
    assert blocks(found) == [number % 90 for number in range(6_000)]
