"""Bundles counted, joints checked, equipment noted, the running list set."""

from dataclasses import replace

import pytest

from tally.job.counts import balance, coming, next_item
from tally.job.entries.correction import Correction
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Received
from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.running import ItemRun, PulledOut, Rejected
from tally.job.entry import from_fields, to_fields
from tally.job.fold import fold
from tally.job.order_rules import OrderRules, Place
from tally.job.setup import Equipment, RackRules
from tally.units import read
from tests.tally.job.invented import LEAD, ORDER, REP, Telling, arrivals, landed, running, setup

# Bundles


def test_a_bundle_is_kept_with_both_counts_and_its_numbers():
    job = running().says(BundleCounted, bundle="T1", noted=5, counted=5, numbers=("1", "2"))
    count = job.bundles["T1"]
    assert (count.noted, count.counted, count.numbers, count.by) == (5, 5, ("1", "2"), LEAD)
    assert not job.exceptions


def test_a_count_that_is_not_the_notes_asks_and_stays_in_sight():
    told = running()
    question = told.asks(BundleCounted, bundle="T1", noted=5, counted=4)
    assert question == "T1: 5 by the delivery note, 4 counted: -1."
    job = told.says(BundleCounted, bundle="T1", noted=5, counted=4, despite="one fell off")
    (left,) = job.open_exceptions()
    assert left.what == f"Received: {question} Accepted: one fell off."


def test_a_bundle_counted_again_replaces_its_count():
    told = running()
    told.says(BundleCounted, bundle="T1", counted=4)
    assert told.says(BundleCounted, bundle="T1", noted=5, counted=5).bundles["T1"].counted == 5


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"bundle": " ", "counted": 3}, "Say which bundle or truck was counted."),
        ({"bundle": "T1", "counted": -1}, "A bundle has no joint or more; type the count again."),
        (
            {"bundle": "T1", "counted": 1, "noted": -1},
            "A bundle has no joint or more; type the count again.",
        ),
        (
            {"bundle": "T1", "counted": 1, "numbers": ("1", "2", "1")},
            "1 is named twice; each number once.",
        ),
    ],
)
def test_what_is_no_count_of_a_bundle_is_refused(given, said):
    assert running().refuses(BundleCounted, **given) == said


# Checks


def test_a_check_marks_each_joint_with_who_and_with_what():
    drift = {"what": "drift", "passed": True, "mandrel": read("8.525 in", "diameter")}
    job = running().says(Checked, numbers=("1", "2"), who="Cleo", **drift)
    for number in ("1", "2"):
        mark = job.checks[number, "drift"]
        assert (mark.passed, mark.who, mark.mandrel.text) == (True, "Cleo", "8.525 in")
    assert ("3", "drift") not in job.checks


def test_the_person_at_the_keys_checked_unless_somebody_is_named():
    job = running().says(Checked, what="visual", passed=True, numbers=("1",))
    assert job.checks["1", "visual"].who == LEAD


def test_a_failed_check_rejects_nothing_by_itself():
    job = running().says(Checked, what="thread", passed=False, numbers=("3",))
    assert job.items["3"].state == "on rack"
    assert balance(job).rejected.count == 0


def test_the_last_check_of_a_kind_counts():
    told = running()
    told.says(Checked, what="thread", passed=False, numbers=("1",))
    told.says(Checked, what="thread", passed=True, numbers=("1",), note="chased")
    told.runs("S1")
    told.says(ItemRun, number="1")


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            {"what": "weight", "passed": True, "numbers": ("1",)},
            "'weight' is no check of a joint; the checks are drift, visual, thread, inspection.",
        ),
        ({"what": "drift", "passed": True, "numbers": ()}, "Say which joints were checked."),
        (
            {"what": "drift", "passed": True, "numbers": ("1", "97", "98", "99")},
            "There is no item 97-99 in the book; look at the numbers.",
        ),
        (
            {"what": "drift", "passed": True, "numbers": ("1", "1")},
            "1 is named twice; each number once.",
        ),
        (
            {
                "what": "thread",
                "passed": True,
                "numbers": ("1",),
                "mandrel": read("8.5 in", "diameter"),
            },
            "A mandrel goes with a drift only, not with thread.",
        ),
    ],
)
def test_what_is_no_check_is_refused(given, said):
    assert running().refuses(Checked, **given) == said


def test_a_check_of_what_is_in_the_string_asks_why_it_comes_now():
    told = running("S1", "1")
    assert told.asks(Checked, what="drift", passed=True, numbers=("1", "2")) == (
        "1 is in the string already; say why the check is noted now."
    )


def test_a_mandrel_larger_than_the_bore_asks():
    large = {"numbers": ("1",), "mandrel": read("8.7 in", "diameter"), "what": "drift"}
    assert running().asks(Checked, passed=True, **large) == (
        "A mandrel of 8.7 in does not go into 9-5/8 47, 8.681 in."
    )
    running().says(Checked, passed=False, **large)


# A joint whose turn comes


def test_an_undrifted_joint_asks_once_any_drift_is_entered():
    told = running("S1")
    told.says(Checked, what="visual", passed=True, numbers=("2",))
    told.says(ItemRun, number="1")
    told.says(Checked, what="drift", passed=True, numbers=("3",))
    assert told.asks(ItemRun, number="2") == "Joint 2 has no drift in the book."
    told.runs("2", "C1", despite="drifted on the walk, not written down")
    told.says(ItemRun, number="3")


def test_an_undrifted_joint_asks_where_the_set_up_keeps_drift_records():
    told = running("S1", plan=setup(rack=RackRules(drift_records=True)))
    assert told.asks(ItemRun, number="1") == "Joint 1 has no drift in the book."


def test_no_drift_is_asked_for_where_none_is_kept_and_none_of_the_shoe():
    running("S1", "1")
    running("S1", plan=setup(rack=RackRules(drift_records=True)))


def test_a_joint_that_failed_a_check_asks_and_says_who_found_it():
    told = running("S1")
    told.says(Checked, what="thread", passed=False, numbers=("1",), who="Cleo")
    assert told.asks(ItemRun, number="1") == "Joint 1 failed thread at 06:03 (Cleo)."


def test_a_joint_set_aside_asks_and_has_no_turn():
    told = running("S1", "1")
    rest = tuple(number for number in ORDER if number != "3")
    told.says(OrderSet, order=rest, aside=("3",), reason="for the slips")
    assert "3" not in [item.number for item in coming(told.job)]
    assert told.asks(ItemRun, number="3") == (
        "Joint 3 is not the next one; joint 2 is. Joint 3 is set aside by the running list."
    )
    assert balance(told.job).agrees


# Equipment


def test_equipment_is_noted_under_the_name_in_the_list():
    told = running(plan=setup(equipment=(Equipment(name="Spider", supplier="crew"),)))
    job = told.says(EquipmentNoted, name="spider", here=True, checked=True, note="250 t")
    assert list(job.equipment) == ["Spider"]
    assert job.equipment["Spider"].checked


def test_equipment_cannot_be_checked_before_it_is_here():
    assert running().refuses(EquipmentNoted, name="Spider", here=False, checked=True) == (
        "Spider is not here; it cannot be checked yet."
    )
    assert running().refuses(EquipmentNoted, name=" ", here=True) == "Say what is noted."


# The running list


def test_a_list_that_is_set_gives_the_turns():
    told = running("S1")
    order = ("S1", "2", "1", "C1", *(str(n) for n in range(3, 13)))
    job = told.says(OrderSet, order=order, reason="2 lies on top", locked=("2",))
    assert next_item(job).number == "2"
    assert (job.locked, job.list_set) == (("2",), told.entries[-1].seq)


def test_a_list_outlives_a_set_up_that_comes_with_the_order_it_knew():
    told = running("S1")
    order = ("S1", "2", "1", "C1", *(str(n) for n in range(3, 13)))
    told.says(OrderSet, order=order, reason="2 lies on top")
    assert told.says(SetUp, setup=setup(units="metric")).order == order
    other = ("S1", "1", "2", "C1", "12")
    job = told.says(SetUp, setup=setup(order=other))
    assert (job.order, job.list_set, job.aside) == (other, 0, ())


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"order": (), "reason": "new"}, "The running list is empty; put something in it."),
        ({"order": ORDER, "reason": " "}, "Say why the running list is set."),
        ({"order": (*ORDER, "1"), "reason": "new"}, "1 is named twice; each number once."),
        (
            {"order": ORDER, "aside": ("12",), "reason": "new"},
            "12 cannot be in the list and set aside.",
        ),
        (
            {"order": ORDER, "aside": ("77",), "reason": "new"},
            "There is no item 77 in the book to set aside.",
        ),
        (
            {"order": ("S1", "1"), "locked": ("2",), "reason": "new"},
            "2 is locked and not in the list.",
        ),
    ],
)
def test_a_list_that_nobody_could_run_by_is_refused(given, said):
    assert running().refuses(OrderSet, **given) == said


def test_a_doubtful_list_asks_with_what_is_doubtful():
    told = running()
    order = ("1", "S1", "2", *(str(n) for n in range(3, 13)))
    assert told.asks(OrderSet, order=order, reason="new") == (
        "The list starts with joint 1, not with a shoe. "
        "The shoe S1 is not at the start of the list. "
        "There is no collar in the list; the plugs land on one."
    )


def test_more_doubts_than_can_be_read_are_counted():
    order = ("1", "S1", "2", "77", "3")
    told = running()
    told.says(Checked, what="visual", passed=False, numbers=("1", "2"))
    question = told.asks(OrderSet, order=order, reason="new", aside=tuple(map(str, range(4, 13))))
    assert question.endswith("And 3 more.")


def test_a_list_is_closed_once_the_string_is_on_depth():
    told = landed()
    assert told.refuses(OrderSet, order=ORDER, reason="new") == (
        f"The string is on depth since entry {told.job.landing.seq}; its list is closed."
    )


def test_a_joint_pulled_back_out_is_the_next_one_again():
    told = running("S1", "1")
    order = ("S1", "1", "2", "C1", *map(str, range(12, 2, -1)))
    told.says(OrderSet, order=order, reason="as it lies")
    told.says(PulledOut, number="1")
    assert next_item(told.job).number == "1"


def test_the_rules_of_a_list_come_back_as_they_were_stored():
    rules = OrderRules(
        sorting="as the rack lies",
        places=(Place(number="M1", depth=read("300 ft", "length")), Place(number="X", above=4)),
        left_out=("7",),
    )
    entry = OrderSet(by=LEAD, at="2026-05-02T06:00:00+02:00", order=ORDER, reason="x", rules=rules)
    assert from_fields(to_fields(entry)) == entry


def test_each_entry_says_itself_in_a_line():
    told = running()
    told.says(BundleCounted, bundle="T1", noted=12, counted=12)
    told.says(
        Checked,
        what="drift",
        passed=True,
        numbers=tuple(map(str, range(1, 13))),
        mandrel=read("8.525 in", "diameter"),
    )
    told.says(Checked, what="thread", passed=False, numbers=("4",), note="galled")
    told.says(EquipmentNoted, name="Spider", here=True)
    told.says(OrderSet, order=ORDER[:-1], aside=("12",), reason="for the slips", despite="so")
    assert [entry.said() for entry in told.entries[-5:]] == [
        "T1: 12 joints counted, 12 by the note",
        "1-12 passed drift with 8.525 in",
        "4 failed thread: galled",
        "Spider: here",
        "running list set, 13 items, 12 set aside (for the slips)",
    ]


def test_a_check_that_is_struck_asks_no_more():
    told = running("S1")
    told.says(Checked, what="thread", passed=False, numbers=("1",))
    entries = [*told.entries, told.makes(Correction, of=4, reason="wrong joint")]
    job = fold([replace(entry, seq=n) for n, entry in enumerate(entries, 1)])
    assert job.checks == {}
    assert ItemRun(by=REP, at=job.last, number="1").ask(job) == ""


def test_nothing_can_be_counted_in_or_set_before_the_set_up():
    empty = Telling()
    assert empty.refuses(OrderSet, order=("1",), reason="x").startswith("The job is not set up")
    assert empty.refuses(Checked, what="drift", passed=True, numbers=("1",)).startswith("There is")


def test_a_rejected_joint_keeps_its_checks():
    told = running()
    told.says(Checked, what="drift", passed=False, numbers=("4",))
    job = told.says(Rejected, number="4", reason="failed drift")
    assert job.checks["4", "drift"].passed is False
    told.says(Received, items=arrivals(13, 14))
    assert balance(told.job).agrees
