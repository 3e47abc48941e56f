"""The invented crew's entries with what the rig's stream says in the place of what they typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tally.feeds.rig_watch import NoOffer, Offer
from tally.job.entries.mixing import MixRead
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepDone
from tally.job.entries.watching import TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import Entry
from tally.job.origin import TYPED, Origin
from tally.units import read

Ask = Callable[[str], Offer | NoOffer]
"""Asks the stream for the value of a use."""

PRESSURE, RATE = ("cement pressure", "standpipe pressure"), ("cement rate", "flow in")
STEPS = {
    "circulation-started": ("flow rate", ("flow in",)),
    "rate-raised": ("flow rate", ("flow in",)),
    "circulating-pressure": ("pressure", ("standpipe pressure",)),
    "line-test": ("pressure", PRESSURE),
    "diaphragm-gave-way": ("pressure", PRESSURE),
    "slowed": ("flow rate", RATE),
    "pressure-before-bump": ("pressure", PRESSURE),
    "bump-pressure": ("pressure", PRESSURE),
}
"""The steps at which a gauge is read that the stream has."""
FIELDS: dict[type[Entry], dict[str, tuple[str, tuple[str, ...]]]] = {
    TankRead: {"volume": ("volume", ("trip tank",))},
    WeightRead: {"slack_off": ("force", ("hook load",))},
    MixRead: {"gauge": ("density", ("cement density",))},
    Pumped: {
        "tank": ("volume", ("volume pumped",)),
        "strokes": ("", ("strokes",)),
        "pressure": ("pressure", PRESSURE),
        "rate": ("flow rate", RATE),
    },
}
"""The fields of the entries that the stream fills in, with their quantity and its uses."""


def by_the_rig(entry: Entry, ask: Ask) -> Entry:
    """Return the entry as it is made with the stream: read where it has the value, else typed."""
    fields = FIELDS.get(type(entry), {})
    if isinstance(entry, StepDone) and entry.step_id in STEPS and entry.value:
        fields = {"value": STEPS[entry.step_id]}
    changed: dict[str, Any] = {}
    origins: list[Origin] = []
    for name, (quantity, roles) in fields.items():
        if getattr(entry, name) is None:
            continue
        offer = next((one for role in roles if isinstance(one := ask(role), Offer)), None)
        if offer is None:
            origins.append(Origin(name, TYPED))
            continue
        changed[name] = _as_kept(entry, quantity, offer.text)
        origins.append(offer.origin(name))
    return replace(entry, origins=tuple(origins), **changed) if origins else entry


def _as_kept(entry: Entry, quantity: str, text: str) -> Any:
    if not quantity:
        return int(text)
    measure = read(text, quantity)
    return measure.text if isinstance(entry, StepDone) else measure
