"""Surge, swab and running speed of a job, against the field equations worked by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tally.job.entries.auto_fill import AutoFillConverted
from tally.job.entries.running import ItemRun
from tally.job.figures import figure, show
from tally.job.figures.weights import GOVERNS
from tally.job.job import Job
from tally.job.lowering import fastest_at, going_down
from tally.job.setup import Filling, PreviousCasing, Setup, Zone
from tally.units import from_unit, read, to_unit
from tests.tally.job.figures.test_weights import named, slanted, value
from tests.tally.job.invented import Telling, assert_plain, limits, pumping, running, weighed
from tests.tally.job.whole_figures import assert_whole

WEIGHT, PV, YP = 10.2, 20.0, 6.0
MUD = pumping(
    plastic_viscosity=read(f"{PV} cP", "viscosity"),
    yield_point=read(f"{YP} lbf/100ft2", "yield point"),
)
LIMITS = {"peak_factor": "1.5", "lowering_time": "30 s", "surge_margin": "0.2 lb/gal",
          "trip_margin": "0.1 lb/gal"}  # fmt: skip
KEYS = ("fastest_lowering", "fastest_pulling", "least_lowering", "lowering_seen", "running_speed",
        "surge_pressure", "surge_shoe", "surge_old_shoe", "surge_weakest",
        "swab_lowest")  # fmt: skip
OLD_SHOE = 120.0


def zone(name: str, top: float, bottom: float, **told: str) -> Zone:
    densities = {key: read(text, "density") for key, text in told.items()}
    ends = {"top": read(f"{top} ft", "length"), "bottom": read(f"{bottom} ft", "length")}
    return Zone(name=name, **ends, **densities)


MARL = zone("marl", 200, 300, weak_at="11.5 lb/gal")
SAND = zone("sand", 340, 400, pore="9.3 lb/gal")


def plan(told: dict[str, str] | None = None, **changed: Any) -> Setup:
    """Return a job with everything that surge wants."""
    before = weighed().previous
    assert before is not None
    weak = replace(before, weak_at=read("14 lb/gal", "density"))
    made = weighed(pumping=MUD, previous=weak, zones=(MARL, SAND))
    return replace(made, limits=limits(**(LIMITS if told is None else told)), **changed)


def ready(told: dict[str, str] | None = None, **changed: Any) -> Job:
    """Return the job with eight items run; the next joint is going down."""
    return running("S1", "1", "2", "C1", "3", "4", "5", plan=plan(told, **changed)).job


def by_hand(speed: float, depth: float, shoe: float) -> float:
    """Return the surge down to a depth, psi, by the field equations; ft/s and ft."""
    lost = 0.0
    for hole, top, bottom in ((12.415, 0.0, OLD_SHOE), (12.25, OLD_SHOE, shoe)):
        gap, a = hole - 9.625, 9.625 / hole
        up = speed * 9.625**2 / (hole**2 - 9.625**2)
        # the exact constants at these two diameters, from their own definitions
        slow_part = up + _ring(a) * speed
        fast_part = up + (((a**4 + a) / (1 + a)) ** 0.5 - a * a) / (1 - a * a) * speed
        slow = PV * slow_part / (1000 * gap**2) + YP / (200 * gap)
        fast = WEIGHT**0.75 * fast_part**1.75 * PV**0.25 / (1396 * gap**1.25)
        lost += max(slow, fast) * max(0.0, min(bottom, depth) - top)
    return lost


def _ring(a: float) -> float:
    from math import log

    return (a * a - 2 * a * a * log(a) - 1) / (2 * (1 - a * a) * log(a))


def ft(metres: float) -> float:
    return to_unit(metres, "ft")


def gal(density: float) -> float:
    return to_unit(density, "lb/gal")


def test_the_surge_is_that_of_the_field_equations() -> None:
    job = ready()
    now = going_down(job)
    speed = ft(now.joint) * 1.5 / 30
    assert ft(value(job, "running_speed")) == pytest.approx(speed)
    lost = by_hand(speed, ft(now.shoe), ft(now.shoe))
    assert to_unit(value(job, "surge_pressure"), "psi") == pytest.approx(lost, rel=0.005)
    expected = WEIGHT + lost / (0.052 * ft(now.shoe))
    assert gal(value(job, "surge_shoe")) == pytest.approx(expected, rel=2e-3)
    old = WEIGHT + by_hand(speed, OLD_SHOE, ft(now.shoe)) / (0.052 * OLD_SHOE)
    assert gal(value(job, "surge_old_shoe")) == pytest.approx(old, rel=2e-3)


def test_the_next_joint_is_down_when_it_is_reckoned() -> None:
    job = ready()
    item = job.items["6"]
    shoe = (job.length + item.length - 322) / 100
    assert ft(going_down(job).shoe) == pytest.approx(shoe)
    assert ft(going_down(job).joint) == pytest.approx(item.length / 100)


def test_the_highest_speed_just_reaches_the_weak_density_less_its_margin() -> None:
    job = ready()
    now = going_down(job)
    speed = ft(value(job, "fastest_lowering"))
    shoe = ft(now.shoe)
    at_marl = max(
        WEIGHT + by_hand(speed, place, shoe) / (0.052 * place) for place in (200.0, shoe, 300.0)
    )
    assert at_marl == pytest.approx(11.5 - 0.2, rel=2e-3)
    assert named(job, "fastest_lowering", GOVERNS) == "marl"
    time = ft(now.joint) / speed * 1.5
    assert value(job, "least_lowering") == pytest.approx(time)
    assert named(job, "least_lowering", GOVERNS) == "marl"


def test_the_old_shoe_governs_where_it_is_weaker() -> None:
    before = plan().previous
    assert before is not None
    weak = replace(before, weak_at=read("11 lb/gal", "density"))
    job = ready(previous=weak)
    assert named(job, "fastest_lowering", GOVERNS) == "the shoe of 13-3/8 in"
    assert value(job, "fastest_lowering") < value(ready(), "fastest_lowering")
    assert named(job, "surge_weakest", GOVERNS) == "the shoe of 13-3/8 in"


def test_at_the_highest_speed_nothing_is_left_in_hand() -> None:
    told = {**LIMITS, "lowering_time": f"{value(ready(), 'least_lowering'):.6f} s"}
    job = ready(told)
    left = named(job, "surge_weakest", "in hand, margin kept")
    assert left == pytest.approx(0.0, abs=0.01)
    assert gal(value(job, "surge_weakest")) == pytest.approx(11.3, abs=1e-3)


def test_coming_up_the_sand_is_held_by_what_swab_leaves() -> None:
    job = ready()
    now = going_down(job)
    speed, shoe = ft(value(job, "running_speed")), ft(now.shoe)
    places = (340.0, 400.0)
    lowest = min(WEIGHT - by_hand(speed, place, shoe) / (0.052 * place) for place in places)
    assert gal(value(job, "swab_lowest")) == pytest.approx(lowest, rel=2e-3)
    fastest = ft(value(job, "fastest_pulling"))
    held = min(WEIGHT - by_hand(fastest, place, shoe) / (0.052 * place) for place in places)
    assert held == pytest.approx(9.3 + 0.1, rel=2e-3)


def test_auto_fill_lets_the_pipe_go_faster_until_it_is_converted() -> None:
    filling = Filling(auto_fill=read("70 %", "ratio"))
    told = running("S1", "1", "2", "C1", "3", "4", "5", plan=plan(filling=filling))
    closed = value(ready(), "fastest_lowering")
    assert value(told.job, "fastest_lowering") > 1.2 * closed
    # coming up the float is taken as closed
    pulling = value(ready(), "fastest_pulling")
    assert value(told.job, "fastest_pulling") == pytest.approx(pulling)
    job = told.says(AutoFillConverted)
    assert value(job, "fastest_lowering") == pytest.approx(closed)


def test_open_pipe_goes_faster_than_closed() -> None:
    job = ready(filling=Filling(closed_end=False))
    assert value(job, "fastest_lowering") > 1.5 * value(ready(), "fastest_lowering")
    assert named(job, "surge_pressure", "foot of the pipe") == "open end"


def test_pressure_works_over_the_true_vertical_depth() -> None:
    upright, leaning = ready(), ready(survey=slanted(60))
    assert value(leaning, "surge_pressure") == pytest.approx(value(upright, "surge_pressure"))
    added = value(upright, "surge_shoe") - MUD.mud_weight.value
    assert value(leaning, "surge_shoe") - MUD.mud_weight.value == pytest.approx(2 * added)
    assert value(leaning, "fastest_lowering") < value(upright, "fastest_lowering")


def test_a_zone_behind_casing_bears_nothing() -> None:
    shallow = zone("old marl", 50, 110, weak_at="10.3 lb/gal")
    assert value(ready(zones=(shallow, MARL)), "fastest_lowering") == value(
        ready(), "fastest_lowering"
    )  # fmt: skip
    through = zone("old marl", 50, 200, weak_at="10.9 lb/gal")
    assert named(ready(zones=(through,)), "fastest_lowering", GOVERNS) == "old marl"


def test_a_zone_below_the_shoe_feels_the_whole_surge() -> None:
    deep = zone("chalk", 430, 480, weak_at="10.6 lb/gal")
    job = ready(zones=(deep,))
    speed = ft(value(job, "fastest_lowering"))
    shoe = ft(going_down(job).shoe)
    assert shoe < 430
    assert WEIGHT + by_hand(speed, 430, shoe) / (0.052 * 430) == pytest.approx(10.4, rel=2e-3)


def test_a_lowering_by_the_clock_is_laid_against_the_least() -> None:
    told = running("S1", "1", "2", "C1", "3", "4", plan=plan({**LIMITS, "lowering_time": ""}))
    job = told.says(ItemRun, number="5", lowering=read("28 s", "lowering time"))
    length = job.string[-1].length / 100
    assert ft(value(job, "running_speed")) == pytest.approx(length * 1.5 / 28)
    least = length / ft(value(job, "fastest_lowering")) * 1.5
    assert value(job, "lowering_seen") == pytest.approx(28 - least)
    fast = told.says(ItemRun, number="6", lowering=read("4 s", "lowering time"))
    assert value(fast, "lowering_seen") < 0
    assert show(fast, value(fast, "lowering_seen"), "lowering time difference").startswith("-")


def test_a_time_from_joint_to_joint_is_never_taken_for_a_lowering() -> None:
    job = ready({**LIMITS, "lowering_time": ""})
    assert value(job, "pace") == 60
    for key in ("running_speed", "surge_pressure", "surge_weakest", "lowering_seen"):
        said = figure(job, key).missing
        assert "the speed was not measured" in said
        assert_plain(said)
    assert value(job, "least_lowering") > 0
    planned = ready()
    assert "Item 5 was not timed" in figure(planned, "lowering_seen").missing


def test_what_is_not_set_is_asked_for_or_said() -> None:
    without = ready({**LIMITS, "peak_factor": ""})
    for key in ("least_lowering", "running_speed"):
        assert figure(without, key).missing == "Peak factor is not in the limits."
    assert value(without, "fastest_lowering") > 0
    thin = ready(pumping=pumping())
    said = "Plastic viscosity is not in the job set-up."
    assert figure(thin, "fastest_lowering").missing == said
    bare = ready({**LIMITS, "surge_margin": ""}, zones=(MARL,))
    margin = next(one for one in figure(bare, "fastest_lowering").inputs if "margin" in one.name)
    assert (margin.value, "not set" in margin.where) == (0.0, True)
    assert value(bare, "fastest_lowering") > value(ready(), "fastest_lowering")
    assert "set pore of a zone" in figure(bare, "swab_lowest").missing
    strong = ready(zones=(), previous=weighed().previous)
    assert "set weak_at" in figure(strong, "fastest_lowering").missing


def test_a_limit_that_no_speed_keeps_is_told() -> None:
    thick = replace(MUD, yield_point=read("60 lbf/100ft2", "yield point"))
    tight = zone("tight", 200, 300, weak_at="10.6 lb/gal")
    said = figure(ready(pumping=thick, zones=(tight,)), "fastest_lowering").missing
    assert said.startswith("No speed is slow enough at tight")
    assert_plain(said)
    heavy = figure(ready(zones=(zone("loss", 200, 300, weak_at="10.3 lb/gal"),)), "least_lowering")
    assert heavy.missing.startswith("The mud of 10.2 lb/gal standing still is as heavy as loss")
    assert_plain(heavy.missing)
    light = figure(
        ready(zones=(MARL, zone("gas", 340, 400, pore="10.2 lb/gal"))), "fastest_pulling"
    )
    assert "does not hold gas" in light.missing
    assert_plain(light.missing)


def test_the_speed_at_a_depth_ahead_is_the_live_one_when_the_string_is_there() -> None:
    told = running("S1", "1", "2", "C1", plan=plan())
    ahead = [from_unit(feet, "ft") for feet in (200.0, 300.0, 400.0)]
    for shoe in (going_down(told.job).shoe, *ahead):
        (one,) = fastest_at(told.job, [shoe])
        assert not isinstance(one, str)
    later = running("S1", "1", "2", "C1", "3", "4", "5", plan=plan()).job
    (then,) = fastest_at(told.job, [going_down(later).shoe])
    assert not isinstance(then, str)
    assert then.speed == pytest.approx(value(later, "fastest_lowering"), rel=1e-6)
    speeds = [one.speed for one in fastest_at(told.job, ahead) if not isinstance(one, str)]
    assert speeds == sorted(speeds, reverse=True)
    assert len(speeds) == 3


def test_every_figure_is_whole_at_every_item() -> None:
    told = Telling().starts(plan())
    assert figure(told.job, "fastest_lowering").missing == "The shoe is not below the datum yet."
    for number in told.job.order:
        job = told.says(ItemRun, number=number, lowering=read("30 s", "lowering time"))
        assert_whole(job)
    assert all(figure(job, key).value is not None for key in KEYS)
    landed = told.lands().job
    assert ft(going_down(landed).shoe) == pytest.approx((landed.length - 322) / 100)


def test_within_a_zone_the_shoe_is_where_it_is_pressed_hardest() -> None:
    job = ready(zones=(zone("shale", 130, 480, weak_at="11 lb/gal"),))
    speed, shoe = ft(value(job, "fastest_lowering")), ft(going_down(job).shoe)
    assert 130 < shoe < 480
    at_shoe = WEIGHT + by_hand(speed, shoe, shoe) / (0.052 * shoe)
    assert at_shoe == pytest.approx(10.8, rel=1e-3)
    assert at_shoe > WEIGHT + by_hand(speed, 130, shoe) / (0.052 * 130) + 0.005


def test_a_casing_behind_the_previous_one_bears_nothing() -> None:
    outer = PreviousCasing(
        name="18-5/8 in",
        shoe=read("60 ft", "length"),
        inner_diameter=read("17.7 in", "diameter"),
        weak_at=read("10.25 lb/gal", "density"),
    )
    assert value(ready(other_casings=(outer,)), "fastest_lowering") == pytest.approx(
        value(ready(), "fastest_lowering")
    )  # fmt: skip


def test_coming_up_what_auto_fill_lets_out_is_not_counted() -> None:
    filling = Filling(auto_fill=read("70 %", "ratio"))
    assert value(ready(filling=filling), "swab_lowest") == value(ready(), "swab_lowest")
    assert value(ready(filling=filling), "surge_shoe") < value(ready(), "surge_shoe")


def test_on_depth_no_further_joint_is_reckoned_with() -> None:
    told = running("S1", "1", "2", "C1", "3", "4", "5", plan=plan())
    job = told.lands(counted=7).job
    assert ft(going_down(job).shoe) == pytest.approx((job.length - 322) / 100)
    assert ft(going_down(job).joint) == pytest.approx(job.string[-1].length / 100)


def test_the_gel_is_broken_before_the_mud_flows_and_is_not_added() -> None:
    gelled = replace(MUD, gel_strength=read("8 lbf/100ft2", "yield point"))
    job = ready(pumping=gelled)
    shoe = ft(going_down(job).shoe)
    by_wall = 8 * OLD_SHOE / (300 * (12.415 - 9.625)) + 8 * (shoe - OLD_SHOE) / (300 * 2.625)
    assert to_unit(value(job, "gel_pressure"), "psi") == pytest.approx(by_wall, rel=1e-3)
    marl = 8 * OLD_SHOE / (300 * 2.79) + 8 * (shoe - OLD_SHOE) / (300 * 2.625)
    assert gal(value(job, "gel_weakest")) == pytest.approx(
        WEIGHT + marl / (0.052 * min(shoe, 300)), rel=2e-3
    )
    for key in ("surge_pressure", "fastest_lowering", "surge_weakest"):
        assert value(job, key) == value(ready(), key)
    assert figure(ready(), "gel_pressure").missing == "Gel strength is not in the job set-up."


def test_a_gel_that_takes_more_than_the_hole_bears_stops_every_speed() -> None:
    stiff = replace(MUD, gel_strength=read("60 lbf/100ft2", "yield point"))
    said = figure(ready(pumping=stiff), "fastest_lowering").missing
    assert said.startswith("Breaking the gel of 60 lbf/100ft2 takes more than marl bears")
    assert_plain(said)
    assert fastest_at(ready(pumping=stiff), [going_down(ready()).shoe]) == (said,)
