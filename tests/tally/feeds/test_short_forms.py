"""The short forms of a running order and of the joints of a programme line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.feeds.short_forms import MOST, in_short, read_joints, read_order

JOINTS = st.sets(st.integers(1, 400), min_size=1, max_size=60)
NUMBERS = st.from_regex(r"[A-Za-z]{1,4}|[1-9][0-9]{0,4}", fullmatch=True)


@given(JOINTS)
def test_joints_in_short_are_read_back(joints: set[int]) -> None:
    assert read_joints(in_short(sorted(joints))) == tuple(sorted(joints))


@given(st.integers(1, 900), st.integers(0, 90), st.integers(1, 12))
def test_every_nth_joint_is_counted_from_the_first(first: int, more: int, step: int) -> None:
    joints = read_joints(f"{first}-{first + more}/{step}")
    assert joints[0] == first
    assert len(joints) == more // step + 1
    assert all((joint - first) % step == 0 and joint <= first + more for joint in joints)


@given(st.lists(st.integers(1, 100), min_size=1, max_size=8, unique=True), st.randoms())
def test_the_parts_may_come_in_any_order_with_any_spaces(joints: list[int], chance) -> None:  # type: ignore[no-untyped-def]
    typed = ",".join(" " * chance.randint(0, 2) + str(joint) for joint in joints)
    assert read_joints(typed) == tuple(sorted(joints))


@given(st.lists(NUMBERS, min_size=1, max_size=30))
def test_an_order_without_ranges_is_the_numbers_as_they_stand(numbers: list[str]) -> None:
    assert read_order(" ".join(numbers)) == tuple(numbers)
    assert read_order(", ".join(numbers)) == tuple(numbers)


@given(st.integers(0, 9_999), st.integers(0, 300), st.sampled_from(["", "A", "xb"]))
def test_a_range_is_every_number_and_runs_both_ways(first: int, more: int, letters: str) -> None:
    last = first + more
    up = read_order(f"{letters}{first}-{letters}{last}")
    assert up == tuple(f"{letters}{number}" for number in range(first, last + 1))
    assert read_order(f"{letters}{last}-{letters}{first}") == tuple(reversed(up))


def test_zeros_in_front_are_kept() -> None:
    assert read_order("008-011") == ("008", "009", "010", "011")


def test_a_number_in_use_that_looks_like_a_range_is_itself() -> None:
    assert read_order("1-3 4-6", known=("4-6",)) == ("1", "2", "3", "4-6")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", '"" names no joints: type them like'),
        ("four", '"four" names no joints'),
        ("1-3-5", '"1-3-5" names no joints'),
        ("1.5", '"1.5" names no joints'),
        ("-3", '"-3" names no joints'),
        ("1 2", '"1 2" names no joints'),
        ("9**9**9", "names no joints"),
        ("\u0661", "<U+0661>"),
        ("0", '"0" starts below 1: joint 1 is the one above the shoe.'),
        ("0-4", '"0-4" starts below 1'),
        ("9-4", '"9-4" runs backwards: type the lower joint first.'),
        ("1-9/0", '"1-9/0" has a step of nothing'),
        ("1-4, 3", '"3" names joint 3 a second time.'),
        ("1-99999", '"1-99999" goes beyond 20,000 joints'),
        ("1-999999999999", "names no joints"),
        ("9" * 10_000, "names no joints"),
    ],
)
def test_joints_that_are_not_read(typed: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read_joints(typed)
    assert said in str(caught.value)
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "The running order is empty"),
        (" , ", "The running order is empty"),
        ("A1-B9", '"A1-B9" goes from "A" to "B"'),
        ("1-999999", '"1-999999" stands for more than 20,000 numbers'),
        ("1-15000 15001-30000", "makes the order longer than 20,000 items"),
    ],
)
def test_orders_that_are_not_read(typed: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read_order(typed)
    assert said in str(caught.value)


def test_the_longest_range_is_read() -> None:
    assert len(read_order(f"1-{MOST}")) == MOST
