"""The job as pumped in the plan's place."""

from math import sin

import pytest

from tally.cement.placement import OPENS
from tally.cement.predict import predict
from tally.cement.seen import Seen, as_pumped, merged
from tally.errors import DomainError
from tests.tally.cement.test_plan import PLAN


def test_nothing_seen_is_the_plan():
    assert as_pumped(PLAN, ()) is PLAN


def test_pumped_as_planned_predicts_the_same():
    seen = [Seen(0, 4.0, 0.02), *(Seen(1, 1.0, 0.015) for _ in range(7))]
    plan, job = predict(PLAN), predict(as_pumped(PLAN, seen))
    assert job.bumped
    assert job.volume[-1] == pytest.approx(plan.volume[-1])
    assert job.pressure[-1] == pytest.approx(plan.pressure[-1], rel=1e-9)
    assert job.time[-1] == pytest.approx(plan.time[-1], rel=1e-9)
    assert max(job.empty) == pytest.approx(max(plan.empty), rel=1e-6)


def test_what_was_pumped_takes_the_place_of_the_planned_and_the_rest_follows():
    seen = [Seen(0, 5.0, 0.02), Seen(1, 6.0, 0.01, 1880.0), Seen(1, 2.0, 0.015, 1930.0)]
    plan = as_pumped(PLAN, seen)
    assert [(each.fluid.name, each.fluid.density, each.volume) for each in plan.slugs] == [
        ("spacer", 1400.0, 5.0),
        ("slurry", 1880.0, 6.0),
        ("slurry", 1930.0, 2.0),
        ("slurry", 1900.0, 8.0),
        ("mud", 1200.0, 0.0),
    ]
    assert (plan.top_plug, plan.bottom_plugs[0].ahead_of) == (4, 1)
    job = predict(plan)
    assert job.bumped
    assert [each.name for each in job.events if each.what == OPENS] == ["slurry"]


def test_a_fluid_that_is_over_is_as_long_as_it_was_pumped():
    seen = [Seen(0, 4.0, 0.02), Seen(1, 13.0, 0.015), Seen(2, 20.0, 0.02)]
    plan = as_pumped(PLAN, seen)
    assert [each.volume for each in plan.slugs] == [4.0, 13.0, 20.0, 0.0]
    assert plan.top_plug == 2
    job = predict(plan)
    assert job.volume[-1] == pytest.approx(17.0 + job.tube.collar)


def test_a_fluid_that_was_left_out_keeps_the_place_of_its_plug():
    plan = as_pumped(PLAN, [Seen(1, 3.0, 0.015)])
    assert [each.volume for each in plan.slugs] == [0.0, 3.0, 13.0, 0.0]
    assert (plan.top_plug, plan.bottom_plugs[0].ahead_of) == (3, 1)
    assert predict(plan).bumped


def test_what_was_pumped_keeps_its_rate_where_the_plan_slows_down():
    from dataclasses import replace

    slow = replace(PLAN, slow_volume=10.0, slow_rate=0.004)
    to_bump = predict(PLAN).volume[-1] - 20.0
    seen = [Seen(0, 4.0, 0.02), Seen(1, 16.0, 0.015), Seen(2, to_bump - 4.0, 0.025)]
    job = predict(as_pumped(slow, seen))
    assert job.at(job.volume[-1] - 6.0).rate == 0.025
    assert job.rate[-1] == 0.004


def test_like_neighbours_are_one_piece_of_the_same_volume_and_time():
    seen = [Seen(0, 0.2, 0.02 + 0.0002 * (place % 2), 1400.0 + place % 3) for place in range(50)]
    (one,) = merged(seen)
    assert one.volume == pytest.approx(10.0)
    assert one.volume / one.rate == pytest.approx(sum(each.volume / each.rate for each in seen))
    assert len(merged([*seen, Seen(0, 1.0, 0.01, 1400.0)])) == 2
    assert len(merged([Seen(0, 1.0, 0.02, stop=60.0), Seen(0, 1.0, 0.02)])) == 2


def test_many_noisy_readings_are_few_pieces_of_the_same_volume_time_and_weight():
    seen = [Seen(0, 4.0, 0.02)] + [
        Seen(1, 0.05, 0.015 + 0.002 * sin(place), 1900.0 + 25 * sin(place / 3))
        for place in range(300)
    ]
    plan = as_pumped(PLAN, seen)
    assert len(plan.slugs) < 40
    slurry = [each for each in plan.slugs if each.fluid.name == "slurry"]
    done = [stage for each in slurry for stage in each.stages if stage.seen]
    assert sum(each.volume for each in done) == pytest.approx(15.0)
    time = sum(each.volume / each.rate for each in done)
    assert time == pytest.approx(sum(each.volume / each.rate for each in seen[1:]))
    weight = sum(each.fluid.density * each.volume for each in slurry)
    assert weight == pytest.approx(sum(e.volume * e.density for e in seen[1:]) + 1900.0)


@pytest.mark.parametrize("places", [(1, 0), (0, 3)])
def test_out_of_order_is_refused(places):
    with pytest.raises(DomainError, match="in the order of the plan"):
        as_pumped(PLAN, [Seen(place, 1.0, 0.02) for place in places])
