"""A whole job sent by the rig and recorded from its stream is the job as it was typed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache

import pytest

from demo_db import play
from demo_db.by_the_rig import FIELDS, STEPS, by_the_rig
from demo_db.rig_data import Gauge, Knot, RigData
from tally.feeds.rig_source import TcpClient
from tally.feeds.rig_stream import Heard, RigStream
from tally.feeds.rig_watch import NoOffer, Offer, RigWatch
from tally.feeds.wits_frames import FrameReader
from tally.feeds.wits_values import WitsReader
from tally.job.entries.correction import Correction
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry, moment
from tally.job.fold import fold, fold_on
from tally.job.job import EMPTY
from tally.job.origin import TYPED
from tally.reports.cement_fields import (
    after_fields,
    design_fields,
    displaced,
    done_fields,
    fluid_fields,
)
from tally.reports.final_tally import final_tally
from tally.reports.mixing_fields import mixed, mixed_totals
from tally.reports.running_fields import intervals, running_fields, weights
from tally.reports.tally_text import tally_text

AHEAD = 40
"""[s] ahead of each entry from which every second of the stream is read; between, each tenth."""


@dataclass
class Recorded:
    entries: tuple[Entry, ...]
    lowered: int
    faults: dict[str, int]
    kept: int
    """Rows of the stream that would be kept in the book."""


@cache
def entries() -> tuple[Entry, ...]:
    return play.entries()


EARLY, WHOLE = 75, len(entries())
PARTS = [EARLY, pytest.param(WHOLE, marks=pytest.mark.long)]
"""The first joints in each run, the whole job among the long sets."""


@cache
def rig() -> RigData:
    return RigData()


def moments(typed: Sequence[Entry]) -> list[datetime]:
    """The seconds just ahead of each entry, and each tenth one between them."""
    found: set[datetime] = set()
    last = moment(typed[0].at)
    for entry in typed:
        at = moment(entry.at)
        gap = int((at - last).total_seconds())
        found |= {at - timedelta(seconds=n) for n in range(min(gap, AHEAD) + 1)}
        found |= {last + timedelta(seconds=n) for n in range(0, gap, 10)}
        last = at
    return sorted(found)


class Recorder:
    """Hears the rig frame by frame, and makes each entry of what the stream says at its time."""

    def __init__(self) -> None:
        self.seconds, self.job, self.made = 0.0, EMPTY, []
        stream = RigStream(TcpClient("127.0.0.1", 1), "field")
        self.watch = RigWatch(stream, steady=lambda: self.seconds)
        self.faults = stream.faults
        self.frames, self.numbers = FrameReader(self.faults), WitsReader("field", self.faults)

    def hear(self, at: datetime, seconds: float) -> None:
        self.seconds = seconds
        for frame in self.frames.feed(rig().frames(at).encode()):
            heard = Heard(self.numbers.read(frame, seconds), seconds, at)
            self.watch.take_one(heard, self.job)

    def ask(self, role: str) -> Offer | NoOffer:
        return self.watch.offer(role, self.job.known.shown, self.job)

    def enter(self, entry: Entry) -> None:
        got = by_the_rig(entry, self.ask) if self.job.setup is not None else entry
        self.made.append(got)
        after = fold_on(self.job, got)
        self.job = fold(self.made) if isinstance(got, Correction) else after


@cache
def recorded(count: int) -> Recorded:
    """Send so much of the job and record it."""
    recorder, lowered, kept = Recorder(), 0, 0
    waiting = list(entries()[:count])
    start = moment(waiting[0].at)
    for at in moments(waiting):
        recorder.hear(at, (at - start).total_seconds())
        while waiting and moment(waiting[0].at) <= at:
            entry = waiting.pop(0)
            seen = recorder.watch.lowered(recorder.job)
            lowered += isinstance(entry, ItemRun) and seen is not None
            recorder.enter(entry)
        for batch, _rows in recorder.watch.batches("Ama Osei", entries()[-1].at):
            kept += batch.rows
    for batch, _rows in recorder.watch.batches("Ama Osei", entries()[-1].at, all_of_it=True):
        kept += batch.rows
    return Recorded(tuple(recorder.made), lowered, dict(recorder.faults.counts), kept)


@pytest.mark.parametrize("count", PARTS)
def test_every_value_that_the_stream_has_is_read_back_as_it_was_typed(count):
    checked = 0
    for typed, got in zip(entries()[:count], recorded(count).entries, strict=True):
        assert got.at == typed.at
        names = FIELDS.get(type(typed), {})
        for name in (*names, *(["value"] if getattr(typed, "step_id", "") in STEPS else [])):
            want, have = getattr(typed, name), getattr(got, name)
            if want is None:
                continue
            checked += 1
            assert as_number(have) == as_number(want), (typed.at, name)
    assert checked > count // 4


@pytest.mark.parametrize("count", PARTS)
def test_nearly_everything_was_read_and_hardly_anything_typed(count):
    origins = [one for each in recorded(count).entries for one in each.origins]
    typed = [one for one in origins if one.source == TYPED]
    assert len(origins) > count // 4
    assert typed == []
    assert not recorded(count).faults


def as_number(value: object) -> tuple[float, str] | int:
    """A value as number and unit: the stream says 8.0 bbl/min where the crew typed 8."""
    if isinstance(value, int):
        return value
    number, _, unit = str(getattr(value, "text", value)).partition(" ")
    return float(number), unit


@pytest.mark.parametrize("count", PARTS)
def test_each_joint_that_went_down_was_seen(count):
    ran = sum(isinstance(each, ItemRun) for each in entries()[:count])
    assert recorded(count).lowered >= 0.9 * ran


@pytest.mark.parametrize("count", PARTS)
def test_every_frame_is_kept(count):
    sent = sum(rig().frames(at).count("&&") for at in moments(entries()[:count]))
    assert recorded(count).kept == sent


def pages(made: Sequence[Entry]) -> Iterator[str]:
    """The tally and the cementing report of a job, as they are read."""
    tally = final_tally(fold(made), made, (len(made), "0" * 64))
    yield tally_text(tally)
    made_of = (
        running_fields, intervals, weights, design_fields, fluid_fields, done_fields, displaced,
        after_fields, mixed, mixed_totals,
    )  # fmt: skip
    for part in made_of:
        yield repr(part(tally))


@pytest.mark.long
def test_the_tally_and_the_report_are_those_of_the_typed_job():
    got_pages = [as_typed(each) for each in pages(recorded(WHOLE).entries)]
    assert got_pages == [as_typed(each) for each in pages(entries())]
    assert all(len(each) > 20 for each in got_pages)
    fewer = [as_typed(each) for each in pages(entries()[:-20])]
    assert got_pages != fewer


def as_typed(text: str) -> str:
    """Leave out the noughts behind a number, and the hash, which knows where values are from."""
    plain = re.sub(r"(\d\.\d*?)0+(?= )", r"\1", text)
    return re.sub(r"(\d)\.(?= )|[0-9a-f]{64}", r"\1", plain)


def test_a_gauge_stands_a_while_and_goes_over():
    gauge = Gauge([Knot(0, 10.0), Knot(100, 20.0), Knot(200, 5.0, jumps=True)])
    assert [gauge.at(at) for at in (0, 30, 95, 100, 150, 194, 195, 400)] == [
        10, 10, 20, 20, 20, 20, 5, 5,
    ]  # fmt: skip
    assert gauge.at(62.5) == pytest.approx(15)
