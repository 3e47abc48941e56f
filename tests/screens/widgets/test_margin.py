"""The margin: each mark in the row where a ruler on the depths of the demonstration puts it."""

from __future__ import annotations

import re
from functools import cache

import pytest

from screens.widgets.margin import fluid_letters, margin_rows
from tally.job.fold import fold
from tally.job.job import Job
from tally.job.setup import Rule
from tests.screens.books import Story, setup
from tests.screens.demo_books import at, up_to

ROWS = 20
DEEPEST, OLD_SHOE, COLLAR = 8260.0, 3010.0, 8151.64


@cache
def job_at(clock: str) -> Job:
    return fold(up_to(at(clock)))


def margin(clock: str) -> list[str]:
    return [each.plain for each in margin_rows(job_at(clock), ROWS)]


def row_of(feet: float) -> int:
    return int(feet / DEEPEST * ROWS)


def test_old_casing_and_open_hole_end_where_they_end():
    walls = "".join(row[0] for row in margin("03:12:00"))
    assert walls == "#" * row_of(OLD_SHOE) + ":" * (ROWS - row_of(OLD_SHOE))


def test_running_shows_the_shoe_the_empty_pipe_and_what_is_installed():
    rows = margin("03:12:00")
    shoe = next(place for place, row in enumerate(rows) if "v" in row)
    assert abs(shoe - row_of(3500.0)) <= 1
    assert rows[0][3] == "."
    assert "(" in rows[shoe]
    assert all(row[1:-1].strip() == "" for row in rows[shoe + 1 :])


def test_while_pumping_the_fluids_stand_by_their_letters_with_the_plugs_between():
    inside = "".join(row[3] for row in margin("16:05:00")).replace(" ", "")
    assert re.fullmatch(r"T\.+t+l+Bs*=v", inside)


def test_after_the_bump_the_top_plug_is_on_the_collar_above_the_shoe():
    rows = margin("18:30:00")
    assert rows[-1] == ":t|v|t:"
    assert rows[row_of(COLLAR) - 1][3] == "T"
    around = "".join(row[1] for row in rows).strip()
    assert around == "s" * around.count("s") + "l" * around.count("l") + "t" * around.count("t")


def test_scratchers_alone_are_told_from_centralizers():
    told = "".join(row.plain for row in margin_rows(job_at("14:00:00"), 200))
    assert "*| |*" in told
    assert "(| |)" in told


@pytest.mark.parametrize("rows", [0, 1, 2, 60])
def test_any_height_is_drawn(rows):
    assert len(margin_rows(job_at("18:30:00"), rows)) == rows


def test_without_pipe_there_is_only_the_hole():
    told = Story()
    told.starts(setup(), 5)
    assert {row.plain[1:-1] for row in margin_rows(told.job, 10)} == {"     "}


def test_each_fluid_has_a_letter_of_its_own():
    letters = fluid_letters(("spacer", "scavenger", "slurry", "s", "2 %", "v"))
    assert len(set(letters)) == 6
    assert "v" not in letters


@pytest.mark.parametrize(("centralizer", "mark"), [(True, "("), (False, "*")])
def test_a_centralizer_of_any_name_is_drawn_as_one(centralizer, mark):
    told = Story()
    told.starts(setup(programme=(Rule(what="bow", joints=(2,), centralizer=centralizer),)), 5)
    told.runs(3)
    drawn = "".join(row.plain for row in margin_rows(told.job, 60))
    assert mark in drawn
    assert ("*" if centralizer else "(") not in drawn
