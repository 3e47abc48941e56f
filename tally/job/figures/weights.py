"""Figures of weight: what the indicator should show, what may be pulled, what the pipe takes."""

from __future__ import annotations

from tally.job.figures.model import (
    CALCULATED,
    READ,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    live,
    on,
    typed,
)
from tally.job.figures.running import shoe_depth
from tally.job.geometry import drag_of, yield_of
from tally.job.hanging import Hanging, as_it_hangs
from tally.job.job import Job
from tally.job.setup import Pipe
from tally.job.volumes import pipes
from tally.pipe.collapse import collapse_under_tension
from tally.pipe.interval import PipeInterval
from tally.pipe.ratings import body_yield, internal_yield
from tally.string.drag import Weights
from tally.string.pull import PullLimit, least_left
from tally.string.stretch import string_stretch

GOVERNS = "governs"
LEAST = "least_slack_off"
NOT_COUNTED = "not set and not counted"
BODY, CONNECTION = "pipe body", "connection"
ELEVATORS, GEAR = "elevators and spider", "hoisting gear"


def hangs(job: Job) -> Hanging:
    """Return the string as it hangs."""
    if not job.string:
        raise Missing("Nothing is run yet.")
    return as_it_hangs(job)


def as_it_stands(job: Job) -> tuple[Input, ...]:
    """Return the inputs of everything that hangs from the survey, the mud and the fill."""
    stations = len(job.known.survey)
    way = f"{stations} stations" if stations else "none: the hole is taken as vertical"
    return (
        on(shoe_depth(job)),
        Input("survey", way, "text", TYPED, "job set-up"),
        typed("mud weight", job.known.pumping.mud_weight),
        calculated("empty from the top", _empty(job), "length", "figure empty_length"),
        *(typed(f"weight of {pipe.name}", pipe.weight) for pipe in pipes(job)),
    )


def _empty(job: Job) -> float:
    now = hangs(job)
    return now.level - now.pipe[0].top


@live("weight_hanging", "String weight as it is filled")
def weight_hanging(job: Job) -> Figure:
    """Return the weight of the string along the survey, blocks and friction left out."""
    how = "steel + fluid inside - fluid pushed aside, over the true vertical way"
    return Figure(hangs(job).load, "force", how, as_it_stands(job))


@live("slack_off", "Weight expected going down")
def slack_off(job: Job) -> Figure:
    """Return the load that the indicator should show while the string goes down."""
    return _moving(job, expected(job).slack_off, "less")


@live("pick_up", "Weight expected coming up")
def pick_up(job: Job) -> Figure:
    """Return the load that the indicator should show while the string comes up."""
    return _moving(job, expected(job).pick_up, "and")


@live("least_slack_off", "Least weight going down, as set")
def least_slack_off(job: Job) -> Figure:
    """Return the weight below which a named person wants nobody to go on lowering."""
    one = _least(job)
    return Figure(float(one.value or 0.0), "force", "as set", (one,))


@live("slack_off_left", "Weight expected going down, over the least")
def slack_off_left(job: Job) -> Figure:
    """Return how far the weight expected going down is above the least; below zero it is under."""
    down, least = on(slack_off(job)), _least(job)
    value = float(down.value or 0.0) - float(least.value or 0.0)
    how = "weight expected going down - least weight going down"
    return Figure(value, "force difference", how, (down, least))


def _least(job: Job) -> Input:
    setting = job.known.limits.get(LEAST)
    where = f"limits, {setting.owner}" if setting else "limits"
    return typed("least weight going down", job.known.limit(LEAST), where)


def expected(job: Job) -> Weights:
    """Return the loads on the indicator, at rest, going down and coming up."""
    block = frictions(job)[0].value
    assert isinstance(block, float)
    return drag_of(job.known).weights(hangs(job).spans).with_block(block)


def _moving(job: Job, load: float, drag: str) -> Figure:
    how = f"weight along the survey {drag} the drag of a soft string, and the blocks"
    return Figure(load, "force", how, (*as_it_stands(job), *frictions(job)))


def frictions(job: Job) -> tuple[Input, ...]:
    """Return the block weight and the friction factors, as typed."""
    weights, previous = job.known.weights, job.known.previous
    known = [typed("block weight", weights.block_weight)]
    if previous is not None:
        known.append(typed("friction factor in casing", weights.friction_cased))
        known.append(typed("previous shoe", previous.shoe))
    return (*known, typed("friction factor in open hole", weights.friction_open))


@live("greatest_pull", "Greatest pull beyond the weight")
def greatest_pull(job: Job) -> Figure:
    """Return the least of what pipe and gear may carry beyond what they carry, as it hangs."""
    limits, lacking = pull_limits(job)
    least = least_left(limits)
    ratings = tuple(
        Input(each.name, each.strength, "force", CALCULATED, "ratings in the set-up")
        for each in limits
    )
    without = Input(NOT_COUNTED, ", ".join(lacking) or "nothing", "text", TYPED, "job set-up")
    named = Input(GOVERNS, least.name, "text", CALCULATED, "least of the ratings")
    how = "least of (rating x share - weight that it carries)"
    carried = calculated("it carries now", least.carries, "force", "as it hangs")
    share = job.known.weights.tension_share
    shares = (typed("share of the yield", share) if share else _all_of_it(),)
    inputs = (named, carried, *ratings, *shares, without, *as_it_stands(job))
    return Figure(least.left, "force", how, inputs)


def _all_of_it() -> Input:
    return Input("share of the yield", 1.0, "ratio", TYPED, "not in the job set-up, taken in full")


@live("greatest_indicator", "Greatest load on the indicator")
def greatest_indicator(job: Job) -> Figure:
    """Return what the indicator shows when the greatest pull is on the string."""
    block = typed("block weight", job.known.weights.block_weight)
    pull, weight = on(greatest_pull(job)), on(weight_hanging(job))
    value = sum(float(each.value or 0.0) for each in (pull, weight, block))
    how = "weight as filled + greatest pull + blocks"
    return Figure(value, "force", how, (weight, pull, block))


def pull_limits(job: Job) -> tuple[list[PullLimit], list[str]]:
    """Return every member that limits the pull, and the names of those that nobody rated."""
    now, weights = hangs(job), job.known.weights
    share = weights.tension_share.value if weights.tension_share else 1.0
    limits, lacking = [], []
    for pipe in pipes(job):
        body, joined = _body(pipe), pipe.connection_strength
        carries = max(now.below(each.top) for each in now.pipe if _is_of(each, pipe))
        for name, rating in ((BODY, body), (CONNECTION, joined.value if joined else None)):
            called = name if len(job.known.pipes) == 1 else f"{name} of {pipe.name}"
            if rating is None:
                lacking.append(called)
            else:
                limits.append(PullLimit(called, rating * share, carries))
    block = weights.block_weight
    for name, gear, more in (
        (ELEVATORS, weights.elevator_rating, 0.0),
        (GEAR, weights.hoisting_rating if block else None, block.value if block else 0.0),
    ):
        if gear is None:
            lacking.append(name)
        else:
            limits.append(PullLimit(name, gear.value - more, now.load))
    return limits, lacking


def _body(pipe: Pipe) -> float | None:
    strength = yield_of(pipe)
    if strength is None:
        return None
    return body_yield(pipe.outer_diameter.value, pipe.inner_diameter.value, strength)[1]


def _is_of(interval: PipeInterval, pipe: Pipe) -> bool:
    return (interval.outer_diameter, interval.inner_diameter, interval.weight) == (
        pipe.outer_diameter.value,
        pipe.inner_diameter.value,
        pipe.weight.value,
    )


@live("stretch", "Stretch under own weight")
def stretch(job: Job) -> Figure:
    """Return how much longer the string hangs than it was measured."""
    now = hangs(job)
    value = string_stretch(now.pipe, now.inside, now.outside, now.survey)
    how = "strain by the pull and the pressures, summed along the string, without friction"
    return Figure(value, "length", how, as_it_stands(job))


@live("internal_yield_top", "Internal yield, pipe at the top")
def internal_yield_top(job: Job) -> Figure:
    """Return the internal yield pressure of the pipe at the top."""
    return _internal_yield(job, -1)


@live("internal_yield_bottom", "Internal yield, pipe at the bottom")
def internal_yield_bottom(job: Job) -> Figure:
    """Return the internal yield pressure of the pipe at the bottom."""
    return _internal_yield(job, 0)


@live("body_yield_top", "Body yield, pipe at the top")
def body_yield_top(job: Job) -> Figure:
    """Return the body yield of the pipe at the top."""
    return _body_yield(job, -1)


@live("body_yield_bottom", "Body yield, pipe at the bottom")
def body_yield_bottom(job: Job) -> Figure:
    """Return the body yield of the pipe at the bottom."""
    return _body_yield(job, 0)


@live("collapse_top", "Collapse under the pull, pipe at the top")
def collapse_top(job: Job) -> Figure:
    """Return the collapse rating of the pipe at the top, with the weight hanging from it."""
    return _collapse(job, -1, hangs(job).pipe[0])


@live("collapse_bottom", "Collapse under the pull, pipe at the bottom")
def collapse_bottom(job: Job) -> Figure:
    """Return the collapse rating of the pipe at the bottom, with the weight hanging from it."""
    return _collapse(job, 0, hangs(job).pipe[-1])


def _end(job: Job, place: int) -> Pipe:
    if not job.string:
        raise Missing("Nothing is run yet.")
    return job.known.pipe(job.string[place].pipe)


def _graded(pipe: Pipe) -> tuple[float, tuple[Input, ...]]:
    """Return the yield strength of a pipe of a standard grade, and what it was taken from."""
    strength = yield_of(pipe)
    if strength is None:
        raise Missing(
            f"{pipe.name} has no standard grade in the job set-up; its ratings are those of its "
            "data sheet."
        )
    return strength, (
        Input("grade", pipe.grade, "text", TYPED, "job set-up"),
        Input("yield strength", strength, "pressure", READ, "table of grades"),
        typed("outside diameter", pipe.outer_diameter),
        typed("inside diameter", pipe.inner_diameter),
    )


def _internal_yield(job: Job, place: int) -> Figure:
    pipe = _end(job, place)
    strength, inputs = _graded(pipe)
    wall = (pipe.outer_diameter.value - pipe.inner_diameter.value) / 2
    rated = internal_yield(pipe.outer_diameter.value, wall, strength)[1]
    return Figure(rated, "pressure", "internal-yield, as published", inputs)


def _body_yield(job: Job, place: int) -> Figure:
    pipe = _end(job, place)
    strength, inputs = _graded(pipe)
    outer, inner = pipe.outer_diameter.value, pipe.inner_diameter.value
    return Figure(
        body_yield(outer, inner, strength)[1], "force", "body-yield, as published", inputs
    )


def _collapse(job: Job, place: int, hung: PipeInterval) -> Figure:
    pipe = _end(job, place)
    if pipe.collapse_rating is not None:
        rated = typed("collapse rating", pipe.collapse_rating)
        how = "as the data sheet has it, no pull taken off"
        return Figure(pipe.collapse_rating.value, "pressure", how, (rated,))
    strength, inputs = _graded(pipe)
    pull = max(0.0, hangs(job).below(hung.top if place else hung.bottom))
    value = collapse_under_tension(hung.outer_diameter, hung.wall, strength, pull / hung.body)[0]
    carried = calculated("weight below", pull, "force", "as it hangs")
    return Figure(value, "pressure", "collapse-under-tension", (carried, *inputs))
