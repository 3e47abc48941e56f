"""The centralizer programme turned into joints: by joint, by depth, by zone, as lengths stand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.job.entries.pipe import Received
from tally.job.entries.rack import OrderSet
from tally.job.entries.running import ItemRun, Rejected
from tally.job.fittings import due_on, missing_on, wanted
from tally.job.programme import programme, rule_faults
from tally.job.running_list import slots
from tally.job.setup import Rule, Zone
from tally.units import read
from tests.tally.job.invented import ORDER, arrivals, running, setup

BOW = "bow centralizer"


def feet(text):
    return read(f"{text} ft", "length")


def plan(*rules, **changed):
    return setup(programme=rules, **changed)


def joints_of(job):
    return [rule.joints for rule in programme(job)]


def test_a_line_by_joint_stays_as_it_is():
    rule = Rule(what=BOW, joints=(1, 5, 9))
    assert programme(running(plan=plan(rule)).job) == (rule,)


def test_a_line_by_depth_means_each_joint_of_which_a_part_lies_there():
    """The shoe is at 486: joint 3 reaches from 402.32 up to 362.11, joint 4 up to 321.83."""
    told = running(plan=plan(Rule(what=BOW, top=feet(340), bottom=feet(380))))
    assert joints_of(told.job) == [(3, 4)]
    inside = [(slot.bottom, slot.top) for slot in slots(told.job) if slot.joint in (3, 4)]
    assert inside == [(40232, 36211), (36211, 32183)]


@pytest.mark.parametrize(
    ("top", "bottom", "joints"),
    [
        ("362.11", "400", (3,)),
        ("362.10", "400", (3, 4)),
        ("362.11", "403.85", (2, 3)),
        ("330", "362.11", (4,)),
    ],
)
def test_a_joint_that_only_touches_an_interval_is_not_in_it(top, bottom, joints):
    """Joint 3 reaches up to 362.11; the collar under it from 402.32 down to joint 2 at 403.84."""
    rule = Rule(what=BOW, top=feet(top), bottom=feet(bottom))
    assert joints_of(running(plan=plan(rule)).job) == [joints]


def test_a_line_without_top_or_bottom_goes_to_the_datum_or_the_shoe():
    lowest = Rule(what=BOW, top=feet(400))
    highest = Rule(what=BOW, bottom=feet(37))
    assert joints_of(running(plan=plan(lowest, highest)).job) == [(1, 2, 3), (12,)]


def test_every_second_joint_is_counted_from_the_bottom_of_the_interval():
    rule = Rule(what=BOW, top=feet(100), bottom=feet(400), every=2)
    assert joints_of(running(plan=plan(rule)).job) == [(3, 5, 7, 9)]


def test_a_zone_gives_its_depths_by_name():
    zone = Zone(name="upper sand", top=feet(340), bottom=feet(380))
    told = running(plan=plan(Rule(what=BOW, zone="upper sand"), zones=(zone,)))
    assert joints_of(told.job) == [(3, 4)]


def test_joints_follow_the_lengths_as_they_change():
    short = replace(arrivals(13, 13)[0], number="A1", length=1000, typed="10.00")
    told = running("S1", "1", "2", "C1", plan=plan(Rule(what=BOW, top=feet(340), bottom=feet(380))))
    assert joints_of(told.job) == [(3, 4)]
    told.says(Received, items=(short,))
    order = ("S1", "1", "2", "C1", "A1", *ORDER[4:])
    told.says(OrderSet, order=order, reason="a short joint first")
    assert joints_of(told.job) == [(4, 5)]
    told.says(Rejected, number="A1", reason="bent")
    assert joints_of(told.job) == [(3, 4)]


def test_what_is_wanted_and_missing_follows_the_depths():
    told = running("S1", "1", "2", "C1", plan=plan(Rule(what=BOW, top=feet(340), bottom=feet(380))))
    assert [str(one) for one in due_on(told.job, 3)] == ["bow centralizer mid-joint"]
    told.says(ItemRun, number="3")
    assert wanted(told.job) == {BOW: 1}
    assert [(joint, number) for joint, number, _ in missing_on(told.job)] == [(3, "3")]


def test_the_programme_stays_where_it_was_once_the_string_is_on_depth():
    rule = Rule(what=BOW, top=feet(340), bottom=feet(380))
    told = running(plan=plan(rule)).runs(despite="so")
    before = joints_of(told.job)
    told.lands(stick_up=4500)
    assert joints_of(told.job) == before == [(3, 4)]


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        (
            Rule(what=BOW, zone="sand", top=feet(3)),
            "The programme's line for bow centralizer names the zone sand and depths; "
            "give one or the other.",
        ),
        (
            Rule(what=BOW, zone="sand"),
            "The programme's line for bow centralizer names the zone sand; "
            "the zones of the job are: none.",
        ),
        (
            Rule(what=BOW, top=feet(300), bottom=feet(200)),
            "The programme's line for bow centralizer: its top, 300 ft, is not above its bottom, "
            "200 ft.",
        ),
        (
            Rule(what=BOW, joints=(1,), every=2),
            "The programme's line for bow centralizer says every 2 without depths or a zone; "
            "name its joints instead.",
        ),
        (
            Rule(what=BOW, top=feet(3), every=0),
            "The programme's line for bow centralizer is for every 0 joints; "
            "every joint is 1, every second is 2.",
        ),
    ],
)
def test_a_line_that_contradicts_itself_is_told(rule, said):
    assert said in list(rule_faults(plan(rule)))


depths = st.floats(1, 480).map(lambda value: round(value, 2))


@given(one=depths, other=depths, cut=depths)
def test_an_interval_parted_in_two_wants_the_same_joints(one, other, cut):
    """The joints of an interval are those of its parts; only a cut joint is in both."""
    top, bottom = sorted((one, other))
    if not top < cut < bottom:
        return
    job = running(
        plan=plan(
            *(
                Rule(what=BOW, top=feet(high), bottom=feet(low))
                for high, low in ((top, bottom), (top, cut), (cut, bottom))
            )
        )
    ).job
    whole, above, below = (set(joints) for joints in joints_of(job))
    assert above | below == whole
    assert len(above & below) <= 1
