"""The demonstration plays to its end, its sums are right, and only what is meant to is open."""

from __future__ import annotations

import csv
import re
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from demo_db.play import FOLDER, entries, play
from tally.book.book import Book
from tally.errors import BookError, InputError
from tally.job.counts import balance, next_item
from tally.job.depths import joints_to_go, reaches, shoe_depth, to_go
from tally.job.entries.correction import Correction
from tally.job.expected import AGREES, expected, verdict
from tally.job.figures import figure, show
from tally.job.fittings import due_next, installed
from tally.job.fold import fold
from tally.job.gates import applies
from tally.job.job import Job
from tally.job.tank import last_reading, since_mark
from tally.job.working import working
from tally.units import to_unit

BBL = 0.158987294928


@cache
def job(until: str) -> Job:
    return fold(entries(until))


def rows(name: str) -> list[dict[str, str]]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def shown(until: str, key: str) -> str:
    one = figure(job(until), key)
    assert not one.missing, one.missing
    return show(job(until), one.value, one.quantity)


def test_a_third_is_what_the_running_page_is_drawn_with() -> None:
    third = job("third")
    figures = ("shoe_depth", "to_go", "joints_run", "joints_left", "joints_to_go")
    assert [shown("third", key) for key in figures] == [
        "3,533.45 ft",
        "4,706.55 ft",
        "86",
        "117",
        "114",
    ]
    assert joints_to_go(third) == (114, 3)
    assert (third.received, balance(third).rejected.count, balance(third).laid_down.count) == (
        205,
        1,
        1,
    )
    last = [(made.joint, made.number, made.length) for made in third.string[-6:]]
    assert last == [
        (81, "82", 4077),
        (82, "83", 4056),
        (83, "85", 4139),
        (84, "86", 4109),
        (85, "87", 4069),
        (86, "88", 4094),
    ]
    assert [[fitting.what for fitting in made.fittings] for made in third.string[-6:]] == [
        ["bow centralizer"],
        [],
        [],
        [],
        ["bow centralizer", "scratcher"],
        ["bow centralizer"],
    ]
    due = next_item(third)
    assert due is not None
    assert (due.number, due.length) == ("89", 4027)
    assert [str(fitting) for fitting in due_next(third)] == ["bow centralizer mid-joint"]
    assert third.exceptions == ()


def test_a_third_has_the_trip_tank_of_the_running_page() -> None:
    """523.4 ft since the old shoe: 8.681^2 / 1029.4 + 47 / 65.5 / 42 = 0.0903 bbl/ft, 47.3 bbl."""
    keys = ("tank_expected", "tank_seen", "tank_difference")
    assert [shown("third", key) for key in keys] == ["3.7 bbl", "3.5 bbl", "-0.2 bbl"]
    totals = [shown("third", key.replace("tank", "tank_total")) for key in keys]
    assert totals == ["47.3 bbl", "45.9 bbl", "-1.4 bbl"]
    since = since_mark(job("third"))
    assert since is not None
    assert (since.since, since.agrees) == ("the old shoe", True)


def test_at_the_end_the_counts_agree_and_the_shoe_is_at_the_casing_point() -> None:
    end = job("end")
    assert balance(end).agrees
    assert (end.joints_run, balance(end).left.count) == (200, 3)
    assert (to_go(end), shown("end", "shoe_depth")) == (0, "8,240.00 ft")
    assert end.landing is not None
    assert end.landing.counted == 3
    assert end.hung_off is not None
    assert installed(end) == {"bow centralizer": 23, "scratcher": 12, "stop collar": 4}


def test_the_exceptions_are_the_gain_and_the_centralizer_that_was_not_installed() -> None:
    gain, lacking = job("end").exceptions
    assert gain.what.startswith("The trip tank shows a gain of 1.4 bbl since the reading before")
    assert "Not installed as programmed: bow centralizer mid-joint on 19." in lacking.what
    assert not any("no longer fits" in each.what for each in job("end").exceptions)


def listed_lengths() -> dict[str, int]:
    """The lengths in hundredths, read from the files without the program's help."""

    def hundredths(text: str) -> int:
        whole, _, rest = text.removesuffix(" ft").partition(".")
        return int(whole) * 100 + int(rest.ljust(2, "0"))

    lengths = {row["number"]: hundredths(row["length"]) for row in rows("pipe_list.csv")}
    items = re.findall(
        r'\[\[item\]\]\nnumber = "(\w+)".*?length = "(.*?)"',
        (FOLDER / "job.toml").read_text("utf-8"),
        re.DOTALL,
    )
    lengths |= {number: hundredths(length) for number, length in items}
    for row in rows("running.csv"):
        if row["event"] == "length corrected":
            lengths[row["item"]] = hundredths(row["value"])
    return lengths


def test_the_final_depths_add_up_from_the_plain_files() -> None:
    lengths = listed_lengths()
    run = [row["item"] for row in rows("running.csv") if row["event"] == "run"]
    (on_depth,) = [row for row in rows("running.csv") if row["event"] == "on depth"]
    stick_up = int(on_depth["value"].split(" ")[0].replace(".", ""))
    depth = sum(lengths[number] for number in run) - stick_up
    assert depth == shoe_depth(job("end")) == 824000
    found = reaches(job("end"))
    assert [each.made.number for each in found] == run
    for number, reach in zip(run, found, strict=True):
        assert (reach.bottom, reach.top) == (depth, depth - lengths[number]), number
        depth -= lengths[number]
    assert depth == -stick_up


def test_the_lengths_on_location_add_up_from_the_plain_files() -> None:
    lengths = {number: each for number, each in listed_lengths().items() if number.isdigit()}
    sums = balance(job("end"))
    assert (len(lengths), sum(lengths.values())) == (205, sums.on_location.length)
    gone = {"rejected": "rejected", "laid down": "laid_down"}
    for event, state in gone.items():
        (row,) = [row for row in rows("running.csv") if row["event"] == event]
        assert getattr(sums, state).length == lengths[row["item"]]


def test_the_misread_length_is_corrected_and_both_stay_readable() -> None:
    (correction,) = [each for each in entries() if isinstance(each, Correction)]
    made = job("end").made("64")
    assert made is not None
    assert made.length == 4083
    assert next(row for row in rows("pipe_list.csv") if row["number"] == "64")["length"] == "41.83"
    assert correction.instead is not None
    assert correction.instead["length"] == 4083


def test_the_trip_tank_was_outside_its_limit_once_and_never_in_all() -> None:
    end = job("end")
    outside = []
    for count in range(2, len(end.tank) + 1):
        then = replace(end, tank=end.tank[:count])
        check, total = last_reading(then), since_mark(then)
        assert total is None or total.agrees
        if check is not None and not check.agrees:
            outside.append(round(check.difference / BBL, 1))
    assert outside == [1.4]
    joints = {level.items for level in end.tank}
    assert len(joints) == 200 + 1  # every joint, and once before the first


def test_the_pipe_was_filled_every_ten_joints() -> None:
    end = job("end")
    filled_at = {
        sum(made.joint > 0 for made in end.string if made.seq < fill.seq) for fill in end.fills
    }
    assert filled_at == {3, *range(10, 201, 10)}
    assert round(float(figure(end, "room").value or 0) / BBL, 1) == 0


def test_every_step_is_done_witnessed_where_it_must_be_and_agrees() -> None:
    end = job("end")
    worked = [plan for plan in working(end) if plan.page != "waiting"]
    assert len(worked) < len(end.lists)
    for plan in worked:
        for step in plan.steps:
            if step.only_with and not applies(end, step):
                assert step.only_with.removeprefix("limit:") not in end.known.limits
                continue
            record = end.steps[plan.id, step.id]
            assert applies(end, step)
            assert record.outcome == "done"
            assert not record.passed
            assert bool(record.witness) == step.critical, step.id
            if step.want == "state" or expected(end, plan, step) is not None:
                assert verdict(end, plan, step, record.state, record.value) == AGREES, step.id


def test_the_displacement_is_what_the_sketch_says() -> None:
    assert shown("end", "displacement_to_collar") == "597.1 bbl"
    at_17_41 = fold([each for each in entries() if each.at <= "2026-03-12T17:41:00-06:00"])
    keys = ("left_to_bump", "strokes_left", "count_difference", "time_to_bump")
    left = [figure(at_17_41, key).value for key in keys]
    bbl, strokes, apart, seconds = [float(each or 0) for each in left]
    assert round(bbl / BBL, 1) == 38.5
    assert strokes == 384
    assert round(apart / BBL, 1) == 1.4
    assert round(to_unit(seconds, "min"), 1) == 6.6
    held, out = (round(float(figure(job("end"), key).value or 0) / BBL) for key in VOLUMES)
    assert (held, out) == (603, 744), "8,243.4 ft: bore 0.07321, steel 47 / 65.5 / 42 bbl/ft"


VOLUMES = ("casing_capacity", "displaced_closed")


def test_time_runs_forward_through_one_night_with_its_offset() -> None:
    times = [datetime.fromisoformat(each.at) for each in entries()]
    assert all(before <= after for before, after in pairwise(times))
    assert {each.utcoffset() for each in times} == {timedelta(hours=-6)}
    assert (times[0].year, times[0].day, times[-1].day) == (2026, 11, 12)
    assert timedelta(hours=17) < times[-1] - times[0] < timedelta(hours=24)


def test_everybody_who_made_an_entry_or_stood_by_is_on_the_job() -> None:
    end = job("end")
    names = {each.by for each in entries()}
    names |= {record.witness for record in end.steps.values() if record.witness}
    assert names <= set(end.people)
    assert {limit.owner for limit in end.known.limits.values()} <= set(end.people)
    assert all(limit.source for limit in end.known.limits.values())


def test_a_book_is_made_with_the_same_entries(tmp_path: Path) -> None:
    path = play(tmp_path / "demo.db", until="third")
    with Book.open(path, look_only=True) as book:
        assert book.entries == entries("third")
        assert book.job == job("third")
    with pytest.raises(BookError):
        play(path)


def test_an_unknown_moment_is_refused() -> None:
    with pytest.raises(InputError, match='"half" is no moment of the demonstration'):
        entries("half")


@pytest.mark.parametrize("path", sorted(FOLDER.iterdir()), ids=lambda path: path.name)
def test_the_files_are_plain_and_say_nothing_they_should_not(path: Path) -> None:
    text = path.read_text("utf-8")
    assert text.isascii()
    assert "\r" not in text
    assert not re.search(r"\bsafe\b|https?:|\.com\b|@|/tmp|/home", text, re.IGNORECASE)
