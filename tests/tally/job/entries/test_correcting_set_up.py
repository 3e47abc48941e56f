"""Corrections of the set-up: in every figure, named where they do not fit, or refused."""

from dataclasses import replace

import pytest

from tally.errors import EntryRefused
from tally.job.depths import shoe_depth, to_go
from tally.job.entries.correction import Correction
from tally.job.entries.watching import TankRead
from tally.job.figures import figure
from tally.job.fold import checked_correction, fold
from tally.job.setup import Person
from tally.job.stored import to_fields as plain
from tally.units import read
from tests.tally.job.entries.correcting import corrected, named, set_up
from tests.tally.job.invented import (
    CEMENTER,
    MUD,
    REP,
    landed,
    loaded,
    pipe,
    pumping,
    running,
)


def test_the_casing_point_and_the_mud_put_right_are_in_every_figure():
    told = running("S1", "1")
    hole = replace(told.job.known.hole, casing_point=read("500 ft", "length"))
    mud = pumping(mud_weight=read("12 lb/gal", "density"))
    before = figure(told.job, "weight_in_mud").value
    assert to_go(told.job) == 48600 - shoe_depth(told.job)
    job = corrected(told, 1, set_up(told, hole=hole, pumping=mud))
    assert to_go(job) == 50000 - shoe_depth(job)
    assert figure(job, "mud_weight").value == pytest.approx(12 * 119.826427, rel=1e-6)
    assert (
        figure(job, "buoyancy_factor").value < figure(told.entries and job, "weight_in_mud").value
    )
    assert figure(job, "weight_in_mud").value < before
    assert job.exceptions == ()


def test_a_piece_taken_out_of_the_set_up_is_named_where_it_was_run():
    told = running("S1", "1", "2", "C1", "3")
    job = corrected(told, 1, set_up(told, items=told.job.known.items[:1], order=("S1",)))
    assert [made.number for made in job.string] == ["S1", "1", "2", "3"]
    assert named(job) == [6]
    assert figure(job, "collar_depth").missing == "No collar is in the string yet."


def test_a_person_taken_out_of_the_set_up_witnessed_nothing():
    told = loaded(landed())
    people = tuple(one for one in told.job.known.people if one.name != REP)
    job = corrected(told, 1, set_up(told, people=people))
    assert len(named(job)) == 6
    assert job.open_exceptions()[0].what.endswith(
        "Per Falk is not among the people of this job; add the person first."
    )


def test_no_bottom_plug_after_all():
    told = loaded(landed())
    job = corrected(told, 1, set_up(told, pumping=pumping(bottom_plugs=0)))
    assert named(job) == [26, 30]
    assert job.steps["plug-loading", "top-plug-loaded"].state == "in the upper place, on its pin"


def test_another_inside_diameter_works_every_volume_out_anew():
    told = running("S1", "1")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    thicker = pipe(inner="8.535 in")
    job = corrected(told, 1, set_up(told, pipes=(thicker,)))
    ratio = (8.535 / 8.681) ** 2
    fresh = running("S1", "1")
    assert figure(job, "casing_capacity").value == pytest.approx(
        ratio * figure(fresh.job, "casing_capacity").value
    )


@pytest.mark.parametrize(
    ("instead", "said"),
    [
        (None, "the set-up is not struck; change it instead."),
        (
            {"lengths": {"unit": "m"}},
            "the tally unit and how joints are measured stay as they were set up.",
        ),
    ],
)
def test_the_set_up_is_never_struck_and_its_unit_stays(instead, said):
    told = running("S1", "1")
    if instead:
        instead = {"setup": {**plain(told.job.known), **instead}}
    entry = told.makes(Correction, of=1, reason="slip", instead=instead)
    with pytest.raises(EntryRefused, match=said):
        checked_correction(tuple(told.entries), entry)
    held = fold([*told.entries, entry])
    assert held.string == told.job.string
    assert named(held) == [5]


def test_a_set_up_that_no_job_can_be_worked_with_does_not_take_the_place_of_the_one_before():
    told = running("S1", "1")
    entry = told.makes(Correction, of=1, reason="slip", instead=set_up(told, pipes=()))
    with pytest.raises(EntryRefused, match="The set-up names no pipe; volumes need at least one"):
        checked_correction(tuple(told.entries), entry)
    job = fold([*told.entries, entry])
    assert job.string == told.job.string
    assert named(job) == [5]


def test_a_book_that_begins_with_such_a_set_up_still_folds():
    told = running("S1", "1")
    bad = replace(told.entries[0], setup=replace(told.job.known, pipes=()))
    job = fold([bad, *told.entries[1:]])
    assert job.setup is None
    assert named(job) == [1, 2, 3, 4]


def test_somebody_added_by_a_correction_may_witness():
    told = landed()
    people = (*told.job.known.people, Person(name="Nia Roe", role="company representative"))
    corrected(told, 1, set_up(told, people=people))
    told.does("plug-release", "line-test", value="3600 psi", witness="Nia Roe", by=CEMENTER)
    assert told.job.steps["plug-release", "line-test"].witness == "Nia Roe"
    assert MUD in told.job.people
