"""Circulated against each target; displacement against circulating at the same rate."""

from __future__ import annotations

from typing import Any

import pytest

from tally.job.entries.conditioning import RateRead
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepDone
from tally.job.entries.watching import Filled
from tally.job.figures import figure
from tally.job.gates import applies
from tally.job.mud import not_filled, pressure_at
from tally.units import read, to_unit
from tests.tally.job.invented import (
    Telling,
    closed_end,
    landed,
    limits,
    pumping_down,
    ready_to_pump,
    setup,
)


def value(told: Telling, key: str) -> float:
    found = figure(told.job, key)
    assert found.value is not None, found.missing
    return float(found.value)


def rates(told: Telling, *seen: tuple[str, str]) -> Telling:
    for rate, pressure in seen:
        told.says(RateRead, rate=read(rate, "flow rate"), pressure=read(pressure, "pressure"))
    return told


def test_the_volume_circulated_stands_beside_annulus_and_casing() -> None:
    told = ready_to_pump()
    assert round(to_unit(value(told, "circulated"), "bbl"), 6) == 90
    for key, whole in (
        ("circulated_annulus", "annulus_volume"),
        ("circulated_casing", "casing_capacity"),
    ):
        assert value(told, key) == pytest.approx(value(told, "circulated") / value(told, whole))
    most = max(value(told, "annulus_volume"), value(told, "circulation_target"))
    assert value(told, "circulation_left") == pytest.approx(
        max(0.0, most - value(told, "circulated"))
    )


def test_what_is_left_is_to_the_larger_of_bottoms_up_and_the_target() -> None:
    told = landed()
    for step, said in (
        ("pipe-full", "mud stands at the top"),
        ("head-on", "connected, valves as drawn"),
    ):
        told.does("mud-conditioning", step, state=said)
    told.does("mud-conditioning", "lift-compared", state="string is held down", witness="Per Falk")
    told.does("mud-conditioning", "circulation-started", value="1 bbl/min")
    told.does("mud-conditioning", "volume-circulated", value="10 bbl", despite="early")
    left = value(told, "circulation_left")
    assert left > 0
    wanted = max(value(told, "annulus_volume"), value(told, "circulation_target"))
    assert left == pytest.approx(wanted - value(told, "circulated"))


def test_before_anything_is_entered_it_says_so() -> None:
    job = landed().job
    assert figure(job, "circulated").missing == "Volume circulated was not read yet."
    assert "No reading of the displacement" in figure(job, "circulating_pressure").missing


def displacing(*seen: tuple[str, str], rate: str = "3 bbl/min") -> Telling:
    told = rates(ready_to_pump(), *seen)
    told.does("plug-release", "bottom-plug-released", state="indicator moved", witness="Per Falk")
    for step in ("first-slurry", "slurry-away", "top-plug-released"):
        told.does("plug-release", step)
    read_at: dict[str, Any] = {
        "rate": read(rate, "flow rate"),
        "pressure": read("400 psi", "pressure"),
    }
    told.says(Pumped, tank=read("5 bbl", "volume"), **read_at)
    return told


def test_displacement_is_held_against_the_mud_at_its_rate() -> None:
    told = displacing(("2 bbl/min", "100 psi"), ("4 bbl/min", "300 psi"))
    assert to_unit(value(told, "circulating_pressure"), "psi") == pytest.approx(200)
    assert to_unit(value(told, "pressure_over_circulating"), "psi") == pytest.approx(200)


def test_pairs_are_not_carried_on_beyond_their_ends() -> None:
    told = displacing(("2 bbl/min", "100 psi"), ("4 bbl/min", "300 psi"), rate="5 bbl/min")
    assert figure(told.job, "circulating_pressure").missing == (
        "Rates were noted from 2 bbl/min to 4 bbl/min only; they are not carried on beyond that."
    )
    assert pressure_at(told.job, read("1 bbl/min", "flow rate").value) is None
    assert pressure_at(told.job, read("4 bbl/min", "flow rate").value) == pytest.approx(
        read("300 psi", "pressure").value
    )
    assert "No rate was noted" in figure(displacing().job, "circulating_pressure").missing


def test_mud_seen_at_the_top_of_a_pipe_the_book_holds_empty_is_told_until_it_is_filled() -> None:
    told = landed()
    assert not_filled(told.job) == 0.0
    told.does("mud-conditioning", "pipe-full", state="mud stands at the top")
    assert not_filled(told.job) == pytest.approx(value(told, "casing_capacity"))
    told.says(Filled, source="active pit")
    assert not_filled(told.job) == 0.0


def test_a_pipe_that_fills_itself_or_a_level_that_falls_is_no_difference() -> None:
    told = landed(setup(filling=closed_end(False)))
    told.does("mud-conditioning", "pipe-full", state="mud stands at the top")
    assert not_filled(told.job) == 0.0
    fell = landed()
    fell.does("mud-conditioning", "pipe-full", state="the level falls", despite="seen")
    assert not_filled(fell.job) == 0.0
    assert not_filled(pumping_down().job) > 0


def test_a_gel_is_asked_for_only_where_the_job_has_a_limit_for_it() -> None:
    gel = {"list_id": "mud-conditioning", "step_id": "gel-10-s", "value": "9 lbf/100ft2"}
    said = landed().refuses(StepDone, **gel)
    assert said == "The job has no limit gel_10s; this step does not apply."
    told = landed(setup(limits=limits(gel_10s="8 lbf/100ft2")))
    assert "at most 8 lbf/100ft2" in told.asks(StepDone, **gel)
    (plan,) = [plan for plan in told.job.lists.values() if plan.page == "mud"]
    applying = [step.id for step in plan.steps if applies(told.job, step)]
    assert "gel-10-s" in applying
    assert "gel-10-min" not in applying
