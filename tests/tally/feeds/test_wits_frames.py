"""Frames are taken whole or not at all, whatever the line does to them."""

from __future__ import annotations

import random
import re
import sys

import pytest

from tally.feeds.wits_frames import LONGEST_LINE, MOST_LINES, FrameReader
from tally.feeds.wits_values import WitsReader
from tests.tally.feeds.wits_fuzz import HARMS, Sent, frame, harmed_frames, pieces

GOOD = b"&&\r\n0114172.5\r\n011241.20\r\n!!\r\n"


def lines(*taken: object) -> list[tuple[tuple[str, str], ...]]:
    return [each.lines for each in taken]


@pytest.mark.parametrize("end", [b"\r\n", b"\n", b"\r", b"\n\r", b"\r\n\r\n"])
@pytest.mark.parametrize("size", [1, 3, 1000])
def test_a_frame_is_taken_with_any_line_end_in_pieces_of_any_size(end, size):
    stream = GOOD.replace(b"\r\n", end) * 2
    reader = FrameReader()
    taken = [f for at in range(0, len(stream), size) for f in reader.feed(stream[at : at + size])]
    assert lines(*taken) == [(("0114", "172.5"), ("0112", "41.20"))] * 2
    assert not reader.faults.counts


@pytest.mark.parametrize(
    ("stream", "kind"),
    [
        (b"&&\r\n0114172.5\r\n" + GOOD, "torn frame"),
        (b"&&\r\n01141&&\r\n72.5\r\n!!\r\n", "torn frame"),
        (b"&&\r\n01141\x0072.5\r\n!!\r\n", "frame left out"),
        (b"&&\r\n0114\xff72.5\r\n!!\r\n", "frame left out"),
        (b"&&\r\nx114172.5\r\n!!\r\n", "frame left out"),
        (b"&&\r\n0114172.5\r\n0114180.1\r\n!!\r\n", "frame left out"),
        (b"&&\r\n" + b"0114" + b"1" * LONGEST_LINE + b"\r\n!!\r\n", "line too long"),
        (b"&&\r\n" + b"0112" + b"1" * 99_999 + b"\r\n!!\r\n", "line too long"),
        (b"&&\r\n" + b"".join(b"%04d1\r\n" % n for n in range(MOST_LINES + 1)) + b"!!\r\n",
         "frame left out"),
        (b"0114172.5\r\n", "outside a frame"),
        (b"!!\r\n", "outside a frame"),
        (b"&&\r\n!!\r\n", "empty frame"),
    ],
)  # fmt: skip
def test_what_is_not_whole_is_left_out_and_told(stream, kind):
    reader = FrameReader()
    assert reader.feed(stream) == []
    assert reader.faults.counts[kind] == 1
    assert reader.faults.last[kind].endswith(".")
    assert all(" " <= char <= "~" for char in reader.faults.last[kind])
    assert len(reader.feed(GOOD + GOOD)) == 2  # what comes after is taken


def test_nul_that_fills_a_silent_line_is_no_fault_between_frames():
    reader = FrameReader()
    assert len(reader.feed(b"\0\0\0" + GOOD + b"\0\0\r\n\0" + GOOD)) == 2
    assert not reader.faults.counts


def test_a_line_that_was_lost_leaves_nothing_of_its_frame():
    reader = FrameReader()
    reader.feed(b"&&\r\n0114172.5\r\n0112")
    reader.cut()
    assert reader.feed(b"41.20\r\n!!\r\n") == []
    assert reader.faults.counts["torn frame"] == 1


def _fuzz(count: int, seed: int) -> tuple[FrameReader, WitsReader]:
    """Feed so many harmed frames; whatever is read was sent, to a thousandth."""
    rng, sent = random.Random(seed), Sent()
    reader = FrameReader()
    values = WitsReader("field", reader.faults)
    for _ in range(count):
        sent.clear()
        harmed = harmed_frames(rng, 4, sent)
        harmed += frame(rng, sent)  # whole, so that nothing runs on into the next ones
        for piece in pieces(harmed, rng):
            for taken in reader.feed(piece):
                for code, value in values.read(taken, 0.0).values.items():
                    near = [each for each in sent.get(code, ()) if abs(each - value.number) < 1e-3]
                    assert near, (code, value.number, sent.get(code), repr(harmed))
    return reader, values


@pytest.mark.parametrize("seed", [1])
def test_no_harmed_frame_gives_a_reading_that_was_not_sent(seed):
    reader, _values = _fuzz(500, seed)
    kinds = {"torn frame", "frame left out", "line too long", "outside a frame", "wrong number",
             "unknown item", "outside any range"}  # fmt: skip
    assert kinds <= reader.faults.counts.keys()
    assert len(reader.faults.last) < 15  # one sentence a kind, however many there were


@pytest.mark.long
@pytest.mark.parametrize("seed", range(10, 20))
def test_a_hundred_thousand_harmed_frames_give_no_reading_that_was_not_sent(seed):
    _fuzz(2_500, seed)  # four frames each


def test_a_whole_frame_among_harmed_ones_is_read():
    """Most of what a good frame in quiet says comes through; a reader of nothing is no reader."""
    rng, sent, taken = random.Random(5), Sent(), 0
    reader = FrameReader()
    for _ in range(200):
        harmed = rng.choice(HARMS)(rng, frame(rng, sent), sent)
        reader.feed(harmed + b"\r\n!!\r\n")
        taken += len(reader.feed(frame(rng, sent)))
    assert taken == 200


def test_an_independent_reader_takes_the_same_from_a_good_stream():
    rng = random.Random(9)
    stream = b"".join(frame(rng, {}) for _ in range(300))
    taken = FrameReader().feed(stream)
    blocks = re.findall(r"&&\r\n(.*?)!!", stream.decode(), re.DOTALL)
    again = [tuple((ln[:4], ln[4:]) for ln in block.split("\r\n") if ln) for block in blocks]
    assert lines(*taken) == again


def test_what_is_kept_does_not_grow_with_what_never_ends():
    reader = FrameReader()
    reader.feed(b"&&\r\n")
    for _ in range(2_000):
        reader.feed(b"7" * 1_000)
    for _ in range(2_000):
        reader.feed(b"\r\n0114" + b"\r\n0112" * 50)
    kept = [getattr(reader, name) for name in ("_rest", "_lines", "_codes", "_bad")]
    assert sum(sys.getsizeof(each) for each in kept) < 100_000
