"""The programme fills pocket, shoe track and annulus to the last drop, or says why it cannot."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.cement.programme import (
    Placed,
    Room,
    Wanted,
    behind_plug,
    programme,
)
from tally.errors import DomainError
from tally.hole.sections import Hole, HoleSection
from tally.pipe.interval import PipeInterval

OUTER, INNER = 0.2445, 0.2205
PIPE = (PipeInterval(-1.0, 1500.0, OUTER, INNER, 70.0),)


def room(excess: float = 0.0, bottom: float = 1510.0) -> Room:
    hole = Hole(
        [
            HoleSection(0.0, 800.0, 0.315, cased=True),
            HoleSection(800.0, 30_000.0, 0.311, excess=excess),
        ]
    )
    return Room(hole, PIPE, 1475.0, 1500.0, bottom)


def ring(wide: float) -> float:
    return pi / 4 * (wide**2 - OUTER**2)


def test_volumes_by_hand_with_the_excess_on_the_annulus() -> None:
    made = programme(room(0.2), [Wanted("tail", "slurry", top=1000.0)])
    (tail,) = made.placed
    track, pocket = pi / 4 * INNER**2 * 25, pi / 4 * 0.311**2 * 10 * 1.2
    assert tail.volume == pytest.approx(500 * ring(0.311) * 1.2 + track + pocket)
    assert tail.within == pytest.approx(track + pocket)
    assert made.above == pytest.approx(200 * ring(0.311) * 1.2 + 800 * ring(0.315))


def test_lead_stands_on_tail_and_spacer_on_lead() -> None:
    made = programme(
        room(),
        [
            Wanted("spacer", "spacer", contact=600.0, rate=0.01),
            Wanted("lead", "slurry", length=400.0),
            Wanted("tail", "slurry", top=1200.0),
        ],
    )
    spacer, lead, tail = made.placed
    assert (lead.top, lead.bottom, tail.top, tail.bottom) == (800.0, 1200.0, 1200.0, 1500.0)
    assert spacer.volume == pytest.approx(6.0)
    assert spacer.bottom == 800.0
    assert spacer.length == pytest.approx(6.0 / ring(0.315))
    assert made.cement_top == 800.0
    assert made.slurry == pytest.approx(lead.volume + tail.volume)
    assert made.ahead == pytest.approx(6.0)


def test_a_spacer_that_finds_no_room_comes_out_at_the_top() -> None:
    made = programme(
        room(), [Wanted("spacer", "spacer", volume=5.0), Wanted("tail", "slurry", top=20.0)]
    )
    (spacer, _) = made.placed
    assert spacer.out == pytest.approx(5.0 - 20 * ring(0.315))
    assert (spacer.top, made.above) == (0.0, 0.0)


REFUSED = [
    ([Wanted("tail", "slurry", top=1501.0)], "The top of the tail, 1501 m, lies below 1500 m"),
    ([Wanted("tail", "slurry", length=1501.0)], "The tail would reach 1 m above the datum"),
    ([Wanted("tail", "slurry", volume=1.0)], "1 m3 of tail does not fill the shoe track and"),
    ([Wanted("tail", "slurry", volume=90.0)], "more than there is room for"),
    ([Wanted("tail", "slurry")], "How much tail is wanted is not said"),
    ([Wanted("tail", "slurry", contact=60.0)], "The tail has a contact time but no rate"),
    ([], "The programme has no slurry to end with"),
    ([Wanted("wash", "spacer", volume=1.0)], "The programme has no slurry to end with"),
]  # fmt: skip


@pytest.mark.parametrize(("fluids", "said"), REFUSED)
def test_what_cannot_be_is_told(fluids: list[Wanted], said: str) -> None:
    with pytest.raises(DomainError, match=said):
        programme(room(), fluids)


def test_depths_that_do_not_follow_one_another_are_refused() -> None:
    with pytest.raises(DomainError, match="do not follow one another"):
        Room(room().hole, PIPE, 1510.0, 1500.0, 1510.0)


def test_what_is_behind_the_plug_adds_up_to_the_displacement() -> None:
    water, mud = Wanted("water", "displacement", volume=3.0), Wanted("mud", "displacement")
    assert behind_plug(60.0, [water, mud]) == (("water", 3.0), ("mud", 57.0))
    with pytest.raises(DomainError, match="more than the displacement"):
        behind_plug(2.0, [water, mud])
    with pytest.raises(DomainError, match="Two fluids behind the plug"):
        behind_plug(60.0, [mud, mud])


amounts = st.one_of(
    st.fixed_dictionaries({"volume": st.floats(0.0, 6.0)}),
    st.fixed_dictionaries({"length": st.floats(0.0, 150.0)}),
    st.fixed_dictionaries({"contact": st.floats(0.0, 600.0), "rate": st.floats(0.001, 0.01)}),
)
fluids = st.lists(st.tuples(st.sampled_from(("preflush", "spacer", "slurry")), amounts), max_size=4)


@settings(max_examples=80, deadline=None)
@given(drawn=fluids, tail=st.floats(50.0, 600.0), excess=st.floats(0.0, 1.0), pocket=st.booleans())
def test_the_volumes_sum_to_the_room_there_is(
    drawn: list[tuple[str, dict[str, float]]], tail: float, excess: float, pocket: bool
) -> None:
    where = room(excess, 1510.0 if pocket else 1500.0)
    wanted = [Wanted(f"{n}", kind, **how) for n, (kind, how) in enumerate(drawn)]
    made = programme(where, [*wanted, Wanted("tail", "slurry", length=tail)])
    stays = sum(each.volume - each.out for each in made.placed)
    assert stays + made.above == pytest.approx(where.volume, rel=1e-9)
    for ahead, after in zip(made.placed, made.placed[1:], strict=False):
        assert ahead.bottom == after.top
    assert all(_holds(where, each) for each in made.placed)


def _holds(where: Room, each: Placed) -> bool:
    around = where.annulus(each.top, each.bottom)
    return abs(around + each.within + each.out - each.volume) < 1e-6
