"""Depths in whole steps, counted from the shoe up, against plain integers."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.job.depths import collar, joints_to_go, reaches, shoe_depth, stick_up, to_go
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun, Rejected
from tally.job.setup import Lengths, Planned
from tally.units import read
from tests.tally.job.invented import Telling, length_of, running, setup


def of_lengths(lengths, *, stick_up=0, casing_point="486 ft", unit="ft"):
    """Return a job with joints of these lengths on the rack, listed in that order."""
    hole = replace(setup().hole, casing_point=read(casing_point, "length"))
    order = tuple(str(n) for n in range(1, len(lengths) + 1))
    plan = setup(
        hole=hole,
        items=(),
        order=order,
        lengths=Lengths(unit=unit, stick_up=stick_up),
        previous=None,
    )
    told = Telling()
    told.says(SetUp, setup=plan)
    told.says(
        Received,
        items=tuple(
            Arrival(number=number, length=length, typed="")
            for number, length in zip(order, lengths, strict=True)
        ),
    )
    return told


def test_the_sketch_of_the_running_page():
    """86 joints in the string, 3,536.67 ft with the stick-up; the casing point at 8,240 ft."""
    told = of_lengths([353667, *[4150] * 117], stick_up=322, casing_point="8240 ft")
    told.says(ItemRun, number="1", despite="86 joints in one")
    job = told.job
    assert job.known.step.show(job.length) == "3,536.67"
    assert job.known.step.show(shoe_depth(job)) == "3,533.45"
    assert job.known.step.show(to_go(job)) == "4,706.55"
    assert joints_to_go(job) == (114, 3)


def test_every_item_has_its_depths_from_the_shoe_up():
    job = running("S1", "1", "2", "C1", "3").job
    total = 195 + 4007 + 4014 + 152 + 4021
    shoe = total - 322
    assert shoe_depth(job) == shoe
    assert [(r.made.number, r.bottom, r.top) for r in reaches(job)] == [
        ("S1", shoe, shoe - 195),
        ("1", shoe - 195, shoe - 195 - 4007),
        ("2", shoe - 4202, shoe - 4202 - 4014),
        ("C1", shoe - 8216, shoe - 8216 - 152),
        ("3", shoe - 8368, -322),
    ]
    assert collar(job).number == "C1"


def test_the_final_depths_follow_from_the_stick_up_as_landed():
    told = running("S1", "1", "2", "C1", *map(str, range(3, 13))).lands(stick_up=610)
    assert stick_up(told.job) == 610
    assert shoe_depth(told.job) == 48893 - 610
    assert to_go(told.job) == 48600 - (48893 - 610)
    assert reaches(told.job)[-1].top == -610


def test_the_uppermost_collar_is_the_one_the_plugs_land_on():
    items = (*setup().items, Planned(number="C2", kind="collar", length=150, typed="1.50"))
    told = Telling().starts(setup(items=items, order=("S1", "C1", "1", "C2", "2")), joints=2)
    assert collar(told.runs().job).number == "C2"


@given(lengths=st.lists(st.integers(1, 6000), min_size=1, max_size=30), up=st.integers(0, 900))
def test_depths_are_sums_of_what_lies_above(lengths, up):
    told = of_lengths(lengths, stick_up=up)
    for number in told.job.order:
        told.says(ItemRun, number=number)
    for place, reach in enumerate(reaches(told.job)):
        assert reach.top == sum(lengths[place + 1 :]) - up
        assert reach.bottom == sum(lengths[place:]) - up
    assert shoe_depth(told.job) == sum(lengths) - up


# Joints to go


def test_what_is_needed_and_what_is_spare():
    told = running("S1", "1", "2", "C1")
    # 486 ft less 8,046 hundredths is 40,554: joints 3 to 12 come to 40,525, so all are wanted
    assert to_go(told.job) == 48600 - 8046
    assert joints_to_go(told.job) == (10, -1)
    deeper = running("S1", "1", "2", "C1", *map(str, range(3, 12)))
    assert joints_to_go(deeper.job) == (1, -1)


@pytest.mark.parametrize(
    ("point", "needed", "spare"),
    [
        ("100.00 ft", 3, 2),
        ("80.00 ft", 2, 3),
        ("80.01 ft", 3, 2),
        ("200 ft", 5, 0),
        ("200.01 ft", 5, -1),
        ("240 ft", 5, -1),
        ("240.01 ft", 5, -2),
    ],
)
def test_the_lengths_in_order_decide(point, needed, spare):
    assert joints_to_go(of_lengths([4000] * 5, casing_point=point).job) == (needed, spare)


def test_a_rejected_joint_is_not_counted_on():
    told = of_lengths([4000] * 5, casing_point="120 ft")
    assert joints_to_go(told.job) == (3, 2)
    told.says(Rejected, number="2", reason="drift")
    assert joints_to_go(told.job) == (3, 1)


def test_pieces_bring_the_shoe_nearer_and_are_no_joints():
    told = running()
    assert joints_to_go(running("S1", "1", "2").job)[0] == joints_to_go(told.job)[0] - 2


def test_past_the_casing_point_nothing_is_needed():
    told = of_lengths([4000] * 5, casing_point="50 ft").runs("1", "2")
    assert to_go(told.job) == -3000
    assert joints_to_go(told.job) == (0, 3)


def test_with_nothing_left_the_joints_short_are_counted_by_those_run():
    told = of_lengths([4000] * 2, casing_point="161 ft").runs("1", "2")
    assert joints_to_go(told.job) == (0, -3)


def test_without_any_joint_nobody_can_say():
    told = Telling()
    told.says(SetUp, setup=setup())
    assert joints_to_go(told.job) == (0, 0)


@given(
    lengths=st.lists(st.integers(1, 6000), min_size=1, max_size=12),
    point=st.integers(1, 60_000),
)
def test_joints_to_go_against_a_plain_count(lengths, point):
    told = of_lengths(lengths, casing_point=f"{point / 100:.2f} ft")
    need = next((n for n in range(len(lengths) + 1) if sum(lengths[:n]) >= point), None)
    if need is not None:
        assert joints_to_go(told.job) == (need, len(lengths) - need)
    else:
        short = point - sum(lengths)
        missing = next(n for n in range(1, 10**6) if n * sum(lengths) >= short * len(lengths))
        assert joints_to_go(told.job) == (len(lengths), -missing)


def test_a_job_in_millimetres_counts_in_millimetres():
    told = of_lengths([12_603, 12_598], casing_point="30 m", unit="mm", stick_up=950)
    told.runs("1", "2")
    assert shoe_depth(told.job) == 25_201 - 950
    assert to_go(told.job) == 30_000 - 24_251


def test_length_of_is_what_the_pipe_list_says():
    assert length_of(3) == 4021
