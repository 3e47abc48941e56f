"""What came on location counted three ways, the checks of the pipe, and the equipment list."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import EntryRefused
from tally.job.checks import drift_kept, failed, marks, undrifted
from tally.job.counts import balance, coming
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.running import ItemRun, LaidDown, PulledOut, Rejected
from tally.job.equipment import equipment_list
from tally.job.fold import fold
from tally.job.receiving import Receipt, came, receipt, receipts
from tally.job.running_list import current
from tally.job.setup import Equipment, RackRules
from tests.tally.job.invented import Telling, running, setup


def test_a_bundle_with_numbers_is_held_against_the_book():
    told = running()
    told.says(BundleCounted, bundle="T1", noted=6, counted=6, numbers=tuple("123456"))
    told.says(BundleCounted, bundle="T2", noted=7, counted=7, numbers=("7", "8", "99", "C1"))
    first, second = (receipt(told.job, each) for each in told.job.bundles.values())
    assert (first, first.agrees, first.difference) == (Receipt(6, 6, 6), True, 0)
    assert (second, second.agrees, second.difference) == (Receipt(7, 7, 2), False, -5)


def test_all_bundles_are_held_against_every_joint_that_came():
    told = running()
    told.says(BundleCounted, bundle="T1", noted=6, counted=6)
    told.says(BundleCounted, bundle="T2", noted=6, counted=6)
    told.says(SentAway, number="12", reason="bent")
    assert receipts(told.job) == Receipt(12, 12, 12)
    assert came(told.job) == 12
    told.says(BundleCounted, bundle="T3", counted=1)
    assert receipts(told.job) == Receipt(None, 13, 12)
    assert not receipts(told.job).agrees


def test_a_bundle_without_a_note_or_numbers_agrees_with_itself():
    told = running()
    told.says(BundleCounted, bundle="T1", counted=4)
    one = receipt(told.job, told.job.bundles["T1"])
    assert (one.agrees, one.difference) == (True, 0)


def test_marks_come_in_the_order_of_the_checks():
    told = running()
    told.says(Checked, what="thread", passed=False, numbers=("1",))
    told.says(Checked, what="drift", passed=True, numbers=("1",))
    assert [mark and mark.passed for mark in marks(told.job, "1")] == [True, None, False, None]
    assert failed(told.job, "1") == ("thread",)


def test_undrifted_are_those_on_the_rack_where_records_are_kept():
    assert undrifted(running().job) == ()
    told = running("S1", "1", plan=setup(rack=RackRules(drift_records=False)))
    told.says(Checked, what="drift", passed=True, numbers=("2", "3"))
    assert drift_kept(told.job)
    assert undrifted(told.job) == ("4", "5", "6", "7", "8", "9", "10", "11", "12")


def test_the_equipment_list_says_who_brings_it_and_what_was_noted():
    things = (Equipment(name="Spider", supplier="crew"), Equipment(name="Crossover"))
    told = running(plan=setup(equipment=things))
    told.says(EquipmentNoted, name="spider", here=True, checked=True)
    told.says(EquipmentNoted, name="Spare float", here=False, supplier="shop")
    listed = [(one.name, one.supplier, one.ready) for one in equipment_list(told.job)]
    assert listed == [
        ("Spider", "crew", True),
        ("Crossover", "", False),
        ("Spare float", "shop", False),
    ]


def acts(told: Telling, which: int):
    """Return an act of the rack or of running; the job may well refuse it."""
    job = told.job
    numbers = list(job.items)
    number = numbers[which % len(numbers)]
    due = next((item.number for item in coming(job)), number)
    top = job.string[-1].number if job.string else number
    list_now = current(job)
    order = list_now.order[::-1] if which % 2 else list_now.order[which % 3 :]
    aside = tuple(n for n in numbers if n not in order and job.items[n].state == "on rack")
    new = (Arrival(number=f"L{which}", length=3900 + which % 200, typed="x"),)
    return (
        (ItemRun, {"number": due}),
        (ItemRun, {"number": number, "length": 4000 + which % 99, "typed": "x"}),
        (Rejected, {"number": number, "reason": "failed drift"}),
        (LaidDown, {"number": top, "reason": "thread"}),
        (PulledOut, {"number": top}),
        (Received, {"items": new}),
        (SentAway, {"number": number, "reason": "bent"}),
        (Checked, {"what": "drift", "passed": which % 3 > 0, "numbers": tuple(numbers[:which])}),
        (BundleCounted, {"bundle": f"T{which % 3}", "noted": which % 5, "counted": which % 7}),
        (EquipmentNoted, {"name": "spider", "here": which % 2 == 0}),
        (OrderSet, {"order": order, "aside": aside, "reason": "so"}),
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 10), st.integers(0, 60)), max_size=30))
def test_the_balance_holds_after_any_acts_of_the_rack(picked):
    told = running()
    for act, which in picked:
        kind, given_ = acts(told, which)[act]
        before = balance(told.job)
        try:
            told.says(kind, despite="seen so", **given_)
        except EntryRefused:
            continue
        assert balance(told.job).agrees
        if kind in (Checked, BundleCounted, EquipmentNoted, OrderSet):
            assert balance(told.job) == before
    assert fold(told.entries) == told.job
    turns = [item.number for item in coming(told.job)]
    assert len(turns) == len(set(turns))
    assert not set(turns) & set(told.job.aside)
