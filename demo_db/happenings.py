"""From a row of the demonstration's files to the entry that a person would have made."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from tally.job.entries.correction import Correction
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note, PersonAdded
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import Fitted, ItemRun, LaidDown, Rejected
from tally.job.entries.steps import StepDone, StepWitnessed
from tally.job.entries.watching import Filled, TankRead
from tally.job.entry import Entry, to_fields
from tally.job.fittings import due_next
from tally.job.job import Job
from tally.units import read

Row = Mapping[str, str]
Maker = Callable[[Row, Job, Sequence[Entry]], Entry]


def entry_of(row: Row, job: Job, before: Sequence[Entry]) -> Entry:
    """Return the entry for a row, given the job as it stands and the entries before it."""
    return MAKERS[row.get("event", "pumped")](row, job, before)


def _who(row: Row) -> dict[str, str]:
    return {"by": row["by"], "at": row["at"]}


def _run(row: Row, job: Job, _before: Sequence[Entry]) -> Entry:
    """An item as listed, with what the programme wants on it: what the Enter key makes."""
    return ItemRun(number=row["item"], fittings=due_next(job), **_who(row))


def _rejected(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return Rejected(number=row["item"], reason=row["said"], **_who(row))


def _laid_down(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return LaidDown(number=row["item"], reason=row["said"], **_who(row))


def _tank(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return TankRead(
        volume=read(row["value"], "volume"),
        mark=row["said"] == "emptied",
        since=row["said"].removeprefix("from ") if row["said"].startswith("from ") else "",
        **_who(row),
    )


def _filled(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return Filled(source=row["said"], **_who(row))


def _nothing_installed(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return Fitted(number=row["item"], despite=row["said"], **_who(row))


def _length_corrected(row: Row, job: Job, before: Sequence[Entry]) -> Entry:
    """A length put right where the joint was run; what else was said of it stays."""
    run = next(each for each in before if isinstance(each, ItemRun) and each.number == row["item"])
    said = {key: value for key, value in to_fields(run).items() if key not in OWN}
    instead = {**said, "length": job.known.step.read(row["value"]), "typed": row["value"]}
    return Correction(of=run.seq, reason=row["said"], instead=instead, **_who(row))


def _joined(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return PersonAdded(name=row["item"], role=row["said"], **_who(row))


def _note(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return Note(text=row["said"], **_who(row))


def _on_depth(row: Row, job: Job, _before: Sequence[Entry]) -> Entry:
    """The value holds the stick-up and the joints counted: "3.42 ft; 3 counted"."""
    stick_up, counted = re.fullmatch(r"(.+); (\d+) counted", row["value"]).groups()  # type: ignore[union-attr]
    return OnDepth(
        stick_up=job.known.step.read(stick_up),
        typed=stick_up,
        counted=int(counted),
        despite=row["said"],
        **_who(row),
    )


def _hung_off(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return HungOffAt(load=read(row["value"], "force"), how=row["said"], **_who(row))


def _step_done(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return StepDone(
        list_id=row["list"],
        step_id=row["step"],
        state=row["state"],
        value=row["value"],
        witness=row["witness"],
        note=row["note"],
        **_who(row),
    )


def _step_witnessed(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return StepWitnessed(
        list_id=row["list"],
        step_id=row["step"],
        state=row["state"],
        value=row["value"],
        witness=row["witness"],
        **_who(row),
    )


def _pumped(row: Row, _job: Job, _before: Sequence[Entry]) -> Entry:
    return Pumped(
        tank=read(row["tank"], "volume"),
        strokes=int(row["strokes"]),
        pressure=read(row["pressure"], "pressure"),
        rate=read(row["rate"], "flow rate"),
        **_who(row),
    )


OWN = ("kind", "by", "at", "seq", "despite")
"""What a correction leaves as it is: the entry's author, time and number."""

MAKERS: dict[str, Maker] = {
    "run": _run,
    "rejected": _rejected,
    "laid down": _laid_down,
    "tank": _tank,
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
}
