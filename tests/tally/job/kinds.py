"""One entry of every kind with something in each of its fields."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from tally.job.batch import BatchColumn
from tally.job.entries.auto_fill import AutoFillConverted
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.conditioning import PipeMoved, PipeStopped, RateRead
from tally.job.entries.correction import Correction
from tally.job.entries.flow import FlowChecked
from tally.job.entries.following import FileFollowed, FileLeft
from tally.job.entries.handing_over import HandedOver, TakenOver
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.passing import DifferenceAnswered, PassingAnswered
from tally.job.entries.people import ListTaken, Note, PersonAdded, SetUp
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.pumping import Pumped
from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.readings import Readings
from tally.job.entries.records import (
    CalibrationNoted,
    NoticeGiven,
    PressureTested,
    TimeLost,
)
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.signing import ReportSigned
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.entries.trouble import (
    CrewChanged,
    Dropped,
    FittingMissed,
    Losses,
    PipeFree,
    ShutIn,
    Stuck,
    TightSpot,
    WellOpened,
)
from tally.job.entries.waiting import WaitingPicked
from tally.job.entries.watching import Filled, TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import Entry, catalogue
from tally.job.job import Fitting
from tally.job.order_rules import OrderRules, Place
from tally.job.origin import Origin
from tally.job.setup import Rule, Station, WaitingRule
from tally.steps.model import to_fields
from tally.steps.reading import shipped
from tally.units import read
from tests.tally.job.invented import setup

WHO: dict[str, Any] = {
    "by": "Oda Linde",
    "at": "2026-05-02T06:00:00+02:00",
    "seq": 7,
    "despite": "asked",
    "signed": ("Oda Linde",),
    "origins": (Origin("volume", "item 1129 of 127.0.0.1:5005", "2026-05-02T05:59:57+02:00"),),
}
BOW = Fitting("bow centralizer", "mid-joint", 2)
FULL_SETUP = setup(
    survey=(
        Station(
            measured_depth=read("100 ft", "length"),
            inclination=read("1 deg", "angle"),
            azimuth=read("90 deg", "angle"),
        ),
    ),
    programme=(Rule(what="bow centralizer", joints=(1, 2), position="low", count=2),),
    shown_in={"pressure": "bar"},
    units="metric",
)
EVERY: tuple[Entry, ...] = (
    SetUp(setup=FULL_SETUP, **WHO),
    ListTaken(checklist=to_fields(shipped()[0]), **WHO),
    PersonAdded(name="Nia Roe", role="driller", **WHO),
    Note(text="tight at 300 ft", **WHO),
    Received(
        items=(Arrival(number="1", length=4000, typed="40", pipe="a", description="b"),),
        source="truck",
        **WHO,
    ),
    SentAway(number="1", reason="bent", **WHO),
    ItemRun(
        number="1",
        fittings=(BOW,),
        length=4010,
        typed="40.10",
        lowering=read("32 s", "lowering time"),
        torque=read("8900 ft-lbf", "torque"),
        position="to the triangle",
        second="Per Falk",
        **WHO,
    ),
    Rejected(number="1", reason="drift", **WHO),
    LaidDown(number="1", reason="thread", **WHO),
    PulledOut(number="1", reason="tight", **WHO),
    Fitted(number="1", fittings=(BOW, Fitting("stop collar")), **WHO),
    TankRead(
        volume=read("9.5 bbl", "volume"), mark=True, since="the old shoe", how="emptied", **WHO
    ),
    FlowChecked(state="no flow", time=read("5 min", "time"), note="at the old shoe", **WHO),
    TightSpot(
        depth=read("300 ft", "length"),
        overpull=read("20 klbf", "force"),
        set_down=read("10 klbf", "force"),
        done="worked through",
        **WHO,
    ),
    Stuck(note="on a ledge", **WHO),
    PipeFree(how="worked down", **WHO),
    Losses(volume=read("5 bbl", "volume"), rate=read("1 bbl/min", "flow rate"), note="slow", **WHO),
    ShutIn(
        gain=read("3 bbl", "volume"),
        annulus_pressure=read("150 psi", "pressure"),
        pipe_pressure=read("0 psi", "pressure"),
        note="rams",
        **WHO,
    ),
    WellOpened(note="by the representative", **WHO),
    Dropped(what="tong die", where="on the floor", note="found", **WHO),
    CrewChanged(lead="Nia Roe", told="joint 8 next", **WHO),
    FittingMissed(number="1", reason="none left", **WHO),
    AutoFillConverted(
        pressure=read("350 psi", "pressure"), rate=read("3 bbl/min", "flow rate"), **WHO
    ),
    WeightRead(
        slack_off=read("160 klbf", "force"),
        pick_up=read("180 klbf", "force"),
        hanging=read("170 klbf", "force"),
        **WHO,
    ),
    Filled(source="trip tank", volume=read("3 1/2 bbl", "volume"), **WHO),
    RateRead(rate=read("4 bbl/min", "flow rate"), pressure=read("300 psi", "pressure"), **WHO),
    PipeMoved(
        stroke=read("15 ft", "length"),
        note="free",
        strokes=read("2 strokes/min", "stroke rate"),
        rotation=read("20 rpm", "rotary speed"),
        torque=read("5000 ft-lbf", "torque"),
        slack_off=read("160 klbf", "force"),
        pick_up=read("180 klbf", "force"),
        **WHO,
    ),
    PipeStopped(reason="landing", **WHO),
    WaitingPicked(
        rules=(
            WaitingRule(
                name="county",
                place="here",
                clause="12",
                strings="surface",
                time=read("8 h", "time"),
                strength=read("500 psi", "pressure"),
                where="shoe",
                need="any",
                says="Under pressure.",
                meanwhile="drilling",
                edition="2024",
            ),
        ),
        confirmed="Oda Linde",
        **WHO,
    ),
    OnDepth(stick_up=322, counted=3, typed="3.22", **WHO),
    HungOffAt(load=read("170 klbf", "force"), how="slips", **WHO),
    Pumped(
        tank=read("9 bbl", "volume"),
        strokes=90,
        pressure=read("300 psi", "pressure"),
        rate=read("5 bbl/min", "flow rate"),
        **WHO,
    ),
    StepDone(
        list_id="l",
        step_id="s",
        state="up",
        value="3 psi",
        witness="a",
        note="n",
        second="b",
        released="c",
        **WHO,
    ),
    Readings(
        source="job.csv",
        columns=(BatchColumn("pressure", "psi"), BatchColumn("strokes")),
        rows=2,
        first="2026-05-02T05:58:00+02:00",
        last="2026-05-02T05:59:00+02:00",
        sha256="0f" * 32,
        place="line 2",
        since="line 0",
        told=("line 1 has no time",),
        **WHO,
    ),
    FileFollowed(path="job.csv", asked={"unit of volume": "bbl"}, **WHO),
    FileLeft(reason="r", **WHO),
    DifferenceAnswered(list_id="l", step_id="s", reason="r", **WHO),
    PassingAnswered(list_id="l", step_id="s", reason="r", second="b", **WHO),
    ReportSigned(
        name="a",
        role="driller",
        meaning="approved",
        reports=("tally", "report"),
        entries=6,
        head="0f",
        **WHO,
    ),
    StepWitnessed(list_id="l", step_id="s", witness="a", state="up", value="3 psi", **WHO),
    StepPassed(list_id="l", step_id="s", outcome="not done", reason="r", second="b", **WHO),
    NoticeGiven(
        to="the office",
        about="cementing",
        means="telephone",
        given="Per Falk",
        when="yesterday at noon",
        answer="no. 7",
        **WHO,
    ),
    CalibrationNoted(
        what="pump gauge",
        day="2026-03-01",
        due="2026-09-01",
        serial="G7",
        done_by="the shop",
        note="n",
        **WHO,
    ),
    TimeLost(
        cause="pump",
        time=read("45 min", "time"),
        began="2026-05-02T04:00:00+02:00",
        note="liner",
        **WHO,
    ),
    PressureTested(
        what="casing",
        pressure=read("1500 psi", "pressure"),
        time=read("30 min", "time"),
        held=True,
        ended=read("1490 psi", "pressure"),
        device="chart",
        note="none",
        **WHO,
    ),
    HandedOver(to="Nia Roe", watch="the trip tank", taken=True, **WHO),
    TakenOver(name="Nia Roe", **WHO),
    ExceptionClosed(of=3, reason="found", **WHO),
    BundleCounted(bundle="T1", counted=40, noted=41, numbers=("1", "2"), **WHO),
    Checked(
        what="drift",
        passed=True,
        numbers=("1", "2"),
        who="Nia Roe",
        mandrel=read("8.525 in", "diameter"),
        note="twice",
        **WHO,
    ),
    EquipmentNoted(name="spider", here=True, checked=True, supplier="crew", note="250 t", **WHO),
    OrderSet(
        order=("S1", "1"),
        reason="as it lies",
        locked=("S1",),
        aside=("2",),
        rules=OrderRules(places=(Place(number="M1", depth=read("300 ft", "length")),)),
        **WHO,
    ),
    Correction(of=3, reason="slip", instead={"number": "2", "fittings": [{"what": "bow"}]}, **WHO),
)


def with_text(entry: Entry, name: str, text: str) -> Entry:
    """Return an entry with a text put into one of its text fields."""
    return replace(entry, **{name: text})


def text_fields(entry: Entry) -> list[str]:
    """Return the names of the text fields of an entry."""
    return [one.name for one in fields(entry) if isinstance(getattr(entry, one.name), str)]


def missing_kinds() -> set[str]:
    """Return the kinds that no entry above is of."""
    return set(catalogue()) - {entry.KIND for entry in EVERY}
