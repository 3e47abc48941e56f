"""Plugs go with the fluid behind them; what comes back at the float check is told in words."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.cement.bump_band import bump_band
from tally.cement.floats import (
    COMPRESSION,
    HOLDING,
    U_TUBE,
    UNSETTLED,
    back_flow,
    bore_swelling,
    plug_depth,
    swelling,
    weakest,
)
from tally.cement.materials_needed import needed
from tally.errors import DomainError
from tally.pipe.interval import PipeInterval, inside_volume

PIPE = (
    PipeInterval(-1.0, 600.0, 0.2445, 0.2205, 70.0),
    PipeInterval(600.0, 1475.0, 0.2445, 0.2168, 80.0),
)


@settings(max_examples=60)
@given(behind=st.floats(0.2, 80.0))
def test_a_plug_stands_on_the_volume_behind_it(behind: float) -> None:
    depth = plug_depth(PIPE, 0.2, behind)
    assert depth is not None
    all_of_it = inside_volume(PIPE, -1.0, 1475.0)
    assert inside_volume(PIPE, -1.0, depth) == pytest.approx(min(all_of_it, behind - 0.2), abs=1e-9)


def test_a_plug_in_the_head_is_nowhere_in_the_pipe() -> None:
    assert plug_depth(PIPE, 0.2, 0.1) is None
    assert plug_depth((), 0.0, 1.0) is None


def test_a_thin_pipe_swells_as_a_membrane_does() -> None:
    outer, inner, pressure, steel = 0.3, 0.299, 1e6, 206e9
    wall, middle = (outer - inner) / 2, (outer + inner) / 4
    membrane = 2 * pressure * middle / (wall * steel)
    assert bore_swelling(outer, inner, pressure, steel) == pytest.approx(membrane, rel=0.01)
    with pytest.raises(DomainError, match="Pressure"):
        bore_swelling(outer, inner, 3e8)


def test_the_swelling_of_a_string_is_that_of_its_pieces_down_to_a_depth() -> None:
    upper = pi / 4 * 0.2205**2 * 601 * bore_swelling(0.2445, 0.2205, 1e7)
    lower = pi / 4 * 0.2168**2 * 400 * bore_swelling(0.2445, 0.2168, 1e7)
    assert swelling(PIPE, 1e7, 1000.0) == pytest.approx(upper + lower)
    assert swelling(PIPE, 1e7, -1.0) == 0


@pytest.mark.parametrize(
    ("back", "flows_on", "verdict", "says"),
    [
        (0.40, False, COMPRESSION, "the floats hold"),
        (0.20, False, COMPRESSION, "pressure that is still kept on"),
        (0.20, True, COMPRESSION, "go on measuring"),
        (0.60, False, HOLDING, "the floats hold now"),
        (0.60, True, U_TUBE, "the floats do not hold"),
        (0.40, None, COMPRESSION, "go on measuring"),
        (0.60, None, UNSETTLED, "see whether it stops"),
    ],
)
def test_what_comes_back_has_a_meaning(
    back: float, flows_on: bool | None, verdict: str, says: str
) -> None:
    meaning = back_flow(back, 0.4, 0.1, flows_on=flows_on)
    assert meaning.verdict == verdict
    assert meaning.beyond == pytest.approx(back - 0.4)
    assert says in meaning.means


def test_the_weakest_governs_and_what_is_not_rated_is_named() -> None:
    found = weakest([("tested line", 24e6), ("head", None), ("plugs", 20e6), ("collar", None)])
    assert found is not None
    assert (found.name, found.pressure, found.unrated) == ("plugs", 20e6, ("head", "collar"))
    assert weakest([("head", None)]) is None


def test_the_band_around_the_bump_by_hand() -> None:
    early, late, squeezed = bump_band(95.0, 0.1, 0.01, 0.005, 4.4e-10, 7e6)
    assert early == pytest.approx(0.95 + 94.9 * 0.005)
    assert squeezed == pytest.approx(4.4e-10 * 95 * 7e6)
    assert late == pytest.approx(early + squeezed)
    with pytest.raises(DomainError, match="Efficiency of the pump, tolerance"):
        bump_band(95.0, 0.1, 0.3, 0.0, 0.0, 0.0)


def test_sacks_are_whole_and_the_tanks_hold_reserve_and_dead_volume() -> None:
    made = needed(10.01, 0.04, 0.02, 0.021, (("retarder", 0.1),), 0.1, 2.0)
    assert made.sacks == 251
    assert made.exact == pytest.approx(250.25)
    assert made.water == pytest.approx(250.25 * 0.02)
    assert made.tanks == pytest.approx(250.25 * 0.021 * 1.1 + 2)
    assert [name for name, _ in made.additives] == ["retarder"]
    assert made.additives[0][1] == pytest.approx(25.025)
    with pytest.raises(DomainError, match="Reserve"):
        needed(1.0, 0.04, 0.02, 0.02, (), -0.1)
