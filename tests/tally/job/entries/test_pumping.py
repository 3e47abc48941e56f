"""The two counts read while the top plug is pumped down."""

from dataclasses import replace

import pytest

from tally.job.entries.pumping import Pumped
from tally.job.entry import later
from tally.job.figures import figure
from tally.job.fold import fold, fold_on
from tally.job.wet_shoe import shoe_words
from tally.steps.model import Checklist, Step
from tally.units import read
from tests.tally.job.invented import Telling, limits, pumping_down, ready_to_pump, setup


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
    assert told.asks(Pumped, tank=tank, strokes=counts.get("strokes")).startswith(asked)


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


# Counts that are hardly what was pumped


def turned_round():
    """Return a job where 10 bbl and 98 strokes were typed the other way round."""
    told = pumping_down()
    told.says(Pumped, tank=volume("5 bbl"), strokes=49)
    question = told.asks(Pumped, tank=volume("98 bbl"), strokes=10)
    told.says(Pumped, tank=volume("98 bbl"), strokes=10, doubt=question)
    return told, question


def test_the_tank_and_the_strokes_the_other_way_round_are_asked_about():
    """One stroke is 0.1044 bbl x 96 %: 10 strokes are 1.0 bbl, 98 strokes are 9.8 bbl."""
    told, question = turned_round()
    assert question.startswith("10 strokes is below the last count, 49. 98 bbl by the tank and 1.0")
    assert question.endswith("Is it the other way round, 10 bbl and 98 strokes?")
    assert [one.tank.text for one in told.job.pumped] == ["5 bbl"]
    assert [one.tank.text for one in told.job.in_doubt] == ["98 bbl"]
    assert shoe_words(told.job) == ""
    assert figure(told.job, "displaced").value == volume("5 bbl").value
    (left,) = told.job.open_exceptions()
    assert "98 bbl, 10 strokes, in doubt: " in left.what


def test_a_likely_reading_after_it_leaves_it_aside():
    told, _ = turned_round()
    told.says(Pumped, tank=volume("10.4 bbl"), strokes=101)
    assert [one.strokes for one in told.job.pumped] == [49, 101]
    assert len(told.job.in_doubt) == 1
    told.says(Pumped, tank=volume("20 bbl"), strokes=200)
    assert [one.strokes for one in told.job.pumped] == [49, 101, 200]


def test_a_second_reading_that_stands_with_it_confirms_it_and_marks_the_shoe():
    told, _ = turned_round()
    told.says(Pumped, tank=volume("98 bbl"), strokes=11)  # not asked again
    assert [one.strokes for one in told.job.pumped] == [49, 10, 11]
    assert told.job.in_doubt == ()
    assert "past the calculated bump" in shoe_words(told.job)
    closing = [one.closing for one in told.job.exceptions if "in doubt" in one.what]
    assert closing == [f"confirmed by a second reading, entry {told.job.seq}"]


@pytest.mark.parametrize(
    "counts",
    [{"strokes": 12}, {"tank": volume("98 bbl")}, {"tank": volume("9 bbl"), "strokes": 88}],
)
def test_what_lacks_a_count_or_stands_lower_does_not_confirm_it(counts):
    told, _ = turned_round()
    told.says(Pumped, **counts, despite="as read")
    assert len(told.job.in_doubt) == 1


def test_corrected_to_what_is_likely_it_is_counted():
    told, question = turned_round()
    put_right = replace(told.entries[-1], tank=volume("10 bbl"), strokes=98)
    before = fold(told.entries[:-1])
    job = fold_on(before, put_right)
    assert question
    assert put_right.doubt == question
    assert [one.tank.text for one in job.pumped] == ["5 bbl", "10 bbl"]
    assert (job.in_doubt, job.open_exceptions()) == ((), ())


@pytest.mark.parametrize(
    ("counts", "asked"),
    [
        ({"tank": volume("100 bbl"), "strokes": 100}, "Is it 10.0 bbl by the tank, with the dec"),
        ({"tank": volume("60 bbl"), "strokes": 600}, "Were both counts zeroed with the top plug?"),
        ({"tank": volume("60 bbl")}, "a decimal mark or a digit too many?"),
        ({"strokes": 999}, "past the calculated bump, "),
    ],
)
def test_the_likely_slip_is_named(counts, asked):
    assert asked in pumping_down().asks(Pumped, **counts)


@pytest.mark.parametrize(
    ("tank", "strokes"), [("0.5 bbl", 0), ("3 bbl", 10), ("20 bbl", 170), ("33 bbl", 320)]
)
def test_counts_that_a_job_can_have_are_taken_without_a_question(tank, strokes):
    told = pumping_down()
    assert len(told.says(Pumped, tank=volume(tank), strokes=strokes).pumped) == 1


def test_more_than_a_pump_can_move_is_asked_about_but_not_within_one_second():
    """38 bbl/min is the most; two minutes are given for what was written down first."""
    told = played_far()
    at = later(told.job.zeroed.at, 60)
    assert "130.0 bbl in 60 s is more than a pump can move." in (
        told.asks(Pumped, tank=volume("130 bbl"), at=at)
    )
    told.says(Pumped, tank=volume("110 bbl"), at=at)
    told = played_far()
    told.says(Pumped, tank=volume("130 bbl"), at=told.job.zeroed.at)


def test_two_counts_that_agree_and_a_job_written_down_afterwards_need_no_clock():
    told = played_far()
    at = later(told.job.zeroed.at, 60)
    told.says(Pumped, tank=volume("130 bbl"), strokes=1297, at=at)
    told = played_far()
    told.witnessed("plug-release", "slurry-away", value="200 bbl", despite="as read")
    told.says(Pumped, tank=volume("130 bbl"), at=at)


def played_far():
    """Return a job with the top plug gone in which 500 bbl may be pumped past the bump."""
    return pumping_down(setup(limits=limits(over_displacement="500 bbl")))
