"""What is sent back to the rig, read by the reader of the stream and worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from demo_db.play import entries
from tally.feeds.rig_send import sent_back
from tally.feeds.wits_frames import FrameReader
from tally.feeds.wits_values import WitsReader
from tally.job.entry import moment
from tally.job.fold import fold
from tally.job.job import EMPTY, Job

METRES = {"field": 1 / 0.3048, "metric": 1.0}


def read_back(job: Job, now: str, units: str = "field") -> dict[str, float]:
    (frame,) = FrameReader().feed(sent_back(job, now, units).encode("ascii"))
    reading = WitsReader(units).read(frame, 0.0)
    assert reading.rig_time == moment(now).replace(tzinfo=None)
    return {code: value.number for code, value in reading.values.items()}


@pytest.mark.parametrize("units", ["field", "metric"])
def test_the_shoe_depth_is_sent_in_the_units_of_the_stream(units):
    third = fold(entries("third"))
    sent = read_back(third, "2026-03-12T03:12:00-06:00", units)
    # 86 joints: the shoe stands at 3,533.45 ft, as the running page shows it
    assert sent["1710"] == pytest.approx(3533.45 * 0.3048 * METRES[units], abs=0.01)


def test_what_is_left_to_the_bump_is_sent_while_it_is_displaced():
    played = [each for each in entries() if each.at <= "2026-03-12T17:41:00-06:00"]
    sent = read_back(fold(played), "2026-03-12T17:41:00-06:00")
    # by the strokes, which come first: 597.3 bbl agreed, 5,560 strokes at 0.1044 bbl and 96 %
    assert sent["1731"] == pytest.approx(597.3 - 5560 * 0.1044 * 0.96, abs=2.0)
    assert sent["1710"] == pytest.approx(8240, abs=10)


def test_before_the_job_there_is_nothing_to_send():
    assert sent_back(EMPTY, "2026-03-12T03:12:00-06:00", "field") == ""
    first = fold(entries()[:1])
    assert "1710" not in sent_back(replace(first), "2026-03-12T03:12:00-06:00", "field")
