"""The trip tank against the string: what it should have gained and what it gained."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.job.job import Job
from tally.job.running_records import TankLevel


@dataclass(frozen=True, slots=True)
class TankCheck:
    """What the tank should have gained, what it gained, and over how many items."""

    expected: float
    seen: float
    items: int
    limit: float | None
    since: str = ""
    """What the check counts from."""

    @property
    def difference(self) -> float:
        """Seen less expected; above nothing is a gain, below nothing a loss."""
        return self.seen - self.expected

    @property
    def agrees(self) -> bool | None:
        """Whether the difference is inside its limit; nothing where no limit is set."""
        return None if self.limit is None else abs(self.difference) <= self.limit


def last_reading(job: Job) -> TankCheck | None:
    """Return the check of the last reading against the one before it."""
    if len(job.tank) < 2 or job.tank[-1].mark:
        return None
    return _check(job, job.tank[-2:], "tank_difference", "the reading before")


def since_mark(job: Job) -> TankCheck | None:
    """Return the check of all readings since the total was started anew, else since the first.

    Each emptying or filling of the tank is passed over.
    """
    levels = _levels_since(job)
    if all(level.mark for level in levels[1:]):
        return None
    return _check(job, levels, "tank_total", _since(levels))


@dataclass(frozen=True, slots=True)
class TankLook:
    """A reading with what was expected and seen since the one before, [m^3]; none at a mark.

    `out` is seen less expected since the total was started anew.
    """

    level: TankLevel
    expected: float | None
    seen: float | None
    out: float


def looks(job: Job) -> tuple[TankLook, ...]:
    """Return every reading of the trip tank with what it makes of the one before.

    Over an emptying or filling of the tank `out` stays what it was; where the total is started
    anew it is nothing, whatever the reading says of the one before.
    """
    out, found = 0.0, [TankLook(level, None, None, 0.0) for level in job.tank[:1]]
    for before, after in pairwise(job.tank):
        expected = seen = None
        if not after.mark:
            expected, seen = _expected(before, after), after.volume.value - before.volume.value
            out += seen - expected
        out = 0.0 if after.since else out
        found.append(TankLook(after, expected, seen, out))
    return tuple(found)


def looks_since(job: Job) -> tuple[TankLook, ...]:
    """Return the readings since the total was started anew, the first of them with nothing out."""
    found = looks(job)
    return found[len(found) - len(_levels_since(job)) :]


def mark(job: Job) -> str:
    """Return what the total of the trip tank counts from."""
    return _since(_levels_since(job))


def _levels_since(job: Job) -> Sequence[TankLevel]:
    """Return the readings from the one at which the total was started anew, else all of them."""
    starts = [place for place, level in enumerate(job.tank) if level.since]
    return job.tank[starts[-1] :] if starts else job.tank


def _since(levels: Sequence[TankLevel]) -> str:
    return (levels[0].since if levels else "") or "the first reading"


def _check(job: Job, levels: Sequence[TankLevel], limit: str, since: str) -> TankCheck:
    pairs = [pair for pair in pairwise(levels) if not pair[1].mark]
    bound = job.known.limit(limit)
    return TankCheck(
        expected=sum(_expected(*pair) for pair in pairs),
        seen=sum(pair[1].volume.value - pair[0].volume.value for pair in pairs),
        items=sum(pair[1].items - pair[0].items for pair in pairs),
        limit=None if bound is None else bound.value,
        since=since,
    )


def _expected(before: TankLevel, after: TankLevel) -> float:
    return (after.displaced - before.displaced) - (after.drawn - before.drawn)


def tank_question(before: Job, after: Job) -> str:
    """Return how the last reading of the tank is outside a limit, in sentences, or nothing.

    The total asks at the reading with which it goes outside, not again at each one after it.
    """
    last, total = last_reading(after), since_mark(after)
    told = [_outside(after, last)] if last and last.agrees is False else []
    was = since_mark(before)
    if total and total.agrees is False and (was is None or was.agrees is not False):
        told.append(_outside(after, total))
    return " ".join(told)


def call(check: TankCheck) -> str:
    """Return gain or loss where a check is outside its limit, or nothing."""
    if check.agrees is not False:
        return ""
    return "gain" if check.difference > 0 else "loss"


def _outside(job: Job, check: TankCheck) -> str:
    shown = job.known.shown
    apart = shown.show(abs(check.difference), "volume")
    limit = shown.show(check.limit or 0.0, "volume")
    return (
        f"The trip tank shows a {call(check)} of {apart} since {check.since}; the limit is "
        f"{limit}. Check the flow."
    )
