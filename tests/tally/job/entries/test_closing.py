"""Open exceptions answered for by a named person."""

import pytest

from tally.job.entries.closing import ExceptionClosed
from tests.tally.job.invented import REP, Telling, setup


@pytest.fixture
def told():
    """Return a job that landed with a joint too many on the rack: entry 17."""
    return Telling().starts(setup()).runs().lands(counted=1)


def test_a_closed_exception_keeps_what_it_was_and_who_answered(told):
    job = told.says(ExceptionClosed, of=17, reason="joint found at the other rig", by=REP)
    (one,) = job.exceptions
    assert (one.closed_by, one.closing) == (REP, "joint found at the other rig")
    assert one.what.startswith("On depth: 1 joint counted")
    assert job.open_exceptions() == ()


@pytest.mark.parametrize(
    ("of", "reason", "said"),
    [
        (16, "found", "Entry 16 has no open exception; name one that is open."),
        (0, "found", "Entry 0 has no open exception; name one that is open."),
        (17, "", "Say how the exception was settled."),
        (17, " ", "Say how the exception was settled."),
    ],
)
def test_what_is_not_open_is_not_closed(told, of, reason, said):
    assert told.refuses(ExceptionClosed, of=of, reason=reason) == said


def test_nothing_is_closed_twice(told):
    told.says(ExceptionClosed, of=17, reason="found")
    assert told.refuses(ExceptionClosed, of=17, reason="found again") == (
        "Entry 17 has no open exception; name one that is open."
    )


def test_it_says_what_happened(told):
    made = told.makes(ExceptionClosed, of=17, reason="joint found")
    assert made.said() == "exception of entry 17 closed: joint found"
