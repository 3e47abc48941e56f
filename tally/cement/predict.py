"""A placement worked out: the plan pumped from the first fluid to the bump."""

from __future__ import annotations

from tally.cement.balance import Friction, flow_friction
from tally.cement.placement import Placement
from tally.cement.plan import Plan
from tally.cement.pumping import Run
from tally.formula import require_range

HALF_BARREL = 0.079493647464
"""[m3]"""


def predict(plan: Plan, step: float = HALF_BARREL, friction: Friction = flow_friction) -> Placement:
    """Return the job as it should go.

    Parameters
    ----------
    plan : Plan
        The well and what is pumped into it
    step : float
        Volume between two rows; each event has a row of its own besides, [m^3]
    friction : callable
        Pressure lost by length by a fluid in a gap at a rate; by its flow curve unless given

    Returns
    -------
    placement : Placement
        Rows by volume pumped, events, and where each fluid is at any volume

    Raises
    ------
    DomainError
        If a number is out of range, a plug has no fluid of its own, or the casing would empty.

    Notes
    -----
    With the casing full, pressure at the head = columns outside - columns inside + friction of
    both + back pressure. Where that would be less than the pressure of the gap, the columns
    fall (tally.cement.falling) until the pump has caught up. A bottom plug that lands while they
    fall holds them until their push, or the pump behind a full casing, opens it; a top plug that
    lands so holds them until the casing is full again, which is the bump. Incompressible,
    no heat, no inertia, no mixing, no gel.

    Examples
    --------
    >>> from tally.cement.plan import Fluid, Plan, Stage, Slug, slug
    >>> from tally.cement.tube import Well
    >>> from tally.hole.sections import Hole, HoleSection
    >>> from tally.hole.survey import Survey
    >>> from tally.pipe.interval import PipeInterval
    >>> pipe = (PipeInterval(0.0, 1000.0, 0.2445, 0.2205, 70.0),)
    >>> well = Well(pipe, Hole([HoleSection(0.0, 1010.0, 0.311)]), Survey(), collar=980.0)
    >>> mud, cement = Fluid("mud", 1200.0), Fluid("slurry", 1900.0)
    >>> pumped = (slug(cement, 20.0, 0.02), Slug(mud, (Stage(0.0, 0.02),)))
    >>> job = predict(Plan(well, mud, pumped, top_plug=1))
    >>> [event.what for event in job.events][:3]
    ['free fall begins', 'turns the shoe', 'free fall ends']
    >>> round(job.volume[-1] - 20.0, 3), round(job.pressure[-1] / 1e5, 1)
    (37.423, 44.1)
    """
    require_range("Step of volume", step, 1e-4, 10.0, "m3")
    return Run(plan, step, friction).placed()
