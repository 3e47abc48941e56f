"""A metric string of two sizes with a crossover, tallied in millimetres, run to its landing."""

from __future__ import annotations

import csv
import re
from decimal import Decimal

from tests.drive.escapes import foreign_sequences
from tests.drive.jobs import SHOEDOWN
from tests.drive.string import NADIA, Crew, Landed, made, table

LOWER, UPPER = "7 in 29", "7-5/8 in 33.7"
RUN = (
    *("shoe", "1", "2", "collar"),
    *(str(number) for number in range(3, 13)),
    "xo",
    *(str(number) for number in range(13, 27)),
)
MEASURED = {"7": Decimal(12001), "15": Decimal(12040)}
"""Typed on the way down in place of what the list has, in two ways of writing."""
PIECES = {"shoe": Decimal(640), "collar": Decimal(430), "xo": Decimal(510)}
SHOE, COLLAR, CROSSOVER = Decimal(314223), Decimal(289382), Decimal(167846)
"""Added up with a pocket calculator from the list; of collar and crossover the lower end."""
LANDED = Landed(RUN, table("tapered") | PIECES | MEASURED, stick_up=Decimal(1250), unit="mm")


def test_a_tapered_metric_string_lands_where_it_should(start, tmp_path):
    book = made(tmp_path, "tapered")
    crew = Crew(start(*SHOEDOWN, book))
    crew.says("NEXT  the shoe")
    crew.runs_as_listed("shoe", "1", "2", "collar")
    crew.enters()
    crew.says("Gate shut: run 3")
    crew.reasons("list worked on paper", NADIA)
    crew.says("NEXT  joint 4")
    crew.runs_as_listed("4", "5", "6")
    crew.types("12001", "Joint 7 is listed with 12,246 mm, typed 12,001 mm.")
    crew.reasons("4")
    crew.says("7 run, measured 12001")
    crew.runs_as_listed("8", "9", "10")
    crew.says("then 12, crossover xo")
    crew.runs_as_listed("11", "12")
    crew.says("NEXT  crossover xo   510 mm")
    crew.says("then 13, 14 (rigid)")
    crew.runs_as_listed("xo")
    checks_the_flow(crew)
    crew.runs_as_listed("13")
    crew.saves("14 run with rigid centralizer", "enter", typed="14")
    crew.types("12.04 m", "Joint 15 is listed with")
    crew.reasons("4")
    crew.says("15 run, measured 12.04 m")
    crew.runs_as_listed(*map(str, range(16, 27)))
    crew.shoe_at(SHOE)
    lands(crew)
    folder = crew.exports(book)
    assert foreign_sequences(crew.terminal.raw) == {}
    assert (LANDED.shoe, LANDED.collar) == (SHOE, COLLAR)
    LANDED.agrees_with_the_csv(folder / "tapered-tally.csv")
    LANDED.agrees_with_the_journal(book, run=26, on_rack=2)
    LANDED.verifies(book)
    changes_size_at_the_crossover(folder / "tapered-tally.csv")


def checks_the_flow(crew):
    """The old shoe is at 150 m: one joint more brings the new shoe into open hole."""
    crew.says("at the old shoe: flow check, o")
    crew.asks("o", "Flow check, pumps off")
    crew.fills("1", "10", "")
    crew.terminal.wait_gone("at the old shoe")


def lands(crew):
    """The float was never converted: the page goes on saying so, also on depth."""
    crew.asks("d", "String on depth")
    crew.fills("1250", "2")
    crew.says(re.compile(r"ON DEPTH \d\d:\d\d"))
    crew.says(f"shoe at {SHOE:,} mm")
    crew.says("the auto-fill float is not converted: a")


def changes_size_at_the_crossover(path):
    """Below it stands one pipe, above it the other, and its own depth is that of the sums."""
    with path.open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    joints = [row for row in rows if row["kind"] == "joint"]
    assert [row["pipe"] for row in joints] == [LOWER] * 12 + [UPPER] * 14
    (crossover,) = [row for row in rows if row["kind"] == "crossover"]
    assert Decimal(crossover["bottom_depth_mm"]) == CROSSOVER
