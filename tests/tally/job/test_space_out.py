"""The space-out of a job: what it asks, and what a proposal makes of the running list."""

from dataclasses import replace
from typing import Any

import pytest

from tally.errors import Missing
from tally.job.depths import joints_to_go
from tally.job.entries.rack import OrderSet
from tally.job.job import Job
from tally.job.running_list import current, drafted, slots
from tally.job.setup import KeepClear, Planned, SpaceOut
from tally.job.space_out import asked, proposals, why_nothing_fits, wish_line
from tally.units import read
from tests.tally.job.invented import assert_plain, landed, length_of, running, setup


def feet(text: str) -> Any:
    """Return a length in feet."""
    return read(f"{text} ft", "length")


def planned(number: str, kind: str, length: int) -> Planned:
    """Return an item that is no joint."""
    return Planned(number=number, kind=kind, length=length, typed=f"{length / 100}")


PUPS = (planned("P1", "pup", 410), planned("P2", "pup", 605))
TOP = (planned("H1", "hanger", 150), planned("L1", "landing joint", 2400))


def job(*run: str, items: tuple[Planned, ...] = (), clear: Any = (), **wishes: Any) -> Job:
    """Return a job of twelve joints to a hole of 520 ft, with more items and wishes."""
    plan = setup()
    point = replace(plan.hole, casing_point=feet("400"), depth=feet("430"))
    plan = replace(plan, items=(*plan.items, *items), hole=point, keep_clear=clear)
    return running(*run, plan=replace(plan, space_out=SpaceOut(**wishes))).job


def test_the_question_is_that_of_the_job() -> None:
    spaced = asked(job("S1", "1", items=(*PUPS, *TOP), pocket_band=feet("5")))
    question = spaced.question
    assert (question.hole, question.run) == (43000, 195 + length_of(1))
    assert question.couplings == (195, 195 + length_of(1))
    assert (question.pocket.wanted, question.pocket.low, question.pocket.high) == (3000, 2500, 3500)
    assert (question.stick_up.low, question.stick_up.high) == (322, 322)
    assert [each.number for each in question.joints] == ["2", "C1", *map(str, range(3, 13))]
    assert [each.number for each in question.joints if each.must] == ["C1"]
    assert [each.number for each in question.pups] == ["P1", "P2"]
    assert (question.top, spaced.top) == ((150, 2400), ("H1", "L1"))


def test_a_hang_off_depth_is_wanted_as_a_stick_up() -> None:
    spaced = asked(job(items=TOP, hang_off=feet("20"), stick_up_band=feet("1")))
    wish = spaced.question.stick_up
    assert (wish.wanted, wish.low, wish.high) == (2400 - 2000, 300, 500)


def test_what_is_wanted_and_what_a_choice_gives_tell_the_hang_off_depth() -> None:
    told = job("S1", items=TOP, hang_off=feet("20"), stick_up_band=feet("1"), pocket_band=feet("9"))
    spaced = asked(told)
    assert "hang-off depth 20.00 (19.00 to 21.00)" in wish_line(told, spaced.question)
    assert "stick-up" not in wish_line(told, spaced.question)
    for one in proposals(spaced):
        # The landing joint of 24.00 ft stands above the hanger, the stick-up of it above the datum.
        assert spaced.hang_off(one) == 2400 - one.stick_up
        assert 1900 <= spaced.hang_off(one) <= 2100
    assert asked(job("S1")).hang_off(proposals(asked(job("S1", pocket_band=feet("9"))))[0]) is None


def test_a_proposal_becomes_the_running_list() -> None:
    told = job("S1", items=(*PUPS, *TOP), pocket_band=feet("5"), stick_up_band=feet("1"))
    spaced = asked(told)
    best = proposals(spaced)
    assert best
    for one in best:
        draft = spaced.listed(told, one)
        listed = slots(drafted(told, draft))
        used = [slot for slot in listed if not slot.spare]
        assert used[-1].to_here == one.length
        assert used[-1].item.number == "L1"
        assert sorted(draft.order) == sorted(("S1", "C1", "P1", "P2", "H1", "L1", *_all()))
        assert joints_to_go(drafted(told, draft))[0] == sum(slot.joint > 0 for slot in used)


def _all() -> tuple[str, ...]:
    return tuple(str(number) for number in range(1, 13))


def test_a_string_spaced_out_short_of_the_casing_point_wants_no_more() -> None:
    told = running("S1", plan=job(pocket=feet("66"), pocket_band=feet("2")).setup)
    spaced = asked(told.job)
    short = proposals(spaced)[0]
    assert short.pocket > 3000, "the casing point leaves 30 ft"
    draft = spaced.listed(told.job, short)
    assert joints_to_go(drafted(told.job, draft)) == (len(short.used) - 1, 12 - len(short.used) + 1)
    told.says(
        OrderSet, order=draft.order, length=draft.length, reason="space-out", despite="as told"
    )
    assert current(told.job) == draft
    told.runs(*short.used)
    assert joints_to_go(told.job)[0] == 0
    told.says(OrderSet, order=draft.order, reason="as it was", despite="as told")
    assert joints_to_go(told.job)[0] == 1


def test_what_is_locked_has_to_be_used_and_what_is_aside_is_not() -> None:
    told = job("S1", pocket_band=feet("45"))
    told = replace(
        told, locked=("4",), aside=("5",), order=tuple(n for n in told.order if n != "5")
    )
    question = asked(told).question
    assert {each.number for each in question.joints if each.must} == {"C1", "4"}
    assert "5" not in [each.number for each in question.joints]


@pytest.mark.parametrize("run", [("S1",), ("S1", "1", "M1", "2")])
def test_the_marker_is_counted_run_or_not(run: tuple[str, ...]) -> None:
    marker = planned("M1", "marker", 500)
    plan = setup(order=("S1", "1", "M1", "2", "C1", *map(str, range(3, 13))))
    wishes = SpaceOut(marker=feet("358"), marker_band=feet("10"), pocket_band=feet("45"),
                      stick_up_band=feet("3"))  # fmt: skip
    point = replace(plan.hole, casing_point=feet("400"), depth=feet("430"))
    plan = replace(plan, items=(*plan.items, marker), hole=point, space_out=wishes)
    told = running(*run, plan=plan).job
    found = proposals(asked(told))
    assert found
    for one in found:
        assert one.marker is not None
        below = ("1",) if "1" in (*run, *one.used) else ()
        assert one.marker == one.shoe - 195 - sum(length_of(int(each)) for each in below)
        assert 34800 <= one.marker <= 36800


def test_a_stretch_above_the_datum_is_above_it() -> None:
    slips = KeepClear(name="slips", above=feet("2"), bottom=feet("1"))
    question = asked(job(clear=(slips,), pocket_band=feet("45"))).question
    assert (question.keep_clear[0].top, question.keep_clear[0].bottom) == (-200, 100)
    assert "clear slips -2.00 to 1.00" in wish_line(job(clear=(slips,)), question)


def test_why_nothing_fits_is_a_plain_sentence() -> None:
    told = job("S1", pocket_band=feet("0.01"))
    question = asked(told).question
    assert not proposals(asked(told))
    said = why_nothing_fits(told, question)
    assert_plain(said)
    assert "more room for the pocket" in said


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (lambda: Job(), "not set up"),
        (lambda: landed().job, "on depth"),
        (lambda: job(marker=feet("300")), "no marker is in the running list"),
        (lambda: job(hang_off=feet("30")), "30 ft, but there is no hanger on the rack"),
    ],
)
def test_what_is_missing_is_said(told: Any, said: str) -> None:
    with pytest.raises(Missing, match=said):
        asked(told())
