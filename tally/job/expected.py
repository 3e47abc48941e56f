"""What a step expects, and how what was seen stands to it."""

from __future__ import annotations

from dataclasses import dataclass

from tally.errors import InputError
from tally.job.figures import TALLY, figure, show
from tally.job.job import Job
from tally.job.limits import LIMITS
from tally.steps.model import Checklist, Step
from tally.units import Measure, read

AGREES = "agrees"
OUTSIDE = "outside"
UNKNOWN = ""
BESIDE = {"lift-compared": ("lift_conditioning", "lifting_pressure")}
"""Figures that a step at which something is only seen is judged by, by the id of the step."""
_KIN = {"strokes": "count"}
"""Quantities that are counted alike."""

Found = tuple[str, float, str, str]
"""Quantity, value [SI], the value in words, and where it comes from."""


@dataclass(frozen=True, slots=True)
class Expected:
    """The expected value of a step, [SI], the band around it, and where it comes from."""

    value: float
    band: float | None
    text: str
    origin: str


def expected(job: Job, plan: Checklist, step: Step) -> Expected | None:
    """Return what a step expects; nothing where it expects nothing or the job cannot tell yet.

    At a step where something is seen it is the figures that this is judged by, in words. A limit
    or figure of another quantity than the step's is nothing to hold a value against.
    """
    if step.want == "state":
        return _beside(job, step)
    kind, _, name = step.expect.partition(":")
    if not name:
        return None
    source = {"limit": _from_limit, "figure": _from_figure}.get(kind)
    found = source(job, name) if source else _from_step(job, plan, name)
    if found is None or _KIN.get(found[0], found[0]) != _KIN.get(step.quantity, step.quantity):
        return None
    band = _limit(job, step.within.partition(":")[2])
    inside = None if band is None or band.quantity != step.quantity else band.value
    return Expected(found[1], inside, found[2], found[3])


def _beside(job: Job, step: Step) -> Expected | None:
    """Return the figures that what is seen is judged by; what one of them lacks, in a sentence."""
    found = [figure(job, key) for key in BESIDE.get(step.id, ())]
    told = [
        f"{each.label[0].lower()}{each.label[1:]} {show(job, each.value, each.quantity)}"
        for each in found
        if each.value is not None
    ]
    lacks = dict.fromkeys(each.missing for each in found if each.value is None)
    told += [f"not worked out: {lack.rstrip('.')}" for lack in lacks]
    return Expected(0.0, None, "; ".join(told), "calculated") if told else None


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


def _limit(job: Job, key: str) -> Measure | None:
    return job.known.limit(key) if key in LIMITS else None


def _from_limit(job: Job, name: str) -> Found | None:
    measure = _limit(job, name)
    if measure is None:
        return None
    origin = f"limit, {job.known.limits[name].owner}"
    return measure.quantity, measure.value, measure.text, origin


def _from_figure(job: Job, name: str) -> Found | None:
    try:
        live = figure(job, name)
    except InputError:
        return None
    if live.value is None:
        return None
    text = show(job, live.value, live.quantity)
    if live.quantity == TALLY:
        return "length", job.known.step.si(int(live.value)), text, "calculated"
    return live.quantity, float(live.value), text, "calculated"


def _from_step(job: Job, plan: Checklist, step_id: str) -> Found | None:
    record = job.steps.get((plan.id, step_id))
    if record is None or not record.value:
        return None
    try:
        earlier = plan.step(step_id)
        return earlier.quantity, step_value(earlier, record.value), record.value, "entered above"
    except InputError:
        return None
