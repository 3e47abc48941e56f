"""What the trade wants of the steps, and a sheet of paper they are ticked on: the tests' own model.

It is written down from the trade, not from the lists or the gates: a list or a gate that loses its
order is found out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from tally.job.entry import Entry, to_fields

EVENTS = ("first-slurry", "slurry-away", "top-plug-released", "displacement-started",
          "diaphragm-gave-way", "slowed", "bumped")  # fmt: skip
"""What one key stores from the first slurry to the bump."""

ON_DEPTH = "on depth"

WAITS_FOR: Mapping[str, tuple[str, ...]] = {
    "line-test": ("rigged-up",),
    "volumes-agreed": (ON_DEPTH,),
    "spacer-pumped": (ON_DEPTH, "conditioned", "line-test", "volumes-agreed"),
    "bottom-plug-released": (
        ON_DEPTH, "conditioned", "bottom-plug-loaded", "line-test", "volumes-agreed",
    ),
    "first-slurry": (
        ON_DEPTH, "conditioned", "bottom-plug-released", "line-test", "volumes-agreed",
    ),
    "slurry-away": ("first-slurry",),
    "top-plug-released": ("top-plug-loaded", "slurry-away"),
    "displacement-started": ("top-plug-released",),
    "slowed": ("displacement-started",),
    "bumped": ("top-plug-released",),
    "floats-held": ("bumped", "bled-back"),
}  # fmt: skip

WITNESSED = ("conditioned", "rigged-up", "line-test", "volumes-agreed", "bottom-plug-loaded",
             "top-plug-loaded", "bottom-plug-released", "floats-held", "ready-to-run",
             *EVENTS[:3], "bumped")  # fmt: skip
"""What a second person sees; for an event the witness may come later."""

WANTED = {
    "conditioned": "as the programme asks",
    "rigged-up": "as agreed, lines ready to test",
    "bottom-plug-loaded": "in the lower place, on its pin",
    "top-plug-loaded": "in the upper place, on its pin",
    "bottom-plug-released": "indicator moved",
}
"""What must have been seen, where that is a state."""

ROUTINE = ("spacer-pumped", "displacement-started", "bled-back")
"""What one person may pass over with a reason; what is seen by two stays in sight."""

HOLD_POINTS = ("ready-to-run", "conditioned", "rigged-up", "line-test", "volumes-agreed",
               "bottom-plug-loaded", "top-plug-loaded", "floats-held")  # fmt: skip

_READ = ("on depth", "step done", "step witnessed", "step passed over", "correction")
"""The kinds of entries that change what is on the paper."""


@dataclass(frozen=True)
class Deed:
    """A step on the sheet of paper: who did it, what was seen, who stood by."""

    seq: int
    by: str
    state: str
    witness: str
    told: tuple[int, ...]
    """The entries that say it."""


@dataclass
class Paper:
    """The steps done, by their names, and whether the string is on depth."""

    deeds: dict[str, Deed] = field(default_factory=dict)
    over: dict[str, int] = field(default_factory=dict)
    """The steps passed over, each with its entry."""

    def take(self, line: Mapping[str, Any]) -> None:
        """Write an entry down."""
        kind, name, seq = line["kind"], line.get("step_id", ""), line["seq"]
        if kind == "on depth":
            self.deeds[ON_DEPTH] = Deed(seq, line["by"], "", "", (seq,))
        elif kind == "step done":
            who = line.get("released") or line["by"]
            seen = line.get("state", ""), line.get("witness", "")
            self.deeds[name] = Deed(seq, who, *seen, (seq,))
        elif kind == "step witnessed":
            deed = self.deeds[name]
            state = line.get("state") or deed.state
            witness = line.get("witness", "")
            told = (*deed.told, seq)
            self.deeds[name] = replace(deed, state=state, witness=witness, told=told)
        elif kind == "step passed over":
            self.over[name] = seq

    def lacks(self, what: str, *, event: bool) -> bool:
        """Whether something that is waited for is not done, or not witnessed where it must be."""
        deed = self.deeds.get(what)
        if deed is None:
            return not (what in self.over and what in ROUTINE)
        return what in WITNESSED and not deed.witness and not (event and what in EVENTS)

    def amiss(self, what: str) -> tuple[int, ...]:
        """Return the entries that tell of something done and not seen as wanted."""
        deed = self.deeds.get(what)
        if deed is None or not deed.state or deed.state == WANTED.get(what, deed.state):
            return ()
        return deed.told


def plain(entry: Entry) -> Mapping[str, Any]:
    """Return the fields of an entry; what this model never reads is left out."""
    if entry.KIND in _READ:
        return to_fields(entry)
    return {"kind": entry.KIND, "seq": entry.seq, "by": entry.by, "at": entry.at}
