"""The placement where the answer is known in closed form, and what must hold for any job."""

from dataclasses import replace
from math import exp, pi, sqrt
from random import Random

import pytest

from tally.cement.balance import Balance
from tally.cement.falling import fall
from tally.cement.placement import (
    BUMPS,
    CAUGHT_UP,
    FALLS,
    LANDS,
    OPENS,
    SLOWS,
    TURNS,
)
from tally.cement.plan import BottomPlug, Fluid, Plan, Point, Slug, Stage, slug
from tally.cement.predict import predict
from tally.cement.tube import Tube, Well
from tally.errors import DomainError
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Survey
from tally.pipe.interval import PipeInterval
from tests.tally.cement.jobs import BARREL, FOOT, MINUTE, POUND_A_GALLON, PSI, drawn

ROUNDED = 0.052 * 231 / 12
"""The handbook constant over the one that it is rounded from."""

CASING, ANNULUS = 8.835**2 / 1029.4, (12.25**2 - 9.625**2) / 1029.4
"""Capacities of the worked cases as the handbooks have them, [bbl/ft]."""


def well(casing=CASING, annulus=ANNULUS, shoe=10_000.0, collar=None):
    """Return an upright well by its capacities [bbl/ft], depths in [ft]."""
    inner = sqrt(4 / pi * casing * BARREL / FOOT)
    outer = inner + 0.02
    hole = sqrt(4 / pi * annulus * BARREL / FOOT + outer**2)
    pipe = PipeInterval(0.0, shoe * FOOT, outer, inner, 60.0)
    section = HoleSection(0.0, shoe * FOOT + 3.0, hole)
    return Well((pipe,), Hole([section]), Survey(), (collar or shoe) * FOOT)


def fluid(name, pounds_a_gallon):
    return Fluid(name, pounds_a_gallon * POUND_A_GALLON)


MUD, SLURRY = fluid("mud", 10.0), fluid("slurry", 15.8)


def hundred_barrels(rate=5.0, **changes):
    """Return the plan of the worked cases: 100 bbl of slurry, then mud to the bump."""
    pumped = (slug(SLURRY, 100 * BARREL, rate * BARREL / MINUTE),
              Slug(MUD, (Stage(0.0, rate * BARREL / MINUTE),)))  # fmt: skip
    return replace(Plan(well(), MUD, pumped, top_plug=1), **changes)


def event(job, what, name=""):
    return next(each for each in job.events if each.what == what and each.name in ("", name))


def test_all_the_slurry_inside_empties_what_it_weighs_too_much():
    job = predict(hundred_barrels())
    moment = job.at(100 * BARREL)
    assert round(moment.level / FOOT, 3) == 764.890
    assert round(moment.empty / BARREL, 3) == 58.000


def test_no_friction_pressure_by_slurry_in_the_annulus():
    job = predict(hundred_barrels())
    inside = CASING * 10_000
    turned = event(job, TURNS, "slurry")
    assert round(job.at(turned.volume).level / FOOT, 2) == 764.89
    caught = event(job, CAUGHT_UP)
    assert round(caught.volume / BARREL - inside, 4) == 42.3843
    for behind, psi in ((50, 71.47), (100, 540.68)):
        moment = job.at((inside + behind) * BARREL)
        assert round(moment.pressure / PSI * ROUNDED, 2) == psi
        assert moment.empty == 0
    assert job.bumped
    assert round(job.pressure[-1] / PSI * ROUNDED, 2) == 540.68
    assert event(job, BUMPS).volume == pytest.approx((inside + 100) * BARREL)


@pytest.mark.parametrize(
    ("minutes", "level", "returns", "ahead"),
    [(8, 42.3737, 6.85314, 3.21311), (16, 310.6579, 7.83261, 23.55653)],
)
def test_fall_with_linear_friction_is_the_closed_form(minutes, level, returns, ahead):
    rate = 5 * BARREL / MINUTE
    length = 10_000 * FOOT

    def friction(_, gap, rate):
        return 20 * PSI / ROUNDED / (BARREL / MINUTE) * rate / length if gap.pipe else 0.0

    plan = hundred_barrels()
    job = predict(plan, step=0.05 * BARREL, friction=friction)
    moment = job.at(minutes * rate * MINUTE)
    assert round(moment.level / FOOT, 4) == level
    assert round(moment.returns / BARREL * MINUTE, 5) == returns
    assert round(moment.empty / BARREL, 5) == ahead
    assert event(job, FALLS).time / MINUTE == pytest.approx(5.028374, abs=1e-6)
    before = job.at(3 * rate * MINUTE)
    assert round(before.pressure / PSI * ROUNDED, 3) == 40.339
    assert _linear_level(minutes) == pytest.approx(level, abs=1e-4)


def _linear_level(minutes):
    """Return the level by the closed form of a slurry pumped against linear friction, [ft]."""
    slope = 0.052 * 5.8 * 5 / CASING
    start, tau = 20 * 5 / slope, CASING * 20 / 0.52
    run = minutes - start
    return slope / 0.52 * (run - tau * (1 - exp(-run / tau)))


def eight_thousand():
    """Return lead and tail in a well of 8,000 ft, without friction."""
    casing, annulus = 0.07446, 0.05578
    rate = 6 * BARREL / MINUTE
    lead, tail = fluid("lead", 13.8), fluid("tail", 15.8)
    tail_volume = 1000 * annulus + 44 * casing
    pumped = (slug(lead, 2000 * annulus * BARREL, rate), slug(tail, tail_volume * BARREL, rate),
              Slug(MUD, (Stage(0.0, rate),)))  # fmt: skip
    return Plan(well(casing, annulus, 8000.0, 7956.0), MUD, pumped, top_plug=2), casing


def test_lead_and_tail_fall_level_out_and_lift():
    plan, casing = eight_thousand()
    job = predict(plan)
    turned = job.at(event(job, TURNS, "lead").volume)
    assert round(0.52 * turned.level / FOOT) == 535
    behind_plug = event(job, CAUGHT_UP).volume / BARREL - plan.slugs[0].volume / BARREL
    behind_plug -= plan.slugs[1].volume / BARREL
    assert behind_plug == pytest.approx(511.5, abs=0.1)
    assert behind_plug + (111.56 + 59.06) - 8000 * casing == pytest.approx(86.4, abs=0.1)
    bump = event(job, BUMPS)
    assert round(bump.volume / BARREL - 111.56 - 59.06, 1) == 592.4
    assert round(bump.pressure / PSI * ROUNDED) == 684 or bump.pressure / PSI * ROUNDED == (
        pytest.approx(683.5, abs=0.1)
    )


def test_rate_of_a_fall_against_the_square_of_the_rate():
    plan, casing = eight_thousand()
    unit = BARREL / MINUTE
    length = 8000 * FOOT

    def friction(_, gap, rate):
        return 5.35 * PSI / ROUNDED * (rate / unit) ** 2 / length if gap.pipe else 0.0

    tube = Tube(plan.well)
    balance = Balance(plan, tube, friction)
    balance.anchor = 6 * unit
    front_at_the_shoe = 8000 * casing * BARREL
    fallen = fall(balance, front_at_the_shoe, 0.0, 6 * unit, 1e-6, 0.0, 6 * unit)
    assert fallen.out / unit == pytest.approx(10.0, abs=0.005)
    a_second = fall(balance, front_at_the_shoe, 0.0, 6 * unit, 1.0, 0.0, 6 * unit)
    assert a_second.gap / BARREL * MINUTE / casing == pytest.approx(53.7, rel=0.01)


@pytest.mark.parametrize("seed", range(3))
def test_what_comes_back_is_what_was_pumped_and_the_empty_casing(seed):
    job = predict(drawn(Random(seed)).plan(), step=0.3)
    assert list(job.volume) == sorted(job.volume)
    assert list(job.time) == sorted(job.time)
    assert min(job.empty) >= -1e-9
    assert min(job.returns) >= 0
    assert job.returned == tuple(v + e for v, e in zip(job.volume, job.empty, strict=True))
    # the rate of returns, summed up on its own, gives the same volume
    summed = sum(
        (t2 - t1) * (q1 + q2) / 2
        for t1, t2, q1, q2 in zip(
            job.time, job.time[1:], job.returns, job.returns[1:], strict=False
        )
    )
    assert summed == pytest.approx(job.returned[-1], rel=0.01)
    for share in (0.1, 0.5, 0.9):
        volume = share * job.volume[-1]
        lying = job.lying(volume)
        assert lying[0].start == (0 if job.tube.top else job.at(volume).empty)
        assert lying[-1].end == pytest.approx(job.tube.end)
        held = sum(each.end - each.start for each in lying)
        assert held + job.at(volume).empty == pytest.approx(job.tube.end)
        assert min(each.end - each.start for each in lying) >= 0


def test_while_the_columns_fall_their_push_is_the_friction():
    made = drawn(Random(4))
    plan = made.plan()
    job = predict(plan)
    balance = Balance(plan, job.tube)
    rows = [p for p, (gap, out) in enumerate(zip(job.empty, job.returns, strict=True))
            if gap > 0.5 and out > 1e-3][::50]  # fmt: skip
    assert rows
    for row in rows:
        columns = balance.columns(job.volume[row], job.empty[row])
        push = balance.push(columns) + plan.limit - plan.back_pressure
        assert balance.lost(columns, job.returns[row]) == pytest.approx(push, rel=0.01)


def test_a_full_casing_is_the_sum_of_its_columns_and_friction():
    made = drawn(Random(4))
    plan = replace(made.plan(), limit=0.0)
    job = predict(plan)
    volume, survey = job.volume[-1], plan.well.survey
    inside = job.inside(volume).pressure(plan.well.shoe, survey)
    outside = job.outside(volume).pressure(plan.well.shoe, survey) + plan.back_pressure
    balance = Balance(plan, job.tube)
    balance.anchor = job.rate[-1]
    friction = balance.lost(balance.columns(volume, 0.0), job.rate[-1])
    assert job.pressure[-1] == pytest.approx(outside - inside + friction, rel=1e-6)
    at_shoe = job.points[0].pressure[-1]
    assert outside < at_shoe < outside + friction


def test_equivalent_density_at_the_shoes_and_a_named_depth():
    plan = drawn(Random(2)).plan()
    previous = plan.well.hole.previous_shoe
    zone = Point("sand", (previous + plan.well.shoe) / 2, pore=1100.0, weak_at=1900.0)
    job = predict(replace(plan, points=(zone,)), step=0.3)
    assert [each.point.name for each in job.points] == ["new shoe", "sand", "previous shoe"]
    deep, sand, shallow = (each.pressure for each in job.points)
    assert all(a > b > c for a, b, c in zip(deep, sand, shallow, strict=True))
    extreme = job.extreme("sand")
    assert extreme.to_weak == pytest.approx(1900.0 - max(job.points[1].equivalent))
    assert extreme.to_pore == pytest.approx(extreme.least - 1100.0)
    with pytest.raises(DomainError, match="is not among the depths watched"):
        job.extreme("coal")
    below = Point("deep sand", plan.well.shoe + 5)
    with pytest.raises(DomainError, match=r"deep sand at .* is not in the annulus"):
        predict(replace(plan, points=(below,)))


def test_the_bottom_plug_opens_with_a_rise_when_the_casing_is_full():
    light = Slug(fluid("light", 10.0), (Stage(100 * BARREL, 0.015),))
    plan = hundred_barrels()
    slugs = (light, light, plan.slugs[1])
    opened = replace(plan, slugs=slugs, top_plug=2, bottom_plugs=(BottomPlug(1, 2e6),))
    job = predict(opened)
    lands, opens = event(job, LANDS, "light"), event(job, OPENS, "light")
    assert lands.volume == opens.volume
    assert lands.volume == pytest.approx(100 * BARREL + job.tube.collar)
    assert opens.pressure - lands.pressure == pytest.approx(2e6)
    assert job.greatest_pressure == pytest.approx(opens.pressure)


def test_a_bottom_plug_that_lands_in_free_fall_holds_the_columns_until_it_opens():
    plan = hundred_barrels(bottom_plugs=(BottomPlug(0, 20e6),))
    job = predict(plan)
    lands, opens = event(job, LANDS, "slurry"), event(job, OPENS, "slurry")
    assert lands.volume < opens.volume
    held = [out for volume, out in zip(job.volume, job.returns, strict=True)
            if lands.volume < volume < opens.volume]  # fmt: skip
    assert held
    assert set(held) == {0.0}
    assert opens.pressure == pytest.approx(20e6, rel=1e-6)


def test_returns_go_on_while_the_pump_stands_and_stop_in_balance():
    stop = Slug(SLURRY, (Stage(100 * BARREL, 0.01, 3600.0),))
    plan = hundred_barrels()
    job = predict(replace(plan, slugs=(stop, plan.slugs[1])))
    during = [p for p, rate in enumerate(job.rate) if rate == 0]
    assert job.time[during[-1]] - job.time[during[0]] == pytest.approx(3600.0)
    assert {job.volume[p] for p in during} == {100 * BARREL}
    assert job.returns[during[-1]] == 0
    assert job.empty[during[-1]] / BARREL == pytest.approx(58.0, abs=1e-3)


def test_slow_down_before_the_bump():
    plan = hundred_barrels(slow_volume=10 * BARREL, slow_rate=2 * BARREL / MINUTE)
    job = predict(plan)
    assert job.volume[-1] - event(job, SLOWS, "mud").volume == pytest.approx(10 * BARREL)
    assert job.rate[-1] == 2 * BARREL / MINUTE
    assert job.at(job.volume[-1] - 11 * BARREL).rate == 5 * BARREL / MINUTE


def test_a_displacement_too_small_does_not_bump():
    plan = hundred_barrels()
    short = (plan.slugs[0], slug(MUD, 300 * BARREL, 0.01))
    job = predict(replace(plan, slugs=short))
    assert not job.bumped
    assert job.volume[-1] == pytest.approx(400 * BARREL)


def test_a_casing_that_would_empty_to_the_shoe_is_refused():
    shallow = replace(hundred_barrels(), well=well(shoe=1000.0), limit=5e6)
    with pytest.raises(DomainError, match="would empty to the shoe"):
        predict(shallow)
