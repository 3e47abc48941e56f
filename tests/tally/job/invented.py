"""An invented job for the tests of the job: short, with every kind of thing in it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest

from tally.errors import EntryRefused
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import ListTaken, SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun
from tally.job.entries.steps import StepDone, StepWitnessed
from tally.job.entry import Entry
from tally.job.fittings import due_next
from tally.job.fold import EMPTY, fold_on
from tally.job.job import Job
from tally.job.setup import (
    Filling,
    Hole,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    Setup,
    Weights,
    Well,
)
from tally.steps.model import Checklist, to_fields
from tally.steps.reading import shipped
from tally.units import read

START = datetime.fromisoformat("2026-05-02T06:00:00+02:00")
LEAD, REP, CEMENTER, MUD = "Oda Linde", "Per Falk", "Rui Bastos", "Ines Quarto"
DRILLER = "Bo Sand"
WORKED = ("mud-conditioning", "rig-up", "plug-loading", "plug-release")
CEMENTING = tuple(plan for plan in shipped() if plan.id in WORKED)
ORDER = ("S1", "1", "2", "C1", *(str(number) for number in range(3, 13)))


def pipe(name: str = "9-5/8 47", inner: str = "8.681 in", weight: str = "47 lb/ft") -> Pipe:
    """Return 9-5/8 in pipe."""
    return Pipe(
        name=name,
        outer_diameter=read("9-5/8 in", "diameter"),
        inner_diameter=read(inner, "diameter"),
        weight=read(weight, "mass per length"),
    )


def pumping(**changed: Any) -> Pumping:
    """Return a pump, a head and a programme with one bottom plug."""
    made = Pumping(
        mud_weight=read("10.2 lb/gal", "density"),
        volume_per_stroke=read("0.1044 bbl/stroke", "volume per stroke"),
        efficiency=read("96 %", "ratio"),
        rate=read("5.8 bbl/min", "flow rate"),
        head_volume=read("0.3 bbl", "volume"),
        slurry_volume=read("60 bbl", "volume"),
        spacer_volume=read("20 bbl", "volume"),
        final_pressure=read("900 psi", "pressure"),
        bottom_plugs=1,
    )
    return replace(made, **changed)


def setup(**changed: Any) -> Setup:
    """Return the set-up: shoe, two joints, collar, ten joints, to 486 ft."""
    made = Setup(
        well=Well(name="Heron 3", string="9-5/8 in casing"),
        hole=Hole(
            diameter=read("12-1/4 in", "diameter"),
            depth=read("520 ft", "length"),
            casing_point=read("486 ft", "length"),
        ),
        previous=PreviousCasing(
            name="13-3/8 in",
            shoe=read("120 ft", "length"),
            inner_diameter=read("12.415 in", "diameter"),
        ),
        lengths=Lengths(unit="ft", stick_up=322, stick_up_typed="3.22 ft"),
        pipes=(pipe(),),
        pumping=pumping(),
        items=(
            Planned(number="S1", kind="shoe", length=195, typed="1.95", description="float shoe"),
            Planned(number="C1", kind="collar", length=152, typed="1.52"),
        ),
        order=ORDER,
        people=(
            Person(name=LEAD, role="casing crew lead"),
            Person(name=REP, role="company representative"),
            Person(name=CEMENTER, role="cementer"),
            Person(name=MUD, role="mud engineer"),
            Person(name=DRILLER, role="driller"),
        ),
        limits=limits(),
    )
    return replace(made, **changed)


GEAR = Weights(
    block_weight=read("45 klbf", "force"),
    friction_cased=read("0.2", "number"),
    friction_open=read("0.3", "number"),
    elevator_rating=read("700 klbf", "force"),
    hoisting_rating=read("650 klbf", "force"),
)


def weighed(**changed: Any) -> Setup:
    """Return the set-up with everything that weights and ratings want."""
    graded = replace(pipe(), grade="L-80", connection_strength=read("1122 klbf", "force"))
    return setup(**({"pipes": (graded,), "weights": GEAR} | changed))


def limits(**texts: str) -> dict[str, Limit]:
    """Return the limits of the job; a text sets another, an empty one takes it out."""
    told = {
        "circulation_target": "150 %",
        "density_band": "0.2 lb/gal",
        "start_rate": "2 bbl/min",
        "circulation_losses": "5 bbl",
        "line_test": "3500 psi",
        "volume_agreement": "0.5 bbl",
        "stroke_agreement": "5",
        "bump_margin": "500 psi",
        "bump_band": "1 bbl",
        "over_displacement": "3 bbl",
        "tank_difference": "1 bbl",
    }
    return {key: Limit(text=text, owner=REP) for key, text in {**told, **texts}.items() if text}


def length_of(number: int) -> int:
    """Return the length of a joint, in hundredths of a foot."""
    return 4000 + 7 * number


def arrivals(first: int = 1, last: int = 12, pipe: str = "") -> tuple[Arrival, ...]:
    """Return joints as they came on location."""
    return tuple(
        Arrival(
            number=str(number),
            length=length_of(number),
            typed=f"{length_of(number) / 100:.2f}",
            pipe=pipe,
        )
        for number in range(first, last + 1)
    )


class Telling:
    """Entries one after the other, each a minute later, checked as they are made."""

    def __init__(self) -> None:
        self.job: Job = EMPTY
        self.entries: list[Entry] = []

    def makes(self, kind: type[Entry], *, by: str = LEAD, **told: Any) -> Entry:
        """Return the next entry, not yet told."""
        told.setdefault("at", (START + timedelta(minutes=len(self.entries))).isoformat())
        return kind(by=by, seq=len(self.entries) + 1, **told)

    def says(self, kind: type[Entry], *, by: str = LEAD, **told: Any) -> Job:
        """Tell an entry and return the job with it."""
        entry = self.makes(kind, by=by, **told)
        self.job = fold_on(self.job, entry)
        self.entries.append(entry)
        return self.job

    def refuses(self, kind: type[Entry], *, by: str = LEAD, **told: Any) -> str:
        """Return the sentence with which an entry is refused; nothing may have changed."""
        return self._stopped(self.makes(kind, by=by, **told), question=False)

    def asks(self, kind: type[Entry], *, by: str = LEAD, **told: Any) -> str:
        """Return the question that an entry raises; with a reason it must pass."""
        entry = self.makes(kind, by=by, **told)
        fold_on(self.job, replace(entry, despite="because"))
        return self._stopped(entry, question=True)

    def _stopped(self, entry: Entry, *, question: bool) -> str:
        before = self.job
        with pytest.raises(EntryRefused) as refused:
            fold_on(self.job, entry)
        assert refused.value.question is question
        assert self.job is before
        said = str(refused.value)
        assert_plain(said)
        return said

    def starts(self, plan: Setup | None = None, joints: int = 12) -> Telling:
        """Set the job up and count the joints in."""
        self.says(SetUp, setup=plan or setup())
        self.says(Received, items=arrivals(1, joints), source="pipe list")
        return self

    def runs(self, *numbers: str, despite: str = "") -> Telling:
        """Run items; all that the order names if none is named.

        Where the set-up has centralizer data, with what the programme wants on each.
        """
        for number in numbers or self.job.order:
            on_it = due_next(self.job) if self.job.known.centralizers else ()
            self.says(ItemRun, number=number, fittings=on_it, despite=despite)
        return self

    def lands(self, counted: int = 0, stick_up: int = 322, despite: str = "as told") -> Telling:
        """Bring the string on depth."""
        self.says(OnDepth, stick_up=stick_up, counted=counted, typed="3.22", despite=despite)
        return self

    def takes(self, *lists: Checklist) -> Telling:
        """Take checklists; those of the cementing if none is named."""
        for plan in lists or CEMENTING:
            self.says(ListTaken, checklist=to_fields(plan))
        return self

    def does(self, list_id: str, step_id: str, **told: Any) -> Telling:
        """Do a step, the representative as witness unless somebody else is named."""
        told.setdefault("by", CEMENTER)
        if list_id == "plug-release" and step_id.endswith("-agreed"):
            told.setdefault("given", MUD)
        self.says(StepDone, list_id=list_id, step_id=step_id, **told)
        return self

    def witnessed(self, list_id: str, step_id: str, **told: Any) -> Telling:
        """Confirm a step that one key stored."""
        told.setdefault("witness", REP)
        self.says(StepWitnessed, by=CEMENTER, list_id=list_id, step_id=step_id, **told)
        return self


def assert_plain(sentence: str) -> None:
    """A message is printable, begins with a capital or a quoted thing, and ends as a sentence."""
    assert sentence, "nothing was said"
    assert sentence.isascii() or "Oda" in sentence, sentence
    assert sentence.isprintable(), sentence
    assert sentence[-1] in ".?!", sentence
    assert not sentence[0].islower(), sentence
    assert "safe" not in sentence.lower().split(), sentence
    for jargon in ("None", "Traceback", "dict", "tuple", "class", "object at", "  "):
        assert jargon not in sentence, sentence


def running(*numbers: str, plan: Setup | None = None) -> Telling:
    """Return a job with some items in the string."""
    return Telling().starts(plan).runs(*numbers) if numbers else Telling().starts(plan)


def landed(plan: Setup | None = None) -> Telling:
    """Return a job with everything run and the string on depth, checklists taken, rigged up."""
    return rigged_up(Telling().starts(plan).runs().lands().takes())


def closed_end(closed: bool) -> Filling:
    """Return how the pipe runs in."""
    return Filling(closed_end=closed)


MUD_STEPS: tuple[tuple[str, dict[str, str]], ...] = (
    ("pipe-full", {"state": "mud stands at the top"}),
    ("head-on", {"state": "connected, valves as drawn"}),
    ("lift-compared", {"state": "string is held down", "witness": REP}),
    ("circulation-started", {"value": "1.5 bbl/min"}),
    ("rate-raised", {"value": "6 bbl/min"}),
    ("returns", {"state": "full"}),
    ("density-in", {"value": "10.2 lb/gal"}),
    ("density-out", {"value": "10.3 lb/gal"}),
    ("losses", {"value": "1 bbl"}),
    ("volume-circulated", {"value": "90 bbl"}),
    ("gas", {"state": "no gas over the background"}),
    ("conditioned", {"state": "as the programme asks", "by": REP, "witness": MUD}),
)
RIG_UP_STEPS: tuple[tuple[str, dict[str, str]], ...] = (
    ("cement-meeting", {"state": "everybody there, roles agreed", "by": REP}),
    ("lines-inspected", {"state": "unions match, sound, tied down", "witness": DRILLER}),
    ("relief-set", {"value": "3000 psi", "witness": REP}),
    ("rigged-up", {"state": "as agreed, lines ready to test", "by": REP, "witness": CEMENTER}),
)
LOADING_STEPS: tuple[tuple[str, dict[str, str]], ...] = (
    ("bottom-plug-inspected", {"state": "right size and kind, sound"}),
    ("top-plug-inspected", {"state": "right size and kind, sound"}),
    ("head-vented", {"state": "no flow and no pressure at two places", "witness": REP}),
    ("pins-and-valves", {"state": "every one as drawn", "witness": REP}),
    ("bottom-plug-loaded", {"state": "in the lower place, on its pin", "witness": REP}),
    ("top-plug-loaded", {"state": "in the upper place, on its pin", "witness": REP}),
)


def conditioned(telling: Telling) -> Telling:
    """Work the mud list to its hold point."""
    for step_id, told in MUD_STEPS:
        telling.does("mud-conditioning", step_id, **told)
    return telling


def rigged_up(telling: Telling) -> Telling:
    """Work the rig-up to its hold point."""
    for step_id, told in RIG_UP_STEPS:
        telling.does("rig-up", step_id, **told)
    return telling


def loaded(telling: Telling, *, bottom: bool = True) -> Telling:
    """Work the loading of the plugs."""
    for step_id, told in LOADING_STEPS:
        if bottom or not step_id.startswith("bottom"):
            telling.does("plug-loading", step_id, **told)
    return telling


def ready_to_pump(plan: Setup | None = None) -> Telling:
    """Return a landed job, conditioned, plugs loaded, lines tested, volumes agreed, spacer away."""
    telling = landed(plan)
    bottom = telling.job.known.pumping.bottom_plugs > 0
    loaded(conditioned(telling), bottom=bottom)
    telling.does("plug-release", "line-test", value="3600 psi", witness=REP)
    agreed = displacement_text(telling.job)
    telling.does("plug-release", "volumes-agreed", by=REP, value=agreed, witness=CEMENTER)
    return telling.does("plug-release", "spacer-pumped", value="20 bbl")


def displacement_text(job: Job) -> str:
    """Return the displacement to the collar as a person would type it."""
    from tally.job.figures import figure, show

    return show(job, figure(job, "displacement_to_collar").value, "volume")


def pumping_down(plan: Setup | None = None) -> Telling:
    """Return a job with the top plug gone and the volume at zero."""
    telling = ready_to_pump(plan)
    if telling.job.known.pumping.bottom_plugs:
        telling.does("plug-release", "bottom-plug-released", state="indicator moved", witness=REP)
    telling.does("plug-release", "first-slurry")
    telling.does("plug-release", "slurry-away")
    return telling.does("plug-release", "top-plug-released")
