"""The cementing as the casing and cementing report tells it: design, fluids, what was done."""

from __future__ import annotations

from collections.abc import Iterator

from tally.cement.programme import Placed
from tally.errors import ShoedownError
from tally.fluids.slurry import STANDARD_SACK
from tally.job.cement_job import SlurryWanted, programme_of, slurries
from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.planned_string import as_planned
from tally.job.recipes import density_of
from tally.job.rheology import by_two_readings, two_numbers
from tally.job.setup import MUD, Additive, Fluid
from tally.reports.fields import (
    Fields,
    depth_told,
    fields,
    reckoned,
    step_at,
    step_told,
    typed,
)
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import surface_told, weighed
from tally.reports.pump_curve import (
    PumpCurve,
    greatest_rate,
    last_rate,
    mean_rate,
    pump_curve,
)
from tally.reports.text_parts import stamp, who

BEHIND = "displacement"


def design_fields(tally: FinalTally) -> Fields:
    """Return the hole, the mud and the plan, as far as they are set up or calculated."""
    setup, pump, job = tally.setup, tally.setup.pumping, tally.job
    previous = setup.previous
    return fields(
        "Cementing: hole, mud and plan",
        (
            ("cementing company, unit", ""),
            ("cementer", _people(tally, "cementer")),
            ("hole size, depth", f"{setup.hole.diameter.text}, {setup.hole.depth.text}"),
            ("caliper", _caliper(tally)),
            ("excess", _excess(tally)),
            ("shoe", depth_told(tally, setup.step.si(tally.depths.shoe)) if tally.rows else ""),
            ("float collar", _collar(tally)),
            ("previous shoe", f"{previous.shoe.text}, {previous.name}" if previous else ""),
            ("top of cement by the programme", reckoned(tally, "cement_top")),
            ("bottom-hole temperature", ""),
            ("mud weight by the set-up", pump.mud_weight.text),
            ("mud in, mud out", _both(tally, "density-in", "density-out")),
            ("plastic viscosity, by the set-up", flows(tally, MUD)[0]),
            ("plastic viscosity, measured", step_told(job, "plastic-viscosity")),
            ("yield point, by the set-up", flows(tally, MUD)[1]),
            ("yield point, measured", step_told(job, "yield-point")),
            ("gel strength", typed(pump.gel_strength)),
            ("circulated before, volume", step_told(job, "volume-circulated")),
            ("circulated before, rate", step_told(job, "rate-raised")),
            ("circulated before, pressure", step_told(job, "circulating-pressure")),
            ("pressure at steady rates", _rates(tally)),
            ("losses before", step_told(job, "losses")),
            ("pipe movement", _moved(tally)),
        ),
    )


def _people(tally: FinalTally, role: str) -> str:
    return ", ".join(person.name for person in tally.people if person.role == role)


def _collar(tally: FinalTally) -> str:
    track, step = tally.shoe_track, tally.setup.step
    return step.with_unit(track[-1].top) if track else ""


def _caliper(tally: FinalTally) -> str:
    return "; ".join(
        f"{part.caliper.text} from {part.top.text} to {part.bottom.text}"
        for part in tally.setup.sections
        if part.caliper
    )


def _excess(tally: FinalTally) -> str:
    parts = [
        f"{part.excess.text} from {part.top.text} to {part.bottom.text}"
        for part in tally.setup.sections
        if part.excess
    ]
    on = tally.setup.pumping.excess_applies_to
    return "; ".join(parts) + (f", of the {on}" if parts and on else "") or "none in the set-up"


def _both(tally: FinalTally, one: str, other: str) -> str:
    found = [step_told(tally.job, each) for each in (one, other)]
    return "; ".join(each for each in found if each)


def _rates(tally: FinalTally) -> str:
    pairs = (f"{one.pressure.text} at {one.rate.text}" for one in tally.job.rates)
    return "; ".join(pairs)


def _moved(tally: FinalTally) -> str:
    moved = tally.job.moved
    if moved is None:
        return ""
    note = f" ({moved.note})" if moved.note else ""
    return f"stroke {moved.stroke.text}{note}; {who(moved.by, moved.at)}"


def fluid_fields(tally: FinalTally) -> tuple[Fields, ...]:
    """Return the fluids of the programme in pumping order, each with what is known of it."""
    return tuple(
        fields(f"{order}. {fluid.name}, {fluid.kind}", _fluid(tally, fluid))
        for order, fluid in enumerate(tally.setup.fluids, start=1)
    )


def _fluid(tally: FinalTally, fluid: Fluid) -> Iterator[tuple[str, str | None]]:
    yield "density by the programme", _density(tally, fluid)
    yield "density measured", weighed(tally, fluid.name)
    if fluid.kind == "slurry":
        yield from _slurry(tally, fluid)
    yield "volume by the programme", _volume(tally, fluid)
    yield "volume pumped", _pumped(tally, fluid)
    if fluid.kind != BEHIND:
        yield "top and bottom by the programme", _place(tally, fluid)
    yield "plastic viscosity, yield point", ", ".join(filter(None, flows(tally, fluid.name)))
    yield "rate by the programme", typed(fluid.rate)


def _slurry(tally: FinalTally, fluid: Fluid) -> Iterator[tuple[str, str | None]]:
    made, job = slurry_of(tally, fluid), tally.job
    yield "cement", fluid.cement
    if made is None:
        yield "amount, yield, mix water", ""
    else:
        yield "cement, amount", sacks_told(tally, made)
        yield "yield of a sack", yield_told(tally, made)
        yield "mix water of a sack", per_sack(job, made, made.recipe.water, "mix water")
        yield "mix water, in all", show(job, made.needed.water, "volume")
        if made.recipe.doubts:
            yield "in doubt", doubts_told(made)
    yield "additives", additives_told(tally, fluid)
    yield "thickening time", typed(fluid.thickening_time)
    yield "free fluid, fluid loss, strength", ""


def slurry_of(tally: FinalTally, fluid: Fluid) -> SlurryWanted | None:
    """Return what a slurry takes; nothing where the set-up does not say enough."""
    try:
        return next((one for one in slurries(tally.job) if one.fluid is fluid), None)
    except ShoedownError:
        return None


def sacks_told(tally: FinalTally, made: SlurryWanted) -> str:
    """Return the sacks of a slurry, and what one of them weighs."""
    return f"{made.needed.sacks:,} sacks of {show(tally.job, made.recipe.sack, 'mass')}"


def doubts_told(made: SlurryWanted) -> str:
    """Return how what is typed for a slurry disagrees, and which value is used."""
    return " ".join(each.text for each in made.recipe.doubts)


def yield_told(tally: FinalTally, made: SlurryWanted) -> str:
    """Return what a sack makes."""
    return per_sack(tally.job, made, made.recipe.makes, "slurry yield")


def per_sack(job: Job, made: SlurryWanted, volume: float, quantity: str) -> str:
    """Return a volume for the sack of the job, in the unit in which such a thing is set up."""
    by_sack = job.known.shown.unit(quantity).endswith("/sk")
    return show(job, volume / (STANDARD_SACK if by_sack else made.recipe.sack), quantity)


def additives_told(tally: FinalTally, fluid: Fluid) -> str:
    """Return what is mixed into a slurry, with the share and the mass that it comes to."""
    made = slurry_of(tally, fluid)
    masses = dict(made.needed.additives) if made else {}
    return "; ".join(
        _additive(tally, each, masses.get(each.material))
        for each in tally.setup.additives
        if each.fluid == fluid.name
    ) or ("none" if fluid.cement else "")


def _additive(tally: FinalTally, each: Additive, mass: float | None) -> str:
    share = f" {each.share.text} of the {each.of}" if each.share else ""
    share = f" {each.per_sack.text}" if each.per_sack else share
    weighs = "" if mass is None else f", {show(tally.job, mass, 'mass')}"
    return f"{each.material}{share}{weighs}"


def _density(tally: FinalTally, fluid: Fluid) -> str:
    try:
        return show(tally.job, density_of(tally.setup, fluid), "density")
    except ShoedownError:
        return ""


def _volume(tally: FinalTally, fluid: Fluid) -> str:
    if fluid.kind == BEHIND:
        return typed(fluid.volume)
    placed = _placed(tally, fluid)
    if placed is None:
        return typed(fluid.volume)
    return show(tally.job, sum(one.volume for one in placed), "volume") if placed else ""


def _place(tally: FinalTally, fluid: Fluid) -> str:
    placed = _placed(tally, fluid)
    if placed is None:
        return typed(fluid.top)
    depths = (depth_told(tally, each) for one in placed[:1] for each in (one.top, one.bottom))
    return " to ".join(depths)


def _placed(tally: FinalTally, fluid: Fluid) -> list[Placed] | None:
    """Return where a fluid comes to stand as planned, or nothing where no plan can be made."""
    try:
        placed = programme_of(as_planned(tally.job)).placed
    except ShoedownError:
        return None
    return [one for one in placed if one.name == fluid.name]


def _pumped(tally: FinalTally, fluid: Fluid) -> str:
    """Return what was entered as pumped; the steps tell spacers and slurries as sums."""
    step = {"spacer": "spacer-pumped", "slurry": "slurry-away"}.get(fluid.kind, "")
    alike = sum(1 for one in tally.setup.fluids if one.kind == fluid.kind)
    told = step_told(tally.job, step) if step else ""
    return f"{told}, all {alike} of them together" if told and alike > 1 else told


FROM_READINGS = "by the readings at 600 and 300 rpm"


def flows(tally: FinalTally, fluid: str) -> tuple[str, str]:
    """Return plastic viscosity and yield point: as typed, else by the viscometer readings."""
    viscosity, yield_point = two_numbers(tally.setup, fluid)
    read = by_two_readings(tally.setup, fluid) or (None, None)
    found = zip((viscosity, yield_point), read, ("viscosity", "yield point"), strict=True)
    told = [
        typed(measure)
        or ("" if value is None else f"{show(tally.job, value, quantity)} {FROM_READINGS}")
        for measure, value, quantity in found
    ]
    return told[0], told[1]


def done_fields(tally: FinalTally) -> Fields:
    """Return what was done, from the line test to the float check."""
    job = tally.job
    told = (
        ("line test", "line-test"),
        ("spacer", "spacer-pumped"),
        ("bottom plug released", "bottom-plug-released"),
        ("mixing began", "first-slurry"),
        ("slurry away", "slurry-away"),
        ("top plug released", "top-plug-released"),
        ("displacement began, returns", "displacement-started"),
        ("diaphragm gave way", "diaphragm-gave-way"),
    )
    after = (
        ("pressure before the bump", "pressure-before-bump"),
        ("plug bumped", "bumped"),
        ("bump pressure", "bump-pressure"),
        ("volume at the bump", "bump-volume"),
        ("counts compared", "counts-compared"),
        ("bled back", "bled-back"),
        ("floats", "floats-held"),
        ("casing left", "waiting-started"),
    )
    return fields(
        "Cementing: what was done",
        (
            *((label, step_told(job, step)) for label, step in told),
            ("displacement by the programme", reckoned(tally, "displacement_to_collar")),
            *displaced(tally),
            *((label, step_told(job, step)) for label, step in after),
            ("pressure held, minutes", ""),
            ("volume lost", ""),
            ("spacer at surface", surface_told(tally, "spacer")),
            ("cement returned to surface", surface_told(tally, "cement")),
        ),
    )


def displaced(tally: FinalTally) -> tuple[tuple[str, str], ...]:
    """Return what was displaced behind the top plug, and how fast."""
    gone, curve = figure(tally.job, "displaced"), pump_curve(tally.job)
    told = "" if gone.value is None else f"{show(tally.job, gone.value, 'volume')}, {gone.formula}"
    if told and curve is not None:
        told += f"; last read {stamp(curve.readings[-1].at)}"
    return (
        ("displacement pumped", told),
        ("rates of displacement", rates_told(tally.job, curve) if curve else ""),
    )


def rates_told(job: Job, curve: PumpCurve) -> str:
    """Return the rates that are known, each with what it is from."""
    mean, most, last = mean_rate(curve), greatest_rate(curve), last_rate(curve)
    by_mean = mean is not None and most == mean
    told = (
        ("mean", mean, "volume over time, first reading to last"),
        ("greatest", most, "at least the mean, less was read" if by_mean else "as read"),
        ("last", last, "as read"),
    )
    return "; ".join(
        f"{name} {show(job, rate, 'flow rate')}, {how}"
        for name, rate, how in told
        if rate is not None
    )


def after_fields(tally: FinalTally) -> Fields:
    """Return what is found afterwards."""
    job, picked = tally.job, tally.job.picked
    rules = "; ".join(rule.name for rule in picked.rules) if picked else ""
    return fields(
        "Cementing: afterwards",
        (
            ("waiting began", step_at(job, "waiting-started")),
            ("waiting rules", f"{rules}; confirmed by {picked.confirmed}" if picked else ""),
            ("waiting time of the limits", typed(tally.setup.limit("waiting_time"))),
            ("fluid pumped back in", _back_in(tally)),
            ("test of the shoe", shoe_test_told(tally)),
            ("casing test, pressure and time", tested_told(tally, "casing")),
            ("cement found in the shoe track", ""),
            ("top of cement as found, method", ""),
            ("log run", ""),
            ("formation integrity test", ""),
            ("annular flow after the job", ""),
            ("remedial work", ""),
        ),
    )


def _back_in(tally: FinalTally) -> str:
    return "; ".join(
        f"{one.volume.text}, decided by {one.decided}, {stamp(one.at)}" for one in tally.job.back_in
    )


def tested_told(tally: FinalTally, what: str) -> str:
    """Return the pressure tests of something: with what, how long, and whether it held."""
    return "; ".join(
        f"{one.pressure.text}, {one.time.text}, {'held' if one.held else 'did not hold'}; "
        f"{who(one.by, one.at)}"
        for one in tally.job.pressure_tests
        if what in one.what.casefold()
    )


def shoe_test_told(tally: FinalTally) -> str:
    """Return how the shoe was tested, whether it held, and who clears it."""
    return "; ".join(
        f"{one.how}: {'held' if one.held else 'did not hold'}"
        + (f", cleared by {one.cleared}" if one.cleared else "")
        + f", {stamp(one.at)}"
        for one in tally.job.shoe_tests
    )
