"""Where the fluids stand, worked out by hand from bores and gaps of a straight well."""

from __future__ import annotations

from math import pi

import pytest

from tally.cement.fluid_stretches import inside, outside
from tally.cement.plan import Fluid, Plan, Slug, Stage
from tally.cement.predict import predict
from tally.cement.tube import Well
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Survey
from tally.pipe.interval import PipeInterval

OUTER, INNER, WIDE = 0.20, 0.18, 0.30
BORE, GAP = pi / 4 * INNER**2, pi / 4 * (WIDE**2 - OUTER**2)
MUD = Fluid("mud", 1200.0)
WELL = Well(
    (PipeInterval(0.0, 1000.0, OUTER, INNER, 40.0),),
    Hole([HoleSection(0.0, 1000.0, WIDE)]),
    Survey(),
    collar=980.0,
)


def placed(slurry: float, behind: float):
    """Return a job in 1,000 m of hole of one width: slurry, then mud behind the top plug."""
    slugs = (
        Slug(Fluid("slurry", 1200.0), (Stage(slurry, 0.02),)),
        Slug(MUD, (Stage(behind, 0.02), Stage(0.0, 0.02))),
    )
    return predict(Plan(WELL, MUD, slugs, top_plug=1))


def test_what_is_in_the_pipe_and_what_is_still_under_it():
    job = placed(5.0, 3.0)
    top, bottom = 3.0 / BORE, 8.0 / BORE
    assert [(each.name, each.slug) for each in inside(job, 8.0)] == [
        ("mud", 1), ("slurry", 0), ("mud", None),
    ]  # fmt: skip
    depths = [edge for each in inside(job, 8.0) for edge in (each.top, each.bottom)]
    assert depths == pytest.approx([0.0, top, top, bottom, bottom, 1000.0])
    (around,) = outside(job, 8.0)
    assert around.name == "mud"
    assert (around.top, around.bottom) == pytest.approx((0.0, 1000.0))


def test_what_has_turned_the_shoe_stands_around_it():
    job, pumped = placed(20.0, 8.0), 28.0
    turned = pumped - 1000.0 * BORE
    slurry = outside(job, pumped)[-1]
    assert (slurry.name, slurry.slug) == ("slurry", 0)
    assert slurry.top == pytest.approx(1000.0 - turned / GAP)
    assert slurry.bottom == pytest.approx(1000.0)
    assert inside(job, pumped)[-1].bottom == pytest.approx(1000.0)


def test_a_falling_column_leaves_the_top_of_the_pipe_empty():
    slugs = (
        Slug(Fluid("slurry", 1900.0), (Stage(15.0, 0.02),)),
        Slug(MUD, (Stage(1.0, 0.02), Stage(0.0, 0.02))),
    )
    job = predict(Plan(WELL, MUD, slugs, top_plug=1))
    here = job.at(12.0)
    assert here.empty > 0.5
    assert inside(job, 12.0)[0].top == pytest.approx(here.empty / BORE)
