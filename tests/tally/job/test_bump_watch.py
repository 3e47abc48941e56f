"""The readings of a job, a person's or a gauge's, and the bump that they show."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from tally.job.bump_watch import STROKES, TANK, rule_for, watched
from tally.job.figures import figure, show
from tally.job.job import Job, PumpReading
from tally.units import read
from tests.tally.job.invented import limits, pumping_down

STROKE = 0.1044 * 0.96


def read_off(job: Job, told: list[tuple[float, float, float, float]], tank: bool = True) -> Job:
    """Return the job with readings of minutes, barrels, psi and bbl/min."""
    zero = datetime.fromisoformat(job.last)
    readings = tuple(
        PumpReading(
            900 + place,
            read(f"{barrels:.2f} bbl", "volume") if tank else None,
            round(barrels / STROKE),
            read(f"{psi:.0f} psi", "pressure"),
            read(f"{rate:g} bbl/min", "flow rate"),
            (zero + timedelta(minutes=minutes)).isoformat(),
        )
        for place, (minutes, barrels, psi, rate) in enumerate(told)
    )
    return replace(job, pumped=readings)


def by_hand(bump: float) -> list[tuple[float, float, float, float]]:
    """Return a reading each barrel and a half at 3 bbl/min up to a bump, and two held after it."""
    steps = int((bump - 10) / 1.5)
    told = [(n / 2, 10 + 1.5 * n, 600 + 9.0 * n, 3.0) for n in range(steps + 1)]
    end = told[-1]
    return [*told, (end[0] + 1, bump, 1400.0, 3.0), (end[0] + 2, bump, 1395.0, 0.0)]


def barrels(job: Job, key: str) -> float:
    """Return a figure in barrels."""
    value = figure(job, key).value
    assert value is not None, figure(job, key).missing
    return float(value) / 0.158987294928


@pytest.mark.parametrize("tank", [True, False])
def test_a_bump_is_proposed_from_the_readings_of_a_person(tank: bool) -> None:
    job = pumping_down().job
    calculated = barrels(job, "displacement_to_collar")
    job = read_off(job, by_hand(calculated + 0.3), tank)
    seen = figure(job, "bump_seen")
    assert barrels(job, "bump_seen") == pytest.approx(calculated + 0.3, abs=0.15)
    assert "to be confirmed" in seen.formula
    named = {each.name for each in seen.inputs}
    assert {"band of the bump", "bump margin", "pressure before it"} <= named
    rise = figure(job, "bump_rise")
    assert 600 < float(rise.value or 0.0) / 6894.757 < 800
    count = TANK if tank else STROKES
    assert any(count in each.where for each in seen.inputs)


def test_outside_the_band_it_says_why_none_is_proposed() -> None:
    job = pumping_down().job
    early = read_off(job, by_hand(barrels(job, "displacement_to_collar") - 6.0))
    assert figure(early, "bump_seen").missing == (
        "No bump is proposed: the pressure rose like a bump, "
        "but outside the band of the calculated bump."
    )


def test_without_readings_it_says_so() -> None:
    assert "has both a count and a pressure" in figure(pumping_down().job, "bump_seen").missing


def test_without_a_limit_the_band_is_the_calculated_one() -> None:
    job = pumping_down().job
    plan = replace(job.known, limits=limits(bump_band="", efficiency_tolerance="1 %"))
    job = replace(read_off(job, by_hand(30.0)), setup=plan)
    assert "bore known to" in figure(job, "bump_seen").missing.casefold()


def test_the_count_with_more_readings_is_taken_and_never_both() -> None:
    job = read_off(pumping_down().job, by_hand(30.0))
    half = tuple(
        replace(one, tank=None) if place % 2 else one for place, one in enumerate(job.pumped)
    )
    mixed = replace(job, pumped=half)
    assert watched(mixed, 0.016).count == STROKES
    assert watched(mixed, None).count == TANK
    assert len(watched(mixed, None).points) == (len(half) + 1) // 2


def test_readings_of_a_gauge_must_show_a_rise_three_times() -> None:
    job = read_off(pumping_down().job, by_hand(30.0))
    points = watched(job, None).points
    assert rule_for(points, 5.0, (0.2, 0.2), 3.4e6, None).looked_at == 1
    close = [replace(each, time=each.time / 10) for each in points]
    rule = rule_for(close, 5.0, (0.2, 0.3), 3.4e6, 5e-10)
    assert (rule.looked_at, rule.early, rule.late) == (3, 0.2, 0.3)
    assert (rule.least_rise, rule.compressibility) == (1.7e6, 5e-10)


def test_it_shows_in_the_units_of_the_job() -> None:
    job = pumping_down().job
    job = read_off(job, by_hand(barrels(job, "displacement_to_collar")))
    assert show(job, figure(job, "bump_seen").value, "volume").endswith(" bbl")
