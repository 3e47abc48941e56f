"""Figures of standoff: how centred the string will lie, by the centralizers on it."""

from __future__ import annotations

from tally.job.centralizing import centralizer_of, kind_of, table_of
from tally.job.figures.model import (
    CALCULATED,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    counted,
    live,
    on,
    typed,
)
from tally.job.fittings import due_next
from tally.job.geometry import hole_of, path_of, piece_of
from tally.job.job import Job
from tally.job.running_list import planned_shoe
from tally.job.setup import CentralizerKind
from tally.job.standoff import (
    Profile,
    density_inside,
    heaviest_slurry,
    joint_standoffs,
    open_rows,
    programmed_profile,
    standoff_profile,
)
from tally.string.sag import bending_stiffness
from tally.string.side_force import magnitude, side_vector
from tally.string.spacing import MOST, longest_spacing
from tally.string.standoff import Centring

LIMIT = "least_standoff"
MODEL = "by the recommended-practice beam model"
A_JOINT = 12.0
"""[m]; the bend of the hole is taken over so much of it."""


@live("standoff_least", "Least standoff in open hole, as installed")
def standoff_least(job: Job) -> Figure:
    """Return the least standoff of what is run, at the worst moment of the job."""
    return _least(job, standoff_profile(job))


@live("standoff_programmed", "Least standoff in open hole, as programmed")
def standoff_programmed(job: Job) -> Figure:
    """Return what the least standoff of what is run would be with everything programmed on it."""
    return _least(job, programmed_profile(job))


@live("standoff_over_programmed", "Least standoff over that programmed")
def standoff_over_programmed(job: Job) -> Figure:
    """Return how much better the string lies than by the programme; below zero it is worse."""
    installed, programmed = on(standoff_least(job)), on(standoff_programmed(job))
    value = float(installed.value or 0.0) - float(programmed.value or 0.0)
    how = "least standoff as installed - least standoff as programmed"
    return Figure(value, "ratio difference", how, (installed, programmed))


@live("standoff_under", "Share of joints with less standoff than wanted")
def standoff_under(job: Job) -> Figure:
    """Return the share of the joints in open hole whose standoff is under the limit."""
    wanted, profile = _limit(job), standoff_profile(job)
    worst = joint_standoffs(job, profile)
    if not worst:
        raise Missing("No joint between two centralizers will lie in open hole yet.")
    under = sum(1 for each in worst if each < float(wanted.value or 0.0))
    how = f"joints under it / joints between centralizers in open hole, {MODEL}"
    inputs = (
        wanted,
        calculated("joints under it", under, "count", "standoff along the string"),
        counted("joints between centralizers in open hole", len(worst), "string as run"),
        *_worst_moment(job, profile),
    )
    return Figure(under / len(worst), "ratio", how, inputs)


@live("standoff_contact", "Lengths between centralizers on the wall")
def standoff_contact(job: Job) -> Figure:
    """Return how many lengths between two centralizers lie on the wall of the open hole."""
    profile = standoff_profile(job)
    rows = open_rows(job, profile)
    how = f"lengths between neighbouring centralizers where the gap is gone, {MODEL}"
    count = sum(1 for row in rows if row.contact)
    of = counted("lengths in open hole", len(rows), "centralizers as installed")
    return Figure(count, "count", how, (of, *_worst_moment(job, profile)))


@live("centralizer_spacing", "Longest spacing of centralizers")
def centralizer_spacing(job: Job) -> Figure:
    """Return how far apart centralizers may stand where the top of the string will lie."""
    wanted, profile = _limit(job), standoff_profile(job)
    kind = _next_kind(job)
    pipe = job.known.pipe(job.string[-1].pipe)
    side, inclination, hole = _at_top(job, profile)
    outer, inner = pipe.outer_diameter.value, pipe.inner_diameter.value
    spacing = longest_spacing(
        centralizer_of(job.known, kind, pipe),
        float(wanted.value or 0.0),
        side,
        profile.tension,
        (hole - outer) / 2,
        outer,
        bending_stiffness(outer, inner),
    )
    ends = job.known.shown.show(MOST, "length")
    how = f"longest length that keeps it in its middle, {MODEL}; the search ends at {ends}"
    where = "where the top of the string will lie"
    inputs = (
        wanted,
        Input("centralizer", kind.what, "text", TYPED, "centralizer data"),
        calculated("depth", profile.top, "length difference", where),
        calculated("inclination", inclination, "angle", where),
        calculated("hole", hole, "diameter", where),
        calculated("load across by length", side, "force per length", where),
        calculated("tension", profile.tension, "force difference", where),
        *_worst_moment(job, profile),
    )
    return Figure(spacing, "length", how, inputs)


def _least(job: Job, profile: Profile) -> Figure:
    rows = open_rows(job, profile)
    worst = min(rows, key=lambda row: row.least)
    place = "between two centralizers" if worst.least == worst.middle else "at a centralizer"
    past = sum(1 for row in rows if not row.known)
    inputs = [
        calculated("measured depth of it", worst.where, "length", "standoff along the string"),
        Input("it is", place, "text", CALCULATED, "standoff along the string"),
        *_worst_moment(job, profile),
    ]
    if past:
        where = "counted as on the wall"
        inputs.append(calculated("lengths with a load past the table", past, "count", where))
    how = f"least of (gap at centralizers - sag) / gap of centred pipe, {MODEL}"
    return Figure(worst.least, "ratio", how, tuple(inputs))


def _worst_moment(job: Job, profile: Profile) -> tuple[Input, ...]:
    """Return the inputs of everything that is worked out along the string."""
    setup = job.known
    shoe = planned_shoe(job)
    kinds = [each for each in setup.centralizers if _is_installed(job, each)]
    return (
        _survey(job, setup.step.si(shoe)),
        calculated("shoe at", setup.step.si(shoe), "length", "casing point, or as landed"),
        _inside(job),
        typed("mud weight outside", setup.pumping.mud_weight),
        counted("centralizers in the hole", profile.centralizers, "string as run"),
        *(Input(each.what, _known_by(job, each), "text", TYPED, "job set-up") for each in kinds),
    )


def _survey(job: Job, shoe: float) -> Input:
    deepest = path_of(job.known).deepest
    said = f"{len(job.known.survey)} stations"
    if deepest < shoe:
        said += f", taken as straight below {job.known.shown.show(deepest, 'length')}"
    return Input("survey", said, "text", TYPED, "job set-up")


def _inside(job: Job) -> Input:
    slurry = heaviest_slurry(job.known)
    where = "job set-up, heaviest slurry"
    if slurry is None:
        where = "job set-up; no slurry heavier than the mud is set up, mud on both sides"
    name = slurry.name if slurry else "mud"
    return Input(f"inside: {name}", density_inside(job.known), "density", TYPED, where)


def _is_installed(job: Job, kind: CentralizerKind) -> bool:
    names = {fitting.what for made in job.string for fitting in made.fittings}
    names |= {fitting.what for fitting in due_next(job)}
    return any(kind_of(job.known, name) is kind for name in names)


def _known_by(job: Job, kind: CentralizerKind) -> str:
    """Return in words how a centralizer gives way."""
    if kind.kind == "rigid":
        return "rigid, no deflection"
    lines = len(table_of(job.known, kind))
    if lines:
        return f"bow, by its table of {lines} lines"
    hole = job.known.shown.show(job.known.hole.diameter.value, "diameter")
    return f"bow, straight line through its force at 67 % in {hole}, an assumption"


def _next_kind(job: Job) -> CentralizerKind:
    """Return the centralizer due on the next joint, else the last one installed."""
    due = list(due_next(job))
    for made in reversed(job.string):
        due += made.fittings
    for fitting in due:
        kind = kind_of(job.known, fitting.what)
        if kind is not None:
            return kind
    raise Missing("No centralizer is due or installed.")


def _at_top(job: Job, profile: Profile) -> tuple[float, float, float]:
    """Return load across by length [N/m], inclination [rad] and hole [m] at the string's top."""
    setup = job.known
    depth = max(0.0, profile.top)
    path, hole = path_of(setup), hole_of(setup)
    mud = setup.pumping.mud_weight.value
    around = Centring(path, hole, depth, density_inside(setup), mud)
    weight = around.weight(piece_of(setup.pipe(job.string[-1].pipe), 0.0)) * A_JOINT
    upper, lower = (path.leg_at(each) for each in (max(0.0, depth - A_JOINT), depth))
    along = upper[0].direction(upper[1]), lower[0].direction(lower[1])
    side = magnitude(side_vector(*along, weight, profile.tension)) / A_JOINT
    return side, path.at(depth).inclination, around.hole_diameter(depth)


def _limit(job: Job) -> Input:
    setting = job.known.limits.get(LIMIT)
    where = f"limits, {setting.owner}" if setting else "limits"
    return typed("least standoff wanted", job.known.limit(LIMIT), where)
