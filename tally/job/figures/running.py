"""Figures of the string as it is run: its length, its depth, what is to go, the counts."""

from __future__ import annotations

import itertools
from statistics import median

from tally.job import depths
from tally.job.counts import balance
from tally.job.entry import seconds_between
from tally.job.figures.model import (
    CALCULATED,
    TALLY,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    counted,
    live,
    on,
    typed,
)
from tally.job.fittings import installed, wanted
from tally.job.job import Job


@live("string_length", "String length")
def string_length(job: Job) -> Figure:
    """Return the length of everything made up, from the shoe to the top."""
    return Figure(
        job.length,
        TALLY,
        "sum of the lengths run, in whole steps",
        (counted("items run", len(job.string), "entries"),),
    )


@live("shoe_depth", "Shoe depth")
def shoe_depth(job: Job) -> Figure:
    """Return the depth of the shoe below the datum."""
    if not job.string:
        raise Missing("Nothing is run yet.")
    where = f"entry {job.landing.seq}" if job.landing else "job set-up, usual stick-up"
    return Figure(
        depths.shoe_depth(job),
        TALLY,
        "string length - stick-up",
        (on(string_length(job)), Input("stick-up", depths.stick_up(job), TALLY, TYPED, where)),
    )


@live("to_go", "To go to the casing point")
def to_go(job: Job) -> Figure:
    """Return how far the shoe still is above the casing point."""
    point = job.known.hole.casing_point
    return Figure(
        depths.to_go(job),
        TALLY,
        "casing point - shoe depth",
        (
            typed("casing point", point),
            calculated("shoe depth", depths.shoe_depth(job), TALLY, "figure shoe_depth"),
        ),
    )


@live("joints_to_go", "Joints to go")
def joints_to_go(job: Job) -> Figure:
    """Return the joints still needed to bring the shoe to the casing point."""
    return _joints(job, depths.joints_to_go(job)[0])


@live("joints_spare", "Joints to spare")
def joints_spare(job: Job) -> Figure:
    """Return the joints listed that will be left over; below nothing they are short."""
    return _joints(job, depths.joints_to_go(job)[1])


def _joints(job: Job, value: int) -> Figure:
    left = balance(job).left
    if not left.count and not job.joints_run:
        raise Missing("No joint is counted in yet.")
    return Figure(
        value,
        "count",
        "lengths in the running order, added until the casing point is reached",
        (
            calculated("to go", depths.to_go(job), TALLY, "figure to_go"),
            counted("joints left on rack", left.count, "entries"),
            Input("their length", left.length, TALLY, TYPED, "pipe list"),
        ),
    )


@live("joints_run", "Joints run")
def joints_run(job: Job) -> Figure:
    """Return the joints in the string."""
    return Figure(job.joints_run, "count", "joints in the string", _counts(job))


@live("joints_left", "Joints left on rack")
def joints_left(job: Job) -> Figure:
    """Return the joints on the rack by the book."""
    return Figure(balance(job).left.count, "count", "joints on the rack", _counts(job))


@live("balance_difference", "Balance of the joints")
def balance_difference(job: Job) -> Figure:
    """Return run + left + rejected + laid down, less on location; it must be nothing."""
    return Figure(
        balance(job).difference.count,
        "count",
        "run + left on rack + rejected + laid down - on location",
        _counts(job),
    )


def _counts(job: Job) -> tuple[Input, ...]:
    sums = balance(job)
    named = {
        "on location": sums.on_location,
        "run": sums.run,
        "left on rack": sums.left,
        "rejected": sums.rejected,
        "laid down": sums.laid_down,
    }
    return tuple(counted(name, share.count, "entries") for name, share in named.items())


@live("mean_joint", "Mean length of the joints run")
def mean_joint(job: Job) -> Figure:
    """Return the mean length of the joints in the string."""
    lengths = [made.length for made in job.string if made.joint]
    if not lengths:
        raise Missing("No joint is run yet.")
    return Figure(
        round(sum(lengths) / len(lengths)),
        TALLY,
        "length of the joints run / joints run",
        (
            calculated("length of the joints run", sum(lengths), TALLY, "entries"),
            counted("joints run", len(lengths), "entries"),
        ),
    )


@live("pace", "Time from item to item, over the last ten")
def pace(job: Job) -> Figure:
    """Return the middle one of the last ten times from item to item; one long stop is no pace."""
    last = job.string[-11:]
    gaps = [seconds_between(one.at, two.at) for one, two in itertools.pairwise(last)]
    middle = median(gaps) if gaps else 0.0
    if middle <= 0:
        raise Missing("Two items with their times are wanted for a pace.")
    return Figure(
        middle,
        "time",
        "median of the times between",
        (
            counted("items between", len(gaps), "entries"),
            calculated("time between, in all", sum(gaps), "time", "entries"),
        ),
    )


@live("time_to_depth", "Time to the casing point at this pace, from the last item")
def time_to_depth(job: Job) -> Figure:
    """Return the pace times the joints that the list still needs; long stops are not foreseen."""
    if job.landing is not None:
        raise Missing("The string is on depth.")
    each = pace(job)
    needed, spare = depths.joints_to_go(job)
    if spare < 0:
        raise Missing("The pipe listed does not reach the casing point.")
    return Figure(
        float(each.value or 0.0) * needed,
        "time",
        "time from item to item x joints still needed",
        (on(each), calculated("joints still needed", needed, "count", "running list")),
    )


@live("fittings_installed", "Centralizers and scratchers installed")
def fittings_installed(job: Job) -> Figure:
    """Return how many pieces are installed, beside those the programme wants so far."""
    have, want = installed(job), wanted(job)
    inputs = [counted("items run", len(job.string), "entries")]
    inputs += [counted(f"{what}, installed", number, "entries") for what, number in have.items()]
    inputs += [
        Input(f"{what}, wanted so far", n, "count", CALCULATED, "programme in the set-up")
        for what, n in want.items()
    ]
    return Figure(sum(have.values()), "count", "pieces noted on the items run", tuple(inputs))


@live("collar_depth", "Float collar depth")
def collar_depth(job: Job) -> Figure:
    """Return the depth of the top of the collar on which the plugs land."""
    made = depths.collar(job)
    if made is None:
        raise Missing("No collar is in the string yet.")
    return Figure(
        depths.shoe_depth(job) - made.top,
        TALLY,
        "shoe depth - length from the shoe up to the top of the collar",
        (
            on(shoe_depth(job)),
            calculated("length up to the collar's top", made.top, TALLY, "items run"),
        ),
    )
