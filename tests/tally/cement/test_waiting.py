"""Strength between readings, never beyond them; what a rule comes to; which one governs."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.cement.waiting import ALL, ANY, StrengthCurve, Wait, longest, wait_of
from tally.errors import DomainError

HOUR = 3600.0
CURVE = StrengthCurve(((6 * HOUR, 1e6), (12 * HOUR, 4e6), (24 * HOUR, 10e6)))


@st.composite
def curves(draw: st.DrawFn) -> StrengthCurve:
    times = sorted(draw(st.lists(st.integers(1, 100), min_size=1, max_size=6, unique=True)))
    some = st.lists(st.integers(0, 60), min_size=len(times), max_size=len(times))
    return StrengthCurve(
        tuple((t * HOUR, s * 1e6) for t, s in zip(times, sorted(draw(some)), strict=True))
    )


@settings(max_examples=80)
@given(curve=curves(), share=st.floats(0, 1))
def test_the_strength_is_there_when_it_is_said_to_be(curve: StrengthCurve, share: float) -> None:
    first, last = curve.readings[0], curve.readings[-1]
    wanted = first[1] + share * (last[1] - first[1])
    time = curve.reaches(wanted)
    assert time is not None
    assert first[0] <= time <= last[0]
    strength = curve.at(time)
    assert strength is not None
    assert strength >= wanted - 1.0


@settings(max_examples=50)
@given(curve=curves(), more=st.floats(1.0, 1e6))
def test_nothing_is_known_outside_the_readings(curve: StrengthCurve, more: float) -> None:
    assert curve.at(curve.readings[-1][0] + more) is None
    assert curve.at(curve.readings[0][0] - more) is None
    assert curve.reaches(curve.readings[-1][1] + more) is None


@pytest.mark.parametrize(
    ("hours", "strength", "need", "wanted"),
    [
        (8, None, ALL, 8.0),
        (None, 4e6, ALL, 12.0),
        (8, 4e6, ALL, 12.0),
        (8, 4e6, ANY, 8.0),
        (48, 4e6, ALL, 48.0),
        (48, 4e6, ANY, 12.0),
        (8, 20e6, ANY, 8.0),
        (None, 0.5e6, ALL, 6.0),
    ],
)
def test_time_and_strength_of_a_rule(
    hours: float | None, strength: float | None, need: str, wanted: float
) -> None:
    found = wait_of(hours * HOUR if hours else None, strength, need, CURVE)
    assert found.time == pytest.approx(wanted * HOUR)
    assert not found.lacks


@pytest.mark.parametrize(
    ("hours", "strength", "curve", "lacks"),
    [
        (8 * HOUR, 20e6, CURVE, "the laboratory readings end below the strength"),
        (8 * HOUR, 4e6, None, "no laboratory strength is in the job set-up"),
        (None, None, CURVE, "the rule gives neither a time nor a strength"),
    ],
)
def test_what_cannot_be_told_has_its_reason(
    hours: float | None, strength: float | None, curve: StrengthCurve | None, lacks: str
) -> None:
    assert wait_of(hours, strength, ALL, curve) == Wait(None, lacks)


def test_a_wait_that_cannot_be_told_governs_over_every_other() -> None:
    assert longest([]) is None
    assert longest([Wait(8 * HOUR), Wait(12 * HOUR), Wait(2 * HOUR)]) == 1
    assert longest([Wait(8 * HOUR), Wait(None, "why"), Wait(90 * HOUR)]) == 1


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ((), "No strength reading"),
        (((2 * HOUR, 1e6), (2 * HOUR, 2e6)), "do not follow"),
        (((2 * HOUR, 2e6), (3 * HOUR, 1e6)), "falls"),
        (((2 * HOUR, -1.0),), "Strength"),
    ],
)
def test_readings_that_cannot_be(readings: tuple[tuple[float, float], ...], said: str) -> None:
    with pytest.raises(DomainError, match=said):
        StrengthCurve(readings)


def test_a_need_that_is_not_known() -> None:
    with pytest.raises(DomainError, match="'some' is not known"):
        wait_of(HOUR, None, "some", None)
