"""An invented job for the tests of the book: a short well, thirty joints, one checklist."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path

from tally.book.book import Book
from tally.job.entries.people import ListTaken, Note, SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry
from tally.job.job import Fitting
from tally.job.setup import (
    Hole,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    Pumping,
    Rule,
    Setup,
    Well,
)
from tally.steps.model import Checklist, Step, to_fields
from tally.units import Measure, read

BY = "Tally Keeper"
START = datetime.fromisoformat("2026-03-14T03:12:00+01:00")
JOINTS = 30
_MINUTES = count()


def at() -> str:
    """Return a time four minutes after the last one."""
    return (START + timedelta(minutes=4 * next(_MINUTES))).isoformat()


def measure(text: str, quantity: str) -> Measure:
    """Return a measure from its text."""
    return read(text, quantity)


def setup() -> Setup:
    """Return the set-up of the invented job."""
    return Setup(
        well=Well(name="Sandpiper 2", string="9-5/8 in casing"),
        hole=Hole(
            diameter=measure("12-1/4 in", "diameter"),
            depth=measure("1230 ft", "length"),
            casing_point=measure("1200 ft", "length"),
        ),
        lengths=Lengths(unit="ft", stick_up=300, stick_up_typed="3.00"),
        pipes=(
            Pipe(
                name="9-5/8 47",
                outer_diameter=measure("9-5/8 in", "diameter"),
                inner_diameter=measure("8.681 in", "diameter"),
                weight=measure("47 lb/ft", "mass per length"),
                shortest=measure("38 ft", "length"),
                longest=measure("45 ft", "length"),
            ),
        ),
        pumping=Pumping(mud_weight=measure("10.2 lb/gal", "density")),
        items=(Planned(number="SHOE", kind="shoe", length=185, typed="1.85"),),
        order=("SHOE", *(str(number) for number in range(1, JOINTS + 1))),
        programme=(Rule(what="centralizer", joints=(1, 2, 5)),),
        people=(
            Person(name=BY, role="tally keeper"),
            Person(name="Second Hand", role="casing crew lead"),
        ),
        limits={"least_joint_time": Limit(text="1.5 min", owner=BY, source="invented")},
    )


def checklist() -> Checklist:
    """Return a list of two steps."""
    steps = (
        Step(id="look", text="Look at the plugs", who="cementer", want="state", states=("whole",)),
        Step(id="load", text="Load the plug", who="cementer", critical=True, after=("look",)),
    )
    return Checklist(
        id="short", title="Short list", page="plugs", purpose="", caution="", steps=steps, source=""
    )


def received(first: int, last: int) -> Received:
    """Return joints coming on location."""
    arrivals = tuple(
        Arrival(number=str(number), length=4100 + number, typed=f"{41 + number / 100:.2f}")
        for number in range(first, last + 1)
    )
    return Received(by=BY, at=at(), items=arrivals, source="pipe list")


def beginning(joints: int = JOINTS) -> list[Entry]:
    """Return the entries that a book begins with; many joints have a hole as deep as they reach."""
    plan = setup()
    if joints > JOINTS:
        deep = {name: measure(f"{joints * 80} ft", "length") for name in ("depth", "casing_point")}
        plan = replace(plan, hole=replace(plan.hole, **deep))
    return [
        SetUp(by=BY, at=at(), setup=plan),
        ListTaken(by=BY, at=at(), checklist=to_fields(checklist())),
        received(1, joints),
    ]


def run(number: str, *fittings: str, despite: str = "") -> ItemRun:
    """Return an item made up in the string."""
    fitted = tuple(Fitting(what) for what in fittings)
    return ItemRun(by=BY, at=at(), number=number, fittings=fitted, despite=despite)


def note(text: str) -> Note:
    """Return a note."""
    return Note(by=BY, at=at(), text=text)


def new_book(path: Path, joints: int = JOINTS) -> Book:
    """Make a book of the invented job."""
    return Book.create(path, beginning(joints))
