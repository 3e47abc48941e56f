"""Items run, rejected, laid down, pulled out, and what is installed on them."""

from dataclasses import replace

import pytest

from tally.job.counts import balance, next_item
from tally.job.depths import joints_to_go
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.job import Fitting
from tally.job.running_list import slots
from tally.job.setup import Planned, SpaceOut
from tally.units import read
from tests.tally.job.invented import Telling, landed, length_of, limits, pipe, running, setup

BOW = Fitting("bow centralizer", "mid-joint")


# Running


def test_an_item_run_is_on_top_of_the_string_with_its_place():
    job = running("S1", "1", "2").job
    assert [made.number for made in job.string] == ["S1", "1", "2"]
    assert [made.joint for made in job.string] == [0, 1, 2]
    assert [made.top for made in job.string] == [195, 195 + 4007, 195 + 4007 + 4014]
    assert job.length == 8216
    assert {job.items[n].state for n in ("S1", "1", "2")} == {"run"}
    assert next_item(job).number == "C1"


def test_what_is_installed_is_kept_with_the_item():
    job = running("S1").says(ItemRun, number="1", fittings=(BOW,))
    assert job.string[-1].fittings == (BOW,)


def test_a_length_measured_anew_changes_the_item_and_the_length_on_location():
    told = running("S1")
    before = told.job.received_length
    job = told.says(ItemRun, number="1", length=4100, typed="41.00", despite="taped again")
    assert job.string[-1].length == job.items["1"].length == 4100
    assert job.items["1"].typed == "41.00"
    assert job.received_length - before == 4100 - 4007
    assert balance(job).agrees


def test_a_piece_measured_anew_leaves_the_length_of_the_joints_alone():
    told = running()
    before = told.job.received_length
    job = told.says(ItemRun, number="S1", length=200, typed="2.00", despite="taped again")
    assert job.length == 200
    assert job.received_length == before


def test_the_same_length_typed_again_changes_nothing():
    told = running("S1")
    job = told.says(ItemRun, number="1", length=4007, typed="40.07 ft")
    assert job.items["1"].typed == "40.07"


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (
            {"number": "99"},
            "There is no item 99 in the book; receive it first or check the number.",
        ),
        ({"number": "1"}, "Item 1 is in the string already; check the number."),
        ({"number": "2", "length": 0}, "0.00 ft is no length of item 2; measure it again."),
        ({"number": "2", "length": -5}, "-0.05 ft is no length of item 2; measure it again."),
        (
            {"number": "2", "length": 10**9},
            "10,000,000.00 ft is no length of item 2; measure it again.",
        ),
        (
            {"number": "2", "fittings": (Fitting(" "),)},
            "Say what is installed; a piece has no name.",
        ),
        (
            {"number": "2", "fittings": (Fitting("bow", count=0),)},
            "0 of 'bow' is no count; pieces are counted from 1.",
        ),
    ],
)
def test_what_cannot_be_run_is_refused(told, said):
    assert running("S1", "1").refuses(ItemRun, **told) == said


def test_nothing_is_run_before_the_set_up_or_after_the_landing():
    said = Telling().refuses(ItemRun, number="1")
    assert said == "The job is not set up yet; set it up before pipe is run."
    told = running("S1", "1").lands(counted=11)
    assert told.refuses(ItemRun, number="2") == (
        "The string is on depth since entry 5; strike that entry before the string is changed."
    )


@pytest.mark.parametrize(
    ("number", "said"),
    [
        ("4", "Joint 4 is not the next one; joint 1 is."),
        ("C1", "The collar C1 is not the next one; joint 1 is."),
    ],
)
def test_another_item_than_the_next_is_asked_about(number, said):
    assert running("S1").asks(ItemRun, number=number) == said


def test_a_piece_that_is_due_is_named_as_what_it_is():
    assert running("S1", "1", "2").asks(ItemRun, number="3") == (
        "Joint 3 is not the next one; the collar C1 is."
    )


def test_a_length_that_is_not_the_listed_one_is_asked_about():
    assert running("S1").asks(ItemRun, number="1", length=4017, typed="40.17") == (
        "Joint 1 is listed with 40.07 ft, typed 40.17 ft."
    )


def test_a_difference_inside_the_limit_is_not_asked_about():
    told = running("S1", plan=setup(limits=limits(length_difference="0.05 ft")))
    asked = told.asks(ItemRun, number="1", length=4013, typed="40.13")
    assert "listed with 40.07 ft, typed 40.13 ft" in asked
    assert told.says(ItemRun, number="1", length=4012, typed="40.12").length == 195 + 4012


def test_a_joint_outside_the_range_of_its_pipe_is_asked_about():
    ranged = replace(pipe(), shortest=read("40.10 ft", "length"), longest=read("48 ft", "length"))
    told = running("S1", plan=setup(pipes=(ranged,)))
    assert told.asks(ItemRun, number="1") == (
        "40.07 ft is outside 40.10 ft to 48 ft, the range of this pipe."
    )
    both = told.asks(ItemRun, number="1", length=3900)
    assert both == (
        "Joint 1 is listed with 40.07 ft, typed 39.00 ft. "
        "39.00 ft is outside 40.10 ft to 48 ft, the range of this pipe."
    )
    told.says(ItemRun, number="1", despite="short joint, ordered so")
    assert told.says(ItemRun, number="2").joints_run == 2


@pytest.mark.parametrize(("seconds", "asked"), [(0, True), (59, True), (60, False), (61, False)])
def test_a_second_joint_inside_the_least_plausible_time_is_asked_about(seconds, asked):
    told = running("S1", plan=setup(limits=limits(least_joint_time="1 min")))
    at = f"2026-05-02T06:{2 + seconds // 60:02}:{seconds % 60:02}+02:00"
    assert told.job.last_run == "2026-05-02T06:02:00+02:00"
    if asked:
        assert told.asks(ItemRun, number="1", at=at) == (
            f"The last item was run {seconds} s ago; the least plausible is 1 min."
        )
    else:
        assert told.says(ItemRun, number="1", at=at).joints_run == 1


def test_the_time_between_is_right_across_offsets_and_a_clock_put_back_asks_nothing():
    told = running("S1", plan=setup(limits=limits(least_joint_time="1 min")))
    told.says(ItemRun, number="1", at="2026-05-02T05:03:30+01:00")
    assert told.says(ItemRun, number="2", at="2026-05-02T06:03:00+02:00").joints_run == 2


SHALLOW = replace(
    setup().hole, depth=read("150 ft", "length"), casing_point=read("140 ft", "length")
)


def test_an_item_that_would_put_the_shoe_below_the_hole_stops_and_asks():
    """By hand: 1.95 + 40.07 + 40.14 + 1.52 + 40.21 ft of pipe, less 3.22 ft of stick-up."""
    told = running("S1", "1", "2", "C1", "3", plan=setup(hole=SHALLOW))
    assert told.job.length - 322 == 195 + 4007 + 4014 + 152 + 4021 - 322
    said = told.asks(ItemRun, number="4")
    assert said.startswith("Joint 4 would put the shoe 10.95 ft below the bottom of the hole")
    assert (
        told.asks(ItemRun, number="4", length=3000, typed="30.00").count(
            "below the bottom of the hole"
        )
        == 1
    )
    short = told.makes(ItemRun, number="4", length=2900, typed="29.00")
    assert "below" not in short.ask(told.job)


def test_a_shoe_below_the_hole_is_an_open_exception_with_its_reason():
    told = running("S1", "1", "2", "C1", "3", plan=setup(hole=SHALLOW))
    job = told.says(ItemRun, number="4", despite="the hole is deeper, drilled on")
    (left,) = job.open_exceptions()
    assert left.what == (
        "Joint 4 would put the shoe 10.95 ft below the bottom of the hole, 150 ft; look at the "
        "tally, the stick-up and the depth of the hole. Run all the same: the hole is deeper, "
        "drilled on."
    )
    assert told.makes(ItemRun, number="5").apply(job).open_exceptions() == job.open_exceptions()


TOPPED = (
    Planned(number="H1", kind="hanger", length=150, typed="1.50"),
    Planned(number="L1", kind="landing joint", length=2975, typed="29.75"),
)


def topped(*numbers):
    """Return a string with a hanger and a landing joint to run on its fourth joint."""
    plan = setup(
        items=(*setup().items, *TOPPED),
        order=("S1", "1", "2", "C1", "3", "4", "H1", "5", "L1", "6"),
    )
    return running("S1", "1", "2", "C1", "3", "4", *numbers, plan=plan)


def test_after_the_landing_joint_nothing_is_next_and_anything_on_top_asks():
    told = running("S1", "1", "2", "C1", "3", "4", "H1", plan=topped().job.setup)
    assert next_item(told.job).number == "L1"
    told.says(ItemRun, number="L1")
    assert next_item(told.job) is None
    assert told.asks(ItemRun, number="5") == (
        "The landing joint L1 is on top of the string, and joint 5 is not run above it: d says "
        "that the string is on depth, p pulls the top item out again."
    )
    need, spare = joints_to_go(told.job)
    assert (need, spare) == (0, 8)
    assert all(slot.run or slot.spare for slot in slots(told.job))


def test_on_a_hanger_only_a_landing_joint_goes_and_pulled_out_all_is_as_before():
    told = topped("H1")
    assert told.asks(ItemRun, number="5").startswith("The hanger H1 is on top of the string")
    assert [slot.item.number for slot in slots(told.job) if not slot.run and not slot.spare] == [
        "L1"
    ]
    told.says(PulledOut, number="H1", reason="seal looked at")
    assert next_item(told.job).number == "H1"
    told.says(ItemRun, number="5", despite="as decided")
    assert told.job.string[-1].number == "5"


def test_a_hanger_puts_the_shoe_where_it_is_to_hang_off():
    """By hand: 164.17 ft to the top of the fourth joint and 1.50 of hanger, 20 down: 185.67.

    By the usual stick-up the landing joint would put the shoe at 192.20 ft, below a hole of 190.
    """
    hole = replace(
        setup().hole, depth=read("190 ft", "length"), casing_point=read("186 ft", "length")
    )
    plan = replace(
        topped().job.setup, hole=hole, space_out=SpaceOut(hang_off=read("20 ft", "length"))
    )
    told = running("S1", "1", "2", "C1", "3", "4", "H1", plan=plan)
    told.says(ItemRun, number="L1")
    assert told.job.length - 322 > 19000
    deep = replace(plan, space_out=SpaceOut(hang_off=read("30 ft", "length")))
    told = running("S1", "1", "2", "C1", "3", "4", plan=deep)
    assert "below the bottom of the hole" in told.asks(ItemRun, number="H1")


# Taking off


def test_a_rejected_joint_keeps_its_number_for_ever():
    told = running("S1")
    job = told.says(Rejected, number="1", reason="failed drift")
    assert (job.items["1"].state, job.items["1"].reason) == ("rejected", "failed drift")
    assert next_item(job).number == "2"
    assert balance(job).agrees
    assert told.refuses(ItemRun, number="1") == (
        "Item 1 was rejected (failed drift); its number is kept and not used again."
    )
    assert told.refuses(Rejected, number="1", reason="again").startswith("Item 1 was rejected")


@pytest.mark.parametrize("kind", [Rejected, LaidDown])
@pytest.mark.parametrize("reason", ["", "  "])
def test_a_reason_is_mandatory(kind, reason):
    said = running("S1").refuses(kind, number="1", reason=reason)
    assert said.startswith("Say why 1 is ")


@pytest.mark.parametrize("kind", [Rejected, LaidDown, PulledOut])
def test_what_is_not_in_the_book_cannot_be_taken_off(kind):
    assert (
        running("S1")
        .refuses(kind, number="99", reason="bent")
        .startswith("There is no item 99 in the book;")
    )


def test_the_top_item_is_laid_down_and_its_room_is_free():
    told = running("S1", "1", "2")
    job = told.says(LaidDown, number="2", reason="thread")
    assert [made.number for made in job.string] == ["S1", "1"]
    assert job.items["2"].state == "laid down"
    assert balance(job).agrees
    job = told.says(ItemRun, number="3", despite="the next one was laid down")
    assert job.string[-1].joint == 2


def test_a_joint_on_the_floor_is_laid_down_from_the_rack():
    job = running("S1").says(LaidDown, number="1", reason="protector would not come off")
    assert balance(job).laid_down.count == 1
    assert job.length == 195


def test_an_item_below_others_does_not_come_out():
    told = running("S1", "1", "2", "C1")
    assert told.refuses(LaidDown, number="1", reason="thread") == (
        "Joint 1 lies below 2 more; C1 is on top and comes out first."
    )
    assert told.refuses(PulledOut, number="S1") == (
        "The shoe S1 lies below 3 more; C1 is on top and comes out first."
    )


def test_an_item_pulled_out_is_back_on_the_rack_and_due_again():
    told = running("S1", "1", "2")
    job = told.says(PulledOut, number="2", reason="tight spot")
    assert job.items["2"].state == "on rack"
    assert next_item(job).number == "2"
    assert balance(job).agrees
    assert told.says(ItemRun, number="2").joints_run == 2


def test_what_is_not_in_the_string_is_not_pulled_out():
    assert running("S1").refuses(PulledOut, number="2") == (
        "Item 2 is not in the string; check the number."
    )


@pytest.mark.parametrize("kind", [LaidDown, PulledOut])
def test_the_string_on_depth_is_not_changed(kind):
    said = landed().refuses(kind, number="12", reason="thread")
    assert said.startswith("The string is on depth since entry 17;")


def test_a_joint_may_still_be_rejected_once_on_depth():
    told = running("S1", "1").lands(counted=11)
    assert balance(told.says(Rejected, number="7", reason="bent")).agrees


# Fitted


def test_what_is_noted_later_replaces_what_was_noted():
    told = running("S1")
    told.says(ItemRun, number="1", fittings=(BOW,))
    job = told.says(Fitted, number="1", fittings=(BOW, Fitting("stop collar", count=2)))
    assert [str(each) for each in job.string[-1].fittings] == [
        "bow centralizer mid-joint",
        "2 x stop collar",
    ]
    assert told.says(Fitted, number="1").string[-1].fittings == ()


def test_noting_below_the_floor_is_asked_about():
    assert running("S1", "1").asks(Fitted, number="S1", fittings=(BOW,)) == (
        "S1 is below the floor; say why what was installed is noted now."
    )


def test_nothing_is_installed_on_the_rack():
    told = running("S1")
    assert told.refuses(Fitted, number="1", fittings=(BOW,)) == (
        "Item 1 is not in the string; nothing can be installed on it."
    )
    assert told.refuses(Fitted, number="S1", fittings=(Fitting(""),)) == (
        "Say what is installed; a piece has no name."
    )


def test_they_say_what_happened():
    told = Telling()
    two = Fitting("scratcher", "5 ft above the pin", 2)
    plain = told.makes(ItemRun, number="7")
    assert plain.said() == "7 run"
    full = told.makes(ItemRun, number="7", length=4100, typed="41.00", fittings=(BOW, two))
    assert full.said() == (
        "7 run, measured 41.00 with bow centralizer mid-joint, 2 x scratcher 5 ft above the pin"
    )
    assert told.makes(Rejected, number="7", reason="bent").said() == "7 rejected (bent)"
    assert told.makes(LaidDown, number="7", reason="bent").said() == "7 laid down (bent)"
    assert told.makes(PulledOut, number="7").said() == "7 pulled out"
    assert told.makes(PulledOut, number="7", reason="tight").said() == "7 pulled out (tight)"
    assert told.makes(Fitted, number="7").said() == "installed on 7: nothing"
    assert told.makes(Fitted, number="7", fittings=(BOW,)).said() == (
        "installed on 7: bow centralizer mid-joint"
    )


def test_a_string_of_all_joints_measures_what_they_add_up_to():
    job = running("S1", "1", "2", "C1", *map(str, range(3, 13))).job
    assert job.length == 195 + 152 + sum(length_of(n) for n in range(1, 13))


def test_a_lowering_time_is_kept_with_the_joint() -> None:
    told = running("S1")
    job = told.says(ItemRun, number="1", lowering=read("32 s", "lowering time"))
    assert job.string[-1].lowering == 32
    assert told.entries[-1].said() == "1 run, lowered in 32 s"
    assert job.string[0].lowering is None


def test_what_is_no_lowering_time_is_refused_or_asked_about() -> None:
    told = running("S1")
    for text in ("0 s", "61 min"):
        said = told.refuses(ItemRun, number="1", lowering=read(text, "lowering time"))
        assert said.startswith(f"{text} is no lowering time")
    asked = told.asks(ItemRun, number="1", lowering=read("2 min", "lowering time"))
    assert asked == "Lowering is timed with 2 min, but the item before was run 60 s ago."


def test_a_torque_outside_the_band_of_the_pipe_asks_and_one_inside_is_kept():
    band = {
        "torque_minimum": read("6690 ft-lbf", "torque"),
        "torque_maximum": read("11150 ft-lbf", "torque"),
    }
    told = running("S1", plan=setup(pipes=(replace(pipe(), **band),)))
    assert told.asks(ItemRun, number="1", torque=read("6000 ft-lbf", "torque")) == (
        "6000 ft-lbf is less than the least make-up torque of this pipe, 6690 ft-lbf."
    )
    assert "more than the most make-up torque" in told.asks(
        ItemRun, number="1", torque=read("12000 ft-lbf", "torque")
    )
    told.says(ItemRun, number="1", torque=read("8900 ft-lbf", "torque"), position="to the triangle")
    made = told.job.made("1")
    assert (made.torque.text, made.position) == ("8900 ft-lbf", "to the triangle")
    assert told.entries[-1].said() == "1 run, made up to 8900 ft-lbf, to the triangle"
