"""The plan: stages, slow-down, and a change tried beside it."""

from dataclasses import replace

import pytest

from tally.cement.plan import (
    BottomPlug,
    Fluid,
    Plan,
    Slug,
    Stage,
    changed,
    slug,
)
from tally.cement.predict import predict
from tally.cement.tube import Well
from tally.errors import DomainError
from tally.fluids.flow_curve import FlowCurve
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Survey
from tally.pipe.interval import PipeInterval

WELL = Well(
    (PipeInterval(0.0, 1000.0, 0.2445, 0.2205, 70.0, yield_strength=552e6),),
    Hole([HoleSection(0.0, 400.0, 0.32, cased=True), HoleSection(400.0, 1010.0, 0.311)]),
    Survey(),
    collar=980.0,
    head=0.3,
)
CURVE = FlowCurve(4.0, 0.02)
MUD, SPACER = Fluid("mud", 1200.0, CURVE), Fluid("spacer", 1400.0, CURVE)
SLURRY = Fluid("slurry", 1900.0, FlowCurve(5.0, 0.04))
PLAN = Plan(
    WELL, MUD,
    (slug(SPACER, 4.0, 0.02), slug(SLURRY, 16.0, 0.015), Slug(MUD, (Stage(0.0, 0.025),))),
    top_plug=2, bottom_plugs=(BottomPlug(1, 1e6),),
)  # fmt: skip


def stages(plan, bump=50.0):
    return [(place, each.volume, each.rate) for place, each in plan.stages(bump)]


def test_a_last_stage_without_a_volume_goes_on_to_the_bump():
    assert stages(PLAN) == [(0, 4.0, 0.02), (1, 16.0, 0.015), (2, 30.0, 0.025)]


def test_the_last_volume_is_pumped_slowly_and_what_is_slower_stays():
    slow = replace(PLAN, slow_volume=8.0, slow_rate=0.005)
    assert stages(slow)[2:] == [(2, 22.0, 0.025), (2, 8.0, 0.005)]
    slower = replace(PLAN, slow_volume=8.0, slow_rate=0.03)
    assert stages(slower) == stages(PLAN)


def test_what_is_planned_beyond_the_bump_is_not_pumped():
    more = replace(PLAN, slugs=(*PLAN.slugs[:2], slug(MUD, 100.0, 0.025)))
    assert stages(more) == stages(PLAN)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"slugs": ()}, "Nothing is to be pumped"),
        ({"bottom_plugs": (BottomPlug(2, 1e6),)}, "plugs go ahead of fluids 3, 3 of 3"),
        ({"top_plug": 3}, "plugs go ahead of fluids 2, 4 of 3"),
        ({"limit": -2e5}, "Pressure of the gap -200,000 Pa"),
        ({"slow_rate": 0.0}, "Slow-down rate 0 m3/s"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(change, said):
    with pytest.raises(DomainError, match=said):
        replace(PLAN, **change)


def test_a_change_touches_only_what_is_still_to_be_pumped():
    tried = changed(PLAN, after=10.0, rate=0.01, density={"slurry": 1950.0})
    assert [(each.fluid.density, each.volume, each.stages[0].rate) for each in tried.slugs] == [
        (1400.0, 4.0, 0.02),
        (1900.0, 6.0, 0.015),
        (1950.0, 10.0, 0.01),
        (1200.0, 0.0, 0.01),
    ]
    assert (tried.top_plug, tried.bottom_plugs[0].ahead_of) == (3, 1)
    assert PLAN.slugs[1].fluid.density == 1900.0


def test_a_change_in_the_displacement_keeps_going_on_to_the_bump():
    tried = changed(PLAN, after=30.0, rate=0.01)
    assert stages(tried) == [
        (0, 4.0, 0.02), (1, 16.0, 0.015), (2, 10.0, 0.025), (3, 20.0, 0.01),
    ]  # fmt: skip
    assert tried.top_plug == 2
    assert predict(tried).bumped


def test_a_slower_rate_loses_less():
    slow = predict(changed(PLAN, rate=0.005))
    assert slow.pressure[-1] < predict(PLAN).pressure[-1]
    assert slow.time[-1] > predict(PLAN).time[-1]


def test_a_fluid_that_is_not_pumped_cannot_be_changed():
    with pytest.raises(DomainError, match="gravy is not among the fluids"):
        changed(PLAN, density={"gravy": 1000.0})
