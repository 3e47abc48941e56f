"""Waiting on cement: since when, by which rules, for how long, and what is in doubt about it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import ceil

from tally.cement.waiting import StrengthCurve, Wait, longest, wait_of
from tally.errors import Missing
from tally.job.entry import seconds_between
from tally.job.gates import DONE
from tally.job.job import Job, StepRecord
from tally.job.setup import StrengthReading, WaitingRule
from tally.units import Measure

BUMPED = "bumped"
HABIT = "12 to 24 h is common habit and clears nothing."
MINUTE, HOUR = 60, 3600


@dataclass(frozen=True, slots=True)
class InPlace:
    """When the cement was in place, and how that is known."""

    at: str
    how: str


@dataclass(frozen=True, slots=True)
class Cured:
    """The laboratory's readings that count, and at what they were cured."""

    curve: StrengthCurve
    slurry: str
    temperature: Measure | None
    doubt: str


@dataclass(frozen=True, slots=True)
class Waited:
    """One rule, and what it comes to."""

    rule: WaitingRule
    wait: Wait

    def left(self, gone: float) -> float | None:
        """Return what is left of it, [s], once so much has gone; nothing where it is not known."""
        return None if self.wait.time is None else max(0.0, self.wait.time - gone)


def in_place(job: Job) -> InPlace | None:
    """Return since when the cement is in place: the bump, or the end of displacement without one.

    A bump that was passed over has no time of its own; then the last reading of the displacement
    counts, or the entry that passed it over where nothing was read.
    """
    found = _record(job)
    if found is None:
        return None
    record, good = found
    if record.outcome != DONE:
        last = job.pumped[-1].at if job.pumped else record.at
        return InPlace(last, "end of displacement; no bump was entered")
    if not record.state:
        return InPlace(record.at, "bump called; what was seen is not told yet")
    how = "bump" if record.state in good else f"end of displacement: {record.state}"
    return InPlace(record.at, how)


def hours(seconds: float) -> str:
    """Return a time of waiting in hours and minutes, rounded up to the minute.

    >>> hours(41_100), hours(43_200), hours(59), hours(2160)
    ('11 h 25 min', '12 h', '1 min', '36 min')
    """
    minutes = ceil(seconds / MINUTE - 1e-6)
    whole, rest = divmod(minutes, HOUR // MINUTE)
    parts = [f"{whole} h" if whole else "", f"{rest} min" if rest or not whole else ""]
    return " ".join(part for part in parts if part)


def _record(job: Job) -> tuple[StepRecord, tuple[str, ...]] | None:
    for (list_id, step_id), record in job.steps.items():
        if step_id == BUMPED and list_id in job.lists:
            return record, job.lists[list_id].step(step_id).good
    return None


def gone(job: Job, now: str) -> float | None:
    """Return how long the cement has been in place, [s]; nothing before that."""
    since = in_place(job)
    return None if since is None else max(0.0, seconds_between(since.at, now))


def cured(job: Job) -> Cured | None:
    """Return the laboratory's readings at the coldest curing; nothing where there are none.

    Cement sets slowest where it is coldest, so that of several curings the coldest counts. Of
    several slurries without temperatures the one that is weakest at its last reading counts.
    """
    readings = job.known.strengths
    if not readings:
        return None
    curves: dict[tuple[str, float | None], list[StrengthReading]] = defaultdict(list)
    for one in readings:
        curves[one.fluid, one.temperature.value if one.temperature else None].append(one)
    chosen = min(curves.values(), key=_slowest)
    curve = StrengthCurve(tuple((one.time.value, one.strength.value) for one in chosen))
    temperature = chosen[0].temperature
    return Cured(curve, chosen[0].fluid, temperature, _doubt(job, temperature))


def _slowest(readings: list[StrengthReading]) -> tuple[float, float]:
    cured_at = readings[0].temperature
    rate = readings[-1].strength.value / readings[-1].time.value
    return (cured_at.value if cured_at else float("inf")), rate


def _doubt(job: Job, temperature: Measure | None) -> str:
    """Return why the readings may not stand for the coldest point, or nothing."""
    coldest = job.known.waiting.coldest
    if coldest is None:
        return "The coldest point that matters is not in the job set-up."
    if temperature is None:
        return "The readings do not say at what temperature they were cured."
    if temperature.value > coldest.value + 1e-6:
        return (
            f"The readings were cured at {temperature.text}, warmer than the coldest point, "
            f"{coldest.text}: there the cement sets later than this."
        )
    return ""


def picked(job: Job) -> tuple[WaitingRule, ...]:
    """Return the rules confirmed for the place; raise Missing where nobody has."""
    if job.picked is None:
        raise Missing("No waiting rule is confirmed for the place yet.")
    return job.picked.rules


def waits(job: Job) -> tuple[Waited, ...]:
    """Return what each confirmed rule comes to, and the job's own limit where it has one."""
    lab = cured(job)
    curve = lab.curve if lab else None
    return tuple(
        Waited(
            rule,
            wait_of(
                rule.time.value if rule.time else None,
                rule.strength.value if rule.strength else None,
                rule.need,
                curve,
            ),
        )
        for rule in (*picked(job), *_own_limit(job))
    )


def _own_limit(job: Job) -> tuple[WaitingRule, ...]:
    """Return the time that the limits of the job ask for, as one rule more."""
    limit = job.known.limit("waiting_time")
    if limit is None:
        return ()
    owner = job.known.limits["waiting_time"].owner
    return (WaitingRule(name="limit-of-the-job", place="this job", clause=owner, time=limit),)


def governing(found: tuple[Waited, ...]) -> Waited:
    """Return the rule that asks for the longest; one that cannot be told comes before all."""
    place = longest([each.wait for each in found])
    if place is None:
        raise Missing("No waiting rule is confirmed for the place yet.")
    return found[place]
