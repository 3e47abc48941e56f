"""The equivalent density that governs: now and ahead, against what its depth takes fluid at."""

from dataclasses import replace

import pytest

from screens.dialogs.placing import held
from screens.widgets.placed import placed_lines
from tally.job.fold import fold
from tally.units import read
from tests.screens.demo_books import at, up_to

WORKING = at("17:41:20")


def told(width, weak_at):
    """Return the lines of the demonstration with every depth taking fluid at one density."""
    job = fold(up_to(WORKING))
    weak = None if weak_at is None else read(weak_at, "density")
    setup = job.known
    zones = tuple(replace(zone, weak_at=weak) for zone in setup.zones)
    casings = [replace(each, weak_at=weak) for each in (setup.previous, *setup.other_casings)]
    bare = replace(setup, zones=zones, previous=casings[0], other_casings=tuple(casings[1:]))
    return [each.plain.strip() for each in placed_lines(job.but(setup=bare), width)]


@pytest.mark.parametrize(
    ("weak_at", "words"),
    [
        ("14.6 lb/gal", "takes fluid at 14.6: agrees"),
        ("12.5 lb/gal", "takes fluid at 12.5: outside, still to come"),  # 12.3 now, 12.7 at most
        ("12 lb/gal", "takes fluid at 12.0: outside now"),
        (None, "no density is set at which it takes fluid"),
    ],
)
def test_it_says_what_it_is_outside_of_and_when(weak_at, words):
    lines = told(72, weak_at)
    assert words in lines
    (above,) = [each for each in lines if each.startswith("equivalent density at ")]
    assert " lb/gal now, " in above


def test_where_there_is_room_it_is_one_line():
    (line,) = [each for each in told(150, "14.6 lb/gal") if "equivalent density" in each]
    assert line.endswith("at most; takes fluid at 14.6: agrees")


def test_a_change_says_what_it_held():
    rate, excess = read("9 bbl/min", "flow rate"), read("60 %", "ratio")
    none = {"rate": None, "excess": None, "density": None}
    assert held(none) == ""
    assert held(none | {"rate": rate}) == (
        "Held: what was pumped, volumes still to pump, the hole, densities."
    )
    assert held(none | {"rate": rate, "excess": excess}) == (
        "Held: what was pumped, volumes still to pump, densities."
    )
