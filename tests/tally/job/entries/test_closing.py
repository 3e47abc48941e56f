"""Open exceptions answered for by a named person."""

import pytest

from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.people import PinSet
from tally.job.entries.watching import TankRead
from tally.job.pins import made
from tally.units import read
from tests.tally.job.invented import CEMENTER, REP, Telling, setup


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


def test_somebody_elses_exception_is_closed_with_the_pin_of_who_has_one(told):
    told.says(PinSet, name=REP, pin=made("2468"))
    closing = {"of": 17, "reason": "joint found", "by": REP}
    assert told.job.exceptions[0].by != REP
    assert told.refuses(ExceptionClosed, **closing) == (
        f"{REP} has a PIN and has not signed with it; enter it again with the PIN."
    )
    told.says(ExceptionClosed, signed=(REP,), **closing)
    assert told.job.open_exceptions() == ()


def test_a_gain_or_loss_is_closed_by_two_people():
    told = Telling().starts(setup()).runs()
    told.says(TankRead, volume=read("20 bbl", "volume"), mark=True)
    told.says(TankRead, volume=read("60 bbl", "volume"), despite="read again")
    (lost,) = told.job.open_exceptions()
    closing = {"of": lost.seq, "reason": "accepted as it is", "by": CEMENTER}
    assert "closed by two people" in told.refuses(ExceptionClosed, **closing)
    assert told.refuses(ExceptionClosed, second=CEMENTER, **closing) == (
        f"{CEMENTER} did it and cannot be the witness as well; name somebody else."
    )
    told.says(PinSet, name=REP, pin=made("2468"))
    assert f"{REP} has a PIN" in told.refuses(ExceptionClosed, second=REP, **closing)
    told.says(ExceptionClosed, second=REP, signed=(REP,), **closing)
    assert told.job.exceptions[0].closing == f"accepted as it is (second person: {REP})"
