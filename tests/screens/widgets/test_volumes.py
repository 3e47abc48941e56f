"""The volumes panel: weights to expect, the greatest pull and the next fill, where they are set."""

from __future__ import annotations

from dataclasses import replace

from screens.widgets.volumes import volume_lines
from tally.job.job import Job
from tally.job.setup import Filling
from tests.tally.job.invented import GEAR, landed, running, setup, weighed


def shown(job: Job, width: int = 60) -> list[str]:
    return [" ".join(one.plain.split()) for one in volume_lines(job, width)]


def test_what_was_not_set_up_is_left_out() -> None:
    lines = shown(running("S1", "1", "2", plan=setup()).job)
    assert lines[-1].startswith("shoe track")


def test_weights_and_the_next_fill_with_what_governs() -> None:
    plan = weighed(filling=Filling(interval=5))
    lines = shown(running("S1", "1", "2", plan=plan).job)
    assert lines[-4].startswith("weight expected, down 4")
    assert lines[-3].startswith("weight expected, up 4")
    assert lines[-2].startswith("greatest pull beyond weight hoisting gear 60")
    assert lines[-1] == "fill interval of the programme within 3 joints"


def test_where_there_is_no_room_what_governs_stands_below() -> None:
    plan = weighed(filling=Filling(interval=3))
    narrow = shown(running("S1", "1", "2", plan=plan).job, 42)
    assert narrow[-2:] == ["fill within 1 joint", "interval of the programme"]
    due = shown(running("S1", "1", "2", "C1", "3", plan=plan).job)
    assert due[-1] == "fill interval of the programme now"


def test_a_pull_with_ratings_left_out_says_so() -> None:
    part = replace(GEAR, elevator_rating=None)
    lines = shown(running("S1", "1", plan=weighed(weights=part)).job, 80)
    assert any("hoisting gear, of those set" in each for each in lines)


def test_a_string_on_depth_is_not_told_to_fill() -> None:
    lines = shown(landed(weighed(filling=Filling(interval=5))).job)
    assert not [each for each in lines if each.startswith("fill ") and "interval" in each]
