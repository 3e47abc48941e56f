"""Make the sample book of the present schema: `python -m tests.tally.book.samples.make`.

It refuses to write over a sample: one that was released stays as it is, byte by byte. Beside the
book it writes the count and the last hash, as a report would print them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from tally.book.book import Book
from tally.book.schema import SCHEMA
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.handing_over import HandedOver, TakenOver
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import ListTaken, Note, PersonAdded, SetUp
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.pumping import Pumped
from tally.job.entries.records import CalibrationNoted, NoticeGiven, PressureTested, TimeLost
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.signing import ReportSigned
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.entries.watching import Filled, TankRead
from tally.job.entry import Entry
from tally.job.job import Fitting
from tally.steps.model import Checklist, Step, to_fields
from tests.tally.book.invented import BY, START, measure, setup

FOLDER = Path(__file__).parent
BOOK_ID = "5a3f0c9e1b7d2846"
SECOND = "Second Hand"


def checklist() -> Checklist:
    """Return a list with a critical step, and one that zeroes the volume."""
    steps = (
        Step(id="look", text="Look at the plug", who="cementer", want="state", states=("whole",),
             good=("whole",)),
        Step(id="load", text="Load the plug", who="cementer", critical=True, after=("look",)),
        Step(id="chain", text="Chain the lines", who="cementer", critical=True),
        Step(id="drop", text="Release the plug", who="cementer", at_once=True, critical=True,
             zeroes=True, want="state", states=("left", "stuck"), good=("left",)),
    )  # fmt: skip
    return Checklist(
        id="sample", title="Plug", page="plugs", purpose="", caution="", steps=steps, source=""
    )


def entries() -> Iterator[Entry]:
    """Yield one entry after the other, four minutes apart."""
    for which, entry in enumerate((*_before(), *_running(), *_landed())):
        yield replace(
            entry, by=entry.by or BY, at=(START + timedelta(minutes=4 * which)).isoformat()
        )


def _before() -> Iterator[Entry]:
    joints = tuple(
        Arrival(number=str(number), length=4100 + number, typed=f"{41 + number / 100:.2f}")
        for number in range(1, 9)
    )
    pup = Arrival(number="P1", kind="pup", length=512, typed="5.12", description="for space-out")
    own = {"by": BY, "at": ""}
    yield SetUp(setup=setup(), **own)
    yield ListTaken(checklist=to_fields(checklist()), **own)
    yield Received(items=joints, source="pipe list", **own)
    yield Received(items=(pup,), **own)
    yield PersonAdded(name="Dritte Hand", role="driller", **own)
    yield Note(text='wind 30 kn from "north", Böen 45; 9-5/8" drift in use', **own)


def _running() -> Iterator[Entry]:
    own = {"by": BY, "at": ""}
    twice = (Fitting("centralizer"), Fitting("stop collar", "above the shoe", 2))
    yield TankRead(volume=measure("21.4 bbl", "volume"), mark=True, **own)  # 7
    yield ItemRun(number="SHOE", **own)
    yield ItemRun(number="1", fittings=twice, **own)
    yield ItemRun(number="3", despite="joint 2 is being cleaned", **own)  # 10
    yield Filled(source="trip tank", **own)
    yield PulledOut(number="3", reason="wrong joint", **own)
    yield LaidDown(number="3", reason="thread galled", **own)
    yield Rejected(number="4", reason="drift stuck", **own)
    yield ItemRun(number="2", length=4122, typed="41.22", despite="measured again", **own)  # 15
    yield Fitted(number="2", fittings=(Fitting("scratcher", count=3),), **own)
    yield SentAway(number="8", reason="bent", **own)
    yield ItemRun(number="5", **own)
    yield Filled(source="active pit", volume=measure("2.5 bbl", "volume"), **own)
    yield TankRead(volume=measure("24.0 bbl", "volume"), **own)  # 20
    yield Correction(of=18, instead={"number": "6"}, reason="it was joint 6", **own)
    yield Note(text="struck below", **own)
    yield Correction(of=22, reason="said twice", **own)


def _landed() -> Iterator[Entry]:
    own = {"by": BY, "at": ""}
    of_list = {"list_id": "sample", **own}
    yield OnDepth(stick_up=410, counted=1, typed="4.10", despite="one joint lent out", **own)  # 24
    yield ExceptionClosed(of=24, reason="the joint is back", **{**own, "by": SECOND})
    yield HungOffAt(load=measure("186 klbf", "force"), how="slips", **own)
    yield StepDone(step_id="load", despite="looked at before", second=SECOND, witness=SECOND,
                   **of_list)  # fmt: skip
    yield StepDone(step_id="look", state="whole", **of_list)
    yield StepPassed(step_id="chain", outcome="not done", reason="none here", second=SECOND,
                     **of_list)  # fmt: skip
    yield StepDone(step_id="drop", **of_list)  # 30
    yield StepWitnessed(step_id="drop", witness=SECOND, state="left", **of_list)
    yield Pumped(tank=measure("10.5 bbl", "volume"), strokes=104,
                 pressure=measure("640 psi", "pressure"), rate=measure("5 bbl/min", "flow rate"),
                 **own)  # fmt: skip
    yield Correction(of=9, instead={"number": "7"}, reason="the first joint was 7", **own)


def signature(count: int, head: str) -> ReportSigned:
    """Return the tally approved as it stands after so many entries."""
    at = (START + timedelta(minutes=4 * count)).isoformat()
    return ReportSigned(by=BY, at=at, name=SECOND, role="casing crew lead", meaning="approved",
                        reports=("tally",), entries=count, head=head)  # fmt: skip


def kept(count: int) -> Iterator[Entry]:
    """Yield an entry of each kind that is kept beside the work."""
    who = {"by": BY, "at": (START + timedelta(minutes=4 * count)).isoformat()}
    yield NoticeGiven(to="district office", about="cementing", means="telephone", **who)
    yield CalibrationNoted(what="pump gauge", day="2026-01-31", due="2036-01-31", **who)
    yield TimeLost(cause="weather", time=measure("25 min", "time"), note="lightning", **who)
    yield PressureTested(
        what="casing",
        pressure=measure("1500 psi", "pressure"),
        time=measure("30 min", "time"),
        ended=measure("1490 psi", "pressure"),
        held=True,
        **who,
    )
    yield HandedOver(to=SECOND, watch="the trip tank", **who)
    yield TakenOver(name=SECOND, **who)


def make(folder: Path = FOLDER) -> Path:
    """Make the sample of the present schema in a folder, with its count and hash beside it."""
    path = folder / f"schema_{SCHEMA}.book"
    with Book.create(path, entries(), book_id=BOOK_ID) as book:
        book.record(signature(*book.head))
        for entry in kept(book.head[0]):
            book.record(entry)
        count, head = book.head
    path.with_suffix(".txt").write_text(f"{count} {head}\n")
    return path


if __name__ == "__main__":
    make()
