"""The running list as it stands: places, depths, what is spare; edited by hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.job.depths import joints_to_go, reaches
from tally.job.entries.rack import OrderSet
from tally.job.entries.running import LaidDown, Rejected
from tally.job.list_editing import lock_turned, moved, put_in, taken_out
from tally.job.running_list import RunningList, current, drafted, slots, wanted_length
from tally.units import read
from tests.tally.job.invented import ORDER, landed, running, setup


def test_depths_are_those_with_the_shoe_at_the_casing_point():
    first, second, *_ = slots(running().job)
    assert (first.item.number, first.bottom, first.top, first.to_here) == ("S1", 48600, 48405, 195)
    assert (second.joint, second.bottom, second.to_here) == (1, 48405, 195 + 4007)


def test_depths_on_depth_are_those_of_the_tally():
    job = landed().job
    listed = [(slot.item.number, slot.bottom, slot.top) for slot in slots(job)]
    assert listed == [(reach.made.number, reach.bottom, reach.top) for reach in reaches(job)]


def test_what_is_run_stays_at_the_bottom_and_keeps_its_length():
    told = running("S1", "1")
    told.says(LaidDown, number="1", reason="thread")
    told.runs("2", despite="1 was laid down")
    assert [slot.item.number for slot in slots(told.job)][:4] == ["S1", "2", "C1", "3"]
    assert [slot.run for slot in slots(told.job)][:3] == [True, True, False]


def test_spare_is_what_the_string_reaches_the_casing_point_without():
    hole = replace(setup().hole, casing_point=read("400 ft", "length"))
    job = running(plan=setup(hole=hole)).job
    spare = [slot.item.number for slot in slots(job) if slot.spare]
    assert spare == ["11", "12"]
    assert joints_to_go(job) == (10, 2)


def test_the_list_as_it_stands_names_everything_that_has_a_turn():
    told = running("S1", "1", plan=setup(order=("S1", "1", "77", "C1")))
    assert current(told.job).order == ("S1", "1", "77", "C1", *(str(n) for n in range(2, 13)))
    told.says(Rejected, number="4", reason="drift")
    assert "4" not in current(told.job).order


def test_a_list_drafted_and_set_comes_back_the_same():
    told = running("S1")
    draft = RunningList(order=("S1", "2", "1", *ORDER[3:-1]), locked=("2",), aside=("12",))
    assert current(drafted(told.job, draft)) == draft
    job = told.says(
        OrderSet, order=draft.order, locked=("2",), aside=("12",), reason="x", despite="y"
    )
    assert current(job) == draft


# By hand


def start(*run):
    job = running(*run).job
    return job, current(job)


def test_an_item_is_moved_later_and_earlier():
    job, draft = start("S1")
    later = moved(job, draft, "3", 1)
    assert later.order[4:6] == ("4", "3")
    assert moved(job, later, "3", -1) == draft


def test_an_item_is_taken_out_and_put_in_again_elsewhere():
    job, draft = start("S1")
    out = taken_out(job, draft, "5")
    assert "5" not in out.order
    assert out.aside == ("5",)
    assert put_in(job, out, "5", before="4").order[5:7] == ("5", "4")
    assert put_in(job, out, "5").order[-1] == "5"
    assert put_in(job, out, "5").aside == ()


def test_a_lock_is_turned_on_and_off():
    job, draft = start("S1")
    locked = lock_turned(job, draft, "1")
    assert locked.locked == ("1",)
    assert lock_turned(job, locked, "1") == draft


@pytest.mark.parametrize(
    ("act", "said"),
    [
        (lambda job, draft: moved(job, draft, "S1", 1), "S1 is run already; it keeps its place."),
        (lambda job, draft: moved(job, draft, "1", -1), "S1 is run already; it keeps its place."),
        (lambda job, draft: moved(job, draft, "12", 1), "12 is the last one in the list."),
        (lambda job, draft: moved(job, draft, "C1", 1), "C1 is locked in its place; k unlocks it."),
        (lambda job, draft: moved(job, draft, "2", 1), "C1 is locked in its place; k unlocks it."),
        (lambda job, draft: taken_out(job, draft, "C1"), "C1 is locked in its place; k unlocks"),
        (lambda job, draft: taken_out(job, draft, "99"), "99 is not in the list."),
        (lambda job, draft: put_in(job, draft, "99"), "There is no item 99 in the book; receive"),
        (lambda job, draft: put_in(job, draft, "5"), "5 is in the list already; move it with e"),
        (lambda job, draft: put_in(job, draft, "6"), "6 is rejected; only what is on the rack"),
        (lambda job, draft: lock_turned(job, draft, "S1"), "S1 is run; it cannot be moved in any"),
        (lambda job, draft: lock_turned(job, draft, "99"), "99 is not in the list."),
    ],
)
def test_what_cannot_be_done_by_hand_is_refused(act, said):
    told = running("S1")
    told.says(Rejected, number="6", reason="drift")
    draft = lock_turned(told.job, current(told.job), "C1")
    with pytest.raises(InputError, match=said):
        act(told.job, draft)


def test_nothing_is_put_in_under_what_keeps_its_place():
    told = running("S1")
    draft = taken_out(told.job, lock_turned(told.job, current(told.job), "C1"), "5")
    for before in ("S1", "C1"):
        with pytest.raises(InputError, match=f"{before} keeps its place; put 5 in above it."):
            put_in(told.job, draft, "5", before=before)


ACTS = st.lists(st.tuples(st.sampled_from("elotpk"), st.integers(0, 14)), max_size=25)


@given(ACTS)
def test_any_editing_keeps_every_number_once_and_the_run_part_below(acts):
    told = running("S1", "1", "2")
    job = told.job
    draft = first = current(job)
    for act, which in acts:
        number = (*first.order, "99")[which % (len(first.order) + 1)]
        try:
            if act in "el":
                draft = moved(job, draft, number, 1 if act == "l" else -1)
            elif act in "ot":
                draft = taken_out(job, draft, number)
            elif act == "p":
                draft = put_in(job, draft, number, before=draft.order[which % len(draft.order)])
            else:
                draft = lock_turned(job, draft, number)
        except InputError:
            continue
    assert sorted((*draft.order, *draft.aside)) == sorted(first.order)
    assert draft.order[:3] == ("S1", "1", "2")
    assert set(draft.locked) <= set(draft.order)
    assert wanted_length(job) == 48922
