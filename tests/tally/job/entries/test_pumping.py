"""The two counts read while the top plug is pumped down."""

import pytest

from tally.job.entries.pumping import Pumped
from tally.steps.model import Checklist, Step
from tally.units import read
from tests.tally.job.invented import Telling, pumping_down, ready_to_pump


def volume(text):
    """Return a volume."""
    return read(text, "volume")


def test_the_counts_are_kept_since_the_zero():
    told = pumping_down()
    job = told.says(
        Pumped,
        tank=volume("10 bbl"),
        strokes=98,
        pressure=read("300 psi", "pressure"),
        rate=read("5 bbl/min", "flow rate"),
    )
    one = job.pumped[0]
    assert (one.seq, one.tank.text, one.strokes) == (51, "10 bbl", 98)
    assert (one.pressure.text, one.rate.text) == ("300 psi", "5 bbl/min")


def test_one_count_is_enough():
    told = pumping_down()
    told.says(Pumped, strokes=0)
    assert told.says(Pumped, tank=volume("0 bbl")).pumped[-1].strokes is None


def test_what_cannot_be_counted_is_refused():
    assert ready_to_pump().refuses(Pumped, strokes=10) == (
        "The volume is not zeroed yet; that comes with the release of the top plug."
    )
    told = pumping_down()
    assert told.refuses(Pumped) == "Type the tank volume or the strokes."
    assert told.refuses(Pumped, strokes=-1) == (
        "Strokes cannot be below nothing; type the count since the zero."
    )


@pytest.mark.parametrize(
    ("counts", "asked"),
    [
        ({"tank": "9.9 bbl"}, "The tank count 9.9 bbl is below the last, 10 bbl."),
        ({"strokes": 119}, "119 strokes is below the last count, 120."),
        (
            {"tank": "1 bbl", "strokes": 0},
            "The tank count 1 bbl is below the last, 10 bbl. "
            "0 strokes is below the last count, 120.",
        ),
    ],
)
def test_a_count_below_the_last_of_its_kind_is_asked_about(counts, asked):
    told = pumping_down()
    told.says(Pumped, tank=volume("10 bbl"), strokes=98)
    told.says(Pumped, strokes=120)
    tank = volume(counts["tank"]) if "tank" in counts else None
    assert told.asks(Pumped, tank=tank, strokes=counts.get("strokes")) == asked


def test_a_count_that_stands_still_is_taken():
    told = pumping_down()
    told.says(Pumped, tank=volume("10 bbl"), strokes=98)
    assert len(told.says(Pumped, tank=volume("10 bbl"), strokes=98).pumped) == 2


def test_a_second_zero_starts_the_counts_anew():
    again = Step(id="zero-again", text="Zero", who="cementer", at_once=True, key="q", zeroes=True)
    plan = Checklist(
        id="own", title="Own", page="plugs", purpose="", caution="", steps=(again,), source=""
    )
    told = pumping_down()
    told.says(Pumped, strokes=40)
    told.takes(plan).does("own", "zero-again")
    assert told.job.pumped == ()
    assert told.job.zeroed.seq == told.job.seq
    assert told.says(Pumped, strokes=3).pumped[0].strokes == 3


def test_it_says_what_was_read():
    told = Telling()
    assert told.makes(Pumped, strokes=12).said() == "pumped 12 strokes"
    full = told.makes(
        Pumped,
        tank=volume("3 bbl"),
        strokes=0,
        pressure=read("300 psi", "pressure"),
        rate=read("5 bbl/min", "flow rate"),
    )
    assert full.said() == "pumped 3 bbl, 0 strokes, 300 psi, 5 bbl/min"
