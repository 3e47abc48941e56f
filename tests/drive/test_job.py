"""The real program worked by keys, from the last joints to the tally read back."""

from __future__ import annotations

import csv
import re
import subprocess
from decimal import Decimal
from pathlib import Path

import pytest

from demo_db.play import FOLDER
from tests.drive.escapes import foreign_sequences
from tests.drive.floor import FORM_FOOT, Floor
from tests.drive.jobs import SHOEDOWN, before, book_at, unhurried

IVO, NADIA, LENA, TOMAS = "Ivo Marek", "N. Haddad", "Lena Brandvik", "Tomas Quill"

MUD = (
    *(("1",), ("1",), ("1", NADIA), ("1.5",), ("8 bbl/min",), ("640 psi",), ("1",)),
    *(("10.2",), ("10.3 lb/gal",), ("17",), ("11",), ("1.5 bbl",), ("930",), ("1",)),
)
"""What is typed for each step of the mud list but the last, its hold point."""
RIG_UP = (
    *(("1",), ("1",), ("1",), ("1", TOMAS), ("1",), ("4000", NADIA)),
    *(("1",), ("1.8",), ("1",), ("1",), ("1",)),
)
"""What is typed for each step of the rig-up but the last, its hold point."""
LOADING = (
    *(("1",), ("600",), ("1",), ("1", NADIA), ("1", NADIA), ("1",)),
    *(("1", "", NADIA), ("1", "", NADIA), ("1",)),
)
"""Where a hold point offers who releases it, the name that it offers stays."""

STICK_UP = Decimal("3.30")
LISTED_OTHERWISE = {
    "64": Decimal("40.83"),  # corrected while it was run
    "197": Decimal("41.55"),  # measured again below
}
PIECES = {"shoe": Decimal("1.95"), "collar": Decimal("1.52"), "marker": Decimal("10.08")}


@pytest.fixture
def book(tmp_path):
    """Return a book with eight joints still to run."""
    return book_at(tmp_path / "larkspur.book", unhurried(before("195")))


@pytest.fixture
def floor(start, book):
    """Return somebody at the keys of the program on that book."""
    made = Floor(start(*SHOEDOWN, book))
    made.says("NEXT  joint 195, the 193rd")
    return made


def test_from_the_last_joints_to_the_tally_read_back(floor, book):
    runs_the_last_joints(floor)
    reads_the_tank_and_corrects_it(floor)
    goes_on_depth(floor)
    conditions_the_mud(floor)
    rigs_up(floor)
    loads_the_plugs(floor)
    releases_the_plugs(floor)
    folder = exports(floor, book)
    floor.terminal.press("f10")
    assert floor.terminal.wait_exit() == 0
    assert foreign_sequences(floor.terminal.raw) == {}
    agrees_with_an_independent_sum(folder / "larkspur-tally.csv")
    tells_what_was_not_run(folder / "larkspur-not-in-string.csv")
    assert_verified(book)


def runs_the_last_joints(floor):
    floor.saves("195 run", "enter")
    floor.saves("196 run", "enter", typed="196")
    floor.terminal.type("41.55")
    floor.says("joint 197 measures 41.55 ft")
    floor.terminal.press("enter")
    floor.says("Joint 197 is listed with 41.97 ft, typed 41.55 ft.")
    floor.saves("197 run, measured 41.55", "enter", typed="measured twice")
    floor.terminal.type("200")
    floor.terminal.press("enter")
    floor.says("Joint 200 is not the next one; joint 198 is.")
    floor.saves("200 run", "enter", typed="1")
    floor.asks("x", "Reject before make-up")
    floor.saves("198 rejected (failed drift)", "enter", "1", "enter")
    floor.saves("199 run", "enter", typed="199")
    floor.asks("l", "Lay down")
    floor.saves("199 laid down (thread)", "enter", typed="199\r1")
    for number in ("201", "202", "203"):
        floor.saves(f"{number} run", "enter", typed=number)
    floor.asks("n", "What happened")
    floor.saves("note: tongs changed [/] over", "enter", typed="tongs changed [/] over")
    floor.saves("204 run", "enter")
    floor.says(re.compile(r"on location 205 = run 200 \+ left on rack 1 .* agrees"))


def reads_the_tank_and_corrects_it(floor):
    floor.asks("r", "Volume in the tank")
    floor.fills("40,2", "")
    floor.says("The trip tank shows a loss of")
    floor.saves("trip tank 40.2 bbl", "enter", typed="tank emptied, nobody wrote it down")
    floor.asks("c", "Correct an entry")
    floor.terminal.press("enter")
    floor.says("The first entry stays readable")
    floor.saves("entry ", typed="\r40.6\r\r2\r")
    floor.says(re.compile(r"trip tank, last \d+ .* LOSS"))


def goes_on_depth(floor):
    floor.asks("d", "String on depth")
    floor.fills("3.30", "2")
    floor.says("2 joints counted on the rack, 1 by the book: +1.")
    floor.terminal.press("escape")
    floor.says("Not entered; nothing was changed.")
    assert "ON DEPTH" not in floor.terminal.text()
    floor.asks("d", "String on depth")
    floor.fills("3.30", "2")
    floor.says("2 joints counted on the rack, 1 by the book: +1.")
    reason = f"{NADIA}: one is the other rig's"
    floor.saves("on depth, stick-up 3.30, 2 joints counted", "enter", typed=reason)
    floor.says(re.compile(r"ON DEPTH \d\d:\d\d"))


def conditions_the_mud(floor):
    floor.becomes(IVO)
    floor.terminal.press("f5")
    for entered, answers in enumerate(MUD):
        floor.says(f"Mud conditioning: {entered} of 15")
        if entered:
            floor.works(*answers)
        else:
            sees_the_pipe_full(floor, *answers)
    floor.becomes(NADIA)
    floor.says("HOLD POINT  this one: company representative, seen by mud engineer")
    releases(floor, LENA, NADIA, LENA)
    floor.says("Mud conditioning: 15 of 15")
    floor.says("NEXT  every step of this page is entered")


def releases(floor, witness, *asked):
    """Release a hold point; whoever is asked for the first time signs with the name alone."""
    floor.asks("y", FORM_FOOT)
    floor.fills("1", "", witness)
    for name in asked:
        floor.says(f"{name} has no PIN")
        floor.terminal.press("enter")
        floor.terminal.wait_gone(f"{name} has no PIN")
    floor.terminal.wait_gone(FORM_FOOT)


def sees_the_pipe_full(floor, seen):
    """The book holds the pipe empty at its top, so the fill is asked for at once."""
    floor.asks("enter", FORM_FOOT)
    floor.fills(seen)
    floor.says("Fill the pipe")
    floor.fills("1", "")
    floor.terminal.wait_gone(FORM_FOOT)


def rigs_up(floor):
    floor.becomes(IVO)
    floor.terminal.press("f6")
    for entered, answers in enumerate(RIG_UP):
        floor.says(f"Rig-up: {entered} of 12")
        floor.works(*answers)
    floor.says("Rig-up: 11 of 12")
    releases(floor, IVO, IVO)


def loads_the_plugs(floor):
    for entered, answers in enumerate(LOADING):
        floor.says(f"Plug loading: {entered} of 9")
        floor.works(*answers)
    entered_of_release(floor, 0)


def releases_the_plugs(floor):
    volume = displacement()
    strokes = round(volume / Decimal("0.1044") / Decimal("0.96"))
    floor.says("hidden until the second person gives theirs")
    refuses_a_shut_gate(floor)
    past = f"{volume + 1:.1f}"
    agreed = (
        (f"{volume:.1f}", "", "", IVO),
        *((each, "") for each in (f"{strokes}", "1002", "228")),
        ("231",),
        ("875", ""),
    )
    spacer = (("50.2",), ("1",), ("1", NADIA))
    for entered, answers in enumerate((("3600", "", NADIA), ("20",), *agreed, *spacer)):
        entered_of_release(floor, entered)
        floor.works(*answers)
    assert abs(floor.figure(r"HEAD TO COLLAR ([\d.,]+) bbl") - volume) < Decimal("0.3")
    assert abs(floor.figure(r"([\d,]+) strokes") - strokes) < 4
    for entered, (key, seen) in enumerate((("f", "1"), ("a", "302"), ("p", "1")), start=12):
        stores_and_witnesses(floor, key, entered, seen)
    floor.terminal.press("d")
    entered_of_release(floor, 15)
    reads_both_counts(floor, "560.0", "5580")
    floor.says(re.compile(r"TO THE CALCULATED BUMP  3\d\.\d bbl  3\d\d strokes"))
    for entered, key in enumerate("us", start=16):
        floor.terminal.press(key)
        entered_of_release(floor, entered)
    for entered, answer in enumerate(("1", "1", "930", "1"), start=17):
        entered_of_release(floor, entered)
        floor.works(answer)
    reads_both_counts(floor, past, str(strokes))
    floor.says(re.compile(r"PAST THE CALCULATED BUMP  [01]\.\d bbl"))
    stores_and_witnesses(floor, "b", 22, "1")
    floor.says(re.compile(r"BUMP CALLED \d\d:\d\d"))
    for entered, answer in enumerate(("1540", past, "1.6", "2.6", "10"), start=22):
        entered_of_release(floor, entered)
        floor.works(answer)
    floor.becomes(NADIA)
    floor.works("1", "", IVO)
    entered_of_release(floor, 28)
    floor.works("1")
    for seen in ("1", "640", "2"):  # what d, u and s have stored without it
        floor.asks("k", "Tell: ")
        floor.fills(seen)
        floor.terminal.wait_gone("Tell: ")
    floor.says("NEXT  every step of this page is entered")


def refuses_a_shut_gate(floor):
    floor.asks("p", "Gate shut: Release the top plug")
    floor.terminal.press("escape")
    floor.says("Not done yet: End the slurry")
    entered_of_release(floor, 0)


def entered_of_release(floor, count):
    floor.says(f"Plug release and displacement: {count} of 29")


def stores_and_witnesses(floor, key, entered, seen):
    """Press the letter of a step: it is stored at once, and its witness confirms afterwards."""
    floor.terminal.press(key)
    entered_of_release(floor, entered)
    floor.says("NEXT  k  witness:")
    floor.asks("k", "Witness: ")
    floor.fills(seen, NADIA)
    floor.terminal.wait_gone("witness:")


def reads_both_counts(floor, tank, strokes):
    floor.asks("r", "Both counts since the zero")
    floor.fills(tank, strokes, "1085", "5.8", "", "")
    floor.terminal.wait_gone("Both counts")


def exports(floor, book):
    floor.terminal.press("f7")
    floor.says("NOT SIGNED")
    floor.asks("e", "Write the final tally")
    floor.fills("", "")
    floor.says("larkspur-tally.csv")
    floor.terminal.press("escape")
    folder = book.with_name("larkspur-reports")
    text = " ".join((folder / "larkspur-tally.txt").read_text().split())
    assert f"Accepted: {NADIA}: one is the other rig's" in text
    return folder


def lengths():
    """Return the length of every item, from the plain list and what was put right since."""
    with (FOLDER / "pipe_list.csv").open(newline="") as file:
        listed = {row["number"]: Decimal(row["length"]) for row in csv.DictReader(file)}
    return listed | PIECES | LISTED_OTHERWISE


def run_order():
    """Return the numbers from the shoe up, as the plain files and the keys above ran them."""
    with (FOLDER / "running.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    run = [row["item"] for row in rows if row["event"] == "run"]
    out = {row["item"] for row in rows if row["event"] == "laid down"}
    played = [number for number in run[: run.index("195")] if number not in out]
    return [*played, "195", "196", "197", "200", "201", "202", "203", "204"]


def displacement():
    """Return the volume from the head to the collar by the field divisor [bbl]."""
    order, known = run_order(), lengths()
    above = sum(known[number] for number in order[order.index("collar") + 1 :])
    return Decimal("0.1") + above * Decimal("8.681") ** 2 / Decimal("1029.4")


def agrees_with_an_independent_sum(path: Path):
    with path.open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    known = lengths()
    assert [row["number"] for row in rows] == run_order()
    bottom = sum(known[row["number"]] for row in rows) - STICK_UP
    to_here = Decimal(0)
    for row in rows:
        length = known[row["number"]]
        to_here += length
        found = [Decimal(row[f"{name}_ft"]) for name in ("length", "cumulative_length")]
        depths = [Decimal(row[f"{name}_depth_ft"]) for name in ("top", "bottom")]
        assert (found, depths) == ([length, to_here], [bottom - length, bottom]), row
        bottom -= length


def tells_what_was_not_run(path: Path):
    with path.open(newline="", encoding="utf-8") as file:
        rows = {row["number"]: row for row in csv.DictReader(file)}
    assert rows["198"]["state"] == "rejected"
    assert rows["198"]["reason"] == "failed drift"
    assert rows["199"]["state"] == "laid down"
    assert rows["205"]["state"] == "on rack"


def assert_verified(book):
    done = subprocess.run([*SHOEDOWN, "verify", book], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "The chain holds" in done.stdout
