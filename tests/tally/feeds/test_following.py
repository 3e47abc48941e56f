"""Following a pump file: every row kept once, what is wrong told, and nothing wrong kept."""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from tally.feeds.following import ROWS_A_BATCH, Brought, Following
from tally.job.batch import rows_of
from tally.job.entries.readings import Readings
from tally.job.figures import figure
from tally.job.followed_file import ReadUpTo
from tally.job.job import Job
from tally.units import to_unit
from tally.units.sets import FIELD
from tests.tally.job.invented import pumping_down

TITLES = "Time (s),Volume (bbl),Pressure (psi),Rate (bbl/min)\n"
NOW = datetime.fromisoformat("2026-05-02T09:00:00+02:00")
JOB = pumping_down().job


def now(seconds: float = 0.0) -> str:
    """Return the time, so long after the test began."""
    return (NOW + timedelta(seconds=seconds)).isoformat(timespec="seconds")


def rows(start: int, end: int, first: float = 10.0) -> str:
    """Return a row a second, a tenth of a barrel each."""
    return "".join(
        f"{n},{first + 0.1 * (n - start):.1f},{800 + n % 7},6\n" for n in range(start, end)
    )


class Watch:
    """A file and the follower of it, with everything that it brought."""

    def __init__(self, path: Path, text: str = TITLES) -> None:
        self.path = path
        self.write(text, "w")
        self.brought: list[Brought] = []
        self.upto: ReadUpTo | None = None
        self.following = self.again()

    def write(self, text: str, how: str = "a") -> None:
        """Write as the other program does; the file's clock is ours."""
        with self.path.open(how, newline="") as file:
            file.write(text)
        os.utime(self.path, (NOW.timestamp(), NOW.timestamp()))

    def again(self, *, anew: bool = False) -> Following:
        """Return a follower that goes on from what is kept, as after the book was opened anew."""
        self.following = Following(self.path, {}, FIELD, since=self.upto, anew=anew, now=now())
        return self.following

    def look(self, seconds: float = 0.0, job: Job = JOB, *, whole: bool = False) -> Brought:
        """Look until nothing is left."""
        while True:
            one = self.following.look(now(seconds), job, whole=whole)
            self.brought.append(one)
            for batch in one.batches:
                entry = Readings(by="A", at=now(seconds), seq=len(self.brought), **batch.fields)
                assert entry.check(job) == ""
                kept = job.but(read_up_to={self.source: self.upto} if self.upto else {})
                assert entry.demand(kept) == ""
                self.upto = ReadUpTo(entry.seq, entry.place, entry.last)
            if not one.more:
                return one

    @property
    def source(self) -> str:
        """How the batches name the file."""
        return str(self.path)

    def kept(self) -> list[tuple[float | None, ...]]:
        """Return every row that a batch has, without its time."""
        batches = [batch for one in self.brought for batch in one.batches]
        return [row for batch in batches for _, row in rows_of(batch.payload)]

    def told(self) -> str:
        """Return everything that was told."""
        return " ".join([*(each for one in self.brought for each in one.told), *self.ended()])

    def ended(self) -> list[str]:
        """Return why it ended, if it did."""
        return [one.ended for one in self.brought if one.ended]


@pytest.fixture
def watch(tmp_path: Path) -> Watch:
    """Return a file with its titles, followed."""
    return Watch(tmp_path / "job.csv")


def expected(start: int, end: int, first: float = 10.0) -> list[tuple[float | None, ...]]:
    """Return the rows as they are kept: volume, pressure, rate, density, strokes."""
    return [
        (round(first + 0.1 * (n - start), 1), 800 + n % 7, 6, None, None) for n in range(start, end)
    ]


def test_every_row_is_kept_once_in_batches_as_it_was_read(watch: Watch) -> None:
    watch.write(rows(0, 1800))
    watch.look()
    watch.look(whole=True)
    assert watch.kept() == expected(0, 1800)
    batches = [batch for one in watch.brought for batch in one.batches]
    assert [batch.fields["rows"] for batch in batches] == [
        999,
        500,
        301,
    ]  # with the titles 500 a look
    assert {batch.payload.split("\n")[0] for batch in batches} == {
        "time (s),volume (bbl),pressure (psi),rate (bbl/min),density (lb/gal),strokes"
    }
    assert watch.told() == ""


def test_a_few_rows_wait_a_minute_for_their_batch(watch: Watch) -> None:
    watch.write(rows(0, 20))
    assert watch.look(5).batches == ()
    watch.write(rows(20, 21, 12.0))
    assert [batch.fields["rows"] for batch in watch.look(61).batches] == [21]


def test_a_torn_last_line_is_waited_for(watch: Watch) -> None:
    watch.write("0,10.0,800,6\n1,10.1,8")
    assert watch.look().rows == 1
    watch.write("01,6\n")
    assert watch.look(whole=True).rows == 1
    assert watch.kept() == expected(0, 2)
    assert watch.told() == ""


def test_the_last_row_is_as_old_as_the_file(watch: Watch) -> None:
    watch.write(rows(500, 510))
    watch.again()
    last = watch.look(90).last
    assert last is not None
    assert (last.at, last.words) == (now(), "10.9 bbl  805 psi  6.0 bbl/min")


def test_followed_again_it_goes_on_without_a_row_twice(watch: Watch) -> None:
    watch.write(rows(0, 700))
    watch.look()
    watch.write(rows(700, 900, 80.0))
    watch.again()
    watch.look(whole=True)
    assert watch.kept() == expected(0, 900)
    assert watch.told() == ""


@pytest.mark.parametrize("text", [TITLES + rows(0, 40), TITLES + rows(3, 900), ""])
def test_a_file_that_was_replaced_or_shrunk_ends_it_and_nothing_of_it_is_kept(
    watch: Watch, text: str
) -> None:
    watch.write(rows(0, 120))
    watch.look()
    watch.write(text, "w")
    assert "was replaced or became shorter" in watch.look().ended
    assert watch.kept() == expected(0, 120)


def test_one_that_was_replaced_while_the_book_was_closed_ends_it_too(watch: Watch) -> None:
    watch.write(rows(0, 600))
    watch.look(whole=True)
    watch.write(TITLES + rows(5000, 7000), "w")
    watch.again()
    assert "was replaced or became shorter" in watch.look().ended
    assert watch.kept() == expected(0, 600)


def test_named_again_another_file_is_kept_whole_and_the_same_one_from_where_it_was(
    watch: Watch,
) -> None:
    watch.write(rows(0, 50))
    watch.look(whole=True)
    watch.write(TITLES + rows(0, 40) + rows(40, 60, 14.0), "w")  # written anew, from the same start
    watch.again(anew=True)
    watch.look(whole=True)
    assert watch.kept() == expected(0, 60)
    watch.write("Time (s),Volume (bbl),Pressure (psi)\n0,1,20\n", "w")
    watch.again(anew=True)
    watch.look(whole=True)
    assert watch.kept() == [*expected(0, 60), (1, 20, None, None, None)]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("9000,13.1,800,6\n", "the clock jumps on by 8,971 s"),
        ("2,13.1,800,6\n", "the clock goes back by 27 s"),
        ("Time (s),Volume (gal),Pressure (psi),Rate (bbl/min)\n", "the unit changes from bbl"),
        ("30,ten,800,6\n", '"Volume (bbl)": "ten" is not'),
        ("30,0.0,800,6\n", "the volume goes back from 12.9 bbl to 0.0 bbl"),
        ("30,541.8,800,6\n", "the volume leaps from 12.9 bbl to 541.8 bbl"),
    ],
)
def test_what_is_wrong_is_told_and_stands_with_its_rows(
    watch: Watch, line: str, words: str
) -> None:
    watch.write(rows(0, 30) + line)
    watch.look(whole=True)
    watch.write("31,13.2,801,6\n")
    watch.look(whole=True)
    assert words in watch.told()
    batches = [batch for one in watch.brought for batch in one.batches]
    assert words in " ".join(told for batch in batches for told in batch.fields["told"])


def test_another_unit_is_read_in_that_unit(watch: Watch) -> None:
    watch.write("0,10.0,800,6\nTime (s),Volume (gal),Pressure (psi)\n1,424.2,801\n")
    watch.look(whole=True)
    assert watch.kept() == [(10, 800, 6, None, None), (10.1, 801, None, None, None)]


def barrels(watch: Watch) -> list[float]:
    """Return the volume since the zero of the readings that a page draws."""
    found = [one.tank for one in watch.brought[-1].readings]
    return [round(to_unit(each.value, "bbl"), 1) for each in found if each]


def zeroed(seconds: float) -> Job:
    """Return a job whose volume was zeroed at a time."""
    made = JOB
    assert made.zeroed is not None
    return made.but(zeroed=replace(made.zeroed, at=now(seconds)))


def test_the_volume_counts_from_the_zero_within_a_row(watch: Watch) -> None:
    watch.write("0,100.0,800,6\n10,101.0,800,6\n20,102.0,800,6\n30,103.0,800,6\n")
    watch.again()  # the last row is now: the zero lies between the second and the third
    watch.look(job=zeroed(-15))
    assert barrels(watch) == [0.5, 1.5]


def test_a_zero_that_comes_after_its_rows_counts_them_all_the_same(watch: Watch) -> None:
    watch.write("0,100.0,800,6\n10,101.0,800,6\n20,102.0,800,6\n")
    watch.again()
    watch.look(job=JOB.but(zeroed=None))
    assert watch.brought[-1].readings == ()
    watch.look(job=zeroed(-10))
    assert barrels(watch) == [0.0, 1.0]


def test_the_count_goes_on_over_a_change_of_the_pump(watch: Watch) -> None:
    watch.write("0,100,800,6\n10,101,800,6\n20,102,800,6\n30,0.4,800,6\n40,1.4,800,6\n")
    watch.again()
    watch.look(job=zeroed(-40))
    assert barrels(watch) == [0.0, 1.0, 2.0, 2.4, 3.4]
    watch.write("50,300,800,6\n60,301,800,6\n")
    watch.look(20, job=zeroed(-40))
    assert barrels(watch)[-2:] == [3.4, 4.4]


def test_a_reading_goes_into_the_job_each_minute_and_closer_past_the_calculated_bump(
    watch: Watch,
) -> None:
    watch.write(rows(0, 601))
    watch.again()
    job = zeroed(-600)
    watch.look(job=job)
    calculated = to_unit(float(figure(job, "displacement_to_collar").value or 0), "bbl")
    limit = job.known.limit("over_displacement")
    assert limit is not None
    step = to_unit(limit.value, "bbl") / 4
    due = [to_unit(fields["tank"].value, "bbl") for one in watch.brought for fields in one.due]
    ahead = [round(each) for each in due if each < calculated]
    assert ahead == list(range(0, round(calculated), 6))
    past = [b - a for a, b in pairwise(each for each in due if each > calculated)]
    assert all(step - 0.01 <= each <= step + 0.11 for each in past)


def test_a_reading_goes_into_the_job_once_the_bump_is_called_and_none_after(watch: Watch) -> None:
    job = zeroed(-60)
    called = replace(job.steps["plug-release", "top-plug-released"], seq=99, at=now(-9))
    after = job.but(steps={**job.steps, ("plug-release", "bumped"): called})
    watch.write(rows(0, 61))
    watch.again()
    watch.look(job=after)
    (due,) = [fields for one in watch.brought for fields in one.due]
    assert due["source"] == "job.csv"
    watch.write(rows(61, 400, 16.1))
    assert watch.look(job=after).due == ()


def test_what_cannot_be_opened_for_a_moment_is_told_once_and_looked_at_again(watch: Watch) -> None:
    away = watch.path.with_name("away.csv")
    watch.write(rows(0, 5))
    watch.look()
    watch.path.rename(away)
    watch.look()
    watch.look()
    assert watch.told().count("could not be opened") == 1
    away.rename(watch.path)
    watch.write(rows(5, 9, 10.5))
    watch.look(whole=True)
    assert watch.kept() == expected(0, 9)
    assert ROWS_A_BATCH > 9
