"""Rates with their pressures, the stroke of the pipe."""

from __future__ import annotations

from typing import Any

from tally.job.entries.conditioning import PipeMoved, RateRead
from tally.job.mud import pairs
from tally.units import read
from tests.tally.job.invented import landed, pumping_down, running


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
