"""Charts of dots: each dot where a ruler would put it."""

from __future__ import annotations

import pytest

from screens.widgets.chart import LEFT, Axis, Dots, chart, evenly

WIDTH, ROWS = 28, 13
HIGH, WIDE = ROWS - 3, WIDTH - LEFT - 1


def drawn(*dots: Dots, across=(0.0, 19.0), up=(0.0, 9.0)) -> list[str]:
    return [each.plain for each in chart(Axis("bbl", *across), Axis("psi", *up), dots, WIDTH, ROWS)]


@pytest.mark.parametrize(
    ("place", "row", "column"),
    [((0.0, 0.0), 9, 0), ((19.0, 9.0), 0, 19), ((10.0, 5.0), 4, 10), ((99.0, -9.0), 9, 19)],
)
def test_a_dot_stands_where_its_numbers_say(place, row, column):
    assert (HIGH, WIDE) == (10, 20)
    lines = drawn(Dots("*", "read", [place]))
    assert lines[1 + row][LEFT + 1 + column] == "*"
    assert sum(each[LEFT + 1 :].count("*") for each in lines[1 : 1 + HIGH]) == 1


def test_depth_is_drawn_downwards():
    lines = drawn(Dots("v", "down", [(0.0, 9.0)]), up=(9.0, 0.0))
    assert lines[HIGH][LEFT + 1] == "v"
    assert lines[1].split("|")[0].strip() == "0.0"


def test_a_later_mark_covers_an_earlier_one_and_the_key_names_both():
    lines = drawn(Dots(".", "expected", [(3.0, 3.0)]), Dots("*", "read", [(3.0, 3.0)]))
    assert lines[0].split() == ["psi", ".", "expected", "*", "read"]
    body = "".join(each[LEFT + 1 :] for each in lines[1 : 1 + HIGH])
    assert (body.count("*"), body.count(".")) == (1, 0)


def test_without_room_nothing_is_drawn():
    assert chart(Axis("bbl", 0.0, 1.0), Axis("psi", 0.0, 1.0), (), 40, 5) == []


def test_numbers_evenly_apart():
    assert list(evenly(2.0, 4.0, 4)) == [2.0, 2.5, 3.0, 3.5, 4.0]
