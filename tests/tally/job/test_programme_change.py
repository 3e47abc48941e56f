"""What an entry changes in the cementing programme is said in a sentence, and nothing else is."""

from __future__ import annotations

from tally.job.entries.landing import OnDepth
from tally.job.entries.running import Rejected
from tally.job.job import Job
from tally.job.planned_string import as_planned, is_run
from tally.job.programme_change import programme_change
from tests.tally.job.invented import Telling, running
from tests.tally.job.invented_programme import cemented


def told(*numbers: str, joints: int = 14) -> Telling:
    """Return a job with more joints than it takes to the casing point."""
    return Telling().starts(cemented(), joints).runs(*numbers) if numbers else Telling()


def test_running_what_is_listed_changes_nothing() -> None:
    so_far = told("S1", "1")
    before = so_far.job
    for number in ("2", "C1", "3"):
        so_far.runs(number)
        assert programme_change(before, so_far.job) == ""
        before = so_far.job


def test_a_shorter_shoe_track_brings_the_collar_down_with_its_volume() -> None:
    before = told("S1", "1").job
    after = told("S1", "1").runs("C1", despite="the second joint is bent").job
    shorter = (4000 + 14) / 100
    assert programme_change(before, after) == (
        f"collar {shorter:.2f} ft deeper: displacement 2.9 bbl more, slurry 2.9 bbl less"
    )


def test_without_fluids_the_displacement_is_said_alone() -> None:
    before = running("S1", "1").job
    after = running("S1", "1").runs("C1", despite="bent").job
    assert programme_change(before, after) == "collar 40.14 ft deeper: displacement 2.9 bbl more"


def test_nothing_is_said_where_there_is_nothing_to_tell() -> None:
    assert programme_change(Job(), Job()) == ""
    before = running("S1", plan=cemented(order=("S1", "1"))).job
    assert programme_change(before, told("S1").job) == ""


def test_the_planned_string_ends_at_the_casing_point() -> None:
    job = told("S1", "1", "2", "C1", "3").job
    planned = as_planned(job)
    assert not is_run(job)
    assert [each.number for each in planned.string][:5] == ["S1", "1", "2", "C1", "3"]
    assert planned.length == 48600 + 322
    assert is_run(planned)
    assert as_planned(planned) is planned


def test_a_list_that_is_too_short_ends_where_it_ends() -> None:
    planned = as_planned(told("S1", joints=3).job)
    assert [each.number for each in planned.string] == ["S1", "1", "2", "C1", "3"]


def test_a_joint_set_aside_in_the_shoe_track_changes_what_is_to_come() -> None:
    so_far = told("S1")
    before = so_far.job
    after = so_far.says(Rejected, number="1", reason="bent")
    said = programme_change(before, after)
    assert said.startswith("collar 40.07 ft deeper"), said


def test_on_depth_elsewhere_than_planned_moves_the_collar() -> None:
    so_far = running(plan=cemented()).runs()
    before = so_far.job
    # 2 ft more of the pocket take 0.29 bbl, 2 ft less of the annulus under the tail's top 0.11.
    after = so_far.says(OnDepth, stick_up=522, counted=0, despite="landed high")
    assert programme_change(before, after) == "collar 2.00 ft higher: slurry 0.2 bbl more"
