"""Books for the tests of screens: an invented job, the same to the minute every time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from screens.app import ShoedownApp
from tally.book.book import Book
from tally.errors import EntryRefused
from tally.job.counts import next_item
from tally.job.entries.correction import Correction
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import Note, SetUp
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.running import Fitted, ItemRun, LaidDown, Rejected
from tally.job.entry import Entry
from tally.job.fittings import due_next
from tally.job.fold import EMPTY, fold_on
from tally.job.job import Job
from tally.job.setup import (
    Hole,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    Rule,
    Setup,
    Well,
)
from tally.units import read

NOW = "2026-03-14T03:12:00+01:00"
FIRST = datetime.fromisoformat("2026-03-13T19:10:00+01:00")
AMA, NADIA, IVO = "Ama Osei", "Nadia Haddad", "Ivo Marek"
LISTED = 205
RUN = 88


def app_on(book: Book, start: str, theme: str = "night") -> ShoedownApp:
    """Return the app on a book, its clock standing still."""
    return ShoedownApp(book, now=lambda: NOW, theme=theme, start=start)


def setup(**changed: Any) -> Setup:
    """Return the set-up of the job."""
    made = Setup(
        well=Well(name="Larkspur 14", string="9-5/8 in intermediate", rig="Rig 3"),
        hole=Hole(
            diameter=read("12-1/4 in", "diameter"),
            depth=read("8260 ft", "length"),
            casing_point=read("8240 ft", "length"),
        ),
        previous=PreviousCasing(
            name="13-3/8 in 68 lb/ft",
            shoe=read("3010 ft", "length"),
            inner_diameter=read("12.415 in", "diameter"),
        ),
        lengths=Lengths(unit="ft", stick_up=322, stick_up_typed="3.22 ft"),
        pipes=(_pipe("9-5/8 in 47 lb/ft", "8.681 in", "47 lb/ft"),),
        pumping=Pumping(
            mud_weight=read("10.2 lb/gal", "density"),
            volume_per_stroke=read("0.1049 bbl/stroke", "volume per stroke"),
            efficiency=read("96 %", "ratio"),
            rate=read("6 bbl/min", "flow rate"),
            head_volume=read("0.9 bbl", "volume"),
        ),
        items=(
            Planned(number="S1", kind="shoe", length=195, typed="1.95", description="float shoe"),
            Planned(number="C1", kind="collar", length=152, typed="1.52"),
        ),
        order=("S1", "1", "2", "C1", *(str(number) for number in range(3, LISTED + 1))),
        programme=(
            Rule(what="bow centralizer", joints=(1, 2, 3, *range(5, 101, 5))),
            Rule(what="scratcher", joints=(80, 84, 88), position="above the coupling"),
        ),
        people=(
            Person(name=AMA, role="casing crew lead"),
            Person(name=NADIA, role="company representative"),
            Person(name=IVO, role="cementer"),
        ),
        limits={
            "tank_difference": Limit(text="1 bbl", owner=NADIA, source="programme, page 12"),
            "least_joint_time": Limit(text="1 min", owner=AMA),
            "over_displacement": Limit(text="3 bbl", owner=NADIA, source="programme, page 19"),
        },
    )
    return replace(made, **changed)


def _pipe(name: str, inner: str, weight: str) -> Pipe:
    return Pipe(
        name=name,
        outer_diameter=read("9 5/8 in", "diameter"),
        inner_diameter=read(inner, "diameter"),
        weight=read(weight, "mass per length"),
        grade="L-80",
        shortest=read("34 ft", "length"),
        longest=read("48 ft", "length"),
    )


HEAVY = _pipe("9-5/8 in 53.5 lb/ft", "8.535 in", "53.5 lb/ft")
"""A second pipe, for a string of two weights."""


def length_of(number: int) -> int:
    """Return the length of a listed joint, in hundredths of a foot."""
    return 3960 + number * 37 % 250


class Story:
    """Entries one after the other, a few minutes apart, each checked as the book checks it."""

    def __init__(self) -> None:
        self.job: Job = EMPTY
        self.entries: list[Entry] = []

    def says(self, kind: type[Entry], by: str = AMA, minutes: int = 5, **fields: Any) -> None:
        """Add an entry; a question of the job is answered as the last field says."""
        before = datetime.fromisoformat(self.job.last) if self.job.last else FIRST
        at = (before + timedelta(minutes=minutes)).isoformat()
        entry = kind(by=by, at=at, seq=len(self.entries) + 1, **fields)
        self.job = fold_on(self.job, entry)
        self.entries.append(entry)

    def starts(self, plan: Setup, joints: int) -> None:
        """Set the job up and receive the joints of the list."""
        self.says(SetUp, setup=plan)
        listed = ((number, length_of(number)) for number in range(1, joints + 1))
        arrivals = tuple(
            Arrival(number=str(number), length=length, typed=f"{length / 100:.2f}")
            for number, length in listed
        )
        self.says(Received, items=arrivals, source="pipe list")

    def runs(self, items: int) -> None:
        """Run the next items as listed."""
        for _ in range(items):
            due = next_item(self.job)
            assert due is not None
            self.says(ItemRun, number=due.number, fittings=due_next(self.job))


def third(joints: int = LISTED, plan: Setup | None = None) -> list[Entry]:
    """Return the entries of a job about one third run, with what goes wrong on the way."""
    story = Story()
    story.starts(plan or setup(), joints)
    story.runs(20)
    story.says(Rejected, number="19", reason="failed drift at the pin end")
    story.runs(40)
    story.says(SentAway, by=NADIA, number="205", reason="bent in the slings")
    story.says(LaidDown, number="59", reason="thread")
    corrected = story.entries[40]
    assert isinstance(corrected, ItemRun)
    story.runs(RUN - 60)
    bare = next(made.number for made in story.job.string if made.joint == 80)
    story.says(Fitted, number=bare, fittings=(), despite="scratcher broke on the way down")
    story.says(Note, by=NADIA, text="trip tank pump changed over, [/] 10 min lost")
    story.says(
        Correction,
        of=corrected.seq,
        reason="read wrongly",
        instead={"number": corrected.number, "length": 4080, "typed": "40.8", "despite": "taped"},
    )
    return story.entries


def landed() -> list[Entry]:
    """Return the entries of a short string on depth, one joint on the rack not found again."""
    story = Story()
    hole = replace(setup().hole, casing_point=read("366 ft", "length"))
    order = ("S1", "1", "2", "C1", *(str(number) for number in range(3, 11)))
    story.starts(setup(hole=hole, previous=None, order=order, limits={}), 10)
    story.runs(11)
    story.says(
        OnDepth, stick_up=322, typed="3.22", counted=0, despite="one joint taken by the other rig"
    )
    return story.entries


def book_of(folder: Path, entries: Iterable[Entry], name: str = "larkspur-14.shoedown") -> Book:
    """Return a book made of entries."""
    return Book.create(folder / name, entries)


__all__ = ["AMA", "HEAVY", "IVO", "NADIA", "NOW", "EntryRefused", "Story", "app_on", "book_of"]
