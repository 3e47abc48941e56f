"""A list for trouble lies ready, and its steps wait until somebody starts it."""

from __future__ import annotations

from tally.job.entries.calling import ListStarted
from tally.job.entries.steps import StepDone
from tally.job.working import left, on_call, working
from tally.steps.reading import shipped
from tests.tally.job.invented import CEMENTER, REP, Telling, landed

LOST = "returns-lost"


def ready() -> Telling:
    return landed().takes(*(plan for plan in shipped() if plan.on_call))


def test_a_list_that_is_not_started_is_nobodys_next_and_takes_no_step() -> None:
    told = ready()
    assert len(on_call(told.job)) == 8
    assert LOST not in [plan.id for plan in working(told.job)]
    step = {"list_id": LOST, "step_id": "volume-then", "value": "20 bbl", "by": CEMENTER}
    assert told.refuses(StepDone, **step) == (
        "The list 'Returns lost' is not started; t on F6 starts it."
    )


def test_a_started_list_is_worked_ahead_of_the_others() -> None:
    told = ready()
    told.says(ListStarted, list_id=LOST, why="level falls", by=CEMENTER)
    start = told.job.started[LOST]
    assert (start.why, start.by, start.seq) == ("level falls", CEMENTER, told.job.seq)
    assert working(told.job)[0].id == LOST
    told.does(LOST, "volume-then", value="20 bbl")
    assert told.job.steps[LOST, "volume-then"].value == "20 bbl"


def test_what_is_refused() -> None:
    told = ready()
    assert "no list 'no-such'" in told.refuses(ListStarted, list_id="no-such", why="x")
    assert "is not started" in told.refuses(ListStarted, list_id="plug-release", why="x")
    assert "Say what was seen" in told.refuses(ListStarted, list_id=LOST, why=" ")
    told.says(ListStarted, list_id=LOST, why="x", by=CEMENTER)
    assert f"by {CEMENTER}; write in a note" in told.refuses(ListStarted, list_id=LOST, why="x")


def test_an_old_book_without_such_lists_is_worked_as_it_was() -> None:
    assert on_call(landed().job) == ()


def test_where_a_list_was_left_and_where_its_block_begins() -> None:
    told = landed()
    release = told.job.lists["plug-release"]
    assert left(told.job, release) is None
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    found = left(told.job, release)
    assert found is not None
    assert (found.last.id, found.block.id) == ("line-test", "volumes-agreed")
    told.does("plug-release", "strokes-agreed", by=REP, value="500", despite="own sheet")
    found = left(told.job, release)
    assert found is not None
    assert (found.last.id, found.block.id) == ("strokes-agreed", "volumes-agreed")
