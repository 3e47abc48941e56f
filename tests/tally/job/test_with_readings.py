"""The job with the readings of a followed file: what a person read stays, but for its pressure."""

from __future__ import annotations

from dataclasses import replace

from tally.job.entry import later
from tally.job.job import Job, PumpReading
from tally.job.with_readings import with_readings
from tally.units import read
from tests.tally.job.invented import pumping_down

JOB = pumping_down().job
ZERO = JOB.zeroed.at if JOB.zeroed else ""


def reading(seconds: float, barrels: float, source: str = "") -> PumpReading:
    """Return a reading so long after the zero."""
    volume, pressure = read(f"{barrels} bbl", "volume"), read("800 psi", "pressure")
    return PumpReading(7, volume, None, pressure, None, later(ZERO, seconds), source=source)


def drawn(job: Job, *readings: PumpReading) -> list[tuple[str, bool]]:
    """Return the volumes of the job with readings of the file, and whether each has a pressure."""
    return [
        (one.tank.text, one.pressure is not None)
        for one in with_readings(job, readings).pumped
        if one.tank
    ]


def test_readings_of_the_file_come_between_those_of_a_person() -> None:
    typed = JOB.but(pumped=(reading(30, 3), reading(40, 4, "job.csv")))
    found = drawn(typed, reading(10, 1, "job.csv"), reading(40, 4, "job.csv"))
    assert found == [("1 bbl", True), ("3 bbl", False), ("4 bbl", True)]


def test_the_job_stays_as_it_is_before_the_zero_and_without_readings() -> None:
    assert with_readings(JOB, ()) is JOB
    early = JOB.but(zeroed=None)
    assert with_readings(early, (reading(5, 1),)) is early
    assert with_readings(JOB, (reading(-60, 1),)) is JOB


def test_after_the_call_of_the_bump_nothing_more_is_drawn() -> None:
    assert JOB.zeroed is not None
    called = replace(JOB.zeroed, at=later(ZERO, 20))
    bumped = JOB.but(steps={**JOB.steps, ("plug-release", "bumped"): called})
    assert drawn(bumped, reading(10, 1, "f"), reading(20, 2, "f"), reading(30, 9, "f")) == [
        ("1 bbl", True),
        ("2 bbl", True),
    ]
