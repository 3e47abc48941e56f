"""The headline of the plugs page shows a figure only once the second person has given theirs."""

from __future__ import annotations

from screens.widgets.displaced import bump_headline
from tests.tally.job.invented import CEMENTER, REP, conditioned, landed, loaded

NOW = "2026-05-02T09:00:00+02:00"


def headline(job: object) -> str:
    return bump_headline(job, NOW, 80)[0].plain.rstrip()  # type: ignore[arg-type]


def test_each_of_the_two_figures_is_shown_once_it_was_given() -> None:
    told = loaded(conditioned(landed()))
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    assert headline(told.job) == (
        "DISPLACEMENT, HEAD TO COLLAR   hidden until the second person gives theirs"
    )
    told.does("plug-release", "volumes-agreed", by=REP, value="30.0 bbl", witness=CEMENTER)
    assert headline(told.job) == (
        "DISPLACEMENT, HEAD TO COLLAR 30.0 bbl   strokes: the second person first"
    )
    told.does("plug-release", "strokes-agreed", by=REP, value="299")
    assert headline(told.job) == "DISPLACEMENT, HEAD TO COLLAR 30.0 bbl   299 strokes"
