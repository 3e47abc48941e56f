"""Slurry for a plain string, the height that it reaches, and the film ahead of the plug."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.cement.slurry_volume import cement_height, film_ahead_of_plug, slurry_volume
from tally.errors import DomainError
from tally.pipe.capacity import pipe_volume

EXCESS = st.floats(0.0, 2.0)
SIZES = (0.311, 0.2445, 0.2205)


@given(st.floats(0, 3000), EXCESS, st.floats(0, 2000), st.floats(0, 30), st.floats(0, 10))
def test_the_parts_make_the_whole(length, excess, cased, track, pocket):
    whole, *parts = slurry_volume(*SIZES, length, excess, 0.32, cased, track, pocket, 0.1, 0.2)
    assert whole == pytest.approx(sum(parts))
    gauge, *bare = slurry_volume(*SIZES, length, 0.0, 0.32, cased, track, pocket)
    assert parts == pytest.approx([bare[0] * (1 + excess), bare[1], bare[2] * 1.2, bare[3] * 1.1])
    assert gauge <= whole + 1e-12


def test_a_string_without_previous_casing_needs_none_named():
    whole, in_open, in_cased, *_ = slurry_volume(*SIZES, 500.0, 0.5)
    assert whole == in_open
    assert in_cased == 0


@given(st.floats(1, 3000), EXCESS, st.floats(0, 30))
def test_the_height_is_the_length_that_the_volume_was_for(length, excess, track):
    whole, _, _, in_track, _ = slurry_volume(*SIZES, length, excess, 0.32, 0.0, track)
    height = cement_height(whole, *SIZES[:2], excess, in_track)
    assert height == pytest.approx(length)


@given(st.floats(0.1, 0.5), st.floats(0.0, 0.02), st.floats(1, 5000))
def test_film_and_bore_left_make_the_pipe(bore, film, length):
    filled, volume = film_ahead_of_plug(bore, film, length)
    assert volume + pipe_volume(bore - 2 * film, length) == pytest.approx(pipe_volume(bore, length))
    assert pipe_volume(bore, filled) == pytest.approx(volume)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: slurry_volume(*SIZES, 500.0, -0.1, 0.32), "Excess -0.1"),
        (lambda: slurry_volume(*SIZES, 500.0, 0.1, 0.32, track_excess=-1), "Excess of the shoe"),
        (lambda: slurry_volume(*SIZES, 500.0, 0.1, 0.24), "is not less than the hole diameter"),
        (lambda: slurry_volume(*SIZES, 500.0, 0.1, 0.0, 50.0), "Hole diameter 0 m"),
        (lambda: cement_height(1.0, *SIZES[:2], 0.0, 1.2), "top of cement is below the shoe"),
        (lambda: film_ahead_of_plug(0.22, 0.03, 100.0), "Film 0.03 m"),
    ],
)
def test_what_cannot_be_is_told(call, said):
    with pytest.raises(DomainError) as told:
        call()
    assert said in str(told.value)
