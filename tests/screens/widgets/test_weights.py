"""The weights against depth as text: readings, depths ahead, the least that was set."""

from __future__ import annotations

from screens.widgets.weights import SEEN, weight_lines
from tally.job.entries.weighing import WeightRead
from tally.job.job import Job
from tally.units import read
from tests.tally.job.figures.test_weights import slanted
from tests.tally.job.invented import Telling, limits, running, weighed


def told(**texts: str) -> Telling:
    """Return a job with half its pipe run, in a hole that leans."""
    plan = weighed(survey=slanted(30), limits=limits(**texts))
    return running("S1", "1", "2", "C1", "3", "4", plan=plan)


def shown(job: Job) -> list[str]:
    return [one.plain for one in weight_lines(job, 60)]


def test_ahead_is_every_depth_to_the_last_pipe_listed() -> None:
    lines = shown(told().job)
    depths = [line.split()[0] for line in lines[3:-1]]
    assert depths == [
        "160.95",
        "200.00",
        "250.00",
        "300.00",
        "350.00",
        "400.00",
        "450.00",
        "485.71",
    ]
    assert all(len(line) <= 60 for line in lines)


def test_readings_stand_in_their_columns_the_last_ones_only() -> None:
    job = told()
    for place in range(SEEN + 2):
        job.says(WeightRead, slack_off=read(f"{50 + place} klbf", "force"))
    seen = [line.split() for line in shown(job.job)[2 : 2 + SEEN]]
    assert [row[4:] for row in seen] == [[str(50 + place), "-"] for place in range(2, SEEN + 2)]


def test_where_it_comes_under_the_least_is_said() -> None:
    """By hand: 47 lb/ft less mud is 39.7 lb/ft; over 485.71 ft at 30 deg some 11 klbf on 45."""
    under = shown(told(least_slack_off="54 klbf").job)[-1]
    assert under == "least going down 54 klbf (Per Falk): expected UNDER it at 160.95 ft"
    over = shown(told(least_slack_off="46 klbf").job)[-1]
    assert over == "least going down 46 klbf (Per Falk): expected above it"


def test_before_pipe_hangs_there_is_nothing_to_weigh() -> None:
    assert shown(Telling().starts(weighed()).job) == ["Nothing is run yet."]
