"""The numbers painted on the pipe."""

from __future__ import annotations

import pytest

from tally.errors import InputError
from tally.feeds.item_numbers import item_number, look_alikes


@pytest.mark.parametrize("number", ["1", "205", "A12", "12-3", "shoe", "landing-1", "0"])
def test_numbers_that_can_be_typed(number: str) -> None:
    assert item_number(number) == number


@pytest.mark.parametrize(
    "number", ["", "-1", "1 2", "1,2", "1.5", "=1", "[/]", "\u00e91", "\u0661", "x" * 13, "1\n"]
)
def test_numbers_that_cannot_be_typed(number: str) -> None:
    with pytest.raises(InputError, match="is no number of an item"):
        item_number(number)


def test_numbers_that_a_person_would_take_for_the_same() -> None:
    assert look_alikes(["7", "007", "A1", "a1", "70", "7", "0", "00"]) == (
        ("7", "007"),
        ("A1", "a1"),
        ("7", "7"),
        ("0", "00"),
    )
