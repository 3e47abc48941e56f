"""A figure that a second person works out unseen is awaited until that step is entered."""

from __future__ import annotations

from tally.job.blind import awaited
from tests.tally.job.invented import CEMENTER, REP, conditioned, landed, loaded

FIGURES = ("displacement_to_collar", "strokes_to_collar", "sacks", "mix_fluid", "bump_differential")


def test_all_five_figures_are_asked_for_unseen() -> None:
    job = landed().job
    assert [awaited(job, key) for key in FIGURES] == [True] * 5
    assert not awaited(job, "slurry_volume")


def test_a_figure_is_awaited_no_more_once_its_step_is_entered() -> None:
    told = loaded(conditioned(landed()))
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    told.does(
        "plug-release",
        "volumes-agreed",
        by=REP,
        value="99 bbl",
        witness=CEMENTER,
        despite="worked out again together",
    )
    job = told.job
    assert [awaited(job, key) for key in FIGURES] == [False, True, True, True, True]
    (open_one,) = job.open_exceptions()
    assert "99 bbl" in open_one.what
