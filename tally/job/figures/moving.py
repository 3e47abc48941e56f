"""Figures of the pipe while it is moved up and down."""

from __future__ import annotations

from math import pi

from tally.job.figures.lowering import fastest_lowering, fastest_pulling
from tally.job.figures.model import Figure, Missing, live, on, read_off
from tally.job.job import Job
from tally.job.running_records import Moved


@live("moving_speed", "Greatest speed of the pipe while it is moved")
def moving_speed(job: Job) -> Figure:
    """Return the speed in the middle of a stroke, the blocks going up and down like a pendulum."""
    moved = _moving(job)
    where = f"entry {moved.seq}"
    stroke, times = (
        read_off("stroke", moved.stroke, where),
        read_off("times up and down a minute", moved.strokes, where),
    )
    value = pi * float(stroke.value or 0.0) * float(times.value or 0.0)
    return Figure(value, "velocity", "pi x stroke x times up and down", (stroke, times))


@live("moving_left", "Highest speed up or down, over that of the pipe while it is moved")
def moving_left(job: Job) -> Figure:
    """Return how far the pipe is from the speed that breaks a limit; below zero it is past it."""
    speed = on(moving_speed(job))
    down, up = fastest_lowering(job), fastest_pulling(job)
    known = [on(each) for each in (down, up) if each.value is not None]
    if not known:
        raise Missing(down.missing)
    least = min(float(each.value or 0.0) for each in known)
    value = least - float(speed.value or 0.0)
    how = "least of the highest running and pulling speeds - greatest speed while moved"
    return Figure(value, "velocity difference", how, (speed, *known))


def _moving(job: Job) -> Moved:
    if job.moved is None or job.moved.stopped:
        raise Missing("The pipe is not moved by the book.")
    return job.moved
