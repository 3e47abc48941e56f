"""From the plug's release to the bump."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.cement.displacement import displacement_to_collar, share_of_shoe_track, strokes_to_bump
from tally.errors import DomainError
from tally.pipe.capacity import pipe_capacity, pipe_volume

LENGTHS = st.floats(0.0, 10_000.0)
HEADS = st.floats(0.0, 5.0)


@given(bore=st.floats(0.05, 0.6), length=LENGTHS, head=HEADS)
def test_displacement_is_the_pipe_full_and_the_head(bore, length, head):
    got = displacement_to_collar(length, pipe_capacity(bore), head)
    assert got == pytest.approx(pipe_volume(bore, length) + head)


@given(displacement=st.floats(0.0, 500.0), share=st.floats(0.0, 1.5), stroke=st.floats(0.005, 0.05))
def test_strokes_left_and_strokes_done_are_the_strokes_in_all(displacement, share, stroke):
    in_all, _ = strokes_to_bump(displacement, stroke)
    strokes, left = strokes_to_bump(displacement, stroke, displacement * share)
    assert strokes * stroke == pytest.approx(left, abs=1e-9)
    assert strokes + displacement * share / stroke == pytest.approx(in_all)


def test_past_the_bump_counts_below_zero():
    strokes, left = strokes_to_bump(40.0, 0.016, 40.8)
    assert strokes == pytest.approx(-50)
    assert left == pytest.approx(-0.8)


def test_share_of_the_shoe_track_may_exceed_it():
    assert share_of_shoe_track(0.5, 1.0) == 0.5
    assert share_of_shoe_track(1.5, 1.0) == 1.5


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: displacement_to_collar(-1.0, 0.04), "Length -1 m"),
        (lambda: displacement_to_collar(100.0, 0.04, 5.1), "Head volume 5.1 m3"),
        (lambda: displacement_to_collar(100.0, 2.0), "Capacity 2 m3/m"),
        (lambda: strokes_to_bump(40.0, 0.0), "Volume of a stroke 0 m3"),
        (lambda: strokes_to_bump(40.0, 0.016, -1.0), "Volume -1 m3"),
        (lambda: share_of_shoe_track(1.0, 0.0), "Shoe track 0 m3"),
        (lambda: share_of_shoe_track(-1.0, 1.0), "Volume past the bump -1 m3"),
    ],
)
def test_out_of_range_is_refused(call, said):
    with pytest.raises(DomainError, match=said):
        call()
