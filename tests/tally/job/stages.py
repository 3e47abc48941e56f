"""Books of the invented job at its stages, for random acts to begin from."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from tally.book.standing import Standing, begun
from tally.job.entries.people import PinSet
from tally.job.pins import Pin
from tally.job.setup import Setup
from tally.steps.reading import shipped
from tests.tally.job.invented import (
    REP,
    Telling,
    landed,
    pumping,
    pumping_down,
    ready_to_pump,
    setup,
)

ON_CALL = ("stopped-while-mixing", "floats-leak")

LISTS = {plan.id: plan for plan in shipped() if not plan.on_call or plan.id in ON_CALL}


@cache
def begun_at(bottom_plugs: int, stage: str, pins: tuple[str, ...]) -> Standing:
    """Return a book at some stage of the job; some people have a PIN."""
    plan = setup(pumping=pumping(bottom_plugs=bottom_plugs))
    told = STAGES[stage](plan)
    told.takes(*(one for one in LISTS.values() if one.id not in told.job.lists))
    for name in pins:
        told.says(PinSet, name=name, pin=Pin(salt="00", digest="invented"))
    standing = begun("any people")
    for entry in told.entries:
        _, standing = standing.next(entry)
    return standing


def _made_up(plan: Setup) -> Telling:
    return Telling().starts(plan).runs("S1", "1", "2", "C1")


def _slurry(told: Telling) -> Telling:
    """Start the slurry with the bottom plug still in the head, and whatever else is not done."""
    return told.does("plug-release", "first-slurry", despite="no time left", second=REP)


def _bumped(told: Telling) -> Telling:
    """Seat the plug by one key, and bleed back."""
    told.does("plug-release", "displacement-started").does("plug-release", "bumped")
    return told.does("plug-release", "bled-back", value="0.5 bbl", despite="as seen")


STAGES: dict[str, Callable[[Setup], Telling]] = {
    "shoe track made up": _made_up,
    "on depth": landed,
    "ready to pump": ready_to_pump,
    "slurry going down": lambda plan: _slurry(ready_to_pump(plan)),
    "slurry going down in a hurry": lambda plan: _slurry(landed(plan)),
    "pumping down": pumping_down,
    "bumped, and nobody has confirmed it": lambda plan: _bumped(pumping_down(plan)),
}
