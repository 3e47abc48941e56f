"""What stands in the well while the demonstration pumps, beside its own volumes worked by hand."""

from __future__ import annotations

import pytest

from tally.job.fold import fold
from tally.job.placement import live
from tally.job.standing import standing
from tests.screens.demo_books import at, up_to


def test_nothing_stands_before_anything_is_pumped():
    assert standing(fold(up_to(at("03:12:00")))) is None
    assert standing(fold(up_to(at("14:00:00")))) is None


def test_the_plugs_follow_their_fluids():
    job = fold(up_to(at("16:05:00")))
    found = standing(job)
    assert found is not None
    assert found.names == ("spacer", "lead", "tail")
    assert [name for name, _ in found.plugs] == ["bottom plug", "top plug"]
    bottom = dict(found.plugs)["bottom plug"]
    spacer = next(each for each in found.inside if each.name == "spacer")
    lead = next(each for each in found.inside if each.name == "lead")
    assert spacer.bottom >= bottom or lead.bottom == pytest.approx(bottom)


def test_after_the_bump_the_top_plug_is_on_the_collar_and_the_cement_around_the_shoe():
    job = fold(up_to(at("18:30:00")))
    found = standing(job)
    assert found is not None
    assert dict(found.plugs)["top plug"] == pytest.approx(live(job).plan.well.collar, abs=0.5)
    assert (found.outside[-1].name, found.inside[-1].name) == ("tail", "tail")
