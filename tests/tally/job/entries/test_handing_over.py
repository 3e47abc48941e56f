"""The job handed over: one entry with both names, or two when the next person comes later."""

from tally.job.entries.handing_over import HandedOver, TakenOver
from tally.job.entries.people import PinSet
from tally.job.pins import made
from tests.tally.job.invented import LEAD, REP, Telling, running


def test_both_sign_one_entry_where_the_next_one_stands_by() -> None:
    told = running()
    job = told.says(HandedOver, to=REP, watch="the trip tank", taken=True)
    (one,) = job.handovers
    assert (one.by, one.to, one.taken_by, one.watch) == (LEAD, REP, REP, "the trip tank")
    assert one.taken_at == one.at
    assert job.waiting_handover is None


def test_it_waits_until_the_next_one_takes_over() -> None:
    told = running()
    job = told.says(HandedOver, to=REP)
    assert job.waiting_handover is job.handovers[0]
    job = told.says(TakenOver, name=REP, by=REP)
    assert job.waiting_handover is None
    assert (job.handovers[0].taken_by, job.handovers[0].taken_why) == (REP, "")
    assert job.handovers[0].taken_at > job.handovers[0].at
    assert "Nothing waits" in told.refuses(TakenOver, name=REP)


def test_another_one_takes_over_with_a_reason_only() -> None:
    told = running()
    third = next(name for name in told.job.people if name not in (LEAD, REP))
    told.says(HandedOver, to=REP)
    assert f"handed over to {REP}" in told.asks(TakenOver, name=third)
    job = told.says(TakenOver, name=third, despite="the representative is ill")
    assert job.handovers[0].taken_why == "the representative is ill"
    assert "another person takes over" in told_again().refuses(TakenOver, name=LEAD)
    assert "not among the people" in told_again().refuses(TakenOver, name="Nobody")


def told_again() -> Telling:
    """Return a job that waits to be taken over."""
    told = running()
    told.says(HandedOver, to=REP)
    return told


def test_nobody_hands_over_to_himself_or_to_a_stranger() -> None:
    told = running()
    assert "name the person who takes over" in told.refuses(HandedOver, to=LEAD)
    assert "not among the people" in told.refuses(HandedOver, to="Nobody")
    assert "say who is at the keys" in told.refuses(HandedOver, to=REP, by="Nobody")
    assert "not set up" in Telling().refuses(HandedOver, to=REP)


def test_whoever_has_a_pin_signs_with_it() -> None:
    told = running()
    told.says(PinSet, name=REP, pin=made("1234"))
    assert f"{REP} has a PIN" in told.refuses(HandedOver, to=REP, taken=True)
    told.says(HandedOver, to=REP)
    assert f"{REP} has a PIN" in told.refuses(TakenOver, name=REP)
    job = told.says(TakenOver, name=REP, signed=(REP,))
    assert job.handovers[0].signed == (REP,)
