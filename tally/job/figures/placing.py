"""Figures of the placement where the job is: what to expect, and what its end comes to."""

from __future__ import annotations

from tally.cement.ending import Ending, Margin
from tally.cement.placement import CAUGHT_UP, FALLS, Watched
from tally.cement.pumping import NEW_SHOE, PREVIOUS_SHOE
from tally.job.figures.model import Figure, Input, Missing, calculated, live, typed
from tally.job.geometry import Last
from tally.job.job import Job
from tally.job.placement import Live
from tally.job.placement import live as placed
from tally.job.placement_outcome import ending, governing, plug_at
from tally.job.returns_watch import called

AS_SEEN = "placement: stages as seen up to here, the rest as planned"
AS_PLANNED = "placement: all stages as planned"


def _how(here: Live) -> str:
    return AS_SEEN if here.seen else AS_PLANNED


def _where(here: Live) -> tuple[Input, ...]:
    """Return as inputs where the job is, and at what rate."""
    now = here.now
    return (
        calculated("pumped since the first fluid", here.pumped, "volume", "steps and counts"),
        calculated("pump rate", now.rate, "flow rate", _how(here)),
    )


def _figure(here: Live, value: float, quantity: str, *inputs: Input) -> Figure:
    return Figure(value, quantity, _how(here), (*inputs, *_where(here)))


@live("placed_pressure", "Pressure to expect now")
def placed_pressure(job: Job) -> Figure:
    """Return the pressure at the head that the placement expects where the job is."""
    here = placed(job)
    return _figure(here, here.expected_now.pressure, "pressure")


@live("placed_final_lift", "Final lift pressure to expect")
def placed_final_lift(job: Job) -> Figure:
    """Return the pressure at the head just before the bump."""
    here, end = placed(job), _end(job)
    still = calculated("with nothing moving", end.static_lift, "pressure difference", _how(here))
    return _figure(here, end.final_lift, "pressure", still)


@live("placed_new_shoe", "Equivalent density at the new shoe, now")
def placed_new_shoe(job: Job) -> Figure:
    """Return the equivalent density at the new shoe where the job is."""
    return _at_point(placed(job), NEW_SHOE)


@live("placed_old_shoe", "Equivalent density at the old shoe, now")
def placed_old_shoe(job: Job) -> Figure:
    """Return the equivalent density at the previous shoe where the job is."""
    return _at_point(placed(job), PREVIOUS_SHOE)


def _at_point(here: Live, name: str) -> Figure:
    points = here.placement.points
    found = next((n for n, each in enumerate(points) if each.point.name == name), None)
    if found is None:
        raise Missing(f"No {name} is among the depths watched.")
    return _figure(here, _now(here, points[found], found), "density", *_bounds(points[found]))


def _now(here: Live, watched: Watched, place: int) -> float:
    return here.now.points[place] * watched.equivalent[0] / watched.pressure[0]


def _bounds(watched: Watched) -> tuple[Input, ...]:
    """Return the greatest of a depth over the whole job, and its limits."""
    most, point = max(watched.equivalent), watched.point
    found = [calculated(f"{point.name}, greatest of the job", most, "density", "placement")]
    for word, value in (("takes fluid at", point.weak_at), ("pore", point.pore)):
        if value is not None:
            found.append(Input(f"{point.name}, {word}", value, "density", "typed", "job set-up"))
    return tuple(found)


@live("placed_governing", "Equivalent density that governs, from now on")
def placed_governing(job: Job) -> Figure:
    """Return the greatest equivalent density still to come at the depth that bears least."""
    here = placed(job)
    found = governing(here)
    named = Input("governs", found.name, "text", "calculated", "least left to its limit")
    others = [one for each in here.placement.points for one in _bounds(each)]
    return _figure(here, found.greatest, "density", named, *others)


@live("placed_governing_left", "Left to the limit that governs")
def placed_governing_left(job: Job) -> Figure:
    """Return what the greatest equivalent density still to come leaves of the limit."""
    here = placed(job)
    found = governing(here)
    if found.limit is None:
        raise Missing("No zone and no shoe has a density at which it takes fluid.")
    named = Input("governs", found.name, "text", "calculated", "least left to its limit")
    limit = Input("takes fluid at", found.limit, "density", "typed", "job set-up")
    return _figure(here, found.limit - found.greatest, "density difference", named, limit)


@live("placed_top_plug", "Top plug, free fall counted")
def placed_top_plug(job: Job) -> Figure:
    """Return how deep the top plug is, with what the fluids fell."""
    here = placed(job)
    if here.plan.top_plug is None or job.zeroed is None:
        raise Missing("The top plug is not released yet.")
    return _plug(here, here.plan.top_plug, "top")


@live("placed_bottom_plug", "Bottom plug, free fall counted")
def placed_bottom_plug(job: Job) -> Figure:
    """Return how deep the bottom plug ahead of the slurry is, with what the fluids fell."""
    here = placed(job)
    if not here.plan.bottom_plugs:
        raise Missing("The programme has no bottom plug.")
    return _plug(here, here.plan.bottom_plugs[-1].ahead_of, "bottom")


def _plug(here: Live, ahead_of: int, name: str) -> Figure:
    depth = plug_at(here, ahead_of) if here.pumped > here.plan.starts()[ahead_of] else None
    if depth is None:
        raise Missing(f"The {name} plug is still in the head.")
    lands = calculated("collar", here.plan.well.collar, "length", "items run")
    return _figure(here, max(0.0, depth), "length", lands)


@live("placed_fall_from", "Free fall from, volume since the zero")
def placed_fall_from(job: Job) -> Figure:
    """Return the volume since the zero at which the slurry begins to fall; below zero ahead."""
    return _fall(job, FALLS)


@live("placed_fall_to", "Free fall to, volume since the zero")
def placed_fall_to(job: Job) -> Figure:
    """Return the volume since the zero at which the pump has caught up for good."""
    return _fall(job, CAUGHT_UP)


def _fall(job: Job, what: str) -> Figure:
    here = placed(job)
    at = [each.volume for each in here.placement.events if each.what == what]
    if not at:
        raise Missing("Nothing falls free with what is pumped.")
    volume = at[0] if what == FALLS else at[-1]
    return _figure(here, volume - here.zero, "volume difference")


@live("placed_returns", "Rate of returns to expect now")
def placed_returns(job: Job) -> Figure:
    """Return the rate of returns that the placement expects, with its phase in words."""
    here = placed(job)
    phase = Input("phase", called(here, None).expected, "text", "calculated", "placement")
    return _figure(here, here.now.returns, "flow rate", phase)


def _worked_out(job: Job) -> Ending:
    return ending(job, placed(job))


_end = Last(_worked_out)


@live("placed_bump_margin", "Left of the weakest rating at the bump")
def placed_bump_margin(job: Job) -> Figure:
    """Return what the pressure at the bump leaves of the weakest rating."""
    margin = typed("bump margin", job.known.limit("bump_margin"), "limits")
    return _margin(job, _end(job).inside, "pressure inside", margin)


@live("placed_collapse", "Left of collapse with the pressure bled off")
def placed_collapse(job: Job) -> Figure:
    """Return what the columns leave of the collapse strength once the pressure is bled off."""
    return _margin(job, _end(job).collapse_bled, "pressure outside")


def _margin(job: Job, margin: Margin | None, name: str, *more: Input) -> Figure:
    if margin is None:
        raise Missing("Nothing that this pressure acts on is rated.")
    inputs = (
        calculated(f"{name} at the worst place", margin.pressure, "pressure difference", "placed"),
        calculated(f"rating of {margin.name}", margin.rating, "pressure", "ratings"),
        calculated("worst place", max(0.0, margin.depth), "length", "placement"),
        *more,
        *(Input("not rated", each, "text", "typed", "job set-up") for each in _end(job).unrated),
    )
    return _figure(placed(job), margin.left, "pressure difference", *inputs)


@live("placed_tension", "Pull in the top joint at the bump, fluids as placed")
def placed_tension(job: Job) -> Figure:
    """Return the pull in the top joint at the bump."""
    end = _end(job)
    hung = calculated("weight in the columns", end.hung, "force difference", "placement")
    bump = calculated("pressure at the bump", end.bump, "pressure", "final lift + bump margin")
    return _figure(placed(job), end.tension, "force difference", hung, bump)


@live("placed_lift", "Weight less lift before the bump, fluids as placed")
def placed_lift(job: Job) -> Figure:
    """Return what the lift on the closed end leaves of the weight; below zero it rises."""
    end = _end(job)
    hung = calculated("weight in the columns", end.hung, "force difference", "placement")
    lift = calculated("lift by friction outside", end.lift, "force", "lift-by-pressure")
    return _figure(placed(job), end.weight_left, "force difference", hung, lift)
