"""The standoff of the string of a job, and where its centralizers sit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tally.errors import DomainError, Missing
from tally.job.centralizing import centralizer_of, kind_of, places
from tally.job.entries.running import ItemRun
from tally.job.job import Fitting, Job
from tally.job.setup import CentralizerLoad
from tally.job.standoff import (
    density_inside,
    heaviest_slurry,
    joint_standoffs,
    open_rows,
    programmed_profile,
    standoff_profile,
)
from tally.string.centralizer import Rigid
from tally.string.standoff import Centring
from tally.units import read
from tests.tally.job.centred import BOW, BOW_NAME, ON_IT, RIGID, SLURRY, centred, runs_with
from tests.tally.job.invented import ORDER, running

INCH, FOOT, LBF = 0.0254, 0.3048, 4.4482216152605


def line(deflection: str, load: str, what: str = BOW_NAME) -> CentralizerLoad:
    return CentralizerLoad(
        what=what, deflection=read(deflection, "length"), load=read(load, "force")
    )


def lacks(job: Job) -> str:
    with pytest.raises(Missing) as missing:
        standoff_profile(job)
    return str(missing.value)


def test_each_joint_keeps_its_place_at_the_casing_point_while_others_are_run() -> None:
    some = standoff_profile(runs_with(numbers=ORDER[:8]).job)
    whole = standoff_profile(runs_with().job)
    assert [row.bottom for row in some.rows] == [row.bottom for row in whole.rows][: len(some.rows)]
    first = 486 - (1.95 + 40.07 / 2)
    assert whole.rows[0].bottom == pytest.approx(first * FOOT)


def test_a_joint_run_over_others_is_only_added(monkeypatch: pytest.MonkeyPatch) -> None:
    told = runs_with(numbers=ORDER[:8])
    standoff_profile(told.job)
    added: list[object] = []
    add = Centring.add

    def adding(self: Centring, *given: Any) -> None:
        added.append(given)
        add(self, *given)

    monkeypatch.setattr(Centring, "add", adding)
    job = told.says(ItemRun, number=ORDER[8], fittings=ON_IT, despite="as told")
    grown = standoff_profile(job)
    assert len(added) == 1
    again = replace(job, setup=replace(job.known))
    assert standoff_profile(again) == grown
    assert len(added) == 1 + 9


def test_what_was_corrected_below_is_worked_out_anew() -> None:
    plan = centred()
    first = runs_with(plan=plan).job
    standoff_profile(first)
    other = runs_with({"3": (Fitting("rigid centralizer"),)}, plan=plan).job
    assert other.setup is first.setup
    assert max(row.at_top for row in standoff_profile(other).rows) == pytest.approx(2.375 / 2.625)


def test_a_job_that_lacked_something_halfway_leaves_nothing_behind() -> None:
    plan = centred()
    lacking = runs_with({"5": (Fitting("odd centralizer"), *ON_IT)}, plan=plan).job
    assert lacks(lacking).startswith('The centralizer data in the job set-up has no "odd centr')
    assert standoff_profile(runs_with(plan=plan).job) == standoff_profile(runs_with().job)


def test_another_set_up_is_another_string() -> None:
    job = runs_with().job
    heavy = standoff_profile(job)
    mud = standoff_profile(replace(job, setup=replace(job.known, fluids=())))
    assert all(one.least < other.least for one, other in zip(heavy.rows, mud.rows, strict=True))


def test_the_heaviest_slurry_stands_inside_where_one_is_heavier_than_the_mud() -> None:
    light = replace(SLURRY, name="lead", density=read("12.5 lb/gal", "density"))
    spacer = replace(SLURRY, name="spacer", kind="spacer", density=read("17 lb/gal", "density"))
    unknown = replace(SLURRY, name="cap", density=None)
    plan = centred(fluids=(spacer, light, SLURRY, unknown))
    assert heaviest_slurry(plan) is SLURRY
    foam = replace(SLURRY, density=read("9 lb/gal", "density"))
    for fluids in ((), (unknown,), (foam,)):
        alone = centred(fluids=fluids)
        assert heaviest_slurry(alone) is None
        assert density_inside(alone) == alone.pumping.mud_weight.value


def test_a_table_wins_over_the_restoring_force_and_names_do_not_mind_capitals() -> None:
    plan = centred(
        centralizer_loads=(
            line("0.4 in", "3000 lbf", "Bow  Centralizer"),
            line("0.2 in", "1000 lbf"),
            line("0.1 in", "9000 lbf", "rigid centralizer"),
        )
    )
    kind = kind_of(plan, "BOW centralizer")
    assert kind is BOW
    bow = centralizer_of(plan, BOW, plan.pipes[0])
    assert not isinstance(bow, Rigid)
    assert bow.deflection(2000 * LBF) == pytest.approx(0.3 * INCH)
    assert isinstance(centralizer_of(plan, RIGID, plan.pipes[0]), Rigid)
    assert kind_of(plan, "scratcher") is None


@pytest.mark.parametrize(
    ("position", "share"),
    [
        ("mid-joint", 0.5),
        ("", 0.5),
        ("on a stop collar", 0.5),
        ("over the coupling", 1.0),
        ("10 ft above the pin", 0.25),
        ("1 ft from the pin", 0.025),
        ("10  FT below the coupling", 0.75),
        ("60 ft above the pin", 1.0),
        ("60 ft below the coupling", 0.0),
        ("a little above the pin", 0.5),
        ("just below the coupling", 1.0),
    ],
)
def test_centralizers_sit_where_their_position_says(position: str, share: float) -> None:
    plan = centred()
    bow = centralizer_of(plan, BOW, plan.pipes[0])
    ((found, held),) = places([(Fitting(BOW_NAME, position), bow)], 40 * FOOT)
    assert found == pytest.approx(share)
    assert held is bow


def test_several_are_spread_over_the_joint_and_scratchers_do_not_count() -> None:
    plan = centred()
    bow = centralizer_of(plan, BOW, plan.pipes[0])
    both = [(Fitting(BOW_NAME, count=2), bow), (Fitting("scratcher", count=3), None)]
    assert places(both, 12.0) == [(0.25, bow), (0.75, bow)]


def test_what_the_programme_would_give_is_worked_out_on_what_is_run() -> None:
    bare = dict.fromkeys(("4", "5", "8"), ())
    job = runs_with(bare).job
    installed, programmed = standoff_profile(job), programmed_profile(job)
    assert installed.centralizers == 9
    assert programmed.centralizers == 12
    assert programmed.rows == standoff_profile(runs_with().job).rows
    assert min(row.least for row in installed.rows) < min(row.least for row in programmed.rows)


def test_only_what_will_lie_in_open_hole_is_judged() -> None:
    job = runs_with().job
    profile = standoff_profile(job)
    middles = [(row.top + row.bottom) / 2 / FOOT for row in open_rows(job, profile)]
    assert min(middles) > 120
    assert 0 < len(middles) < len(profile.rows)
    worst = joint_standoffs(job, profile)
    # the joints from the shoe up to the one over the last such length
    assert len(worst) == len(middles) + 1
    assert worst[0] == profile.rows[0].least
    assert worst[3] == min(profile.rows[2].least, profile.rows[3].least)
    few = runs_with(numbers=ORDER[:1]).job
    assert lacks(few) == (
        "Fewer than two centralizers are installed; standoff is worked out from one to the next."
    )


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"survey": ()}, "No survey is in the job set-up; in a vertical hole nothing leans"),
        ({"centralizers": ()}, "No centralizer data is in the job set-up; type kind"),
        ({"centralizers": (RIGID,)}, 'The centralizer data in the job set-up has no "bow centr'),
        (
            {"centralizers": (replace(BOW, restoring_force=None),)},
            'The bow "bow centralizer" has neither a table of load and deflection nor a restoring',
        ),
        (
            {"centralizers": (replace(BOW, outer_diameter=read("9 in", "diameter")),)},
            None,
        ),
    ],
)
def test_what_lacks_or_does_not_hold_is_said(
    changed: dict[str, object], sentence: str | None
) -> None:
    job = runs_with(plan=centred(**changed)).job
    if sentence is None:
        with pytest.raises(
            DomainError, match=r'^"bow centralizer" in the centralizer data: The cen'
        ):
            standoff_profile(job)
    else:
        said = lacks(job)
        assert said.startswith(sentence)
        assert said.endswith(".")


def test_nothing_run_is_said() -> None:
    assert lacks(running(plan=centred()).job) == "Nothing is run yet."
