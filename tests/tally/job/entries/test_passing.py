"""From the first slurry to the bump an event passes a shut gate at once; the reason comes after."""

import pytest

from tally.job.entries.passing import PassingAnswered
from tally.job.entries.people import PinSet
from tally.job.entries.steps import StepDone
from tally.job.fold import fold
from tally.job.pins import made
from tests.tally.job.invented import CEMENTER, REP, ready_to_pump

RELEASED = {"list_id": "plug-release", "step_id": "top-plug-released"}
SHUT = (
    "Plug release and displacement, Release the top plug; watch the indicator: Not done yet: End "
    "the slurry; give the volume pumped (Plug release and displacement)."
)


@pytest.fixture
def told():
    """Return a job with slurry on its way down and its end not entered."""
    told = ready_to_pump()
    told.does("plug-release", "bottom-plug-released", state="indicator moved", witness=REP)
    return told.does("plug-release", "first-slurry")


def test_before_the_first_slurry_a_shut_gate_stops_it():
    told = ready_to_pump()
    said = told.refuses(StepDone, by=CEMENTER, list_id="plug-release", step_id="first-slurry")
    assert "This gate is passed only with a reason and a second person." in said


def test_the_event_is_stored_and_zeroes_at_once_and_the_gate_is_an_open_exception(told):
    job = told.says(StepDone, by=CEMENTER, **RELEASED)
    assert job.zeroed is not None
    assert job.zeroed.seq == job.seq
    assert not job.zeroed.answered
    (one,) = job.open_exceptions()
    assert one.what == f"{SHUT} Nobody gave a reason."
    assert fold(told.entries) == job


def test_the_reason_and_the_second_person_are_told_afterwards_and_it_stays_open(told):
    told.says(StepDone, by=CEMENTER, **RELEASED)
    job = told.says(PassingAnswered, reason="end not called", second=REP, **RELEASED)
    (one,) = job.open_exceptions()
    assert one.what == f"{SHUT} Accepted: end not called. Second person: {REP}."
    assert job.steps["plug-release", "top-plug-released"].answered
    assert job.zeroed == job.steps["plug-release", "top-plug-released"]
    assert told.refuses(PassingAnswered, reason="again", second=REP, **RELEASED) == (
        "No shut gate that was passed waits for a reason here."
    )
    assert fold(told.entries) == job


@pytest.mark.parametrize(
    ("answer", "sentence"),
    [
        ({"reason": " ", "second": REP}, "Say why the gate was passed."),
        ({"reason": "late", "second": ""}, "A second person is wanted; name the person."),
        (
            {"reason": "late", "second": CEMENTER},
            f"{CEMENTER} did it and cannot be the witness as well; name somebody else.",
        ),
    ],
)
def test_an_answer_wants_words_and_somebody_else(told, answer, sentence):
    told.says(StepDone, by=CEMENTER, **RELEASED)
    assert told.refuses(PassingAnswered, **answer, **RELEASED) == sentence


def test_a_second_person_with_a_pin_signs_with_it(told):
    told.says(StepDone, by=CEMENTER, **RELEASED)
    told.says(PinSet, name=REP, pin=made("2468"))
    answer = {"reason": "late", "second": REP, **RELEASED}
    assert "has a PIN and has not signed" in told.refuses(PassingAnswered, **answer)
    told.says(PassingAnswered, signed=(REP,), **answer)


def test_with_the_reason_at_the_key_nothing_more_is_asked(told):
    job = told.says(StepDone, by=CEMENTER, despite="end not called", second=REP, **RELEASED)
    assert job.steps["plug-release", "top-plug-released"].answered


def test_once_the_bump_is_entered_a_gate_stops_again(told):
    started = {"list_id": "plug-release", "step_id": "displacement-started"}
    told.does("plug-release", "bumped")  # its gate, the release of the top plug, is shut too
    assert told.refuses(StepDone, by=CEMENTER, **started) == (
        "Not done yet: Release the top plug; watch the indicator (Plug release and displacement). "
        "This gate is passed only with a reason and a second person."
    )
