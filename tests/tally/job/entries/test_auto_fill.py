"""An auto-fill float: what comes in at the foot, until somebody says that it is converted.

By hand: 40 % of what the pipe holds stands in it, and only the rest of it pushes mud out.
"""

from dataclasses import replace
from fractions import Fraction

import pytest

from tally.errors import EntryRefused
from tally.job import volumes
from tally.job.entries.auto_fill import AutoFillConverted
from tally.job.entries.running import PulledOut
from tally.job.entries.watching import Filled, TankRead
from tally.job.figures import figure
from tally.job.setup import Filling
from tally.job.tank import last_reading
from tally.job.workable import set_up_fault
from tally.units import from_unit, read
from tests.tally.job.figures.test_weights import FOOT, MUD, G, value
from tests.tally.job.invented import (
    CEMENTER,
    Telling,
    closed_end,
    length_of,
    running,
    setup,
    weighed,
)
from tests.tally.job.second_opinion import BORE, CLOSED, bbl

BARREL = from_unit(1, "bbl")
SHARE = Fraction(2, 5)
FLOAT = Filling(auto_fill=read("40 %", "ratio"))
AUTO = setup(filling=FLOAT)
BEFORE = 195 + length_of(1) + length_of(2) + 152
"""Hundredths of a foot in the string: shoe, two joints and the collar."""


@pytest.fixture
def told() -> Telling:
    """Return the shoe track run on an auto-fill float."""
    return running("S1", "1", "2", "C1", plan=AUTO)


def barrels(number: float) -> float:
    return number / BARREL


def test_a_share_comes_in_at_the_foot_and_the_rest_pushes_mud_out(told: Telling) -> None:
    assert barrels(volumes.filled(told.job)) == pytest.approx(float(bbl(SHARE * BORE * BEFORE)))
    out = bbl((CLOSED - SHARE * BORE) * BEFORE)
    assert barrels(volumes.into_tank(told.job)) == pytest.approx(float(out))
    empty = (1 - SHARE) * BEFORE / 100 * Fraction("0.3048")
    assert volumes.empty_length(told.job) == pytest.approx(float(empty))


def test_once_converted_the_end_is_closed_and_what_stands_in_it_stays(told: Telling) -> None:
    told.says(TankRead, volume=read("10 bbl", "volume"), mark=True)
    told.says(AutoFillConverted, by=CEMENTER, pressure=read("350 psi", "pressure"))
    told.runs("3")
    told.says(TankRead, volume=read("14 bbl", "volume"))
    check = last_reading(told.job)
    assert check is not None
    assert barrels(check.expected) == pytest.approx(float(bbl(CLOSED * length_of(3))))
    assert barrels(volumes.let_in(told.job)) == pytest.approx(float(bbl(SHARE * BORE * BEFORE)))
    assert (told.job.converted and told.job.converted.by) == CEMENTER
    assert "until converted at entry 8" in figure(told.job, "let_in").formula


def test_a_joint_pulled_back_out_takes_its_share_with_it(told: Telling) -> None:
    told.runs("3")
    told.says(PulledOut, number="3")
    assert barrels(volumes.let_in(told.job)) == pytest.approx(float(bbl(SHARE * BORE * BEFORE)))


def test_filled_to_the_top_is_full_and_the_next_joint_brings_its_share(told: Telling) -> None:
    told.says(Filled, source="active pit")
    poured = bbl((1 - SHARE) * BORE * BEFORE)
    assert barrels(told.job.fills[0].volume) == pytest.approx(float(poured))
    told.runs("3")
    empty = float((1 - SHARE) * length_of(3) / 100 * Fraction("0.3048"))
    assert volumes.empty_length(told.job) == pytest.approx(empty)


def test_the_joints_to_the_fill_follow_the_share_until_it_is_converted() -> None:
    """The float's rating is what three joints more make of the column that is missing inside."""
    numbers = ("S1", "1", "2", "C1")
    joint = length_of(3) / 100
    apart = float(1 - SHARE) * (BEFORE / 100 + 3 * joint) - 3.22
    psi = MUD * G * apart * FOOT / 6894.757293168
    rating = read(f"{psi + 0.5:.2f} psi", "pressure")
    told = running(*numbers, plan=weighed(filling=replace(FLOAT, float_rating=rating)))
    assert value(told.job, "fill_joints") == 3
    told.says(AutoFillConverted)
    closed = psi / (MUD * G * FOOT / 6894.757293168) - (float(1 - SHARE) * BEFORE / 100 - 3.22)
    assert value(told.job, "fill_joints") == int(closed / joint) == 1


def test_who_converts_what_is_not_there_or_twice_is_told(told: Telling) -> None:
    assert running("S1").refuses(AutoFillConverted).startswith("The job set-up has no auto-fill")
    assert running("S1", plan=setup(filling=closed_end(False))).refuses(AutoFillConverted)
    assert Telling().refuses(AutoFillConverted).startswith("Nothing is run yet")
    told.says(AutoFillConverted)
    assert "was converted at entry 7" in told.refuses(AutoFillConverted)


def test_said_in_words_with_what_was_seen() -> None:
    seen = AutoFillConverted(
        by=CEMENTER,
        at="2026-05-02T06:00:00+02:00",
        pressure=read("350 psi", "pressure"),
        rate=read("3 bbl/min", "flow rate"),
    )
    assert seen.said() == "auto-fill float converted at 350 psi, 3 bbl/min"
    assert replace(seen, pressure=None, rate=None).said() == "auto-fill float converted"


def test_a_share_of_more_than_all_is_no_set_up() -> None:
    more = replace(FLOAT, auto_fill=read("120 %", "ratio"))
    assert set_up_fault(setup(filling=more)).startswith("An auto-fill share of 120 % is not 0 to")


WANTS = replace(
    FLOAT,
    converts_at_pressure=read("400 psi", "pressure"),
    converts_at_rate=read("6 bbl/min", "flow rate"),
)


def test_less_than_the_float_wants_is_asked_and_stays_in_sight():
    told = running("S1", "1", "2", "C1", plan=setup(filling=WANTS))
    seen = {"pressure": read("350 psi", "pressure"), "rate": read("6.5 bbl/min", "flow rate")}
    with pytest.raises(EntryRefused) as asked:
        told.says(AutoFillConverted, by=CEMENTER, **seen)
    assert asked.value.question
    assert "350 psi was seen, and the float wants 400 psi to convert" in str(asked.value)
    assert "6.5 bbl/min" not in str(asked.value)
    job = told.says(AutoFillConverted, by=CEMENTER, despite="gauge reads low", **seen)
    (left,) = job.open_exceptions()
    assert left.what.endswith("It may still let fluid in. Reason: gauge reads low.")


def test_enough_is_not_asked():
    told = running("S1", "1", "2", "C1", plan=setup(filling=WANTS))
    seen = {"pressure": read("400 psi", "pressure"), "rate": read("6 bbl/min", "flow rate")}
    assert told.says(AutoFillConverted, by=CEMENTER, **seen).open_exceptions() == ()
