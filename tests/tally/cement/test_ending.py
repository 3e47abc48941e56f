"""Lift, bump, pull, collapse and casing lift at the end of a placement, against sums by hand."""

from dataclasses import replace
from math import pi

import pytest

from tally.cement.ending import ending
from tally.cement.plan import slug
from tally.cement.predict import predict
from tally.errors import DomainError
from tally.pipe.collapse import collapse_load
from tally.pipe.ratings import internal_yield
from tally.pipe.weight import STANDARD_GRAVITY
from tests.tally.cement.test_plan import MUD, PLAN

JOB = predict(PLAN)
END = ending(JOB, 3.5e6, [("head", 20e6), ("line", 15e6), ("plugs", None)])


def by_hand():
    """Return the pressure of the columns at the shoe, worked out from volumes alone, [Pa]."""
    tube = JOB.tube
    track = tube.shoe - tube.collar
    outside = 16.0 - track
    inside = (980.0 * 1200.0 + 20.0 * 1900.0) * STANDARD_GRAVITY
    hole, cased = pi / 4 * (0.311**2 - 0.2445**2), pi / 4 * (0.32**2 - 0.2445**2)
    slurry = outside / hole
    open_spacer = 600.0 - slurry
    spacer = open_spacer + (4.0 - open_spacer * hole) / cased
    assert 0 < open_spacer < spacer
    mud = 1000.0 - slurry - spacer
    return inside, (mud * 1200.0 + spacer * 1400.0 + slurry * 1900.0) * STANDARD_GRAVITY


def test_lift_is_outside_less_inside_and_the_bump_stands_on_it():
    inside, outside = by_hand()
    assert END.static_lift == pytest.approx(outside - inside, rel=1e-6)
    assert END.final_lift == JOB.pressure[-1] > END.static_lift
    assert END.bump == END.final_lift + 3.5e6


def test_the_weakest_rating_governs():
    assert END.inside.name == "line"
    assert END.inside.left == pytest.approx(15e6 - END.bump)
    assert END.unrated == ("plugs",)
    pipe = PLAN.well.pipe[0]
    alone = ending(JOB, 3.5e6)
    rating, _ = internal_yield(pipe.outer_diameter, pipe.wall, pipe.yield_strength)
    assert (alone.inside.name, alone.inside.depth) == ("casing", 0.0)
    assert alone.inside.rating == pytest.approx(rating)
    assert alone.inside.pressure == pytest.approx(alone.bump)


def test_pull_is_the_hanging_weight_and_the_pressure_on_the_bore():
    inside, outside = by_hand()
    pipe = PLAN.well.pipe[0]
    hung = 70.0 * 1000.0 * STANDARD_GRAVITY + pipe.bore * inside - pipe.closed * outside
    assert END.hung == pytest.approx(hung, rel=1e-6)
    assert END.tension == pytest.approx(hung + pipe.bore * END.bump, rel=1e-6)


def test_collapse_is_nearest_at_the_collar_once_bled_off():
    pipe = PLAN.well.pipe[0]
    inside, outside = by_hand()
    at_collar_in = inside - 20.0 * 1900.0 * STANDARD_GRAVITY
    at_collar_out = outside - 20.0 * 1900.0 * STANDARD_GRAVITY
    load = collapse_load(pipe.outer_diameter, pipe.wall, at_collar_out, at_collar_in)
    assert END.collapse_bled.depth == 980.0
    assert END.collapse_bled.pressure == pytest.approx(load, rel=1e-5)
    assert END.collapse.left > END.collapse_bled.left


def test_friction_and_back_pressure_lift_the_closed_end():
    pipe = PLAN.well.pipe[0]
    _, outside = by_hand()
    friction = JOB.points[0].pressure[-1] - outside
    assert friction > 0
    area = pi / 4 * pipe.outer_diameter**2
    assert END.lift == pytest.approx(friction * area, rel=1e-5)
    assert END.weight_left == pytest.approx(END.hung - END.lift)
    pressed = ending(predict(replace(PLAN, back_pressure=1e6)), 0.0)
    assert pressed.lift == pytest.approx((friction + 1e6) * area, rel=1e-3)


def test_pipe_without_a_grade_is_named_as_unrated():
    pipe = (replace(PLAN.well.pipe[0], yield_strength=None),)
    end = ending(predict(replace(PLAN, well=replace(PLAN.well, pipe=pipe))), 1e6)
    assert end.inside is None
    assert end.collapse is None
    assert end.unrated == ("casing",)


def test_a_string_that_floats_in_its_columns_hangs_by_the_pressure():
    pipe = (replace(PLAN.well.pipe[0], weight=25.0),)
    end = ending(predict(replace(PLAN, well=replace(PLAN.well, pipe=pipe))), 1e6)
    assert end.hung < 0
    assert end.tension == pytest.approx(end.hung + pipe[0].bore * end.bump)
    assert end.weight_left < end.hung


def test_no_bump_no_ending():
    short = replace(PLAN, slugs=(*PLAN.slugs[:2], slug(MUD, 5.0, 0.02)))
    with pytest.raises(DomainError, match="does not come to the float collar"):
        ending(predict(short), 1e6)
