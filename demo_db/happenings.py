"""From a row of the demonstration's files to the entry that a person would have made."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tally.job.entries.correction import Correction
from tally.job.entries.flow import FlowChecked
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.mixing import MixRead, SampleKept, SurfaceSeen
from tally.job.entries.people import Note, PersonAdded
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import Fitted, ItemRun, LaidDown, Rejected
from tally.job.entries.steps import StepDone, StepWitnessed
from tally.job.entries.watching import Filled, TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import Entry, to_fields
from tally.job.fittings import due_next
from tally.job.flow import NO_FLOW
from tally.job.job import Job
from tally.units import Measure, read

Row = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Now:
    """A row, and the job and its entries as they stood before it."""

    row: Row
    job: Job
    before: Sequence[Entry]

    @property
    def who(self) -> dict[str, Any]:
        """Who made the entry, and when."""
        return {"by": self.row["by"], "at": self.row["at"]}


Maker = Callable[[Now], Entry]


def entry_of(row: Row, job: Job, before: Sequence[Entry]) -> Entry:
    """Return the entry for a row, given the job as it stands and the entries before it."""
    return MAKERS[row.get("event", "pumped")](Now(row, job, before))


def _run(now: Now) -> Entry:
    """An item as listed, with what the programme wants on it: what the Enter key makes."""
    return ItemRun(number=now.row["item"], fittings=due_next(now.job), **now.who)


def _rejected(now: Now) -> Entry:
    return Rejected(number=now.row["item"], reason=now.row["said"], **now.who)


def _laid_down(now: Now) -> Entry:
    return LaidDown(number=now.row["item"], reason=now.row["said"], **now.who)


def _tank(now: Now) -> Entry:
    """What was said: that the tank was emptied, what the total counts from, or else a reason."""
    said = now.row["said"]
    since = said.removeprefix("from ") if said.startswith("from ") else ""
    return TankRead(
        volume=read(now.row["value"], "volume"),
        mark=said == "emptied",
        since=since,
        despite="" if since or said == "emptied" else said,
        **now.who,
    )


def _weights(now: Now) -> Entry:
    """The value holds the weight going down and that coming up: "174 klbf; 178 klbf"."""
    down, up = now.row["value"].split("; ")
    return WeightRead(slack_off=read(down, "force"), pick_up=read(up, "force"), **now.who)


def _flow(now: Now) -> Entry:
    """A flow check that showed no flow."""
    time = read(now.row["value"], "time")
    return FlowChecked(state=NO_FLOW, time=time, note=now.row["said"], **now.who)


def _filled(now: Now) -> Entry:
    return Filled(source=now.row["said"], **now.who)


def _nothing_installed(now: Now) -> Entry:
    return Fitted(number=now.row["item"], despite=now.row["said"], **now.who)


def _length_corrected(now: Now) -> Entry:
    """A length put right where the joint was run; what else was said of it stays."""
    run = next(
        each for each in now.before if isinstance(each, ItemRun) and each.number == now.row["item"]
    )
    said = {key: value for key, value in to_fields(run).items() if key not in OWN}
    instead = {
        **said,
        "length": now.job.known.step.read(now.row["value"]),
        "typed": now.row["value"],
    }
    return Correction(of=run.seq, reason=now.row["said"], instead=instead, **now.who)


def _joined(now: Now) -> Entry:
    return PersonAdded(name=now.row["item"], role=now.row["said"], **now.who)


def _note(now: Now) -> Entry:
    return Note(text=now.row["said"], **now.who)


def _on_depth(now: Now) -> Entry:
    """The value holds the stick-up and the joints counted: "3.42 ft; 3 counted"."""
    stick_up, _, counted = now.row["value"].removesuffix(" counted").partition("; ")
    return OnDepth(
        stick_up=now.job.known.step.read(stick_up),
        typed=stick_up,
        counted=int(counted),
        despite=now.row["said"],
        **now.who,
    )


def _hung_off(now: Now) -> Entry:
    return HungOffAt(load=read(now.row["value"], "force"), how=now.row["said"], **now.who)


def _step_done(now: Now) -> Entry:
    return StepDone(
        list_id=now.row["list"],
        step_id=now.row["step"],
        state=now.row["state"],
        value=now.row["value"],
        witness=now.row["witness"],
        given=now.row["given"],
        released=now.row["released"],
        note=now.row["note"],
        **now.who,
    )


def _step_witnessed(now: Now) -> Entry:
    return StepWitnessed(
        list_id=now.row["list"],
        step_id=now.row["step"],
        state=now.row["state"],
        value=now.row["value"],
        witness=now.row["witness"],
        **now.who,
    )


def _pumped(now: Now) -> Entry:
    return Pumped(
        tank=read(now.row["tank"], "volume"),
        strokes=int(now.row["strokes"]),
        pressure=read(now.row["pressure"], "pressure"),
        rate=read(now.row["rate"], "flow rate"),
        returns_seen=now.row["returns"],
        **now.who,
    )


def _mixed(now: Now) -> Entry:
    return MixRead(
        fluid=now.row["fluid"],
        gauge=_read(now, "gauge", "density"),
        balance=_read(now, "balance", "density"),
        pumped=_read(now, "pumped", "volume"),
        sacks=int(now.row["sacks"]) if now.row["sacks"] else None,
        mix_fluid=_read(now, "mix_fluid", "volume"),
        **now.who,
    )


def _sample(now: Now) -> Entry:
    return SampleKept(fluid=now.row["fluid"], part=now.row["note"], **now.who)


def _at_surface(now: Now) -> Entry:
    return SurfaceSeen(
        what=now.row["fluid"],
        volume=_read(now, "pumped", "volume"),
        density=_read(now, "balance", "density"),
        **now.who,
    )


def _read(now: Now, key: str, quantity: str) -> Measure | None:
    return read(now.row[key], quantity) if now.row[key] else None


OWN = ("kind", "by", "at", "seq", "despite")
"""What a correction leaves as it is: the entry's author, time and number."""

MAKERS: dict[str, Maker] = {
    "run": _run,
    "rejected": _rejected,
    "laid down": _laid_down,
    "tank": _tank,
    "flow": _flow,
    "weights": _weights,
    "filled": _filled,
    "nothing installed": _nothing_installed,
    "length corrected": _length_corrected,
    "joined": _joined,
    "note": _note,
    "on depth": _on_depth,
    "hung off": _hung_off,
    "done": _step_done,
    "witnessed": _step_witnessed,
    "pumped": _pumped,
    "mixed": _mixed,
    "sample": _sample,
    "surface": _at_surface,
}
