"""A joint seen going down, by hand-made hook loads and block positions."""

from __future__ import annotations

import pytest

from tally.feeds.rig_lowering import Lowered, LoweringWatch, is_item

BLOCKS, STRING = 170e3, 600e3
"""[N]"""


def watched(*taken: tuple[float, float, float]) -> list[Lowered]:
    """Feed (seconds, load over the blocks as a share of the string, block position [m])."""
    watch = LoweringWatch()
    seen = [
        watch.take(at, BLOCKS + share * STRING, block, blocks=BLOCKS, string=STRING)
        for at, share, block in taken
    ]
    return [each for each in seen if each]


def joint(start: float, top: float = 15.0, bottom: float = 2.6) -> list[tuple[float, float, float]]:
    """In slips, picked up, lowered in 20 s, set."""
    down = [(start + 5 + n, 0.97, top - (top - bottom) * n / 20) for n in range(21)]
    return [
        (start, 0.02, top - 0.1),
        (start + 3, 0.3, top - 0.05),
        *down,
        (start + 26, 0.05, bottom),
    ]


def test_a_joint_is_timed_from_slips_out_to_slips_set():
    (seen,) = watched(*joint(100.0))
    assert (seen.began, seen.ended, seen.seconds) == (105.0, 126.0, 21.0)
    assert seen.way == pytest.approx(12.4)
    assert is_item(seen, 12.4)
    assert is_item(seen, 11.5)
    assert not is_item(seen, 9.0)


def test_each_joint_is_seen_once():
    assert len(watched(*joint(0.0), *joint(100.0), *joint(200.0))) == 3


def test_the_block_going_up_with_the_string_on_it_is_no_joint_down():
    up = [(at, share, 30 - block) for at, share, block in joint(0.0)]
    assert watched(*up) == []


def test_what_hangs_already_when_the_stream_begins_is_not_timed():
    assert watched(*joint(0.0)[4:]) == []


def test_a_gap_of_the_stream_ends_what_was_begun():
    first, later = (
        joint(0.0)[:10],
        [(at + 60, share, block) for at, share, block in joint(0.0)[10:]],
    )
    assert watched(*first, *later) == []


def test_the_empty_block_coming_down_is_no_joint_down():
    assert watched(*[(at, min(share, 0.05), block) for at, share, block in joint(0.0)]) == []


def test_a_string_of_no_weight_is_not_watched():
    watch = LoweringWatch()
    for at, _share, block in joint(0.0):
        assert watch.take(at, BLOCKS, block, blocks=BLOCKS, string=0.0) is None
