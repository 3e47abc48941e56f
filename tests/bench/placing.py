"""Our side and the march's of a cementing job predicted."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager

from tally.cement.predict import predict
from tally.fluids.flow_curve import FlowCurve
from tally.pipe.capacity import pipe_capacity
from tests.bench.ratio import Sample
from tests.tally.cement.jobs import BARREL, INCH, MINUTE, POUND_A_GALLON, Made, Stretch


def cementing(barrels: float) -> Made:
    """Return a job of five fluids with free fall that is so many barrels to the bump."""
    share = barrels / 900
    fluids = (
        ("preflush", 8.4, 1.0, 0.005, 20, 6),
        ("spacer", 11.5, 4.0, 0.025, 50, 6),
        ("lead", 12.8, 4.0, 0.03, 160, 7),
        ("tail", 15.8, 6.0, 0.06, 70, 5),
        ("displacement", 10.0, 3.0, 0.015, 600, 8),
    )
    slugs = tuple(
        Stretch(name, pounds * POUND_A_GALLON, FlowCurve(stress, thickness),
                volume * share * BARREL, rate * BARREL / MINUTE)
        for name, pounds, stress, thickness, volume, rate in fluids
    )  # fmt: skip
    outer, inner = 9.625 * INCH, 8.835 * INCH
    collar = 600 * share * BARREL / pipe_capacity(inner)
    shoe = collar + 24.0
    return Made(
        casing=((shoe, outer, inner),),
        hole=((shoe / 3, 12.415 * INCH, 0.0), (shoe + 3, 12.25 * INCH, 0.15)),
        collar=collar,
        mud=(10.0 * POUND_A_GALLON, FlowCurve(5.0, 0.02)),
        slugs=slugs,
        bottom_plugs={2: 2e6},
    )


@contextmanager
def placement(barrels: float) -> Iterator[Sample]:
    """Yield a sample: a whole job worked out in half-barrel steps [s]."""
    plan = cementing(barrels).plan()

    def sample() -> float:
        began = time.perf_counter()
        job = predict(plan, step=BARREL / 2)
        took = time.perf_counter() - began
        if not job.bumped or max(job.empty) < BARREL:
            raise AssertionError("The job that is measured has no free fall or no bump.")
        return took

    yield sample


@contextmanager
def plain_march(barrels: float) -> Iterator[Sample]:
    """Yield a sample: the same job marched plainly in steps of 0.1 minute [s]."""
    made = cementing(barrels)

    def sample() -> float:
        began = time.perf_counter()
        made.marched(step=6.0)
        return time.perf_counter() - began

    yield sample
