"""Expected and seen for the trip tank, against exact fractions."""

import pytest

from tally.job.entries.running import LaidDown, PulledOut
from tally.job.entries.watching import Filled, TankRead
from tally.job.figures import figure
from tally.job.tank import last_reading, looks, looks_since, mark, since_mark
from tally.units import from_unit, read
from tests.tally.job.invented import closed_end, length_of, limits, running, setup
from tests.tally.job.second_opinion import BORE, CLOSED, STEEL, cubic_metres

BARREL = from_unit(1, "bbl")


def tank(told, text, **more):
    """Read the trip tank."""
    return told.says(TankRead, volume=read(text, "volume"), **more)


def metres(check):
    """Return what was expected and what was seen."""
    return check.expected, check.seen


def test_closed_end_the_whole_outside_of_the_pipe_goes_into_the_tank():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    check = last_reading(tank(told, "13.5 bbl"))
    assert check.expected == pytest.approx(cubic_metres(CLOSED * length_of(1)))
    assert check.seen == pytest.approx(3.5 * BARREL)
    assert check.items == 1
    assert check.difference == pytest.approx(check.seen - check.expected)
    assert check.agrees


def test_open_end_only_the_steel_does():
    told = running("S1", plan=setup(filling=closed_end(False)))
    tank(told, "10 bbl")
    told.runs("1")
    check = last_reading(tank(told, "10.7 bbl"))
    assert check.expected == pytest.approx(cubic_metres(STEEL * length_of(1)))
    assert check.agrees


def test_a_fill_from_the_tank_is_taken_off_and_one_from_the_pit_is_not():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    told.says(Filled, source="active pit", volume=read("1 bbl", "volume"))
    told.says(Filled, source="trip tank", volume=read("1.5 bbl", "volume"))
    check = last_reading(tank(told, "12 bbl"))
    by_hand = cubic_metres(CLOSED * length_of(1)) - 1.5 * BARREL
    assert check.expected == pytest.approx(by_hand)


def test_a_fill_to_the_top_from_the_tank_draws_what_the_pipe_holds():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    told.says(Filled, source="trip tank")
    check = last_reading(tank(told, "10 bbl"))
    by_hand = cubic_metres(CLOSED * length_of(1)) - cubic_metres(BORE * (195 + length_of(1)))
    assert check.expected == pytest.approx(by_hand)


def test_an_item_pulled_out_between_lets_the_tank_fall():
    told = running("S1", "1", "2")
    tank(told, "10 bbl")
    told.says(PulledOut, number="2")
    check = last_reading(tank(told, "6.5 bbl"))
    assert check.expected == pytest.approx(-cubic_metres(CLOSED * length_of(2)))
    assert check.items == -1
    assert check.agrees


def test_an_item_out_and_another_in_leaves_their_difference():
    told = running("S1", "1", "2")
    tank(told, "10 bbl")
    told.says(LaidDown, number="2", reason="thread")
    told.runs("9", despite="the next was laid down")
    check = last_reading(tank(told, "10 bbl"))
    by_hand = CLOSED * (length_of(9) - length_of(2))
    assert check.expected == pytest.approx(cubic_metres(by_hand))
    assert check.items == 0


def test_a_tank_emptied_and_filled_in_between_is_passed_over_in_the_total():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    tank(told, "13.5 bbl")
    told.runs("2")
    tank(told, "4 bbl", mark=True)
    assert last_reading(told.job) is None, "the change to a mark says nothing"
    told.runs("C1", "3")
    tank(told, "7.6 bbl")
    total = since_mark(told.job)
    by_hand = CLOSED * (length_of(1) + 152 + length_of(3))
    assert total.expected == pytest.approx(cubic_metres(by_hand))
    assert total.seen == pytest.approx((3.5 + 3.6) * BARREL)
    assert total.items == 3
    assert total.since == "the first reading"
    assert last_reading(told.job).seen == pytest.approx(3.6 * BARREL)


def test_the_total_starts_anew_where_somebody_says_so():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    tank(told, "13.5 bbl", since="the old shoe")
    assert since_mark(told.job) is None
    assert last_reading(told.job).seen == pytest.approx(3.5 * BARREL)
    told.runs("2")
    total = since_mark(tank(told, "17.1 bbl"))
    assert total.since == "the old shoe"
    assert total.expected == pytest.approx(cubic_metres(CLOSED * length_of(2)))
    assert [look.out for look in looks(told.job)] == pytest.approx([0.0, 0.0, total.difference])
    assert looks(told.job)[1].seen == pytest.approx(3.5 * BARREL)
    assert [look.level.items for look in looks_since(told.job)] == [2, 3]


def test_nothing_is_said_before_two_readings():
    told = running("S1")
    assert last_reading(told.job) is since_mark(told.job) is None
    tank(told, "10 bbl")
    assert last_reading(told.job) is since_mark(told.job) is None
    assert figure(told.job, "tank_expected").missing == (
        "The trip tank was not read twice since its mark."
    )


@pytest.mark.parametrize(
    ("seen", "agrees"), [("13.6 bbl", True), ("12.5 bbl", False), ("14.7 bbl", False)]
)
def test_a_gain_or_a_loss_beyond_the_limit_does_not_agree(seen, agrees):
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    check = last_reading(tank(told, seen, despite="" if agrees else "read twice"))
    assert check.agrees is agrees


def test_without_a_limit_nobody_says_that_it_agrees():
    told = running("S1", plan=setup(limits=limits(tank_difference="")))
    tank(told, "10 bbl")
    told.runs("1")
    assert last_reading(tank(told, "90 bbl")).agrees is None


def test_the_figures_show_what_the_check_found():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    tank(told, "13.5 bbl")
    check = last_reading(told.job)
    for key, value in (
        ("tank_expected", check.expected),
        ("tank_seen", check.seen),
        ("tank_difference", check.difference),
        ("tank_total_expected", check.expected),
        ("tank_total_seen", check.seen),
        ("tank_total_difference", check.difference),
    ):
        made = figure(told.job, key)
        assert made.value == pytest.approx(value)
        assert made.quantity == "volume"


def test_differences_run_on_over_an_emptying_and_begin_anew_at_a_mark():
    told = running("S1")
    tank(told, "10 bbl")
    told.runs("1")
    tank(told, "14 bbl")
    tank(told, "3 bbl", mark=True)
    told.runs("2")
    job = tank(told, "6 bbl")
    first = 4 * BARREL - cubic_metres(CLOSED * length_of(1))
    second = first + 3 * BARREL - cubic_metres(CLOSED * length_of(2))
    assert [look.level.items for look in looks_since(job)] == [1, 2, 2, 3]
    assert [look.out for look in looks_since(job)] == pytest.approx([0.0, first, first, second])
    assert looks_since(job)[-1].out == pytest.approx(since_mark(job).difference)
    assert mark(job) == "the first reading"
