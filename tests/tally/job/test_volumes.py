"""Volumes of the string as run, against exact fractions worked from the inch up."""

from dataclasses import replace
from fractions import Fraction

import pytest

from tally.job import volumes
from tally.job.entries.pipe import Received
from tally.job.entries.running import ItemRun
from tally.job.entries.watching import Filled
from tally.job.setup import PreviousCasing
from tally.units import read
from tests.tally.job.invented import Telling, arrivals, closed_end, length_of, pipe, running, setup
from tests.tally.job.second_opinion import (
    BORE,
    CLOSED,
    HEAVY_BORE,
    HEAVY_STEEL,
    HOLE,
    OLD_CASING,
    STEEL,
    cubic_metres,
    disc,
    metal,
)

TOTAL = 195 + 152 + sum(length_of(n) for n in range(1, 13))
ABOVE = sum(length_of(n) for n in range(3, 13))
HEAVY = pipe("9-5/8 53.5", "8.535 in", "53.5 lb/ft")


@pytest.fixture
def job():
    """Return the whole string, run."""
    return running().runs().job


def test_what_the_string_holds_and_displaces(job):
    assert job.length == TOTAL
    assert volumes.capacity(job) == pytest.approx(cubic_metres(BORE * TOTAL))
    assert volumes.displaced_closed(job) == pytest.approx(cubic_metres(CLOSED * TOTAL))
    assert volumes.displaced_open(job) == pytest.approx(cubic_metres(STEEL * TOTAL))


def test_above_and_below_the_collar(job):
    above, below = volumes.above_collar(job), volumes.below_collar(job)
    assert [made.number for made in below] == ["S1", "1", "2", "C1"]
    assert volumes.volume(job, above, volumes.bore) == pytest.approx(cubic_metres(BORE * ABOVE))
    assert sum(made.length for made in (*above, *below)) == TOTAL
    nothing = running("S1", "1").job
    assert volumes.above_collar(nothing) == volumes.below_collar(nothing) == ()


def test_two_weights_of_pipe_are_summed_each_with_its_own_bore():
    told = Telling().starts(setup(pipes=(pipe(), HEAVY)), joints=2)
    told.says(Received, items=arrivals(3, 4, pipe=HEAVY.name))
    job = told.runs("S1", "1", "2", "C1", "3", "4").job
    light = 195 + 152 + length_of(1) + length_of(2)
    heavy = length_of(3) + length_of(4)
    assert volumes.capacity(job) == pytest.approx(cubic_metres(BORE * light + HEAVY_BORE * heavy))
    steel = STEEL * light + HEAVY_STEEL * heavy
    assert volumes.displaced_open(job) == pytest.approx(cubic_metres(steel))


def test_the_sum_does_not_depend_on_the_order_of_the_items(job):
    turned = replace(job, string=tuple(reversed(job.string)))
    assert volumes.capacity(turned) == volumes.capacity(job)


def test_empty_length_reaches_down_through_the_items_above_the_mud():
    told = running("S1", "1", "2", "C1", "3")
    assert volumes.empty_length(told.job) == pytest.approx(told.job.known.step.si(told.job.length))
    told.says(Filled, source="active pit", volume=read("4 bbl", "volume"))
    stands = Fraction(4) * 42 * 231 / (BORE * 12)
    hundredths = told.job.length - stands * 100
    assert volumes.empty_length(told.job) == pytest.approx(float(hundredths * Fraction("0.003048")))
    told.says(Filled, source="active pit")
    assert volumes.empty_length(told.job) == pytest.approx(0.0, abs=1e-9)


def test_into_the_tank_by_the_end_of_the_pipe():
    closed = running("S1", "1").job
    opened = running("S1", "1", plan=setup(filling=closed_end(False))).job
    assert volumes.into_tank(closed) == pytest.approx(cubic_metres(CLOSED * 4202))
    assert volumes.into_tank(opened) == pytest.approx(cubic_metres(STEEL * 4202))
    assert volumes.over_the_top(opened) == 0.0


def test_around_the_pipe_in_old_casing_and_in_gauge_hole(job):
    """The old shoe is at 120 ft, the shoe at 485.71 ft; what stands above the datum counts not."""
    by_hand = (OLD_CASING - CLOSED) * 12000 + (HOLE - CLOSED) * (TOTAL - 322 - 12000)
    assert volumes.outside(job) == pytest.approx(cubic_metres(by_hand))


def test_around_the_pipe_above_the_old_shoe_and_without_one():
    short = running("S1", "1", "2").job
    in_casing = cubic_metres((OLD_CASING - CLOSED) * (8216 - 322))
    assert volumes.outside(short) == pytest.approx(in_casing)
    bare = running("S1", "1", "2", plan=setup(previous=None)).job
    assert volumes.outside(bare) == pytest.approx(cubic_metres((HOLE - CLOSED) * (8216 - 322)))


def test_around_a_string_of_two_sizes_each_item_has_its_own():
    seven = replace(pipe("7 29", "6.184 in", "29 lb/ft"), outer_diameter=read("7 in", "diameter"))
    told = Telling().starts(setup(pipes=(pipe(), seven), previous=None), joints=1)
    told.says(Received, items=arrivals(2, 2, pipe="7 29"))
    job = told.runs("S1", "1", "2", despite="crossover left out").job
    small = disc("6.184") + metal("29")
    by_hand = (HOLE - CLOSED) * 4202 + (HOLE - small) * (4014 - 322)
    assert volumes.outside(job) == pytest.approx(cubic_metres(by_hand))


def test_around_the_pipe_the_innermost_casing_counts():
    """A casing of 11 in from 50 to 200 ft hangs inside the old one, whose shoe is at 120 ft."""
    inner = PreviousCasing(
        name="11 in",
        top=read("50 ft", "length"),
        shoe=read("200 ft", "length"),
        inner_diameter=read("11 in", "diameter"),
    )
    job = running(plan=setup(other_casings=(inner,))).runs().job
    by_hand = (OLD_CASING - CLOSED) * 5000 + (disc("11") - CLOSED) * 15000
    by_hand += (HOLE - CLOSED) * (TOTAL - 322 - 20000)
    assert volumes.outside(job) == pytest.approx(cubic_metres(by_hand))


def test_a_string_that_does_not_reach_the_datum_displaces_nothing_below_it():
    told = running()
    job = told.says(ItemRun, number="S1")
    assert volumes.outside(job) == 0.0
