"""The block of ten: which items carry a number, and what stands below."""

from __future__ import annotations

from screens.widgets.block import blocks
from tally.job.setup import Planned
from tests.screens.books import Story, setup


def rows_of(order: tuple[str, ...], *items: Planned) -> list[list[str]]:
    """Return the words of each row of a string run in an order."""
    story = Story()
    story.starts(setup(items=items, order=order, programme=(), limits={}), 3)
    story.runs(len(order))
    return [each.plain.split() for each in blocks(story.job, 72, 16)]


def test_a_pup_has_its_number_and_a_shoe_without_one_is_named_once():
    shoe = Planned(number="shoe", kind="shoe", length=195, typed="1.95")
    pup = Planned(number="P1", kind="pup", length=1004, typed="10.04")
    rows = rows_of(("shoe", "1", "P1", "2"), shoe, pup)
    assert ["pup", "P1", "10.04"] in [row[:3] for row in rows]
    assert ["shoe", "1.95", "1.95"] in [row[:3] for row in rows]


def test_one_joint_is_not_joints():
    shoe = Planned(number="S1", kind="shoe", length=195, typed="1.95")
    assert rows_of(("S1", "1"), shoe)[-1][:4] == ["so", "far", "1", "joint"]
