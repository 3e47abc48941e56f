"""Friction and equivalent density while conditioning, against a slot worked by hand."""

from __future__ import annotations

from math import pi

import pytest

from tally.job.figures import figure
from tally.units import read
from tests.tally.job.figures.test_weights import FOOT, INCH, MUD, G, value
from tests.tally.job.invented import pumping, running, weighed

SLOW = pumping(
    plastic_viscosity=read("50 cP", "viscosity"),
    yield_point=read("0.01 lbf/100ft2", "yield point"),
    conditioning_rate=read("0.5 bbl/min", "flow rate"),
)


def slot(hole: float, length: float) -> float:
    """Return the pressure lost by slow flow of a thick fluid in a narrow slot, by Newton's law."""
    outer = 9.625 * INCH
    gap, area = (hole - outer) / 2, pi / 4 * (hole**2 - outer**2)
    speed = 0.5 * 0.158987294928 / 60 / area
    return 12 * 0.05 * speed / gap**2 * length


def test_slow_thick_mud_loses_what_a_slot_takes_section_by_section() -> None:
    job = running(plan=weighed(pumping=SLOW)).runs().job
    shoe, cased = (job.length - 322) / 100 * FOOT, 120 * FOOT
    lost = slot(12.415 * INCH, cased) + slot(12.25 * INCH, shoe - cased)
    assert value(job, "annulus_friction") == pytest.approx(lost, rel=0.02)


def test_the_equivalent_density_carries_mud_and_friction_at_the_shoe() -> None:
    job = running(plan=weighed(pumping=SLOW)).runs().job
    shoe = (job.length - 322) / 100 * FOOT
    both = MUD * G * shoe + value(job, "annulus_friction")
    assert value(job, "conditioning_density") * G * shoe == pytest.approx(both, rel=1e-9)
    assert value(job, "conditioning_density") > MUD


def test_a_mud_without_readings_is_asked_for_them() -> None:
    job = running(plan=weighed()).runs().job
    said = "Plastic viscosity is not in the job set-up."
    assert figure(job, "conditioning_density").missing == said
