"""Steps of the checklists: the order that is enforced, and a shut gate passed."""

from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tests.tally.job.entries.plug_release import RELEASE, record, released
from tests.tally.job.invented import (
    CEMENTER,
    LOADING_STEPS,
    REP,
    conditioned,
    displacement_text,
    landed,
    pumping,
    pumping_down,
    ready_to_pump,
    running,
    setup,
)

NO_BOTTOM = setup(pumping=pumping(bottom_plugs=0))


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
