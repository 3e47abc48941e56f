"""Every figure at every point of a job has its unit and inputs, or says what is missing."""

from dataclasses import replace

import pytest

from tally.job.entries.conditioning import PipeMoved, RateRead
from tally.job.entries.landing import OnDepth
from tally.job.entries.mixing import MixRead
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun
from tally.job.entries.waiting import WaitingPicked
from tally.job.entries.watching import Filled, TankRead
from tally.job.figures import show
from tally.job.figures.model import Input, Missing, on, read_off, typed
from tally.job.fold import EMPTY, fold
from tally.job.job import Job
from tally.job.setup import Filling, StrengthReading, WaitingRule, Zone
from tally.units import read
from tests.tally.job.centred import centred
from tests.tally.job.invented import (
    LEAD,
    REP,
    closed_end,
    limits,
    pumping,
    pumping_down,
    running,
    setup,
    weighed,
)
from tests.tally.job.invented_programme import (
    BENTONITE,
    LEAD_SLURRY,
    TAIL_SLURRY,
    TOLERANCES,
    WASH,
    WATER,
    cementing,
)
from tests.tally.job.whole_figures import assert_whole

BARE = pumping(
    volume_per_stroke=None,
    efficiency=None,
    rate=None,
    head_volume=None,
    slurry_volume=None,
    spacer_volume=None,
    final_pressure=None,
)
STRENGTH = StrengthReading(time=read("8 h", "time"), strength=read("500 psi", "pressure"))
RULE = WaitingRule(name="shoe", place="here", strength=read("500 psi", "pressure"))


def _flowing(fluid):
    """Return a fluid with what its friction wants."""
    yield_point = read("10 lbf/100ft2", "yield point")
    return replace(fluid, plastic_viscosity=read("20 cP", "viscosity"), yield_point=yield_point)


def everything():
    """Return a job with something of every kind."""
    mud = cementing(
        plastic_viscosity=read("18 cP", "viscosity"),
        yield_point=read("12 lbf/100ft2", "yield point"),
        conditioning_rate=read("8 bbl/min", "flow rate"),
        gel_strength=read("8 lbf/100ft2", "yield point"),
    )
    filling = Filling(interval=10, auto_fill=read("40 %", "ratio"))
    least = limits(
        least_slack_off="30 klbf",
        least_standoff="67 %",
        peak_factor="1.5",
        diaphragm_pressure="600 psi",
        **TOLERANCES,
    )
    plan = weak(centred(filling=filling, pumping=mud, limits=least))
    plan = replace(plan, strengths=(STRENGTH,))
    fluids = (WASH, LEAD_SLURRY, TAIL_SLURRY, WATER)
    slurries = {"fluids": tuple(map(_flowing, fluids)), "additives": (BENTONITE,)}
    told = circulated(timed(pumping_down(replace(plan, **slurries))))
    told.says(WaitingPicked, rules=(RULE,), confirmed=REP)
    told.witnessed("plug-release", "slurry-away", value="25 bbl")
    told.does("plug-release", "displacement-started")
    told.does("plug-release", "pressure-before-bump", value="900 psi")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    told.says(TankRead, volume=read("5.1 bbl", "volume"))
    told.says(Filled, source="active pit")
    told.says(
        Pumped,
        tank=read("10 bbl", "volume"),
        strokes=100,
        pressure=read("300 psi", "pressure"),
        rate=read("5 bbl/min", "flow rate"),
    )
    slurry = next(one.name for one in told.job.known.fluids if one.kind == "slurry")
    log = {"pumped": read("9 bbl", "volume"), "mix_fluid": read("3 bbl", "volume"), "sacks": 40}
    told.says(MixRead, fluid=slurry, balance=read("15.8 lb/gal", "density"), **log)
    return told


def circulated(told):
    """Return the same story with two rates noted and the pipe moved once the string was down."""
    place = next(n for n, entry in enumerate(told.entries) if isinstance(entry, OnDepth))
    at = told.entries[place].at
    pairs = [
        RateRead(
            by=LEAD,
            at=at,
            seq=0,
            rate=read(rate, "flow rate"),
            pressure=read(pressure, "pressure"),
        )
        for rate, pressure in (("2 bbl/min", "90 psi"), ("8 bbl/min", "600 psi"))
    ]
    moved = PipeMoved(
        by=LEAD,
        at=at,
        seq=0,
        stroke=read("10 ft", "length"),
        strokes=read("1 strokes/min", "stroke rate"),
    )
    told.entries[place + 1 : place + 1] = [*pairs, moved]
    told.entries = [replace(entry, seq=n) for n, entry in enumerate(told.entries, 1)]
    told.job = fold(told.entries)
    return told


def weak(plan):
    """Return the set-up with a shoe and a zone that take fluid, and a zone that holds some."""
    previous = replace(plan.previous, weak_at=read("15 lb/gal", "density"))
    ends = {"top": read("200 ft", "length"), "bottom": read("400 ft", "length")}
    densities = {"weak_at": read("14 lb/gal", "density"), "pore": read("8 lb/gal", "density")}
    zones = (*plan.zones, Zone(name="marl", fluid="water", **ends, **densities))
    return replace(plan, previous=previous, zones=zones)


def timed(told):
    """Return the same story with every item timed as it was lowered."""
    clock = read("32 s", "lowering time")
    told.entries = [
        replace(entry, lowering=clock) if isinstance(entry, ItemRun) else entry
        for entry in told.entries
    ]
    told.job = fold(told.entries)
    return told


@pytest.mark.parametrize(
    "plan",
    [
        setup(),
        setup(units="metric"),
        setup(shown_in={"volume": "m3", "force": "kN"}),
        setup(filling=closed_end(False), previous=None),
        setup(pumping=BARE, limits={}),
        setup(survey=(), order=()),
        weighed(filling=Filling(interval=3), units="metric"),
    ],
    ids=["field", "metric", "switched", "open end", "bare", "no order", "weighed"],
)
def test_from_the_set_up_to_the_last_item(plan):
    told = running(plan=plan)
    assert_whole(told.job)
    for number in ("S1", "1", "2", "C1", "3", "4"):
        told.runs(number, despite="as it comes")
        assert_whole(told.job)


def test_with_something_of_every_kind_hardly_anything_is_missing():
    made = assert_whole(everything().job)
    missing = {each.key: each.missing for each in made if each.value is None}
    assert missing.pop("time_to_depth") == "The string is on depth."
    assert list(missing) == ["bump_seen", "bump_rise"]
    assert all(said.startswith("No bump is proposed") for said in missing.values()), missing


def test_at_every_point_of_a_whole_job():
    told = everything()
    assert_whole(EMPTY)
    for upto in range(1, len(told.entries) + 1):
        assert_whole(fold(told.entries[:upto]))


def test_figures_stand_in_a_fixed_order():
    keys = [each.key for each in assert_whole(everything().job)]
    assert keys[0] == "string_length"
    assert keys.index("shoe_depth") < keys.index("casing_capacity")
    assert keys.index("casing_capacity") < keys.index("tank_expected")
    assert keys.index("tank_expected") < keys.index("displacement_to_collar")


def test_a_missing_input_is_a_sentence():
    with pytest.raises(Missing, match="Pump rate is not in the job set-up"):
        typed("pump rate", None)
    with pytest.raises(Missing, match="Pump rate was not read yet"):
        read_off("pump rate", None, "entry 3")
    lacking = assert_whole(replace(running().job, string=()))[1]
    with pytest.raises(Missing, match="Nothing is run yet"):
        on(lacking)


def test_each_quantity_is_shown_as_the_job_shows_it():
    job: Job = running().job
    assert show(job, None, "volume") == "-"
    assert show(job, 4135, "tally") == "41.35 ft"
    assert show(job, 12, "count") == "12"
    assert show(job, read("3 bbl", "volume").value, "volume") == "3.0 bbl"
    assert Input("a", 1, "count", "read", "here").where == "here"
