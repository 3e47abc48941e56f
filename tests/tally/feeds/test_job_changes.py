"""What another set-up changes, in words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings

from tally.feeds.job_changes import changes
from tally.job.setup import Limit, Person, Setup
from tally.units import read
from tests.tally.feeds.job_files import taken
from tests.tally.feeds.setups import setups


def test_each_change_is_a_line_in_words(tmp_path: Path) -> None:
    old = taken(tmp_path).setup
    new = replace(
        old,
        well=replace(old.well, rig="Rig 7"),
        hole=replace(old.hole, casing_point=read("245 ft", "length")),
        survey=old.survey[:1],
        people=(Person(name="Tomas Quill", role="driller"), *old.people),
        items=(replace(old.items[0], length=220, typed="2.20"), old.items[1]),
        order=old.order[:-1],
        limits={"tank_total": Limit(text="6 bbl", owner="N. Haddad")},
        shown_in={"pressure": "bar"},
    )
    assert changes(old, new) == (
        "well, rig: now Rig 7",
        "hole and casing point, casing point: 240 ft, now 245 ft",
        "survey: 250 ft, 1.5 deg, 40 deg, now taken out",
        "units one by one, pressure: now bar",
        "floats and other items, shoe, length: 2.10, now 2.20",
        "running order: shoe 1 collar 2-4, now shoe 1 collar 2 3",
        "people: now with Tomas Quill, driller",
        "limits, tank total, value: 5 bbl, now 6 bbl",
        "limits, tank total, source: programme, now left out",
    )
    assert changes(old, old) == ()


def test_another_order_and_rows_that_begin_alike_are_told(tmp_path: Path) -> None:
    old = taken(tmp_path).setup
    assert changes(old, replace(old, people=old.people[::-1])) == (
        "people: now in the order N. Haddad, Ama Osei",
    )
    twice = replace(old, programme=(old.programme[0], *old.programme))
    assert changes(old, twice) == ("centralizers: now with bow centralizer, 1, 3",)


@settings(max_examples=25, deadline=None)
@given(one=setups(), other=setups())
def test_nothing_is_told_only_where_nothing_differs(one: Setup, other: Setup) -> None:
    assert changes(one, one) == ()
    assert bool(changes(one, other)) == (one != other)
