"""Steps of the checklists: what they want, what was seen, passed over, struck."""

from dataclasses import replace

import pytest

from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.fold import fold
from tally.job.stored import to_fields
from tally.units import read
from tests.tally.job.entries.plug_release import RELEASE, record
from tests.tally.job.invented import (
    CEMENTER,
    LEAD,
    LOADING_STEPS,
    REP,
    Telling,
    landed,
    limits,
    loaded,
    pumping,
    pumping_down,
    ready_to_pump,
    running,
    setup,
)

INDICATOR = "Plug release and displacement, Release the bottom plug; watch the indicator: "


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
