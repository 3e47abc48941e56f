"""Steps of the checklists: who witnesses, releases and signs them."""

from tally.job.entries.people import PersonAdded, PinSet
from tally.job.entries.steps import StepDone, StepWitnessed
from tally.job.fold import fold
from tally.job.pins import made
from tests.tally.job.entries.plug_release import RELEASE, record, released
from tests.tally.job.invented import (
    CEMENTER,
    LEAD,
    MUD,
    REP,
    Telling,
    landed,
    pumping_down,
    ready_to_pump,
    setup,
)


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
