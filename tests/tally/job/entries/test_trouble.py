"""What goes wrong on the way down, and what follows from it."""

from dataclasses import replace

from tally.job.entries.running import Fitted, ItemRun
from tally.job.entries.trouble import (
    CrewChanged,
    Dropped,
    FittingMissed,
    Losses,
    PipeFree,
    ShutIn,
    Stuck,
    TightSpot,
    WellOpened,
)
from tally.job.setup import Rule
from tally.units import read
from tests.tally.job.invented import LEAD, REP, Telling, running, setup, weighed


def klbf(text):
    """Return a force."""
    return read(f"{text} klbf", "force")


def open_ones(told):
    """Return the words of the open exceptions."""
    return [each.what for each in told.job.open_exceptions()]


def test_a_tight_spot_is_kept_with_the_shoe_of_its_moment_and_is_no_exception():
    told = running("S1", "1")
    told.says(TightSpot, overpull=klbf(20), set_down=klbf(10), done="worked through")
    (one,) = told.job.happened
    assert (one.kind, one.shoe) == ("tight spot", 195 + 4007 - 322)
    assert one.words == "tight spot: overpull 20 klbf, set down 10 klbf; worked through"
    assert told.job.exceptions == ()


def test_a_tight_spot_wants_a_weight_and_a_depth_that_was_reached():
    told = running("S1", "1")
    assert told.refuses(TightSpot) == (
        "Type the overpull or the weight set down, as the indicator showed it."
    )
    assert told.refuses(TightSpot, set_down=klbf(5), depth=read("300 ft", "length")) == (
        "300 ft is not between the datum and the shoe at 38.80 ft; look at the depth."
    )
    assert "Nothing is run yet" in running().refuses(TightSpot, set_down=klbf(5))


def test_an_overpull_beyond_the_greatest_pull_asks_and_stays_in_sight():
    told = running("S1", "1", plan=weighed())
    question = told.asks(TightSpot, overpull=klbf(700))
    assert "An overpull of 700 klbf is more than the greatest pull, 60" in question
    told.says(TightSpot, overpull=klbf(700), despite="gauge read twice")
    assert open_ones(told) == [f"{question} Entered all the same: gauge read twice."]
    told.says(TightSpot, overpull=klbf(100))


def test_stuck_pipe_is_not_run_until_it_is_free_and_freeing_it_closes_what_was_open():
    told = running("S1", "1")
    told.says(Stuck, note="on a ledge")
    assert open_ones(told) == ["The pipe is stuck with the shoe at 38.80 ft (on a ledge)."]
    assert "The pipe is stuck since 06:0" in told.asks(ItemRun, number="2")
    assert "stuck already" in told.refuses(Stuck)
    told.says(PipeFree, how="worked down with 40 klbf")
    told.runs("2")
    (closed,) = told.job.exceptions
    assert (closed.closed_by, closed.closing) == (LEAD, "pipe free: worked down with 40 klbf")
    assert "not stuck" in told.refuses(PipeFree, how="again")


def test_losses_stay_in_sight_and_want_a_volume_or_a_rate():
    told = running("S1", "1")
    told.says(Losses, volume=read("5 bbl", "volume"), rate=read("1 bbl/min", "flow rate"))
    assert open_ones(told) == ["With the shoe at 38.80 ft: losses: 5 bbl, at 1 bbl/min."]
    assert "Type the volume lost" in told.refuses(Losses)


def test_with_the_well_shut_in_the_book_steps_back_and_says_so():
    told = running("S1", "1")
    told.says(ShutIn, gain=read("3 bbl", "volume"), annulus_pressure=read("150 psi", "pressure"))
    assert open_ones(told) == ["Well shut in: gain 3 bbl, annulus 150 psi."]
    asked = told.asks(ItemRun, number="2")
    assert "the shut-in plan and the people in charge lead, not this book" in asked
    assert "shut in already" in told.refuses(ShutIn)
    told.says(WellOpened, note="circulated out, given back by the representative")
    told.runs("2")
    assert open_ones(told) == []
    assert [each.kind for each in told.job.happened] == ["shut in", "well open"]
    assert "not shut in" in told.refuses(WellOpened, note="twice")


def test_what_fell_stays_in_sight_with_its_place():
    told = running("S1", "1")
    told.says(Dropped, what="tong die", where="in the hole")
    assert open_ones(told) == ["Dropped: tong die, in the hole."]
    assert told.refuses(Dropped, what="die", where="there") == (
        "Say where it is: in the hole, in the pipe, on the floor."
    )


def test_the_crew_is_handed_over_to_somebody_else_of_the_job_with_words():
    told = running("S1", "1")
    told.says(CrewChanged, lead=REP, told="joint 2 next, pipe full")
    assert (
        told.job.happened[0].words == f"crew change: {REP} leads from here; joint 2 next, pipe full"
    )
    assert told.job.exceptions == ()
    assert "not among the people" in told.refuses(CrewChanged, lead="Nobody", told="all")
    assert "name the person who takes over" in told.refuses(CrewChanged, lead=LEAD, told="all")
    assert "Say what was handed over" in told.refuses(CrewChanged, lead=REP, told=" ")


def test_a_centralizer_that_will_not_be_there_is_an_exception_and_one_installed_later_is_not():
    plan = setup(programme=(Rule(what="bow centralizer", joints=(1, 2)),))
    told = running("S1", "1", "2", plan=plan)
    told.says(FittingMissed, number="1", reason="none left on the floor")
    assert open_ones(told) == [
        "Not installed on 1: bow centralizer mid-joint. none left on the floor."
    ]
    told.says(
        Fitted, number="2", fittings=tuple(each for each in running_fittings("bow centralizer"))
    )
    assert told.refuses(FittingMissed, number="2", reason="late") == (
        "Nothing of the programme is missing on 2; look at the number."
    )


def running_fittings(what):
    """Return one piece of a kind."""
    from tally.job.job import Fitting

    return (Fitting(what, "mid-joint"),)


def test_before_anything_is_run_it_is_said():
    assert "Nothing is run yet" in running().refuses(Stuck)
    assert "not set up yet" in Telling().refuses(ShutIn)


def test_a_correction_takes_the_consequence_back():
    from tally.job.entries.correction import Correction
    from tally.job.fold import fold

    told = running("S1", "1")
    told.says(Stuck)
    struck = Correction(by=LEAD, at=told.job.last, seq=len(told.entries) + 1,
                        of=told.job.stuck.seq, reason="it moved")  # fmt: skip
    job = fold([*told.entries, struck])
    assert (job.stuck, job.exceptions, job.happened) == (None, (), ())
    assert replace(job, seq=0).string == replace(told.job, seq=0).string
