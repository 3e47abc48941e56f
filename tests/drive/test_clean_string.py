"""A short string run without trouble through the real screens, from the first key to verify."""

from __future__ import annotations

import re
from decimal import Decimal

from tests.drive.escapes import foreign_sequences
from tests.drive.floor import FORM_FOOT
from tests.drive.jobs import SHOEDOWN
from tests.drive.string import AMA, NADIA, TOMAS, Crew, Landed, made, table

RUN = ("shoe", "1", "2", "collar", *(str(number) for number in range(3, 25)))
LANDED = Landed(
    RUN,
    table("clean") | {"shoe": Decimal("1.86"), "collar": Decimal("1.42")},
    stick_up=Decimal("3.10"),
    unit="ft",
)
SHOE, COLLAR = Decimal("974.92"), Decimal("892.31")
"""Added up with a pocket calculator from the list: 978.02 ft of string less 3.10 ft."""

READY = (
    *(("1",), ("1", "1"), ("1", "1"), ("1", "1"), ("1",), ("1",), ("1",), ("4",)),
    *(("1", "1"), ("1", "1")),
)
"""What is typed for each step of crew and hole ready but the last, its hold point."""
PUMPED_THROUGH = 8
"""From this step on the driller is the doer, and the crew lead sees it."""
SLOW = 1.05
"""Seconds from joint to joint that the clock of the entries can tell apart."""


def test_a_clean_string_from_the_first_key_to_verify(start, tmp_path):
    book = made(tmp_path, "clean")
    crew = Crew(start(*SHOEDOWN, book))
    crew.says("NEXT  the shoe")
    crew.runs_as_listed("shoe", "1", "2", "collar")
    crew.says("g HOLD POINT crew and hole ready")
    gets_ready(crew)
    crew.terminal.wait_gone("HOLD POINT")
    crew.asks("r", "Trip tank")
    crew.fills("10.0", "")
    crew.says("trip tank 10.0 bbl")
    for number in ("3", "4", "5", "6", "7"):
        crew.saves(f"{number} run", "enter", typed=number)
    crew.runs_as_listed("8", "9")
    sees_what_is_ahead(crew)
    crew.saves("10 run, measured", "enter", typed=str(LANDED.lengths["10"]))
    crew.runs_as_listed("11")
    checks_the_flow_at_the_old_shoe(crew)
    crew.saves("12 run with bow centralizer mid-joint", "enter", typed="12")
    crew.runs_as_listed(*map(str, range(13, 23)), pause=SLOW)
    crew.says(re.compile(r"on depth about \d\d:\d\d"))
    crew.runs_as_listed("23", "24")
    crew.says("NEXT  the shoe is at the casing point: d on depth")
    crew.shoe_at(SHOE)
    crew.asks("d", "String on depth")
    crew.fills("3.10", "2")
    crew.says(re.compile(r"ON DEPTH \d\d:\d\d"))
    crew.says(f"NEXT  on depth, shoe at {SHOE} ft")
    crew.asks("h", "String hung off")
    crew.fills("26 klbf", "1")
    crew.says("hung off with 26 klbf, slips")
    folder = crew.exports(book)
    assert foreign_sequences(crew.terminal.raw) == {}
    assert (LANDED.shoe, LANDED.collar) == (SHOE, COLLAR)
    LANDED.agrees_with_the_csv(folder / "clean-tally.csv")
    LANDED.agrees_with_the_journal(book, run=24, on_rack=2)
    LANDED.verifies(book)
    text = " ".join((folder / "clean-tally.txt").read_text("utf-8").split())
    assert "exceptions still open" not in text.casefold()


def gets_ready(crew):
    """Work the list of crew and hole; its hold point is the company representative's."""
    crew.terminal.press("g")
    for entered, answers in enumerate(READY):
        crew.says(f"{entered} of 11")
        if entered == PUMPED_THROUGH:
            crew.becomes(TOMAS)
        crew.works(*answers)
    crew.becomes(NADIA)
    crew.asks("y", FORM_FOOT)
    crew.fills("1", "1", "1")
    for signer in (NADIA, AMA):
        crew.says(f"{signer} has no PIN")
        crew.fills("1")
    crew.says("11 of 11")
    crew.terminal.press("f4")
    crew.says("NEXT  joint 3")
    crew.becomes(AMA)


def sees_what_is_ahead(crew):
    """The centralizer on the twelfth joint is named while two others come before it."""
    crew.says("NEXT  joint 10, the 10th")
    crew.says("then 11, 12 (bow)")


def checks_the_flow_at_the_old_shoe(crew):
    crew.says("at the old shoe: flow check, o")
    crew.asks("o", "Flow check, pumps off")
    crew.fills("1", "10", "")
    crew.says("flow check, 10 min: no flow")
    crew.terminal.wait_gone("at the old shoe")
