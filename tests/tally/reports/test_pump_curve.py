"""The curve of the displacement: by the count read oftener, events between the readings."""

from dataclasses import replace

import pytest

from tally.reports.cement_fields import rates_told
from tally.reports.pump_curve import (
    Pump,
    PumpCurve,
    greatest_rate,
    last_rate,
    mean_rate,
    pump_curve,
)
from tally.units import from_unit
from tests.tally.reports.pdf.jobs import demonstration

BARREL = from_unit(1.0, "bbl")


def test_nothing_before_the_zero() -> None:
    assert pump_curve(demonstration("third").job) is None


def test_volumes_and_events_of_the_demonstration() -> None:
    curve = pump_curve(demonstration().job)
    assert curve is not None
    assert curve.by == "tank"
    assert curve.readings[0].volume == pytest.approx(37.0 * BARREL)
    assert curve.readings[-1].volume == pytest.approx(598.2 * BARREL)
    # 16:57:20 is 200 s of 420 s after 283.1 bbl and before 324.3 bbl, first read at 16:54:00
    third = curve.events[2]
    assert third.said == "640 psi"
    assert third.volume == pytest.approx((283.1 + (324.3 - 283.1) * 200 / 420) * BARREL)
    assert [one.volume for one in curve.events] == sorted(one.volume for one in curve.events)
    assert curve.events[0].volume == 0.0


def test_strokes_are_taken_where_they_were_read_oftener() -> None:
    job = demonstration().job
    job = replace(
        job, pumped=(*(replace(one, tank=None) for one in job.pumped[:-1]), job.pumped[-1])
    )
    curve = pump_curve(job)
    assert curve is not None
    assert curve.by == "strokes"
    assert curve.readings[-1].volume == pytest.approx(5953 * 0.1044 * 0.96 * BARREL)


def test_the_mean_rate_is_over_the_time_between_readings() -> None:
    curve = pump_curve(demonstration().job)
    assert curve is not None
    minutes = 102 + 40 / 60
    assert mean_rate(curve) == pytest.approx((598.2 - 37.0) * BARREL / (minutes * 60))
    assert mean_rate(replace(curve, readings=curve.readings[:1])) is None


def test_the_greatest_rate_is_at_least_the_mean() -> None:
    """18 bbl in 200 s are 5.4 bbl/min, though no more than 4 was read."""
    minute = from_unit(1.0, "bbl/min")
    at = ("2026-03-12T10:00:00-06:00", "2026-03-12T10:03:20-06:00")
    read = (Pump(0.0, None, None, at[0]), Pump(18 * BARREL, None, 4 * minute, at[1]))
    curve = PumpCurve(read, (), "tank")
    assert mean_rate(curve) == pytest.approx(5.4 * minute)
    assert greatest_rate(curve) == mean_rate(curve)
    assert last_rate(curve) == 4 * minute
    faster = replace(curve, readings=(replace(read[0], rate=6 * minute), read[1]))
    assert greatest_rate(faster) == 6 * minute
    alone = replace(curve, readings=read[:1])
    assert (greatest_rate(alone), last_rate(alone)) == (None, None)
    job = demonstration().job
    assert rates_told(job, alone) == ""
    assert rates_told(job, curve) == (
        "mean 5.4 bbl/min, volume over time, first reading to last; "
        "greatest 5.4 bbl/min, at least the mean, less was read; last 4.0 bbl/min, as read"
    )
