"""The weights against depth of a job, against the single weights of the string when it is there."""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter

import pytest

from tally.errors import Missing
from tally.job.entries.rack import OrderSet
from tally.job.entries.watching import Filled
from tally.job.entries.weighing import WeightRead
from tally.job.figures import figure
from tally.job.setup import Setup, Weights
from tally.job.weight_band import depths_ahead, expected_then, weight_band, whole_string
from tally.units import read
from tests.tally.job.figures.test_weights import FOOT, slanted, value
from tests.tally.job.invented import ORDER, Telling, length_of, limits, running, setup, weighed

LOWEST = ("S1", "1", "2", "C1", "3", "4")


def plan(**changed: object) -> Setup:
    """Return a hole that leans, so that friction counts."""
    return weighed(survey=slanted(35), **changed)


def test_ahead_it_is_what_the_string_will_weigh_when_it_is_there_and_full() -> None:
    told = running(*LOWEST, plan=plan())
    there = running(*LOWEST, "5", "6", "7", plan=plan())
    there.says(Filled, source="active pit")
    shoe = (there.job.length - 322) / 100 * FOOT
    ahead = weight_band(told.job, [shoe])[0]
    assert ahead.slack_off == pytest.approx(value(there.job, "slack_off"), rel=1e-9)
    assert ahead.pick_up == pytest.approx(value(there.job, "pick_up"), rel=1e-9)
    assert ahead.pick_up > ahead.hanging > ahead.slack_off


def test_it_follows_the_running_list_and_not_the_pipe_list() -> None:
    """The list is turned: joint 12 comes next; with all of it run the whole is the same."""
    told = running(*LOWEST, plan=plan())
    before = sum(piece.length for piece in whole_string(told.job))
    told.says(OrderSet, order=(*LOWEST, "12", *ORDER[6:-1]), reason="as it lies", aside=())
    assert sum(piece.length for piece in whole_string(told.job)) == pytest.approx(before)
    told.says(
        OrderSet, order=(*LOWEST, *ORDER[6:-1]), reason="bent", aside=("12",), despite="short"
    )
    less = before - length_of(12) / 100 * FOOT
    assert sum(piece.length for piece in whole_string(told.job)) == pytest.approx(less)


def test_depths_ahead_are_round_and_end_at_the_casing_point() -> None:
    told = running(*LOWEST, plan=plan())
    feet = [depth / FOOT for depth in depths_ahead(told.job)]
    assert feet[0] == pytest.approx((told.job.length - 322) / 100)
    assert feet[-1] == pytest.approx(485.71)  # all the pipe there is; the casing point is at 486 ft
    assert feet[1:-1] == pytest.approx([200, 250, 300, 350, 400, 450])
    deep = replace(plan().hole, casing_point=read("230 ft", "length"))
    feet = [depth / FOOT for depth in depths_ahead(running(*LOWEST, plan=plan(hole=deep)).job)]
    assert feet[-1] == pytest.approx(230)
    past = replace(plan().hole, casing_point=read("90 ft", "length"))
    assert len(depths_ahead(running(*LOWEST, plan=plan(hole=past)).job)) == 1


def test_a_reading_is_held_against_what_hung_then_filled_as_it_was() -> None:
    told = running(*LOWEST, plan=plan())
    told.says(WeightRead, slack_off=read("50 klbf", "force"))
    then = value(told.job, "slack_off"), value(told.job, "pick_up")
    told.says(Filled, source="active pit")
    told.runs("5", "6")
    expected = expected_then(told.job, told.job.weighed[0])
    assert (expected.slack_off, expected.pick_up) == pytest.approx(then, rel=1e-9)


def test_the_figures_are_the_ends_of_the_band() -> None:
    job = running(*LOWEST, plan=plan(limits=limits(least_slack_off="40 klbf"))).job
    band = weight_band(job, depths_ahead(job))
    assert value(job, "slack_off_ahead") == pytest.approx(min(one.slack_off for one in band))
    assert value(job, "pick_up_ahead") == pytest.approx(max(one.pick_up for one in band))
    rows = [one for one in figure(job, "pick_up_ahead").inputs if one.name.startswith("with the")]
    assert len(rows) == len(band)


def test_what_is_not_set_up_is_named() -> None:
    nothing = running(*LOWEST, plan=setup()).job
    with pytest.raises(Missing, match="Block weight is not in the job set-up"):
        weight_band(nothing, [100.0])
    blocks = Weights(block_weight=read("45 klbf", "force"))
    said = figure(running(*LOWEST, plan=weighed(weights=blocks)).job, "slack_off_ahead").missing
    assert said == "Friction factor in casing is not in the job set-up."
    assert figure(Telling().starts(weighed()).job, "slack_off_ahead").missing == (
        "Nothing is run yet."
    )


def test_four_hundred_depths_of_a_job_are_quick() -> None:
    job = running(*LOWEST, plan=plan()).job
    depths = [job.known.hole.casing_point.value * place / 401 for place in range(1, 401)]
    taken = []
    for _ in range(3):
        began = perf_counter()
        assert len(weight_band(job, depths)) == 400
        taken.append(perf_counter() - began)
    assert min(taken) < 0.2
