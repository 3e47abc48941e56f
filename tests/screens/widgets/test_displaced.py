"""The headline of the plugs page shows a figure only once the second person has given theirs."""

from __future__ import annotations

from demo_db.play import entries
from screens.widgets.displaced import bump_headline, float_check_line
from tally.job.fold import fold
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


def test_the_band_stands_beside_the_bump_and_the_float_check_is_told() -> None:
    ended = fold(entries("end"))
    assert float_check_line(ended) == (
        "Float check: 3.1 bbl back, 3.3 bbl expected, compression only. What came back is what "
        "fluid and pipe give, and it has stopped: the floats hold."
    )
    limits = bump_headline(ended, "2026-03-12T18:30:00-06:00", 80)[1].plain.rstrip()
    assert limits == (
        "bump at 597.1 bbl, limit 3.0 bbl past it (N. Haddad); band 593.5 to 602.3 bbl"
    )
    narrow = bump_headline(ended, "2026-03-12T18:30:00-06:00", 70)[1].plain.rstrip()
    assert narrow == "bump at 597.1 bbl, limit 3.0 bbl past it (N. Haddad)"
    assert float_check_line(landed().job) == ""
