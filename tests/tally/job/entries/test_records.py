"""What is kept beside the work: notices, calibrations, time lost, pressure tests."""

from tally.job.entries.records import CalibrationNoted, NoticeGiven, PressureTested, TimeLost
from tally.units import read
from tests.tally.job.invented import LEAD, REP, Telling, running


def minutes(text: str):
    """Return a time."""
    return read(f"{text} min", "time")


def psi(text: str):
    """Return a pressure."""
    return read(f"{text} psi", "pressure")


def test_a_notice_keeps_whom_how_when_and_by_whom() -> None:
    told = Telling()
    one = told.says(NoticeGiven, to="the district office", about="cementing", means="telephone")
    assert [(n.to, n.about, n.means, n.given, n.when) for n in one.notices] == [
        ("the district office", "cementing", "telephone", LEAD, "")
    ]
    more = told.says(
        NoticeGiven, to="a", about="b", means="mail", given=REP, when="1 May", answer="no. 7"
    )
    assert (more.notices[1].given, more.notices[1].when, more.notices[1].answer) == (
        REP, "1 May", "no. 7",
    )  # fmt: skip
    assert "who was told" in told.refuses(NoticeGiven, to=" ", about="b", means="mail")
    assert "what the notice was of" in told.refuses(NoticeGiven, to="a", about="", means="mail")
    assert "how it was given" in told.refuses(NoticeGiven, to="a", about="b", means="")


def test_a_calibration_that_has_run_out_asks_and_stays_in_sight() -> None:
    told = Telling()
    day = told.makes(TimeLost, cause="x", time=minutes("1")).at[:10]
    told.says(CalibrationNoted, what="pump gauge", day="2026-01-01", due=day)
    assert told.job.open_exceptions() == ()
    asked = told.asks(CalibrationNoted, what="scale", day="2025-01-01", due="2025-12-31")
    assert asked == "The calibration of scale held until 2025-12-31; it has run out."
    told.says(
        CalibrationNoted, what="scale", day="2025-01-01", due="2025-12-31", despite="no other here"
    )
    assert [e.what for e in told.job.open_exceptions()] == [f"{asked} Used: no other here"]


def test_a_calibration_wants_a_thing_and_real_days_that_are_not_to_come() -> None:
    told = Telling()
    assert "Say what was calibrated" in told.refuses(CalibrationNoted, what="", day="2026-01-01")
    for text in ("yesterday", "2026-02-30", "20260101", "2026-W01-1"):
        assert "is no day" in told.refuses(CalibrationNoted, what="scale", day=text)
    assert "Type the day" in told.refuses(CalibrationNoted, what="scale", day="")
    assert "still to come" in told.refuses(CalibrationNoted, what="scale", day="2126-01-01")
    assert "which is before" in told.refuses(
        CalibrationNoted, what="scale", day="2026-01-02", due="2026-01-01"
    )


def test_time_lost_ends_with_the_entry_unless_it_says_when_it_began() -> None:
    told = Telling()
    lost = told.says(TimeLost, cause="pump", time=minutes("45"), at="2026-05-02T10:00:00+02:00")
    assert lost.lost[0].began == "2026-05-02T09:15:00+02:00"
    began = "2026-05-02T08:00:00+02:00"
    lost = told.says(
        TimeLost, cause="crew", time=minutes("30"), began=began, at="2026-05-02T10:01:00+02:00"
    )
    assert lost.lost[1].began == began
    at = {"at": "2026-05-02T10:02:00+02:00"}
    assert "would end after now" in told.refuses(
        TimeLost, cause="crew", time=minutes("180"), began=began, **at
    )
    assert "is no time of an entry" in told.refuses(
        TimeLost, cause="crew", time=minutes("3"), began="8 o'clock", **at
    )
    assert "more than nothing" in told.refuses(TimeLost, cause="crew", time=minutes("0"), **at)
    assert "at most 72 h" in told.refuses(TimeLost, cause="crew", time=minutes("4321"), **at)
    assert "waited for" in told.refuses(TimeLost, cause=" ", time=minutes("3"), **at)


def test_a_pressure_test_that_did_not_hold_stays_in_sight() -> None:
    told = running()
    kept = told.says(
        PressureTested,
        what="casing",
        pressure=psi("1500"),
        time=minutes("30"),
        ended=psi("1490"),
        held=True,
    )
    assert kept.pressure_tests[0].pressure.text == "1500 psi"
    assert kept.open_exceptions() == ()
    failed = {"what": "lines", "pressure": psi("3000"), "time": minutes("5"), "held": False}
    assert "did not hold" in told.refuses(PressureTested, **failed)
    told.says(PressureTested, **failed, note="a union leaks, changed")
    assert [each.what for each in told.job.open_exceptions()] == [
        "Did not hold: lines tested with 3000 psi for 5 min: did not hold (a union leaks, changed)"
    ]
    good = {"what": "casing", "pressure": psi("1500"), "time": minutes("30"), "held": True}
    assert "more than the 1500 psi" in told.asks(PressureTested, **good, ended=psi("1510"))
    assert "above nothing" in told.refuses(PressureTested, **{**good, "pressure": psi("0")})
    assert "what was tested" in told.refuses(PressureTested, **{**good, "what": ""})
