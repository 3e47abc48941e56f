"""Rates with their pressures, the stroke of the pipe."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tally.job.entries.conditioning import PipeMoved, PipeStopped, RateRead
from tally.job.figures import figure, show
from tally.job.mud import pairs
from tally.units import read
from tests.tally.job.invented import landed, pipe, pumping_down, running, setup, weighed


def at(rate: str, pressure: str) -> dict[str, Any]:
    return {"rate": read(rate, "flow rate"), "pressure": read(pressure, "pressure")}


def test_pairs_are_kept_slowest_first_and_the_last_of_a_rate_counts() -> None:
    told = landed()
    told.says(RateRead, **at("4 bbl/min", "300 psi"))
    told.says(RateRead, **at("2 bbl/min", "110 psi"))
    job = told.says(RateRead, **at("4 bbl/min", "310 psi"))
    assert [(one.rate.text, one.pressure.text) for one in pairs(job)] == [
        ("2 bbl/min", "110 psi"),
        ("4 bbl/min", "310 psi"),
    ]
    assert len(job.rates) == 3
    assert told.entries[-1].said() == "circulated at 4 bbl/min with 310 psi"


def test_more_rate_with_less_pressure_is_asked_about() -> None:
    told = landed()
    told.says(RateRead, **at("4 bbl/min", "300 psi"))
    asked = told.asks(RateRead, **at("6 bbl/min", "290 psi"))
    assert asked == (
        "290 psi at 6 bbl/min does not follow from 300 psi at 4 bbl/min; read both again."
    )
    assert told.asks(RateRead, **at("2 bbl/min", "400 psi"))


def test_not_before_pipe_and_not_behind_the_plug() -> None:
    assert "Nothing is run yet" in running().refuses(RateRead, **at("4 bbl/min", "300 psi"))
    told = pumping_down()
    assert "read the counts" in told.refuses(RateRead, **at("4 bbl/min", "300 psi"))


def test_the_last_stroke_said_counts_and_none_can_be_longer_than_the_string() -> None:
    told = landed()
    told.says(PipeMoved, stroke=read("30 ft", "length"))
    job = told.says(PipeMoved, stroke=read("15 ft", "length"), note="stuck below")
    assert job.moved is not None
    assert job.moved.stroke.text == "15 ft"
    assert told.entries[-1].said() == "pipe moved over 15 ft, stuck below"
    told.says(PipeMoved, stroke=read("0 ft", "length"))
    assert told.entries[-1].said() == "pipe not moved"
    assert "no stroke" in told.refuses(PipeMoved, stroke=read("9000 ft", "length"))
    assert "no pipe to move" in running().refuses(PipeMoved, stroke=read("9 ft", "length"))


def test_how_the_pipe_is_moved_and_turned_is_kept_until_it_is_stopped():
    told = running("S1", "1", "2", plan=turned())
    told.says(
        PipeMoved,
        stroke=read("15 ft", "length"),
        strokes=read("2 strokes/min", "stroke rate"),
        rotation=read("20 rpm", "rotary speed"),
        torque=read("5000 ft-lbf", "torque"),
    )
    assert told.entries[-1].said() == (
        "pipe moved over 15 ft, 2 strokes/min, turned at 20 rpm, torque 5000 ft-lbf"
    )
    speed = figure(told.job, "moving_speed")
    # in the middle of a stroke: pi x 15 ft x 2 a minute = 94.2 ft/min
    assert show(told.job, speed.value, "velocity") == "94 ft/min"
    told.says(PipeStopped, reason="landing")
    assert told.job.moved.stopped == told.entries[-1].at
    assert figure(told.job, "moving_speed").missing == "The pipe is not moved by the book."
    assert told.job.moved.stroke.text == "15 ft", "the stroke that was reached stands"
    assert "not moved by the book" in told.refuses(PipeStopped, reason="again")


def test_more_torque_than_a_connection_of_the_string_takes_is_asked_about():
    told = running("S1", "1", plan=turned())
    fifteen = read("15 ft", "length")
    assert told.asks(PipeMoved, stroke=fifteen, torque=read("12000 ft-lbf", "torque")) == (
        "12000 ft-lbf is more than the most make-up torque of the string, 11150 ft-lbf."
    )


def test_weights_that_cross_or_are_beyond_the_gear_are_asked_about():
    told = running("S1", "1", plan=weighed())
    fifteen = read("15 ft", "length")
    crossed = {"slack_off": read("60 klbf", "force"), "pick_up": read("50 klbf", "force")}
    assert "check which is which" in told.asks(PipeMoved, stroke=fifteen, **crossed)
    assert "more than the greatest load on the indicator, 650 klbf" in told.asks(
        PipeMoved, stroke=fifteen, pick_up=read("700 klbf", "force")
    )


def turned():
    """Return a set-up whose pipe has a most make-up torque."""
    most = read("11150 ft-lbf", "torque")
    return setup(pipes=(replace(pipe(), torque_maximum=most),))
