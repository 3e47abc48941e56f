"""A bump is proposed where there is one, and told apart from what only looks like it."""

from __future__ import annotations

import sys
from dataclasses import replace
from math import inf, nan
from random import Random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tally.cement.bump import (
    BUMP,
    NOT_SEEN,
    OUTSIDE,
    RATE,
    SLOW,
    VALVE,
    BumpFinder,
    BumpRule,
    Found,
    PumpPoint,
    find_bump,
)
from tests.tally.cement.bump_files import A_MINUTE, BARREL, PSI, marched, recorded
from tests.tally.cement.bump_score import Score, fresh, scores
from tests.tally.cement.bump_table import BEGIN, END, table, written

RULE = BumpRule(600 * BARREL, 4 * BARREL, 4 * BARREL)


class Pump:
    """A pump that is told what to do; a reading every few seconds."""

    def __init__(self, volume: float = 560.0, rate: float = 4.0) -> None:
        self.time, self.volume, self.rate, self.lift, self.more = 0.0, volume, rate, 800.0, 0.0
        self.random, self.rated = Random(7), True
        self.points: list[PumpPoint] = []

    def goes(self, barrels: float = 0.0, seconds: float = 0.0, rising: float = 15.0) -> Pump:
        """Pump on, or wait, with the pressure rising so many psi a barrel."""
        span = barrels / self.rate * 60 if barrels else seconds
        for _ in range(round(span / 5)):
            step = self.rate * 5 / 60 if barrels else 0.0
            self.time, self.volume = self.time + 5, self.volume + step
            self.lift += step * rising
            rate = self.rate if barrels else 0.0
            seen = self.lift + self.more + 40 * rate**1.8 + self.random.gauss(0, 15)
            point = PumpPoint(self.time, self.volume * BARREL, seen * PSI, rate * A_MINUTE)
            self.points.append(point if self.rated else replace(point, rate=None))
        return self

    def bumps(self, by: float = 700.0) -> Pump:
        """Press the fluid together, stop, hold."""
        self.goes(600 * 3e-6 * by, rising=1 / (600 * 3e-6))
        self.lift += 40 * self.rate**1.8
        return self.goes(seconds=60)

    def found(self) -> Found:
        """Return what the record shows."""
        return find_bump(self.points, RULE)


@pytest.mark.parametrize("rated", [True, False])
@pytest.mark.parametrize("at", [596.5, 600.0, 603.5])
def test_a_bump_within_the_band_is_proposed_with_its_figures(at: float, rated: bool) -> None:
    pump = Pump()
    pump.rated = rated
    before = pump.goes(at - 560.0).lift + 40 * 4**1.8
    bump = pump.bumps().found().proposal
    assert bump is not None
    assert bump.kind == BUMP
    assert bump.volume / BARREL == pytest.approx(at, abs=0.5)
    assert bump.before / PSI == pytest.approx(before, abs=40)
    assert bump.after / PSI == pytest.approx(before + 700, abs=60)
    assert "within the band" in bump.why
    assert "safe" not in bump.why


@pytest.mark.parametrize("at", [590.0, 609.0])
def test_outside_the_band_it_is_no_bump_but_is_told(at: float) -> None:
    found = Pump().goes(at - 560.0).bumps().found()
    assert found.proposal is None
    assert [each.kind for each in found.others] == [OUTSIDE]
    assert found.others[0].volume / BARREL == pytest.approx(at, abs=0.5)
    assert "outside the band" in found.why


def test_a_higher_rate_explains_its_pressure() -> None:
    pump = Pump(rate=3.0).goes(39.0)
    pump.rate = 5.5
    found = pump.goes(8.0).found()
    assert found.proposal is None
    assert RATE in [each.kind for each in found.others]
    assert "higher rate" in found.why


def test_a_bump_is_seen_after_a_change_of_rate() -> None:
    for rate in (2.0, 5.5):
        pump = Pump().goes(38.0)
        pump.rate = rate
        bump = pump.goes(2.0).bumps().found().proposal
        assert bump is not None
        assert bump.volume / BARREL == pytest.approx(600.0, abs=0.5)


def test_a_stop_and_a_start_within_the_band_are_none() -> None:
    pump = Pump().goes(39.0).goes(seconds=900).goes(6.0)
    assert pump.found().proposal is None


def test_cement_that_sets_is_no_bump() -> None:
    pump = Pump().goes(30.0)
    for each in range(12):
        pump.goes(1.2, rising=15 + 6 * each)
    assert pump.found().proposal is None


def test_a_quicker_rise_than_lift_but_no_bump_is_called_slow() -> None:
    found = Pump().goes(38.0).goes(6.0, rising=130.0).found()
    assert found.proposal is None
    assert SLOW in [each.kind for each in found.others]


def test_a_rise_with_the_volume_standing_is_a_valve() -> None:
    pump = Pump().goes(40.0)
    pump.more = 1500 + 40 * 4**1.8
    found = pump.goes(seconds=60).found()
    assert found.proposal is None
    assert [each.kind for each in found.others] == [VALVE]


def test_one_wild_reading_is_noise() -> None:
    pump = Pump().goes(40.0)
    pump.points[-3] = replace(pump.points[-3], pressure=pump.points[-3].pressure + 3000 * PSI)
    found = pump.goes(6.0).found()
    assert found.proposal is None
    assert found.why == NOT_SEEN


def test_the_proposal_comes_while_pumping_and_once() -> None:
    pump = Pump().goes(40.0).bumps()
    finder = BumpFinder(RULE)
    told = [rise for rise in map(finder.add, pump.points) if rise is not None]
    assert [each.kind for each in told] == [BUMP]
    assert told[0].seen - told[0].time < 30
    assert finder.proposal is not None
    assert finder.proposal.after >= told[0].after


def test_readings_that_are_no_numbers_or_of_the_same_second_are_left_out() -> None:
    pump = Pump().goes(40.0).bumps()
    broken = [replace(pump.points[9], pressure=nan), replace(pump.points[9], volume=inf)]
    again = [point for each in pump.points for point in (each, each)]
    assert find_bump([*broken, *again], RULE) == pump.found()


def test_a_count_zeroed_anew_starts_anew() -> None:
    before = Pump().goes(40.0).points
    pump = Pump(volume=570.0)
    pump.time = 10_000.0
    assert find_bump([*before, *pump.goes(30.0).bumps().points], RULE).proposal is not None


@settings(max_examples=50, deadline=None)
@given(
    st.lists(
        st.tuples(*[st.floats(allow_nan=True, allow_infinity=True)] * 4), min_size=0, max_size=60
    )
)
@example([(-2.0, 0.0, 0.0, 9e307), (-1.0, 0.0, 0.0, 9e307), (0.0, 0.0, 0.0, 0.0)])
def test_whatever_is_fed_nothing_breaks(rows: list[tuple[float, ...]]) -> None:
    find_bump([PumpPoint(*row) for row in rows], RULE)


def test_it_holds_no_more_for_a_longer_record() -> None:
    def held(barrels: float) -> int:
        finder = BumpFinder(RULE)
        for point in Pump(volume=590.0 - barrels).goes(barrels).points:
            finder.add(point)
        kept = (*finder._recent, *finder._trend._bins)
        return len(kept) * sys.getsizeof(kept[0])

    assert held(3000.0) <= held(1500.0)


def test_one_low_reading_on_a_slow_rise_is_not_the_foot_of_a_bump() -> None:
    file = recorded(marched(232897015), 232897367, bumped=False)
    assert find_bump(file.points, file.rule).proposal is None


def _judge(marches: int, count: int) -> None:
    start = fresh()
    seen = scores(range(start, start + marches), range(start, start + count))
    wrong = [each.file.told for each in seen if each.false]
    missed = [each.file.told for each in seen if each.file.bump is not None and not each.found]
    assert not wrong, f"called without a bump: {wrong}"
    assert len(missed) <= count // 200, f"missed: {missed}"


def test_four_hundred_recorded_files() -> None:
    _judge(marches=24, count=400)


@pytest.mark.long
def test_many_recorded_files() -> None:
    start = fresh()
    seen = scores(range(start, start + 200), range(start, start + 6000))
    bumps = [each for each in seen if each.file.bump is not None]
    missed = [each.file.told for each in bumps if not each.found]
    wrong = [each.file.told for each in seen if each.false]
    assert len(missed) <= len(bumps) / 100, missed
    assert len(wrong) <= 1, wrong


def test_the_table_counts_found_and_false() -> None:
    seen = scores(range(2), range(8))
    spoilt = [Score(each.file, 0.0) for each in seen]
    assert table(seen).splitlines()[-1] == "| all |  | 4 | 4 | 0 | 4 |"
    assert table(spoilt).splitlines()[-1] == "| all |  | 0 | 4 | 4 | 4 |"
    guide = f"above\n{BEGIN}\nold\n{END}\nbelow\n"
    assert written(guide, seen) == f"above\n{BEGIN}\n{table(seen)}\n{END}\nbelow\n"
