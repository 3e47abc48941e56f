"""Returns in words, and what of them free fall explains."""

import pytest

from tally.cement.placement import CAUGHT_UP, FALLS
from tally.cement.predict import predict
from tally.cement.returns import (
    AS_EXPECTED,
    FULL,
    LESS,
    MORE,
    NONE,
    STANDING,
    TOO_LITTLE,
    TOO_MUCH,
    Bounds,
    compared,
    expected,
    phase,
)
from tally.errors import DomainError
from tests.tally.cement.test_plan import PLAN

JOB = predict(PLAN)
FALLING, CAUGHT = (
    next(e.volume for e in JOB.events if e.what == what) for what in (FALLS, CAUGHT_UP)
)


@pytest.mark.parametrize(
    ("rate", "returns", "word"),
    [
        (0.02, 0.0203, FULL), (0.02, 0.0205, MORE), (0.02, 0.0195, LESS), (0.02, 0.0, NONE),
        (0.0, 0.0, STANDING), (0.0, 0.01, MORE),
    ],
)  # fmt: skip
def test_phases(rate, returns, word):
    assert phase(rate, returns) == word


def test_a_fall_goes_through_its_phases():
    words = [expected(JOB, volume).phase for volume in JOB.volume]
    order = [word for place, word in enumerate(words) if not place or word != words[place - 1]]
    assert order[0] == FULL
    assert order[-1] == FULL
    assert MORE in order
    assert {LESS, NONE} & set(order)
    assert order.index(MORE) < max(place for place, word in enumerate(order) if word != FULL)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.8, 0.95])
def test_free_fall_is_neither_a_flow_nor_a_loss(share):
    volume = FALLING + share * (CAUGHT - FALLING)
    returned = JOB.at(volume).returned
    verdict = compared(JOB, volume, returned)
    assert verdict.word == AS_EXPECTED
    assert verdict.difference == 0
    if verdict.expected.phase == MORE:
        assert "no flow" in verdict.means
    if verdict.expected.phase in (LESS, NONE):
        assert "no loss" in verdict.means


def test_a_loss_during_the_fall_is_not_taken_for_it():
    volume = (FALLING + CAUGHT) / 2
    assert JOB.at(volume).empty > 3.0
    pumped_only = compared(JOB, volume, volume)
    assert pumped_only.word == TOO_LITTLE
    assert "losses" in pumped_only.means
    assert pumped_only.difference == pytest.approx(-JOB.at(volume).empty)


def test_a_flow_while_the_casing_is_full_is_told():
    volume = JOB.volume[-1] - 2.0
    verdict = compared(JOB, volume, volume + 3.0)
    assert verdict.word == TOO_MUCH
    assert "flow from the hole" in verdict.means


def test_a_fall_a_little_early_or_late_is_as_expected():
    bounds = Bounds(early=2.0)
    for shift in (-1.5, 1.5):
        for share in (0.1, 0.4, 0.7):
            volume = FALLING + share * (CAUGHT - FALLING)
            seen = volume + JOB.at(volume + shift).empty
            assert compared(JOB, volume, seen, bounds).word == AS_EXPECTED


def test_bounds_are_held_to_what_can_be():
    with pytest.raises(DomainError, match=r"Share that returns may be off 0\.7"):
        Bounds(share=0.7)
