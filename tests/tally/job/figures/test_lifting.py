"""Lift and pull while pumping, against a body of string and contents cut free by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tally.job.entries.watching import Filled
from tally.job.figures import figure
from tally.job.setup import Fluid, Setup
from tally.units import read
from tests.tally.job.figures.test_weights import (
    AIR,
    BORE,
    CLOSED,
    CLOSED_BODY,
    FOOT,
    MUD,
    G,
    free_body,
    named,
    value,
)
from tests.tally.job.invented import (
    CEMENTER,
    Telling,
    limits,
    pumping,
    pumping_down,
    running,
    weighed,
)

PSI, KIP = 6894.757293168, 4448.2216152605
LIGHT = Fluid(name="water", kind="displacement", density=read("8.4 lb/gal", "density"))


def full(plan: Setup | None = None) -> Telling:
    """Return the whole string run and filled to its top."""
    told = running(plan=plan or weighed()).runs()
    told.says(Filled, source="active pit")
    return told


def test_the_pressure_that_lifts_is_the_weight_over_the_closed_end() -> None:
    job = full().job
    assert value(job, "lifting_pressure") == pytest.approx(free_body(job) / CLOSED_BODY, rel=1e-9)
    empty = running(plan=weighed()).runs().job
    assert value(empty, "lifting_pressure") == pytest.approx(value(job, "lifting_pressure"))


def test_friction_in_the_annulus_lifts_by_the_closed_end() -> None:
    mud = pumping(
        plastic_viscosity=read("18 cP", "viscosity"),
        yield_point=read("12 lbf/100ft2", "yield point"),
        conditioning_rate=read("8 bbl/min", "flow rate"),
    )
    job = full(weighed(pumping=mud)).job
    left = free_body(job) - value(job, "annulus_friction") * CLOSED_BODY
    assert value(job, "lift_conditioning") == pytest.approx(left, rel=1e-9)
    lacking = figure(full().job, "lift_conditioning").missing
    assert lacking == "Plastic viscosity is not in the job set-up."


def test_before_the_bump_the_planned_pressure_counts_until_one_is_read() -> None:
    job = full().job
    planned = free_body(job) - 900 * PSI * CLOSED_BODY
    assert value(job, "lift_bump") == pytest.approx(planned, rel=1e-9)
    told = pumping_down(weighed()).does("plug-release", "displacement-started")
    told.does("plug-release", "pressure-before-bump", value="400 psi")
    read_off = value(told.job, "lifting_pressure") * CLOSED_BODY - 400 * PSI * CLOSED_BODY
    assert value(told.job, "lift_bump") == pytest.approx(read_off, rel=1e-9)
    assert figure(told.job, "lift_bump").inputs[0].origin == "read"


def test_a_light_string_rises() -> None:
    """486 ft of 47 lb/ft pipe in 10.2 lb/gal mud: 19 klbf; 900 psi under 72.8 sq in: 65 klbf."""
    assert value(full().job, "lift_bump") / KIP == pytest.approx(19.4 - 65.5, abs=0.2)


def test_what_stands_inside_at_the_bump_is_the_displacement_fluid() -> None:
    """Steel in air and light fluid inside, less that fluid's push on the closed end."""
    job = full(weighed(fluids=(LIGHT,))).job
    light = 8.4 / 10.2 * MUD
    up, shoe = 3.22 * FOOT, (job.length / 100 - 3.22) * FOOT
    weight = (AIR + light * BORE) * (shoe + up) * G - light * CLOSED * shoe * G
    expected = weight - 900 * PSI * CLOSED_BODY
    assert value(job, "lift_bump") == pytest.approx(expected, rel=1e-9)
    assert "density of water" in [one.name for one in figure(job, "lift_bump").inputs]


def test_pressure_on_the_plug_pulls_at_the_top_joint_with_the_whole_bore() -> None:
    job = full().job
    expected = free_body(job) + (900 + 500) * PSI * BORE
    assert value(job, "tension_bump") == pytest.approx(expected, rel=1e-9)
    assert named(job, "tension_bump", "may carry: elevators and spider") == pytest.approx(700 * KIP)
    told = pumping_down(weighed()).does("plug-release", "displacement-started")
    told.does("plug-release", "pressure-before-bump", value="400 psi")
    told.does("plug-release", "bumped")
    told.witnessed("plug-release", "bumped", state="rose sharply and stands")
    told.does("plug-release", "bump-pressure", value="1100 psi", by=CEMENTER)
    weight = value(told.job, "lifting_pressure") * CLOSED_BODY
    assert value(told.job, "tension_bump") == pytest.approx(weight + 1100 * PSI * BORE, rel=1e-9)


def test_without_a_pressure_it_says_which_is_missing() -> None:
    plan = weighed(pumping=pumping(final_pressure=None), limits=limits(bump_margin=""))
    job = full(plan).job
    said = "Final pressure of the programme is not in the job set-up."
    assert figure(job, "lift_bump").missing == said
    assert figure(job, "tension_bump").missing == "Pressure before the bump was not read yet."


def test_the_least_weight_going_down_is_a_named_persons() -> None:
    job = full(weighed(limits=limits(least_slack_off="50 klbf"))).job
    left = value(job, "slack_off") - 50 * KIP
    assert value(job, "slack_off_left") == pytest.approx(left, rel=1e-9)
    assert figure(job, "least_slack_off").inputs[0].where == "limits, Per Falk"
    none = figure(full(replace(weighed(), limits=limits())).job, "slack_off_left").missing
    assert none == "Least weight going down is not in the limits."
