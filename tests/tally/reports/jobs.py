"""A short invented job with something typed in every field, and texts that would do harm."""

from __future__ import annotations

from collections.abc import Sequence

from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note, PersonAdded, SetUp
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.watching import Filled
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.job import Fitting
from tally.job.setup import (
    Hole,
    Lengths,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    Rule,
    Setup,
    Well,
)
from tally.reports.final_tally import FinalTally, final_tally
from tally.units import read, tally_step

JOINTS = 34
HEAD = "c0ffee" * 10 + "abcd"
HOSTILE = (
    "=1+2",
    "+1",
    "-1+1",
    "@x",
    "\t=1+2",
    "\r=1+2",
    "\n=1+2",
    " =1+2",
    "'=1+2",
    "\uff1d1+2",
    '=1+2";=1+2',
    "=1+2'\" ;,=1+2",
    "x; =1+2;",
    "x\r\n=1+2",
    "\x1b[31mred\x1b[0m",
    "\x1b]0;title\x07",
    "\x9b31m",
    "\x00\x7f\x08",
    "[red]x[/red]",
    "[/]",
    "\u202e\u2066x",
    "\u200b=1",
    "\u00c5se \u4e95\u6238",
    "w" * 180,
)


def entries(text: str = "", unit: str = "ft", *, landed: bool = True) -> list[Entry]:
    """Return the entries of the job; every typed field begins with the text."""
    step = tally_step(unit)
    who = {"by": f"{text}Ama", "at": "2026-03-01T23:10:00+01:00"}
    lengths = [step.read(f"{39 + number / 7:.3f} ft") for number in range(JOINTS)]
    names = [f"{text}{number}" for number in range(1, JOINTS + 1)]
    arrivals = tuple(
        Arrival(number=name, length=length, typed=text, pipe=f"{text}47", description=text)
        for name, length in zip(names, lengths, strict=True)
    )
    bow = Fitting(f"{text}bow centralizer", f"{text}mid-joint")
    order = [f"{text}shoe", *names[:2], f"{text}collar", *names[2:]]
    run = [name for name in order if name not in (names[8], names[30], names[32], names[33])]
    said: list[Entry] = [
        SetUp(setup=_setup(text, unit, order), **who),
        Received(items=arrivals, source=f"{text}list", **who),
        PersonAdded(name=f"{text}Ivo", role="tally keeper", **who),
        Rejected(number=names[8], reason=f"{text}thread", **who),
        *(ItemRun(number=name, fittings=(bow,), despite=f"{text}asked", **who) for name in run),
        PulledOut(number=run[-1], reason=f"{text}late", **who),
        _again(run[-1], lengths[31] + 4, text, who),
        LaidDown(number=names[30], reason=f"{text}bent", **who),
        SentAway(number=names[33], reason=f"{text}not ours", **who),
        Fitted(number=names[4], fittings=(bow, bow), despite=f"{text}seen later", **who),
        Filled(source="active pit", **who),
        Note(text=f"{text}note", **who),
        Correction(of=6, reason=f"{text}slip", instead={"number": names[0]}, **who),
    ]
    if landed:
        said += _landing(text, who, step.read("3.22 ft"), len(said) + 1)
    return [_numbered(entry, seq) for seq, entry in enumerate(said, start=1)]


def _again(number: str, length: int, text: str, who: dict[str, str]) -> Entry:
    return ItemRun(
        number=number, length=length, typed=f"{text}43.47", despite=f"{text}asked", **who
    )


def _landing(text: str, who: dict[str, str], stick_up: int, seq: int) -> list[Entry]:
    return [
        OnDepth(stick_up=stick_up, counted=2, typed="3.22", despite=f"{text}counted", **who),
        ExceptionClosed(of=seq, reason=f"{text}found", **who),
        HungOffAt(load=read("245 klbf", "force"), how=f"{text}slips", **who),
    ]


def _setup(text: str, unit: str, order: Sequence[str]) -> Setup:
    step = tally_step(unit)
    return Setup(
        well=Well(
            name=f"{text}Well",
            string=f"{text}string",
            rig=f"{text}rig",
            operator=f"{text}operator",
            location=f"{text}location",
            datum=f"{text}rotary table",
            datum_elevation=read("312.4 ft", "length"),
        ),
        hole=Hole(
            diameter=read("12-1/4 in", "diameter"),
            depth=read("1300 ft", "length"),
            casing_point=read("390 m", "length"),
        ),
        previous=PreviousCasing(
            name=f"{text}old",
            shoe=read("301 ft", "length"),
            inner_diameter=read("12.415 in", "diameter"),
        ),
        lengths=Lengths(unit=unit, stick_up=step.read("3.22 ft"), stick_up_typed="3.22"),
        pipes=(
            Pipe(
                name=f"{text}47",
                outer_diameter=read("9 5/8 in", "diameter"),
                inner_diameter=read("8.681 in", "diameter"),
                weight=read("47 lb/ft", "mass per length"),
                grade=f"{text}grade",
                connection=f"{text}buttress",
            ),
        ),
        pumping=Pumping(mud_weight=read("10.2 lb/gal", "density")),
        items=(
            Planned(
                number=f"{text}shoe",
                kind="shoe",
                length=step.read("1.95 ft"),
                typed=text,
                description=f"{text}float shoe",
            ),
            Planned(number=f"{text}collar", kind="collar", length=step.read("1.52 ft"), typed=text),
        ),
        order=tuple(order),
        programme=(Rule(what=f"{text}bow centralizer", joints=tuple(range(1, JOINTS))),),
        people=(Person(name=f"{text}Ama", role="casing crew lead"),),
        units="field" if unit == "ft" else "metric",
    )


def _numbered(entry: Entry, seq: int) -> Entry:
    from dataclasses import replace

    return replace(entry, seq=seq)


def tally(text: str = "", unit: str = "ft", *, landed: bool = True) -> FinalTally:
    """Return the tally of the job."""
    said = entries(text, unit, landed=landed)
    return final_tally(fold(said), said, (len(said), HEAD))
