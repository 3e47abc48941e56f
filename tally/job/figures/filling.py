"""Figures of filling: how many joints may be run before it, and what the empty pipe bears."""

from __future__ import annotations

from tally.job import volumes
from tally.job.counts import next_item
from tally.job.figures.model import (
    CALCULATED,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    counted,
    live,
    typed,
)
from tally.job.figures.volumes import hole_inputs, let_in_by, pipe_inputs
from tally.job.figures.weights import GOVERNS, as_it_stands, hangs
from tally.job.geometry import hole_of, piece_of
from tally.job.hanging import Hanging
from tally.job.job import Job
from tally.string.filling import FillLimits, FillState, Standing, joints_to_limit, standing
from tally.string.pieces import StringPiece
from tally.units import Measure

AHEAD = 40
"""Joints looked ahead where nothing governs sooner."""

LEVELS_MEET = "the levels come to rest where what the annulus loses fills the pipe"

OPEN_ENDED = "nothing"
"""How the answer begins where no limit breaks so soon."""


@live("fill_joints", "Joints to run before filling")
def fill_joints(job: Job) -> Figure:
    """Return the joints that may be run before the pipe must be filled, and what governs."""
    state, limits = fill_state(job), fill_limits(job)
    answer = joints_to_limit(state, limits, AHEAD)
    named = answer.governs or f"{OPEN_ENDED} within {AHEAD} joints"
    governs = Input(GOVERNS, named, "text", CALCULATED, "the first limit that breaks")
    share = calculated("enters at the foot", state.self_filled, "ratio", let_in_by(job))
    since = counted("joints run since the fill", state.since_fill, "entries")
    length = calculated("length of a joint", state.joint.length, "length", "the next joint")
    inputs = (governs, since, length, share, *_limit_inputs(job, limits), *as_it_stands(job))
    return Figure(answer.joints, "count", "joints-to-limit, along the survey", inputs)


@live("float_difference", "Pressure difference at the shoe")
def float_difference(job: Job) -> Figure:
    """Return the pressure outside less that inside at the shoe, as the pipe is filled."""
    now = _closed(job)
    outside = now.outside.pressure(now.shoe, now.survey)
    inside = now.inside.pressure(now.shoe, now.survey)
    inputs = (
        calculated("pressure outside", outside, "pressure", "mud weight and survey"),
        calculated("pressure inside", inside, "pressure", "mud weight, fill and survey"),
        *as_it_stands(job),
    )
    how = "column outside less column inside, both to the shoe"
    return Figure(outside - inside, "pressure", how, inputs)


@live("annulus_falls", "Annulus falls if the float lets go")
def annulus_falls(job: Job) -> Figure:
    """Return how far the annulus falls if the float lets go, as the pipe is filled."""
    return Figure(_let_go(job).fall, "length", LEVELS_MEET, _let_go_inputs(job))


@live("annulus_loses", "Annulus loses if the float lets go")
def annulus_loses(job: Job) -> Figure:
    """Return the pressure that the annulus loses if the float lets go, as the pipe is filled."""
    return Figure(_let_go(job).fall_pressure, "pressure", LEVELS_MEET, _let_go_inputs(job))


def _let_go(job: Job) -> Standing:
    return standing(fill_state(job), FillLimits(), 0)


def _let_go_inputs(job: Job) -> tuple[Input, ...]:
    return (*hole_inputs(job), *pipe_inputs(job), *as_it_stands(job))


def _closed(job: Job) -> Hanging:
    if not job.known.filling.closed_end:
        raise Missing("The pipe runs in with its end open and fills itself.")
    now = hangs(job)
    if now.shoe <= 0:
        raise Missing("The shoe is not below the datum yet.")
    return now


def fill_state(job: Job) -> FillState:
    """Return the string as it hangs before the next joint."""
    now, mud = _closed(job), job.known.pumping.mud_weight.value
    return FillState(
        now.pieces,
        _next_joint(job),
        now.shoe,
        now.survey,
        hole_of(job.known),
        mud,
        mud,
        empty=min(now.shoe, max(0.0, now.level)),
        since_fill=_since_fill(job),
        self_filled=volumes.entering(job),
    )


def _next_joint(job: Job) -> StringPiece:
    """Return the joint that is due; where none is, the last one run stands for it."""
    due = next_item(job)
    run = (made for made in reversed(job.string) if made.joint)
    found = due if due is not None and due.kind == "joint" else next(run, None)
    if found is None:
        raise Missing("No joint is run yet.")
    return piece_of(job.known.pipe(found.pipe), job.known.step.si(found.length))


def _since_fill(job: Job) -> int:
    filled = job.fills[-1].seq if job.fills else 0
    count = 0
    for made in reversed(job.string):
        if made.seq <= filled:
            break
        count += bool(made.joint)
    return count


def fill_limits(job: Job) -> FillLimits:
    """Return what must hold while the pipe is not filled; None where nobody set it."""
    filling, slips = job.known.filling, _slip_load(job)
    fall = job.known.limit("annulus_fall")
    return FillLimits(
        filling.design_factor.value if filling.design_factor else 1.0,
        filling.float_rating.value if filling.float_rating else None,
        filling.interval,
        slips.value if slips else None,
        fall.value if fall else None,
    )


def _slip_load(job: Job) -> Measure | None:
    """Return the least weight that holds the slips; a string too light when full is left out."""
    least = job.known.limit("slip_load")
    return least if least is not None and hangs(job).filled_up().load >= least.value else None


def _limit_inputs(job: Job, limits: FillLimits) -> tuple[Input, ...]:
    filling, inputs = job.known.filling, []
    if filling.design_factor is None:
        none = "not in the job set-up, taken as 1"
        inputs.append(Input("design factor", 1.0, "number", TYPED, none))
    if limits.interval is not None:
        inputs.append(
            Input("interval of the programme", limits.interval, "count", TYPED, "job set-up")
        )
    for name, measure, where in (
        ("design factor", filling.design_factor, "job set-up"),
        ("rating of the float", filling.float_rating, "job set-up"),
        ("least weight in the slips", _slip_load(job), "limits"),
        ("greatest fall of the annulus", job.known.limit("annulus_fall"), "limits"),
    ):
        if measure is not None:
            inputs.append(typed(name, measure, where))
    return tuple(inputs)
