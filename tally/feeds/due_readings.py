"""Which readings of a followed file go into the job, as a person would have read them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tally.job.entry import moment
from tally.job.figures import figure
from tally.job.job import Job, PumpReading
from tally.job.with_readings import bumped
from tally.units import Measure, read

EVERY, AT_LEAST_EVERY = 60.0, 300.0
"""[s]; while it is pumped, and while hardly anything moves."""
HARDLY = 0.08
"""[m3], half a barrel."""
_PARTS_OF_LIMIT = 4
"""Past the calculated bump a reading is due this many times within the over-displacement limit."""


class DueReadings:
    """One a minute while the plug is pumped down, closer past the calculated bump, one at the bump.

    The guards of the job see these; the pages are drawn from all that are at hand.
    """

    def __init__(self) -> None:
        self._zero = self._bump = 0
        self._at, self._volume = float("-inf"), 0.0
        self._calculated: float | None = None

    def of(self, last: PumpReading | None, job: Job) -> list[Mapping[str, Any]]:
        """Return the fields of an entry for the newest reading, if one is due."""
        if job.zeroed is None or last is None or (last.tank is None and last.strokes is None):
            return []
        if job.zeroed.seq != self._zero:
            self._begin(job)
        call = bumped(job)
        at, volume = moment(last.at).timestamp(), last.tank.value if last.tank else 0.0
        if call is not None:
            due = call.seq != self._bump
            self._bump = call.seq
        else:
            moved = volume - self._volume >= HARDLY or self._at == float("-inf")
            every = EVERY if moved else AT_LEAST_EVERY
            due = at - self._at >= every or self._close(volume, job)
        if not due:
            return []
        self._at, self._volume = at, volume
        return [_fields(last)]

    def _begin(self, job: Job) -> None:
        total = figure(job, "displacement_to_collar").value
        self._calculated = None if total is None else float(total)
        self._zero, self._at, self._volume = (
            (job.zeroed.seq if job.zeroed else 0),
            float("-inf"),
            0.0,
        )

    def _close(self, volume: float, job: Job) -> bool:
        limit = job.known.limit("over_displacement")
        if self._calculated is None or limit is None or volume < self._calculated:
            return False
        return volume - self._volume >= limit.value / _PARTS_OF_LIMIT


def _fields(last: PumpReading) -> Mapping[str, Any]:
    """Return the fields of an entry; each value is what its text says."""
    measures = {name: _again(getattr(last, name)) for name in ("tank", "pressure", "rate")}
    return {"at": last.at, "source": last.source, "strokes": last.strokes, **measures}


def _again(measure: Measure | None) -> Measure | None:
    return None if measure is None else read(measure.text, measure.quantity)
