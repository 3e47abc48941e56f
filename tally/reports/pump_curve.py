"""The displacement as it was read: pressure and rate against volume, and where the events lie."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.job.entry import moment
from tally.job.figures import figure
from tally.job.job import Job, PumpReading, StepRecord
from tally.steps.model import Step

NOT_COUNTED = "in doubt"
"""Beside a reading that is kept and counts nowhere."""


@dataclass(frozen=True, slots=True)
class Pump:
    """One reading: volume since the zero [m^3]; pressure [Pa], rate [m^3/s] if they were read."""

    volume: float
    pressure: float | None
    rate: float | None
    at: str


@dataclass(frozen=True, slots=True)
class Event:
    """A step that was stored at its moment, and the volume at that moment [m^3]."""

    text: str
    said: str
    volume: float
    at: str
    by: str


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """The readings in the order in which they were made, and the events by volume."""

    readings: tuple[Pump, ...]
    events: tuple[Event, ...]
    by: str
    """The count that the volumes are of: tank or strokes."""


def pump_curve(job: Job) -> PumpCurve | None:
    """Return the displacement since the volume was zeroed; nothing where it was not read.

    The volume is that of the count which was read oftener. An event lies where its time does
    between two readings: nobody read the volume at that moment.
    """
    if job.zeroed is None or not job.pumped:
        return None
    by = _oftener(job.pumped)
    per_stroke = figure(job, "stroke_volume").value
    if by == "strokes" and per_stroke is None:
        return None
    readings = tuple(
        Pump(
            volume,
            one.pressure.value if one.pressure else None,
            one.rate.value if one.rate else None,
            one.at,
        )
        for one in job.pumped
        if (volume := _volume(one, by, float(per_stroke or 0.0))) is not None
    )
    return PumpCurve(readings, _events(job, readings), by) if readings else None


def every_reading(job: Job) -> tuple[PumpReading, ...]:
    """Return the readings in the order of their entries, those in doubt among them."""
    return tuple(sorted((*job.pumped, *job.in_doubt), key=lambda one: one.seq))


def _oftener(pumped: Sequence[PumpReading]) -> str:
    tank = sum(1 for one in pumped if one.tank is not None)
    strokes = sum(1 for one in pumped if one.strokes is not None)
    return "strokes" if strokes > tank else "tank"


def _volume(one: PumpReading, by: str, per_stroke: float) -> float | None:
    if by == "tank":
        return one.tank.value if one.tank else None
    return None if one.strokes is None else one.strokes * per_stroke


def _events(job: Job, readings: Sequence[Pump]) -> tuple[Event, ...]:
    assert job.zeroed is not None  # pump_curve() has looked
    known = [(_seconds(job.zeroed.at), 0.0)]
    known += sorted((_seconds(one.at), one.volume) for one in readings)
    events = [
        Event(step.text, _said(record), _between(known, _seconds(record.at)), record.at, record.by)
        for step, record in _at_once(job)
        if _seconds(record.at) >= known[0][0]
    ]
    return tuple(sorted(events, key=lambda one: _seconds(one.at)))


def _at_once(job: Job) -> list[tuple[Step, StepRecord]]:
    """Return the steps with their records that are stored when a key is pressed."""
    return [
        (step, job.steps[plan.id, step.id])
        for plan in job.lists.values()
        for step in plan.steps
        if step.at_once and (plan.id, step.id) in job.steps
    ]


def _said(record: StepRecord) -> str:
    return record.state or record.value or record.outcome


def _between(known: Sequence[tuple[float, float]], at: float) -> float:
    """Return the volume at a time, straight between the readings beside it."""
    place = bisect_right([time for time, _ in known], at)
    if place >= len(known):
        return known[-1][1]
    (before, low), (after, high) = known[place - 1], known[place]
    return low + (high - low) * (at - before) / (after - before) if after > before else high


def _seconds(at: str) -> float:
    return moment(at).timestamp()


def mean_rate(curve: PumpCurve) -> float | None:
    """Return the volume pumped from the first reading to the last over its time, [m^3/s]."""
    first, last = curve.readings[0], curve.readings[-1]
    took = _seconds(last.at) - _seconds(first.at)
    return (last.volume - first.volume) / took if took > 0 else None


def greatest_rate(curve: PumpCurve) -> float | None:
    """Return the greatest rate that is known, [m^3/s]: as it was read, at least the mean."""
    known = [*_rates(curve), mean_rate(curve)]
    return max((each for each in known if each is not None), default=None)


def last_rate(curve: PumpCurve) -> float | None:
    """Return the rate that was read last, [m^3/s]."""
    return next(reversed(_rates(curve)), None)


def _rates(curve: PumpCurve) -> list[float]:
    return [one.rate for one in curve.readings if one.rate is not None]


def runs(
    points: Sequence[tuple[float, float | None]],
) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return points as unbroken runs; where nothing was read there is a gap.

    >>> runs([(0, 1), (1, 2), (2, None), (3, 4)])
    (((0, 1), (1, 2)), ((3, 4),))
    """
    gaps = [-1, *(place for place, (_, read) in enumerate(points) if read is None), len(points)]
    parts = (points[before + 1 : after] for before, after in pairwise(gaps))
    return tuple(tuple((x, y) for x, y in part if y is not None) for part in parts if part)
