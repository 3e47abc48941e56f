"""The weights to expect against depth: the string as run, and as the running list goes on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from tally.errors import Missing
from tally.job.counts import coming
from tally.job.depths import stick_up
from tally.job.geometry import drag_of, piece_of, string_pieces
from tally.job.job import Job
from tally.job.running_records import WeightReading
from tally.job.setup import Setup
from tally.string.band import expected_band
from tally.string.columns import column
from tally.string.drag import Weights
from tally.string.pieces import StringPiece, merged
from tally.units import from_unit

ROWS = 10
"""Depths that a person wants to see at once."""

NICE = (1, 2, 5)
"""Depths are told in steps of these and their tenfolds."""


def weight_band(job: Job, depths: Sequence[float]) -> tuple[Weights, ...]:
    """Return the weights on the indicator with the shoe at each depth [m], the pipe full.

    The string is that run so far with what the running list has still to come on top of it, cut
    off at the stick-up. Raises Missing where a weight or friction factor is not set up.
    """
    require_weights(job.known)
    return _band(job, whole_string(job), depths, -_top(job))


def expected_then(job: Job, reading: WeightReading) -> Weights:
    """Return the weights to expect where the indicator was read, as the pipe was filled then."""
    require_weights(job.known)
    shoe = job.known.step.si(reading.shoe)
    level = min(shoe, reading.empty - _top(job))
    return _band(job, whole_string(job), [shoe], level)[0]


def _band(
    job: Job, pieces: Sequence[StringPiece], depths: Sequence[float], level: float
) -> tuple[Weights, ...]:
    setup = job.known
    mud, block = setup.pumping.mud_weight.value, setup.weights.block_weight
    inside = column(mud, level)
    weight = block.value if block else 0.0
    return expected_band(drag_of(setup), pieces, depths, inside, column(mud), weight, -_top(job))


def whole_string(job: Job) -> tuple[StringPiece, ...]:
    """Return what is run and what the running list has still to come, from the shoe up."""
    setup = job.known
    still = (
        piece_of(setup.pipe(name), setup.step.si(sum(item.length for item in items)))
        for name, items in groupby(coming(job), key=lambda item: item.pipe)
    )
    return merged([*string_pieces(job), *still])


def depths_ahead(job: Job, most: int = ROWS) -> tuple[float, ...]:
    """Return round depths from the shoe to the casing point, and that point, [m].

    Where the pipe listed does not reach so far, the last one is as far as it reaches.
    """
    step = job.known.step
    reach = sum(piece.length for piece in whole_string(job)) - _top(job)
    now = step.si(job.length) - _top(job)
    last = min(reach, job.known.hole.casing_point.value)
    if last <= now:
        return (now,)
    unit = from_unit(1.0, step.unit)
    apart = unit * _round_up((last - now) / unit / max(1, most - 2))
    first = int(now / apart) + 1
    between = (apart * place for place in range(first, first + most))
    return (now, *(depth for depth in between if depth < last - 0.1 * apart), last)


def _round_up(number: float) -> float:
    """Return the next number of 1, 2 or 5 and noughts.

    >>> [_round_up(number) for number in (0.3, 1.0, 120.0, 380.0, 600.0)]
    [1, 1, 200, 500, 1000]
    """
    tens = 1
    while True:
        for nice in NICE:
            if nice * tens >= number:
                return nice * tens
        tens *= 10


def _top(job: Job) -> float:
    return job.known.step.si(stick_up(job))


def require_weights(setup: Setup) -> None:
    """Refuse a set-up that lacks what the indicator is worked out with."""
    weights = setup.weights
    wanted = [("Block weight", weights.block_weight)]
    if setup.previous is not None:
        wanted.append(("Friction factor in casing", weights.friction_cased))
    wanted.append(("Friction factor in open hole", weights.friction_open))
    for name, measure in wanted:
        if measure is None:
            raise Missing(f"{name} is not in the job set-up.")
