"""Steps of the checklists: done, witnessed, passed over; the order that is enforced."""

from dataclasses import replace

import pytest

from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.people import PersonAdded, PinSet
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.fold import fold
from tally.job.pins import made
from tally.job.stored import to_fields
from tally.units import read
from tests.tally.job.invented import (
    CEMENTER,
    LEAD,
    LOADING_STEPS,
    MUD,
    REP,
    Telling,
    conditioned,
    displacement_text,
    landed,
    limits,
    loaded,
    pumping,
    pumping_down,
    ready_to_pump,
    running,
    setup,
)

RELEASE = {"list_id": "plug-release"}
INDICATOR = "Plug release and displacement, Release the bottom plug; watch the indicator: "
NO_BOTTOM = setup(pumping=pumping(bottom_plugs=0))


def record(job, step_id, list_id="plug-release"):
    """Return what is kept of a step."""
    return job.steps[list_id, step_id]


def released(told, **seen):
    """Release the bottom plug."""
    seen = {"state": "indicator moved", "witness": REP, **seen}
    return told.does("plug-release", "bottom-plug-released", **seen)


# What a step wants


def test_a_step_keeps_who_what_and_when():
    told = landed().does(
        "mud-conditioning", "pipe-full", state="mud stands at the top", note="by eye"
    )
    kept = record(told.job, "pipe-full", "mud-conditioning")
    assert (kept.outcome, kept.by, kept.state, kept.note) == (
        "done",
        CEMENTER,
        "mud stands at the top",
        "by eye",
    )
    assert kept.differs == kept.passed == kept.witness == ""
    assert told.job.exceptions == ()


@pytest.mark.parametrize(
    ("step_id", "told", "said"),
    [
        ("pipe-emptied", {}, "This book has no step 'pipe-emptied' in a list 'mud-conditioning'."),
        (
            "pipe-full",
            {},
            "Say what was seen: mud stands at the top, the level falls, not filled to the top.",
        ),
        (
            "pipe-full",
            {"state": "full"},
            "'full' is none of the states of this step: mud stands at the top, the level falls, "
            "not filled to the top.",
        ),
        (
            "pipe-full",
            {"value": "3 bbl"},
            "This step takes no value; '3 bbl' cannot be entered.",
        ),
        ("density-in", {}, "Type the value (density)."),
        (
            "density-in",
            {"state": "heavy"},
            "This step takes no state; 'heavy' cannot be entered.",
        ),
    ],
)
def test_what_a_step_wants_is_said(step_id, told, said):
    assert landed().refuses(StepDone, list_id="mud-conditioning", step_id=step_id, **told) == said


@pytest.mark.parametrize("value", ["10.2", "10.2 psi", "heavy", "-1 lb/gal", "9**9**9"])
def test_a_value_that_cannot_be_read_is_refused_in_a_sentence(value):
    told = landed()
    said = told.refuses(StepDone, list_id="mud-conditioning", step_id="density-in", value=value)
    assert value in said


def test_a_step_is_entered_once():
    told = landed().does("mud-conditioning", "density-in", value="10.2 lb/gal")
    assert (
        told.refuses(
            StepDone, list_id="mud-conditioning", step_id="density-in", value="10.3 lb/gal"
        )
        == "Entered as done at 06:25 by Rui Bastos; correct entry 26 to change it."
    )


def test_no_step_before_the_set_up_or_of_a_list_not_taken():
    said = "This book has no step 'line-test' in a list 'plug-release'."
    assert Telling().refuses(StepDone, step_id="line-test", **RELEASE) == said
    assert running("S1").refuses(StepDone, step_id="line-test", **RELEASE) == said


# Witnesses


def test_a_critical_step_wants_a_witness_who_is_not_the_doer():
    told = landed()
    line_test = {**RELEASE, "step_id": "line-test", "value": "3600 psi", "by": CEMENTER}
    assert told.refuses(StepDone, **line_test) == (
        "A witness who is not the doer is wanted; name the person."
    )
    assert told.refuses(StepDone, witness=CEMENTER, **line_test) == (
        "Rui Bastos did it and cannot be the witness as well; name somebody else."
    )
    assert told.refuses(StepDone, witness="A Stranger", **line_test) == (
        "A Stranger is not among the people of this job; add the person first."
    )
    told.says(PersonAdded, name="A Stranger", role="company representative")
    assert record(told.says(StepDone, witness="A Stranger", **line_test), "line-test").witness


def test_the_same_person_under_another_spelling_is_no_witness():
    told = landed()
    said = told.refuses(
        StepDone, **RELEASE, step_id="line-test", value="3600 psi", by="per falk", witness=REP
    )
    assert said == "Per Falk did it and cannot be the witness as well; name somebody else."


def test_a_routine_step_needs_none_and_takes_one():
    told = landed().does("mud-conditioning", "density-in", value="10.2 lb/gal", witness=REP)
    assert record(told.job, "density-in", "mud-conditioning").witness == REP


def test_at_once_is_stored_now_and_confirmed_later():
    told = released(ready_to_pump()).does("plug-release", "first-slurry")
    assert record(told.job, "first-slurry").witness == ""
    told.witnessed("plug-release", "first-slurry", state="density in its band")
    kept = record(told.job, "first-slurry")
    assert (kept.witness, kept.state) == (REP, "density in its band")
    assert kept.at != told.job.last, "the time is that of the key"


def test_at_once_with_a_witness_wants_the_rest_at_once_too():
    told = released(ready_to_pump())
    first = {**RELEASE, "step_id": "first-slurry", "by": CEMENTER}
    assert told.refuses(StepDone, witness=REP, **first) == (
        "Say what was seen: density in its band, lighter than its band, heavier than its band."
    )


def test_the_witness_sees_something_and_is_not_the_doer():
    told = released(ready_to_pump()).does("plug-release", "first-slurry")
    first = {**RELEASE, "step_id": "first-slurry"}
    seen = {"state": "density in its band"}
    assert told.refuses(StepWitnessed, witness=REP, **first) == (
        "Say what was seen: density in its band, lighter than its band, heavier than its band."
    )
    assert told.refuses(StepWitnessed, witness=CEMENTER, **seen, **first) == (
        "Rui Bastos did it and cannot be the witness as well; name somebody else."
    )
    assert told.refuses(StepWitnessed, witness=" ", **seen, **first) == (
        "A second person is wanted; name the person."
    )
    told.witnessed("plug-release", "first-slurry", **seen)
    assert told.refuses(StepWitnessed, witness=MUD, **seen, **first) == (
        "Per Falk has witnessed this already."
    )
    assert told.refuses(StepWitnessed, witness=REP, **RELEASE, step_id="slurry-away") == (
        "There is nothing to witness yet; the step is not done."
    )


def test_a_routine_step_stored_at_once_is_told_its_value_later_without_a_witness():
    told = pumping_down().does("plug-release", "displacement-started")
    told.does("plug-release", "diaphragm-gave-way")
    seat = {**RELEASE, "step_id": "diaphragm-gave-way"}
    assert record(told.job, "diaphragm-gave-way").value == ""
    assert told.refuses(StepWitnessed, **seat) == "Type the value (pressure)."
    told.says(StepWitnessed, value="640 psi", **seat)
    kept = record(told.job, "diaphragm-gave-way")
    assert (kept.value, kept.witness) == ("640 psi", "")
    assert told.refuses(StepWitnessed, value="600 psi", **seat) == (
        "640 psi is entered already; correct it to change it."
    )


# Order


def test_no_bottom_plug_before_it_is_loaded_and_witnessed():
    told = conditioned(landed())
    for step_id, seen in LOADING_STEPS[:4]:
        told.does("plug-loading", step_id, **seen)
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    agreed = displacement_text(told.job)
    told.does("plug-release", "volumes-agreed", by=REP, value=agreed, witness=CEMENTER)
    told.does("plug-release", "spacer-pumped", value="20 bbl")
    release = {
        **RELEASE,
        "step_id": "bottom-plug-released",
        "state": "indicator moved",
        "by": CEMENTER,
        "witness": REP,
    }
    assert told.refuses(StepDone, **release) == (
        "Not done yet: Load the bottom plug; see it in the lower place (Plug loading). "
        "This gate is passed only with a reason and a second person."
    )
    load = {"list_id": "plug-loading", "step_id": "bottom-plug-loaded", "by": CEMENTER}
    assert told.refuses(StepDone, state="in the lower place, on its pin", **load) == (
        "A witness who is not the doer is wanted; name the person."
    )
    told.says(StepDone, state="in the lower place, on its pin", witness=REP, **load)
    assert record(told.says(StepDone, **release), "bottom-plug-released").passed == ""


def test_no_slurry_before_the_bottom_plug_where_the_programme_has_one():
    told = ready_to_pump()
    assert told.refuses(StepDone, **RELEASE, step_id="first-slurry") == (
        "Not done yet: Release the bottom plug; watch the indicator (Plug release and "
        "displacement). This gate is passed only with a reason and a second person."
    )
    released(told).does("plug-release", "first-slurry")


def test_where_the_programme_has_none_the_slurry_does_not_wait_for_it():
    told = ready_to_pump(NO_BOTTOM)
    for kind in (StepDone, StepPassed, StepWitnessed):
        more = {StepPassed: {"outcome": "not done", "reason": "x"}, StepWitnessed: {"witness": REP}}
        said = told.refuses(kind, **RELEASE, step_id="bottom-plug-released", **more.get(kind, {}))
        assert said == "The programme has no bottom plug; this step does not apply."
    told.does("plug-release", "first-slurry")
    assert told.job.exceptions == ()


def test_no_top_plug_before_the_slurry_is_away():
    told = released(ready_to_pump())
    assert told.refuses(StepDone, **RELEASE, step_id="top-plug-released") == (
        "Not done yet: End the slurry; give the volume pumped (Plug release and displacement). "
        "This gate is passed only with a reason and a second person."
    )
    told.does("plug-release", "first-slurry").does("plug-release", "slurry-away")
    told.does("plug-release", "top-plug-released")
    assert told.job.exceptions == ()
    assert told.job.zeroed.seq == told.job.seq


def test_nothing_is_released_before_the_string_is_on_depth():
    told = running().takes()
    said = told.refuses(StepDone, **RELEASE, step_id="volumes-agreed", value="1 bbl", witness=REP)
    assert said.startswith("The string is not on depth yet (F4).")


def test_steps_of_a_list_wait_for_those_before_them():
    said = landed().refuses(
        StepDone, list_id="mud-conditioning", step_id="density-out", value="10.2 lb/gal"
    )
    assert said.startswith("Not done yet: Weigh the mud going in.")


def test_a_hold_point_wants_the_bump_confirmed_while_the_pumping_hand_did_not_wait():
    told = pumping_down()
    told.does("plug-release", "displacement-started").does("plug-release", "bumped")
    told.does("plug-release", "bled-back", value="2 bbl")
    held = {
        **RELEASE,
        "step_id": "floats-held",
        "state": "flow stopped and stayed stopped",
        "by": REP,
        "witness": CEMENTER,
    }
    assert told.refuses(StepDone, **held).startswith(
        "Waiting for a witness: Seat the top plug; watch the pressure"
    )
    told.witnessed("plug-release", "bumped", state="rose sharply and stands")
    told.says(StepDone, **held)


# A shut gate passed


def test_a_gate_is_passed_with_a_reason_and_a_second_person_and_stays_in_sight():
    told = ready_to_pump()
    first = {**RELEASE, "step_id": "first-slurry", "by": CEMENTER}
    wants = "This gate is passed only with a reason and a second person."
    assert told.refuses(StepDone, despite="plug is stuck", **first).endswith(wants)
    assert told.refuses(StepDone, second=REP, **first).endswith(wants)
    assert told.refuses(StepDone, despite="  ", second=REP, **first).endswith(wants)
    assert told.refuses(StepDone, despite="stuck", second=CEMENTER, **first) == (
        "Rui Bastos did it and cannot be the witness as well; name somebody else."
    )
    job = told.says(StepDone, despite="plug is stuck", second=REP, **first)
    assert record(job, "first-slurry").passed.startswith("Not done yet: Release the bottom plug")
    assert [each.what for each in job.open_exceptions()] == [
        "Plug release and displacement, Start the slurry down the hole: Not done yet: Release the "
        "bottom plug; watch the indicator (Plug release and displacement). "
        "Accepted: plug is stuck. Second person: Per Falk."
    ]
    told.does("plug-release", "slurry-away").does("plug-release", "top-plug-released")
    assert len(told.job.open_exceptions()) == 1


def test_what_is_passed_over_does_not_open_its_gate():
    told = ready_to_pump()
    passed = {**RELEASE, "step_id": "bottom-plug-released", "outcome": "not done"}
    told.says(StepPassed, reason="pin will not draw", second=REP, by=CEMENTER, **passed)
    assert told.refuses(StepDone, **RELEASE, step_id="first-slurry").startswith(
        "Passed over as not done: Release the bottom plug; watch the indicator"
    )


# What was seen


def test_a_plug_whose_indicator_did_not_move_counts_once_accepted_and_stays_in_sight():
    told = ready_to_pump()
    bad = {
        **RELEASE,
        "step_id": "bottom-plug-released",
        "state": "indicator did not move",
        "by": CEMENTER,
        "witness": REP,
    }
    assert told.asks(StepDone, **bad) == "Seen: indicator did not move; wanted: indicator moved."
    told.says(StepDone, despite="pressure dropped as it left", **bad)
    what = f"{INDICATOR}Seen: indicator did not move; wanted: indicator moved. "
    assert [each.what for each in told.job.open_exceptions()] == [
        f"{what}Accepted: pressure dropped as it left."
    ]
    told.does("plug-release", "first-slurry")
    assert len(told.job.open_exceptions()) == 1, "it is in sight until somebody closes it"
    seq = told.job.exceptions[0].seq
    told.says(ExceptionClosed, of=seq, reason="plug seen on the collar", by=REP)
    assert told.job.open_exceptions() == ()


def test_a_difference_that_nobody_accepted_opens_no_gate():
    """It cannot be entered so; a book that holds it all the same is told what is missing."""
    told = ready_to_pump()
    bad = told.makes(
        StepDone,
        **RELEASE,
        step_id="bottom-plug-released",
        state="indicator did not move",
        by=CEMENTER,
        witness=REP,
    )
    slurry = replace(bad, seq=bad.seq + 1, step_id="first-slurry", state="", witness="")
    job = fold([*told.entries, bad, slurry])
    assert record(job, "bottom-plug-released").differs
    assert ("plug-release", "first-slurry") not in job.steps
    assert [each.what for each in job.open_exceptions()] == [
        f"{INDICATOR}Seen: indicator did not move; wanted: indicator moved. Nobody gave a reason.",
        f"Entry {slurry.seq} (Start the slurry down the hole, done) no longer fits: Not as wanted, "
        "and nobody gave a reason: Release the bottom plug; watch the indicator (Plug release and "
        "displacement). This gate is passed only with a reason and a second person.",
    ]


def test_a_witness_who_saw_something_else_is_asked_and_the_record_follows():
    told = pumping_down()
    top = {**RELEASE, "step_id": "top-plug-released", "witness": REP}
    assert told.asks(StepWitnessed, state="indicator did not move", **top) == (
        "Seen: indicator did not move; wanted: indicator moved."
    )
    job = told.says(StepWitnessed, state="indicator did not move", despite="sure of it", **top)
    assert record(job, "top-plug-released").state == "indicator did not move"
    assert job.zeroed == record(job, "top-plug-released")
    assert job.open_exceptions()[-1].what.endswith("Accepted: sure of it.")


@pytest.mark.parametrize(
    ("list_id", "step_id", "value", "asked"),
    [
        # agrees: inside the band around a figure, the edge included
        ("mud-conditioning", "density-in", "10.4 lb/gal", ""),
        ("mud-conditioning", "density-in", "10.0 lb/gal", ""),
        (
            "mud-conditioning",
            "density-in",
            "10.41 lb/gal",
            "Seen: 10.41 lb/gal; expected: 10.2 lb/gal (calculated).",
        ),
        # at least: a limit with its owner
        ("plug-release", "line-test", "3500 psi", ""),
        (
            "plug-release",
            "line-test",
            "3499 psi",
            "Seen: 3499 psi; expected: at least 3500 psi (limit, Per Falk).",
        ),
        # no limit is set for these, so nothing is held against them
        ("mud-conditioning", "plastic-viscosity", "99 cP", ""),
    ],
)
def test_values_are_held_against_what_is_expected(list_id, step_id, value, asked):
    told = landed()
    entry = {"list_id": list_id, "step_id": step_id, "value": value, "witness": REP, "by": CEMENTER}
    if asked:
        assert told.asks(StepDone, **entry) == asked
    else:
        assert told.says(StepDone, **entry).exceptions == ()


def test_at_most_and_the_value_entered_above():
    told = landed()
    for step_id, seen in (
        ("pipe-full", {"state": "mud stands at the top"}),
        ("head-on", {"state": "connected, valves as drawn"}),
        ("lift-compared", {"state": "string is held down", "witness": REP}),
        ("density-in", {"value": "10.3 lb/gal"}),
    ):
        told.does("mud-conditioning", step_id, **seen)
    mud = {"list_id": "mud-conditioning"}
    assert told.asks(StepDone, step_id="circulation-started", value="2.1 bbl/min", **mud) == (
        "Seen: 2.1 bbl/min; expected: at most 2 bbl/min (limit, Per Falk)."
    )
    told.does("mud-conditioning", "circulation-started", value="2 bbl/min")
    assert told.asks(StepDone, step_id="density-out", value="10.6 lb/gal", **mud) == (
        "Seen: 10.6 lb/gal; expected: 10.3 lb/gal (entered above)."
    )
    assert told.says(StepDone, step_id="density-out", value="10.5 lb/gal", **mud)


def test_without_a_band_nobody_can_say_that_it_disagrees():
    told = landed(setup(limits=limits(density_band="")))
    told.does("mud-conditioning", "density-in", value="14 lb/gal")
    assert told.job.exceptions == ()


def test_a_changed_figure_names_what_no_longer_agrees():
    told = landed().does("mud-conditioning", "density-in", value="10.2 lb/gal")
    heavier = {"setup": to_fields(setup(pumping=pumping(mud_weight=read("11 lb/gal", "density"))))}
    told.entries.append(told.makes(Correction, of=1, reason="typed wrongly", instead=heavier))
    job = fold(told.entries)
    assert job.open_exceptions()[-1].what == (
        "Mud conditioning, Weigh the mud going in: Seen: 10.2 lb/gal; expected: 11.0 lb/gal "
        "(calculated). Nobody gave a reason."
    )


# Passed over


def test_a_step_is_passed_over_with_a_reason():
    told = landed()
    gas = {"list_id": "mud-conditioning", "step_id": "gas"}
    assert told.refuses(StepPassed, outcome="not done", reason=" ", **gas) == (
        "Say why the step is passed over."
    )
    assert told.refuses(StepPassed, outcome="maybe", reason="no sensor", **gas) == (
        "'maybe' is no outcome; say not done or not applicable."
    )
    job = told.says(StepPassed, outcome="not applicable", reason="no sensor", **gas)
    kept = record(job, "gas", "mud-conditioning")
    assert (kept.outcome, kept.note) == ("not applicable", "no sensor")
    assert job.exceptions == ()
    assert told.refuses(StepPassed, outcome="not done", reason="no sensor", **gas) == (
        "Something is entered for this step already; correct that entry."
    )


def test_a_critical_step_is_passed_over_by_two_and_stays_in_sight():
    told = landed()
    line = {**RELEASE, "step_id": "line-test", "outcome": "not done", "reason": "no pump"}
    assert told.refuses(StepPassed, **line) == (
        "A critical step is passed over only with a second person; name the person."
    )
    assert told.refuses(StepPassed, second=LEAD, by=LEAD, **line) == (
        "Oda Linde did it and cannot be the witness as well; name somebody else."
    )
    job = told.says(StepPassed, second=REP, **line)
    assert [each.what for each in job.open_exceptions()] == [
        "Plug release and displacement, Test the lines and the head; give the pressure held: "
        "not done. no pump. Second person: Per Falk."
    ]


# Striking


def test_striking_the_release_of_the_top_plug_takes_the_counts_with_it_by_name():
    told = pumping_down()
    told.says(Pumped, strokes=40)
    told.says(Pumped, strokes=90)
    told.entries.append(
        told.makes(Correction, of=told.job.zeroed.seq, reason="wrong key", instead=None)
    )
    job = fold(told.entries)
    assert job.zeroed is None
    assert job.pumped == ()
    assert [each.what for each in job.open_exceptions()] == [
        f"Entry {seq} (pumped {strokes} strokes) no longer fits: The volume is not zeroed yet; "
        "that comes with the release of the top plug."
        for seq, strokes in ((51, 40), (52, 90))
    ]


def test_striking_a_list_names_every_step_worked_with_it():
    told = loaded(landed())
    told.entries.append(told.makes(Correction, of=20, reason="wrong list", instead=None))
    job = fold(told.entries)
    assert {plan for plan, _ in job.steps} == {"rig-up"}
    assert len(job.open_exceptions()) == len(LOADING_STEPS)
    assert job.open_exceptions()[0].what == (
        "Entry 26 (bottom plug inspected: right size and kind, sound) no longer fits: "
        "This book has no step 'bottom-plug-inspected' in a list 'plug-loading'."
    )


def test_they_say_what_happened():
    told = Telling()
    at = {"list_id": "x", "step_id": "line-test"}
    assert told.makes(StepDone, **at).said() == "line test, done"
    assert told.makes(StepDone, value="3 psi", witness=REP, **at).said() == (
        "line test: 3 psi, seen by Per Falk"
    )
    assert told.makes(StepWitnessed, witness=REP, state="up", **at).said() == (
        "line test, witnessed by Per Falk: up"
    )
    assert told.makes(StepPassed, outcome="not done", reason="no pump", **at).said() == (
        "line test, not done: no pump"
    )


def test_the_witness_and_whoever_releases_a_hold_point_have_the_role_of_the_list():
    told = landed()
    line_test = {**RELEASE, "step_id": "line-test", "value": "3600 psi"}
    assert told.refuses(StepDone, by=CEMENTER, witness=MUD, **line_test) == (
        "Ines Quarto is mud engineer; the witness of this step is for the company representative: "
        "Per Falk."
    )
    assert told.refuses(StepDone, by=LEAD, witness=REP, **line_test) == (
        "Oda Linde is casing crew lead; the release of this hold point is for the cementer: "
        "Rui Bastos."
    )
    job = told.says(StepDone, by=LEAD, released=CEMENTER, witness=REP, **line_test)
    assert (record(job, "line-test").by, told.entries[-1].by) == (CEMENTER, LEAD)
    assert told.entries[-1].said() == (
        "line test: 3600 psi, released by Rui Bastos, seen by Per Falk"
    )
    assert fold(told.entries) == job


def test_a_role_that_nobody_has_says_where_to_add_the_person():
    people = tuple(one for one in setup().people if one.name != REP)
    told = Telling().starts(setup(people=people)).runs().lands().takes()
    relief = {"list_id": "rig-up", "step_id": "relief-set", "value": "3000 psi", "by": CEMENTER}
    assert told.refuses(StepDone, witness=MUD, **relief) == (
        "Nobody on this job is company representative, and the witness of this step is for that "
        "role; add the person (F2, a)."
    )


def test_the_releaser_is_on_the_job_is_not_the_witness_and_releases_hold_points_only():
    told = landed()
    line_test = {**RELEASE, "step_id": "line-test", "value": "3600 psi", "by": LEAD}
    assert told.refuses(StepDone, released="A Stranger", witness=REP, **line_test) == (
        "A Stranger is not among the people; add the person first."
    )
    assert told.refuses(StepDone, released=REP, witness=REP, **line_test) == (
        "Per Falk did it and cannot be the witness as well; name somebody else."
    )
    assert told.refuses(
        StepDone, list_id="mud-conditioning", step_id="pipe-full", released=REP,
        state="mud stands at the top",
    ) == "Only a hold point is released by somebody else than the person at the keys."  # fmt: skip


def test_whoever_has_a_pin_signs_a_hold_point_with_it():
    told = landed()
    for name in (CEMENTER, REP):
        told.says(PinSet, by=name, name=name, pin=made("2468"))
    line_test = {**RELEASE, "step_id": "line-test", "value": "3600 psi", "by": CEMENTER}
    for signed, lacks in (((), REP), ((REP,), CEMENTER), ((CEMENTER,), REP)):
        assert told.refuses(StepDone, witness=REP, signed=signed, **line_test) == (
            f"{lacks} has a PIN and has not signed with it; enter it again with the PIN."
        )
    told.says(StepDone, witness=REP, signed=(CEMENTER, REP), **line_test)


def test_the_witness_of_what_one_key_stored_has_the_role_and_signs():
    told = released(ready_to_pump()).does("plug-release", "first-slurry")
    first = {**RELEASE, "step_id": "first-slurry", "state": "density in its band"}
    assert "the witness of this step is for the company rep" in told.refuses(
        StepWitnessed, witness=MUD, **first
    )
    told.says(PinSet, by=REP, name=REP, pin=made("2468"))
    assert "has not signed with it" in told.refuses(StepWitnessed, witness=REP, **first)
    job = told.says(StepWitnessed, witness=REP, signed=(REP,), **first)
    assert record(job, "first-slurry").signed == (REP,)


def test_a_book_that_holds_another_witness_keeps_it():
    told = landed()
    old = told.makes(StepDone, **RELEASE, step_id="line-test", value="3600 psi", by=LEAD,
                     witness=MUD)  # fmt: skip
    assert record(fold([*told.entries, old]), "line-test").witness == MUD
