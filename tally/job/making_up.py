"""What a connection is made up to: its torque against the band of the pipe's set-up."""

from __future__ import annotations

from tally.job.job import Item, Job
from tally.units import Measure


def torque_doubt(job: Job, item: Item, torque: Measure | None) -> str:
    """Return how a make-up torque is outside the band of its pipe, or nothing."""
    pipe = job.known.pipe(item.pipe)
    least, most = pipe.torque_minimum, pipe.torque_maximum
    if torque is None:
        return ""
    if least is not None and torque.value < least.value:
        return f"{torque.text} is less than the least make-up torque of this pipe, {least.text}."
    if most is not None and torque.value > most.value:
        return f"{torque.text} is more than the most make-up torque of this pipe, {most.text}."
    return ""


def torque_band(job: Job, item: Item) -> str:
    """Return the make-up torque of a pipe in words: least, optimum, most; nothing if not set."""
    pipe = job.known.pipe(item.pipe)
    named = (
        ("least", pipe.torque_minimum),
        ("optimum", pipe.torque_optimum),
        ("most", pipe.torque_maximum),
    )
    return ", ".join(f"{word} {one.text}" for word, one in named if one)


def most_torque(job: Job, torque: Measure | None) -> str:
    """Return that the whole string is turned harder than a connection of it takes, or nothing."""
    if torque is None:
        return ""
    names = dict.fromkeys(made.pipe for made in job.string)
    bounds = [one for one in (job.known.pipe(name).torque_maximum for name in names) if one]
    least = min(bounds, key=lambda one: one.value, default=None)
    if least is None or torque.value <= least.value:
        return ""
    return f"{torque.text} is more than the most make-up torque of the string, {least.text}."
