"""The placement of a job: its plan, the job as it went, a change tried, returns called."""

from dataclasses import replace
from functools import cache

import pytest

from demo_db.play import entries
from tally.cement.returns import AS_EXPECTED, FULL, LESS, MORE, NONE, TOO_LITTLE, TOO_MUCH
from tally.errors import Missing
from tally.job import cement_job
from tally.job.entries.people import Note
from tally.job.entries.pumping import Pumped
from tally.job.entry import moment
from tally.job.figures import figure
from tally.job.fold import fold, fold_on
from tally.job.placement import BEFORE, counts, live, planned, try_change
from tally.job.placement_outcome import governing
from tally.job.returns_watch import called
from tally.units import read

played = cache(entries)


@cache
def played_to(clock):
    now = moment(f"2026-03-12T{clock}-06:00")
    return fold([each for each in played() if moment(each.at) <= now])


def test_the_demonstration_reads_what_is_expected_within_its_limit():
    job = played_to("17:54:10")
    here, limit = live(job), job.known.limit("pump_pressure").value
    apart = [
        each.reading.pressure.value - here.at_count(each.volume - BEFORE).pressure
        for each in counts(job)
    ]
    assert len(apart) > 15
    assert max(abs(each) for each in apart) < limit / 2


def test_the_whole_job_bumps_at_the_displacement():
    job = played_to("23:00:00")
    here = live(job)
    assert here.placement.volume[-1] - here.zero == pytest.approx(cement_job.displacement(job))
    assert here.placement.bumped


def test_the_plan_pumps_what_the_programme_places():
    job = played_to("13:00:00")
    placed = cement_job.programme_of(job).placed
    slugs = planned(job).plan.slugs
    assert [each.fluid.name for each in slugs] == ["spacer", "lead", "tail", "mud"]
    assert [each.volume for each in slugs[:-1]] == [each.volume for each in placed]


def test_stages_seen_take_the_place_of_the_plan():
    job = played_to("16:20:00")
    here = live(job)
    assert here.zero == pytest.approx(read("352.2 bbl", "volume").value, rel=1e-6)
    assert here.pumped - here.zero == pytest.approx(read("78.2 bbl", "volume").value)


def test_while_mixing_the_log_says_how_far_the_slurry_is():
    before, after = live(played_to("15:10:00")), live(played_to("15:30:00"))
    more = after.pumped - before.pumped
    assert more == pytest.approx(read("108 bbl", "volume").value)


def test_what_the_set_up_lacks_is_said():
    job = played_to("17:41:20")
    pump = replace(job.known.pumping, yield_point=None)
    bare = replace(job, setup=replace(job.known, pumping=pump))
    with pytest.raises(Missing, match="Yield point is not in the job set-up"):
        live(bare)
    assert figure(bare, "placed_pressure").missing == "Yield point is not in the job set-up."


def test_an_entry_that_pumps_nothing_predicts_nothing_again():
    job = played_to("17:41:20")
    noted = fold_on(job, Note(text="quiet", by="Ivo Marek", at=job.last, seq=job.seq + 1))
    assert live(noted).placement is live(job).placement


@pytest.mark.parametrize("clock", ["13:00:00", "16:47:20", "17:41:20"])
def test_a_faster_pump_means_more_pressure_and_less_time(clock):
    job = played_to(clock)
    slow, fast = (
        try_change(job, rate=read(rate, "flow rate").value) for rate in ("3 bbl/min", "9 bbl/min")
    )
    assert fast.placement.time[-1] < slow.placement.time[-1]
    ahead = read("570 bbl", "volume").value
    assert fast.at_count(ahead).pressure > slow.at_count(ahead).pressure
    assert fast.at_count(ahead).points > slow.at_count(ahead).points


def test_a_wider_hole_and_a_heavier_displacement_lift_less():
    job = played_to("13:00:00")
    as_it_goes = live(job).placement.pressure[-1]
    assert try_change(job, excess=0.3).placement.pressure[-1] < as_it_goes
    heavier = {"mud": read("11 lb/gal", "density").value}
    assert try_change(job, density=heavier).placement.pressure[-1] < as_it_goes
    assert live(job).placement.pressure[-1] == as_it_goes


def test_the_governing_depth_has_the_least_left():
    here = live(played_to("13:00:00"))
    found = governing(here)
    left = [
        here.placement.extreme(each.point.name).to_weak
        for each in here.placement.points
        if each.point.weak_at is not None
    ]
    assert found.limit - found.greatest == pytest.approx(min(left))


@pytest.mark.parametrize(
    ("tank", "seen", "call"),
    [
        ("558.6 bbl", FULL, AS_EXPECTED),
        ("558.6 bbl", LESS, TOO_LITTLE),
        ("558.6 bbl", NONE, TOO_LITTLE),
        ("558.6 bbl", MORE, TOO_MUCH),
        ("245 bbl", LESS, AS_EXPECTED),
        ("245 bbl", MORE, TOO_MUCH),
        ("283.1 bbl", NONE, AS_EXPECTED),
        ("283.1 bbl", FULL, TOO_MUCH),
    ],
)
def test_returns_are_called_by_what_is_due(tank, seen, call):
    assert _read_at(tank, returns_seen=seen).call == call


def test_returns_by_volume_tell_losses_from_catch_up():
    job = played_to("16:06:30")
    here = live(_with(job, "245 bbl"))
    due = here.now.returned - here.placement.at(here.zero).returned
    as_due = read(f"{due:.4f} m3", "volume")
    assert _read_at("245 bbl", returned=as_due).call == AS_EXPECTED
    assert _read_at("245 bbl", returned=read(f"{due - 6:.4f} m3", "volume")).call == TOO_LITTLE
    assert _read_at("245 bbl", returned=read(f"{due + 6:.4f} m3", "volume")).call == TOO_MUCH


def test_no_word_on_returns_is_no_call():
    assert _read_at("245 bbl").call == ""


# The pump standing


def _mixed_from(clock):
    """Return the job at the zero, as if the slurry had begun then; it was away at 16:01."""
    now = moment("2026-03-12T16:05:30-06:00")
    told = [each for each in played() if moment(each.at) <= now]
    begun = next(each for each in told if getattr(each, "step_id", "") == "first-slurry")
    rushed = replace(begun, at=f"2026-03-12T{clock}-06:00")
    return fold([rushed if each is begun else each for each in told])


def test_times_that_no_pump_could_keep_leave_the_rate_as_planned():
    """All slurry in a minute is 300 bbl/min: the keys were pressed late, not the pump fast."""
    here = live(_mixed_from("16:00:00"))
    slugs = planned(_mixed_from("16:00:00")).plan.slugs
    rates = [
        (each.rate, slugs[each.slug].stages[0].rate) for each in here.seen if each.slug in (1, 2)
    ]
    assert rates
    assert all(seen == wanted for seen, wanted in rates)


def test_at_the_zero_the_panel_the_chart_and_the_figure_expect_one_pressure():
    job = _mixed_from("15:51:00")  # at a rush: pressure until then
    here = live(job)
    assert here.placement.at(here.zero - BEFORE).pressure > 5e5  # the rate before it is no ground
    assert here.now.pressure == here.expected(0.0).pressure == 0.0
    assert figure(job, "placed_pressure").value == 0.0


def test_a_pump_that_stands_expects_what_the_columns_do():
    here = live(played_to("16:05:30"))
    assert here.now.rate == 0
    assert called(here, None).expected == "only what the columns push out, pump stopped"
    begun = live(played_to("16:06:30"))  # displacing has begun: the casing fills up again
    assert called(begun, None).expected == "less (catch-up)"


@pytest.mark.parametrize(
    ("seen", "call"),
    [(FULL, AS_EXPECTED), (LESS, AS_EXPECTED), (NONE, AS_EXPECTED), (MORE, TOO_MUCH)],
)
def test_in_a_stop_with_the_columns_at_rest_nothing_is_expected(seen, call):
    rate = read("0 bbl/min", "flow rate")
    told = _read_at("500 bbl", returns_seen=seen, rate=rate)
    assert (told.expected, told.call) == ("none, pump stopped", call)


def test_a_rate_of_returns_of_nothing_in_a_stop_is_none():
    rate = read("0 bbl/min", "flow rate")
    assert _read_at("500 bbl", returns=rate, rate=rate).seen == NONE


# The volume given with the bump


def _bumped_at(volume):
    job = played_to("17:54:10")
    told = replace(job.zeroed, value=volume, state="", seq=job.seq, at=job.last)
    return job.but(steps={**job.steps, ("plug-release", "bump-volume"): told})


def test_the_placement_ends_at_the_volume_given_with_the_bump():
    job = _bumped_at("596 bbl")  # the last count is past it
    here = live(job)
    assert here.pumped - here.zero == pytest.approx(read("596 bbl", "volume").value)
    here = live(_bumped_at("599 bbl"))
    assert here.pumped - here.zero == pytest.approx(read("599 bbl", "volume").value)


def _read_at(tank, **seen):
    job = _with(played_to("16:06:30"), tank, **seen)
    return called(live(job), counts(job)[-1])


def _with(job, tank, **seen):
    rate, at = read("5.8 bbl/min", "flow rate"), job.last
    told = {"tank": read(tank, "volume"), "rate": rate, "despite": "in one go", **seen}
    entry = Pumped(by="Ivo Marek", at=at, seq=job.seq + 1, **told)
    return fold_on(job, entry)


def test_a_word_that_says_nothing_of_returns_is_refused():
    entry = Pumped(tank=read("9 bbl", "volume"), returns_seen="fine", by="Ivo Marek", at="")
    assert entry.check(played_to("16:06:30")).startswith("Returns are not 'fine'")
