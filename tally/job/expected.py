"""What a step expects, and how what was seen stands to it."""

from __future__ import annotations

from dataclasses import dataclass

from tally.errors import InputError
from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.limits import LIMITS
from tally.steps.model import Checklist, Step
from tally.units import read

AGREES = "agrees"
OUTSIDE = "outside"
UNKNOWN = ""


@dataclass(frozen=True, slots=True)
class Expected:
    """The expected value of a step, [SI], the band around it, and where it comes from."""

    value: float
    band: float | None
    text: str
    origin: str


def expected(job: Job, plan: Checklist, step: Step) -> Expected | None:
    """Return what a step expects; nothing where it expects nothing or the job cannot tell yet."""
    kind, _, name = step.expect.partition(":")
    if not name:
        return None
    band = _limit(job, step.within.partition(":")[2])
    found = {"limit": _from_limit, "figure": _from_figure}.get(kind)
    value = found(job, name) if found else _from_step(job, plan, name)
    if value is None:
        return None
    return Expected(value[0], band, value[1], value[2])


def verdict(job: Job, plan: Checklist, step: Step, state: str, value: str) -> str:
    """Return agrees, outside, or nothing where there is nothing to hold it against."""
    if step.want == "state":
        return UNKNOWN if not state else AGREES if state in step.good else OUTSIDE
    want = expected(job, plan, step)
    if step.want != "value" or not value or want is None:
        return UNKNOWN
    seen = step_value(step, value)
    inside = {
        "agrees": want.band is None or abs(seen - want.value) <= want.band * (1 + 1e-9),
        "at least": seen >= want.value * (1 - 1e-9),
        "at most": seen <= want.value * (1 + 1e-9),
    }.get(step.compare)
    if inside is None or (step.compare == "agrees" and want.band is None):
        return UNKNOWN
    return AGREES if inside else OUTSIDE


def step_value(step: Step, text: str) -> float:
    """Return the value entered for a step, SI."""
    return read(text, step.quantity).value


def _limit(job: Job, key: str) -> float | None:
    measure = job.known.limit(key) if key in LIMITS else None
    return None if measure is None else measure.value


def _from_limit(job: Job, name: str) -> tuple[float, str, str] | None:
    measure = job.known.limit(name) if name in LIMITS else None
    if measure is None:
        return None
    return measure.value, measure.text, f"limit, {job.known.limits[name].owner}"


def _from_figure(job: Job, name: str) -> tuple[float, str, str] | None:
    try:
        live = figure(job, name)
    except InputError:
        return None
    if live.value is None:
        return None
    return float(live.value), show(job, live.value, live.quantity), "calculated"


def _from_step(job: Job, plan: Checklist, step_id: str) -> tuple[float, str, str] | None:
    record = job.steps.get((plan.id, step_id))
    if record is None or not record.value:
        return None
    return step_value(plan.step(step_id), record.value), record.value, "entered above"
