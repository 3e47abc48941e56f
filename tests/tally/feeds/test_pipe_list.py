"""The plain pipe list: what it takes, and every doubtful row named at once."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from pathlib import Path
from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import JobFileError
from tally.feeds.pipe_list import (
    MOST_FAULTS,
    MOST_MEGABYTES,
    MOST_ROWS,
    ListRules,
    parse_pipe_list,
    read_pipe_list,
)
from tally.job.entries.pipe import Arrival
from tally.job.setup import Pipe
from tally.units import read, tally_step

FEET = tally_step("ft")
RANGE_3 = Pipe(
    name="9-5/8 47",
    outer_diameter=read("9 5/8 in", "diameter"),
    inner_diameter=read("8.681 in", "diameter"),
    weight=read("47 lb/ft", "mass per length"),
    shortest=read("34 ft", "length"),
    longest=read("48 ft", "length"),
)
PLAIN = ListRules(FEET)
RULES = ListRules(FEET, pipes=(RANGE_3,))


def faults(text: str, rules: ListRules = RULES) -> tuple[str, ...]:
    with pytest.raises(JobFileError) as caught:
        parse_pipe_list(text, rules)
    return caught.value.faults


@pytest.mark.parametrize(
    "text",
    [
        "number,length\n1,41.35\n2,40.07\n",
        "number;length\n1;41.35\n2;40.07",
        "number;length\r\n1;41,35\r\n2;40,07\r\n",
        'number,length\n1,"41,35"\n2,"40,07"\n',
        " Number , LENGTH \n 1 , 41.35 \n\n,\n2,40.07\n",
        "length,number,\n41.35,1,\n40.07,2,\n",
        "number,length\n1,41' 4.2 in\n2,40.07 ft\n",
    ],
)
def test_the_same_list_written_in_several_ways(text: str) -> None:
    assert [(one.number, one.length) for one in parse_pipe_list(text, RULES)] == [
        ("1", 4135),
        ("2", 4007),
    ]


def test_a_row_keeps_what_was_typed_and_what_it_says_of_itself() -> None:
    text = "number,length,kind,pipe,description\n1,41.350,,9-5/8 47,\nP1,10.02,pup,,short one\n"
    assert parse_pipe_list(text, RULES) == (
        Arrival(number="1", length=4135, typed="41.350", pipe="9-5/8 47"),
        Arrival(number="P1", length=1002, typed="10.02", kind="pup", description="short one"),
    )


def test_only_joints_are_held_to_the_range_of_the_pipe() -> None:
    assert faults("number,length\n1,33.99\n2,34.00\n3,48.00\n4,48.01\n") == (
        "Row 2: 33.99 ft is outside 34 ft to 48 ft, the range of 9-5/8 47; measure it again.",
        "Row 5: 48.01 ft is outside 34 ft to 48 ft, the range of 9-5/8 47; measure it again.",
    )
    assert parse_pipe_list("number,length,kind\n1,9.99,pup\n", RULES)[0].length == 999


def test_every_doubtful_row_is_named_at_once() -> None:
    text = (
        "number,length,kind,pipe\n"
        "1,40.00,,\n"
        "1,41.00,,\n"
        "01,41.00,,\n"
        "2,,,\n"
        ",41.00,,\n"
        "3,99.00,,\n"
        "4,forty,,\n"
        "5,40.00,shoo,\n"
        "6,40.00,,7 26\n"
        "=cmd,40.00,,\n"
        "7,40.00,,,,\n"
        "8,40.00,,,more\n"
        "9\x1b[31m,40.00,,\n"
        "10,41\u200b,,\n"
        "11,0,pup,\n"
    )
    found = faults(text)
    assert [each.split(":")[0] for each in found] == [
        *(f"Row {row}" for row in range(3, 12)),
        "Row 13",
        "Row 14",
        "Row 14",
        "Row 15",
        "Row 15",
        "Row 16",
    ]
    assert found[0] == "Row 3: number 1 stands on row 2 already; give each its own."
    assert found[2] == "Row 5: number 2 has no length; measure the joint."
    assert all(each.isascii() and each.isprintable() for each in found)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", 'The list is empty; its first row must name the columns: "number,length".'),
        ("\n\n", "The list is empty;"),
        ("number,length\n", "The list has no joint in it, only the row that names the columns."),
        ("1,41.35\n", "Row 1: the column '1' is not known;"),
        ("number,lenght\n1,40\n", "Row 1: the column 'lenght' is not known; did you mean length?"),
        ("number\n1\n", "Row 1: there is no column 'length';"),
        ("number,length,number\n1,40,2\n", "Row 1: the column 'number' is there twice;"),
        ('number,length\n1,"40\n2,41\n', "Row 2: the row is no CSV ("),
        ('number,length\n1,40\n2,"4"1\n', "Row 3: the row is no CSV ("),
        ("number,length\n1," + "9" * 200_000, "Row 2: the row is no CSV ("),
    ],
)
def test_a_list_that_is_none_is_said_in_a_sentence(text: str, said: str) -> None:
    assert said in " ".join(faults(text))


def test_more_faults_than_anybody_reads_are_counted() -> None:
    found = faults("number,length\n" + "1,\n" * 1000)
    assert len(found) == MOST_FAULTS + 1
    assert found[-1] == f"There are {1999 - MOST_FAULTS:,} more faults in this list."


def test_a_list_that_is_too_long_is_refused() -> None:
    rows = "".join(f"{number},40\n" for number in range(1, MOST_ROWS + 1))
    assert len(parse_pipe_list("number,length\n" + rows, PLAIN)) == MOST_ROWS
    assert faults("number,length\n" + rows + "A1,40\n") == (
        "The list has more than 20,000 rows and is not read.",
    )


def test_a_file_that_is_too_large_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "pipe.csv"
    path.write_bytes(b"x" * (MOST_MEGABYTES * 1024 * 1024 + 1))
    started = perf_counter()
    with pytest.raises(JobFileError, match=r"The pipe list 'pipe.csv' is larger than 5 MB and is"):
        read_pipe_list(path, PLAIN)
    assert perf_counter() - started < 1


def test_the_faults_of_a_file_carry_its_name(tmp_path: Path) -> None:
    path = tmp_path / "pipe.csv"
    path.write_bytes(b"\xef\xbb\xbfnumber,length\n1,\n2,\n")
    with pytest.raises(
        JobFileError, match=r"^The pipe list 'pipe.csv' has 2 faults. pipe.csv. Row"
    ):
        read_pipe_list(path, PLAIN)
    path.write_bytes(b"\xef\xbb\xbfnumber,length\n1,40.1\n")
    assert read_pipe_list(path, PLAIN)[0].length == 4010


def test_make_up_loss_comes_off_before_the_one_rounding() -> None:
    loss = Fraction("3.875") * Fraction("0.0254")
    text = "number,length\n" + "".join(f"{number},41.35\n" for number in range(1, 201))
    arrivals = parse_pipe_list(text, ListRules(FEET, loss))
    # 41.35 ft - 3.875 in = 41.027083 ft: 200 joints of 41.03, not 8,205.42 in all
    assert sum(one.length for one in arrivals) == 200 * 4103


@given(st.lists(st.integers(3400, 4800), min_size=1, max_size=60))
def test_any_lengths_come_back_as_written(lengths: list[int]) -> None:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";")
    writer.writerow(["number", "length"])
    writer.writerows(
        [place, f"{steps // 100},{steps % 100:02}"] for place, steps in enumerate(lengths)
    )
    assert [one.length for one in parse_pipe_list(out.getvalue(), RULES)] == lengths


@given(st.text(max_size=300))
def test_any_text_is_a_list_or_refused_in_printable_sentences(text: str) -> None:
    try:
        parse_pipe_list(text, RULES)
    except JobFileError as error:
        said = error.faults
    else:
        said = ("",)
    assert said
    assert all(each.isprintable() and each.isascii() for each in said)
