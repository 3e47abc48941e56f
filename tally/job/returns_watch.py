"""Returns as they were seen against what the placement expects, so that neither free fall is taken
for losses or flow, nor losses or flow for free fall."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.cement.returns import (
    AS_EXPECTED,
    FULL,
    LESS,
    MORE,
    NONE,
    SEEN_MEANS,
    STANDING,
    TOO_LITTLE,
    TOO_MUCH,
    Bounds,
    Expected,
    compared,
    expected,
    phase,
)
from tally.job.job import PumpReading
from tally.job.placement import Count, Live, stopped

IN_WORDS = {
    FULL: "full",
    MORE: "more than pumped (free fall)",
    LESS: "less (catch-up)",
    NONE: "none (catch-up)",
    STANDING: "none, pump stopped",
}
"""What is expected, in the words of the page."""
FALL_ON = "only what the columns push out, pump stopped"

_ORDER = (NONE, LESS, FULL, MORE)
LIKE_BY_EYE = 0.1
"""A rate of returns within this share of the pump's is full: nobody reads it closer."""
_PARTS = 12


@dataclass(frozen=True, slots=True)
class Called:
    """Returns expected and seen, in words, with the call and what it means.

    `seen` is empty and `call` too where nobody has said how the returns are.
    """

    expected: str
    seen: str
    call: str
    means: str


def called(here: Live, count: Count | None) -> Called:
    """Return what the returns should do where the job is, and what is seen of them."""
    wanted = expected(here.placement, here.pumped)
    told = IN_WORDS[wanted.phase]
    if here.standing:
        wanted, told = _standing(here, wanted)
    if count is None:
        return Called(told, "", "", wanted.means)
    seen, by_volume = seen_phase(count.reading), _by_volume(here, count)
    if by_volume is not None:
        return Called(told, seen or "by volume", by_volume, _means(by_volume, wanted))
    if not seen:
        return Called(told, "", "", wanted.means)
    call = _by_phase(here, count, seen)
    return Called(told, seen, call, _means(call, wanted))


def _standing(here: Live, wanted: Expected) -> tuple[Expected, str]:
    """Return what is due while the pump stands: what the columns do, and that in words."""
    now = here.now
    due = replace(wanted, phase=phase(0.0, now.returns), rate=now.returns)
    return due, FALL_ON if due.phase == MORE else IN_WORDS[due.phase]


def seen_phase(reading: PumpReading) -> str:
    """Return how the returns were at a reading: as said, else by their rate."""
    if reading.returns_seen:
        return reading.returns_seen
    if reading.returns is None or reading.rate is None:
        return ""
    rate, back = reading.rate.value, reading.returns.value
    if rate > 0 and abs(back - rate) <= LIKE_BY_EYE * rate:
        return FULL
    found = phase(rate, back)
    return NONE if found == STANDING else found


def _by_volume(here: Live, count: Count) -> str | None:
    """Return the call on the volume that has come back since the zero."""
    if count.reading.returned is None:
        return None
    before = here.placement.at(here.zero).returned
    at = here.zero + count.volume
    return compared(here.placement, at, before + count.reading.returned.value).word


def _by_phase(here: Live, count: Count, seen: str) -> str:
    """Return the call on a phase: it may be any that is due a little earlier or later."""
    at, early = here.zero + count.volume, Bounds().early
    if stopped(count.reading):  # all of nothing pumped is none
        fall_on = any(each.returns > 0 for each in here.placement.standing(at))
        return TOO_MUCH if seen == MORE and not fall_on else AS_EXPECTED
    due = {
        phase_due
        for part in range(-_PARTS, _PARTS + 1)
        for phase_due in _phases(here, at + early * part / _PARTS)
    }
    ranks = [_ORDER.index(NONE if each == STANDING else each) for each in due]
    rank = _ORDER.index(seen)
    if rank < min(ranks):
        return TOO_LITTLE
    return TOO_MUCH if rank > max(ranks) else AS_EXPECTED


def _phases(here: Live, at: float) -> set[str]:
    """Return the phase due at a volume, and that which it may look like."""
    moment, due = here.placement.at(at), expected(here.placement, at).phase
    near = abs(moment.returns - moment.rate) <= LIKE_BY_EYE * moment.rate
    return {due, FULL} if near and moment.rate > 0 else {due}


def _means(call: str, wanted: Expected) -> str:
    return wanted.means if call == AS_EXPECTED else SEEN_MEANS[call]
