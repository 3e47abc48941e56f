"""The placement against a plain time march that shares nothing with it but one fluid's friction."""

from itertools import pairwise
from random import Random

import pytest

from tally.cement.predict import predict
from tests.tally.cement.jobs import drawn

STEP = 3.0
"""[s]; the march is of first order, and falls from an opened plug last half a minute."""

SHORT = (2, 13, 16, 18)
LONG = tuple(range(60))


@pytest.mark.parametrize(
    "seeds", [SHORT, pytest.param(LONG, marks=pytest.mark.long)], ids=["few", "many"]
)
def test_peak_within_one_percent_and_volumes_within_a_thousandth(seeds):
    apart = {seed: _apart(seed) for seed in seeds}
    assert {seed: each for seed, each in apart.items() if each} == {}


def _apart(seed):
    """Return what of a job drawn with the seed lies too far from the march."""
    made = drawn(Random(seed))
    record, job = made.marched(STEP), predict(made.plan())
    peak = max(reading.pressure for reading in record)
    moments = [job.at_time(reading.time) for reading in record]
    returned = max(abs(m.returned - r.returns) for m, r in zip(moments, record, strict=True))
    jumps = [event.time for event in job.events]
    jumps += [now for before, now in pairwise(job.time) if now == before]
    pressure = max(
        abs(m.pressure - r.pressure)
        for m, r in zip(moments, record, strict=True)
        if r.rate > 0 and all(abs(r.time - jump) > 3 * STEP for jump in jumps)
    )
    far = {
        "peak": abs(max(job.pressure) - peak) > 0.01 * peak,
        "pressure on the way": pressure > 0.01 * peak,
        "returned": returned > 0.001 * record[-1].volume,
        "volume at the bump": abs(job.volume[-1] - record[-1].volume) > 1e-6,
    }
    return [name for name, too_far in far.items() if too_far]


def test_the_march_of_shorter_steps_comes_nearer():
    """What lies between the two is the march's own step: it shrinks with it."""
    made = drawn(Random(5))
    job = predict(made.plan())

    def apart(step):
        return max(abs(job.at_time(r.time).returned - r.returns) for r in made.marched(step))

    assert apart(1.5) < 0.4 * apart(6.0)
