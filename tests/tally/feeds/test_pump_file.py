"""Recorded pump files: columns by meaning, units asked, faults in sentences, a file that grows."""

from __future__ import annotations

import tracemalloc
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tally.errors import JobFileError
from tally.feeds.pump_file import PumpFollower, read_pump_file
from tally.feeds.pump_rows import PumpRow

BARREL, PSI = 0.158987294928, 6894.757293168361
TITLES = "Time (s),Volume (bbl),Pressure (psi),Rate (bpm)\n"


def rows(count: int, start: int = 0) -> str:
    """Return rows a second apart."""
    return "".join(f"{n},{10 + n * 0.05:.2f},{800 + n},3.0\n" for n in range(start, start + count))


@pytest.mark.parametrize(
    "text",
    [
        "Time (s),Volume (bbl),Pressure (psi)\n0,10,800\n60,12.5,810\n",
        "Pump Pressure [psi];Job time, min;Cum Vol (bbl)\n800;0;10\n810;1;12,5\n",
        "by hand\n\nUhrzeit\tDruck (psi)\tVolumen (bbl)\n23:59:30\t800\t10\n00:00:30\t810\t12.5",
        "Clock,Volume,Pressure\n,bbl,psi\n2026-05-02 10:00,10,800\n2026-05-02T10:01:00,12.5,810\n",
        "elapsed (s),vol_bbl,press_psi,remark\n0,10,800,start\n60,12.5,810,\n",
        "Time,Volume,Pressure\n0:00:00,10 bbl,800 psi\n0:01:00,12.5 bbl,810 psi\n",
    ],
)
def test_columns_are_known_by_what_they_mean(text: str) -> None:
    asked = {"unit of volume": "bbl", "unit of pressure": "psi"} if "10 bbl" in text else {}
    made = read_pump_file(text + ("" if text.endswith("\n") else "\n"), asked)
    assert (made.doubts, made.faults) == ({}, ())
    first, last = made.rows
    assert last.time - first.time == pytest.approx(60)
    assert [each.volume / BARREL for each in made.rows if each.volume] == pytest.approx([10, 12.5])
    assert [each.pressure / PSI for each in made.rows if each.pressure] == pytest.approx([800, 810])


def test_what_is_doubtful_is_asked_all_at_once_and_the_answers_are_taken() -> None:
    text = "Time,Volume,Pressure,Pump Pressure,Density\n0,10,1,800,9\n5,11,1,810,9\n"
    made = read_pump_file(text)
    assert made.rows == ()
    assert set(made.doubts) == {
        "unit of time", "unit of volume", "column of pressure", "unit of pressure",
        "unit of density",
    }  # fmt: skip
    assert made.doubts["column of pressure"] == (
        'Which column is the pressure: "Pressure", "Pump Pressure"?'
    )
    answers = {
        "unit of time": "s", "unit of volume": "m3", "column of pressure": "Pump Pressure",
        "unit of pressure": "kPa", "unit of density": "lb/gal",
    }  # fmt: skip
    answered = read_pump_file(text, answers)
    assert answered.doubts == {}
    assert [(each.volume, each.pressure) for each in answered.rows] == [(10, 8e5), (11, 8.1e5)]
    wrong = read_pump_file(text, {**answers, "unit of pressure": "bbl"})
    assert set(wrong.doubts) == {"unit of pressure"}


def test_a_file_without_titles_or_without_time_says_so() -> None:
    assert "No line names the columns" in read_pump_file("1,2,3\n2,3,4\n").faults[0]
    made = read_pump_file("Volume (bbl),Pressure (psi)\n1,2\n")
    assert "column of time" in made.doubts


def test_a_bad_cell_is_named_by_line_and_column_and_its_row_left_out() -> None:
    made = read_pump_file(TITLES + rows(2) + "2,ten,802,3\nnoon,11,803,3\n4,-3,804,3\n5,,,\n")
    assert [each.line for each in made.rows] == [2, 3]
    assert 'Line 4, column "Volume (bbl)":' in made.faults[0]
    assert made.faults[1] == 'Line 5, column "Time (s)": "noon" is no time.'
    assert 'Line 6, column "Volume (bbl)":' in made.faults[2]
    assert made.faults[3] == "Line 7 has a time and no reading; it is left out."


def test_a_torn_last_line_is_left_out_and_told() -> None:
    made = read_pump_file(TITLES + rows(3) + "3,10.1")
    assert len(made.rows) == 3
    assert made.faults == ("Line 5 has no end and is left out: the file was cut there.",)


def test_a_clock_set_back_is_told_and_time_goes_on() -> None:
    made = read_pump_file(TITLES + rows(5, 5000) + rows(5, 1000) + rows(5, 9000))
    times = [each.time for each in made.rows]
    assert times == sorted(times)
    assert times[5] - times[4] == 1
    assert "goes back by 4,004 s" in made.faults[0]
    assert "jumps on by" in made.faults[1]
    assert len(made.faults) == 2


def test_a_unit_that_changes_with_new_titles_is_told_and_read_so() -> None:
    text = TITLES + rows(2) + "Time (s),Volume (bbl),Pressure (bar),Rate (bpm)\n2,10.1,55.3,3\n"
    made = read_pump_file(text)
    assert made.rows[-1].pressure == pytest.approx(55.3e5)
    assert "the unit changes from psi to bar" in made.faults[0]


def test_there_is_an_end_to_the_faults() -> None:
    made = read_pump_file(TITLES + "1,x,1,1\n" * 500)
    assert made.faults[-1] == "There are 400 more faults in this file."


def test_a_file_is_followed_by_whole_rows(tmp_path: Path) -> None:
    path, text = tmp_path / "pump.csv", TITLES + rows(50)
    follower = PumpFollower(path)
    got: list[PumpRow] = []
    for end in range(0, len(text) + 1, 7):
        path.write_text(text[:end])
        got += follower.look().rows
    path.write_text(text)
    news = follower.look()
    assert (*got, *news.rows) == read_pump_file(text).rows
    assert follower.look().rows == ()


@pytest.mark.parametrize("text", [TITLES + rows(3), TITLES + rows(60, 700)])
def test_a_file_that_was_replaced_or_shrunk_is_told_and_read_anew(
    tmp_path: Path, text: str
) -> None:
    path = tmp_path / "pump.csv"
    follower = PumpFollower(path)
    path.write_text(TITLES + rows(40))
    assert len(follower.look().rows) == 40
    path.write_text(text)
    news = follower.look()
    assert news.anew
    assert "replaced or became shorter" in news.faults[0]
    assert news.rows == read_pump_file(text).rows


def test_no_file_is_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="could not be opened"):
        PumpFollower(tmp_path / "none.csv").look()
    with pytest.raises(JobFileError, match="There is no pump file"):
        read_pump_file(tmp_path / "none.csv")


def test_a_follower_holds_no_more_as_the_file_grows(tmp_path: Path) -> None:
    path = tmp_path / "pump.csv"
    path.write_text(TITLES)
    follower = PumpFollower(path)

    def held(count: int, start: int) -> int:
        with path.open("a") as opened:
            opened.write(rows(count, start))
        assert len(follower.look().rows) == count
        return tracemalloc.get_traced_memory()[0]

    tracemalloc.start()
    try:
        first = held(2000, 0)
        later = [held(2000, 2000 * n) for n in range(1, 5)][-1]
    finally:
        tracemalloc.stop()
    assert later - first < 50_000


@settings(max_examples=80, deadline=None)
@given(st.text(st.sampled_from('0123456789.,;:-"\n\r\t ()abpsi\u00b0\x00'), max_size=300))
@example('"')
def test_whatever_the_text_it_is_read_or_told(text: str) -> None:
    for whole in (text, TITLES + text, "Time;Volume;Pressure\n" + text):
        made = read_pump_file(whole)
        assert all(each.isascii() or each.isprintable() for each in made.faults)
        times = [row.time for row in made.rows]
        assert times == sorted(times)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(0, 400), max_size=6))
def test_however_it_is_cut_the_rows_are_the_same(
    tmp_path_factory: pytest.TempPathFactory, cuts: list[int]
) -> None:
    text = TITLES + rows(20)
    path = tmp_path_factory.mktemp("cut") / "pump.csv"
    follower = PumpFollower(path)
    got: list[PumpRow] = []
    for end in [*sorted(cuts), len(text)]:
        path.write_text(text[:end])
        got += follower.look().rows
    assert tuple(got) == read_pump_file(text).rows
