"""What was done at each zone of the job, as run, and what is in doubt; no more is claimed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tally.cement.programme import SLURRY, Placed
from tally.cement.returns import LESS, NONE, TOO_LITTLE
from tally.cement.zones import contact_time, covered, scratchers_that_meet
from tally.errors import Missing, ShoedownError
from tally.job import cement_job
from tally.job.centralizing import is_centralizer, places
from tally.job.depths import reaches
from tally.job.gates import DONE
from tally.job.geometry import path_of
from tally.job.job import Job
from tally.job.mud import step_measure
from tally.job.placement import counts, live, stopped
from tally.job.planned_string import as_planned, is_run
from tally.job.returns_watch import called, seen_phase
from tally.job.setup import Zone
from tally.job.standoff import standoff_profile
from tally.job.waiting import in_place
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.columns import vertical
from tally.units import read

PROVES_NOTHING = (
    "What was done, and what is in doubt. None of it shows that the zone is shut off; tests and "
    "logs do that."
)
WHOLE = 0.999
"""Share of a zone from which on all of it counts as covered."""


@dataclass(frozen=True, slots=True)
class Told:
    """One short sentence about a zone, and whether it tells of a doubt."""

    text: str
    doubt: bool = False


@dataclass(frozen=True, slots=True)
class ZoneRecord:
    """A zone with what was done at it and what is in doubt."""

    zone: Zone
    told: tuple[Told, ...]

    @property
    def done(self) -> tuple[str, ...]:
        """What was done."""
        return tuple(each.text for each in self.told if not each.doubt)

    @property
    def doubts(self) -> tuple[str, ...]:
        """What is in doubt."""
        return tuple(each.text for each in self.told if each.doubt)


Teller = Callable[[Job, Zone], Iterator[Told]]


def zone_records(job: Job) -> tuple[ZoneRecord, ...]:
    """Return what stands about each zone of the set-up, in its order."""
    if job.setup is None:
        return ()
    return tuple(ZoneRecord(zone, _told(job, zone)) for zone in job.setup.zones)


def how_far(job: Job) -> str:
    """Return what the records rest on: cement in place, or only the programme so far."""
    since = in_place(job)
    string = "string as run" if is_run(job) else "string as run and as the running list goes on"
    if since is None:
        return f"No cement is in place yet: by the programme, {string}."
    return f"Cement in place by {since.how}; tops by the programme, {string}."


def _told(job: Job, zone: Zone) -> tuple[Told, ...]:
    """Return every sentence; what cannot be worked out is a doubt with its reason."""
    told: list[Told] = []
    for teller in TELLERS:
        try:
            told += teller(job, zone)
        except ShoedownError as lack:
            told.append(Told(str(lack), doubt=True))
    return tuple(dict.fromkeys(told))


def _cement(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell which slurry covers it, and how far cement goes on above and below."""
    planned, show = as_planned(job), job.known.shown.show
    top, bottom = zone.top.value, zone.bottom.value
    room = cement_job.room_of(planned)
    found = covered(cement_job.programme_of(planned).placed, top, bottom, room.bottom)
    if not found.covers:
        yield Told("No cement over it by the programme.", doubt=True)
        return
    named = ", ".join(f"{each.name} over {show(each.length, 'length')}" for each in found.covers)
    yield Told(f"{_capital(named)} of {show(bottom - top, 'length')}.")
    if found.share < WHOLE:
        bare = show((1 - found.share) * (bottom - top), "length")
        yield Told(f"No cement over {bare} of it by the programme.", doubt=True)
    beyond = [
        f"{show(length, 'length')} {side} it"
        for side, length in (("above", found.above), ("below", found.below))
        if length > 0
    ]
    if beyond:
        yield Told(f"Cement goes on {' and '.join(beyond)}.")


def _pumped(job: Job, _zone: Zone) -> Iterator[Told]:
    """Tell where the job as pumped was another than the programme."""
    show = job.known.shown.show
    since = in_place(job)
    if since is not None and since.how != "bump":
        yield Told(f"Cement in place by {since.how}.", doubt=True)
    record = job.steps.get(("plug-release", "slurry-away"))
    if record is None or record.outcome != DONE or not record.value:
        return
    pumped = read(record.value, "volume").value
    placed = cement_job.programme_of(as_planned(job)).placed
    wanted = sum(each.volume for each in placed if each.kind == SLURRY)
    if pumped < WHOLE * wanted:
        short = show(wanted - pumped, "volume")
        yield Told(f"{short} of slurry less than planned: the top lies lower.", doubt=True)
    elif pumped > wanted / WHOLE:
        yield Told(f"{show(pumped - wanted, 'volume')} of slurry more than planned.")


def _standoff(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell the least standoff over it."""
    show = job.known.shown.show
    top, bottom = zone.top.value, zone.bottom.value
    rows = [row for row in standoff_profile(job).rows if row.top < bottom and row.bottom > top]
    if not rows:
        raise Missing("Standoff over it is not known: no two centralizers stand on either side.")
    least = min(row.least for row in rows)
    wanted = job.known.limit("least_standoff")
    said = f"Standoff over it {show(max(0.0, least), 'ratio')} or more"
    if least <= 0:
        yield Told("The pipe lies on the wall somewhere over it.", doubt=True)
    elif wanted is None:
        yield Told(f"{said}; no limit is set for it.")
    else:
        yield Told(f"{said}, {wanted.text} wanted.", doubt=least < wanted.value)


def _fittings(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell the centralizers on it, and the scratchers that count by the stroke."""
    centralizers = len(_depths(job, zone, lambda what: is_centralizer(job.known, what)))
    scratchers = _depths(job, zone, lambda what: "scratcher" in what.casefold())
    if centralizers:
        yield Told(f"Centralizers on it: {centralizers}.")
    else:
        yield Told("No centralizer is on it.", doubt=True)
    if not scratchers:
        yield Told("No scratcher is on it.")
    elif job.moved is None:
        text = f"Scratchers on it: {len(scratchers)}, none counted: stroke not known."
        yield Told(text, doubt=True)
    else:
        meet = scratchers_that_meet(scratchers, job.moved.stroke.value)
        of = f"Scratchers on it: {len(scratchers)}; with a stroke of {job.moved.stroke.text}"
        yield Told(f"{of} {meet} reach the next one.", doubt=meet < len(scratchers))


def _depths(job: Job, zone: Zone, sought: Callable[[str], bool]) -> list[float]:
    """Return the depths of the fittings of a kind that lie in a zone, [m]."""
    step, found = job.known.step, []
    for reach in reaches(job):
        held = [(one, one) for one in reach.made.fittings if sought(one.what)]
        length = step.si(reach.made.length)
        for share, _ in places(held, length) if held else ():
            depth = step.si(reach.bottom) - share * length
            if zone.top.value <= depth <= zone.bottom.value:
                found.append(depth)
    return found


def _contact(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell how long preflush and spacer flowed past all of it."""
    planned, setup = as_planned(job), job.known
    placed = cement_job.programme_of(planned).placed
    passed = False
    for fluid, where in zip(cement_job.fluids(setup), placed, strict=True):
        if fluid.kind == SLURRY:
            continue
        rate = fluid.rate or setup.pumping.rate
        if rate is None:
            yield Told(f"Contact of {fluid.name} is not known: it has no rate.", doubt=True)
            continue
        time = contact_time(where, zone.top.value, zone.bottom.value, rate.value)
        if time is not None:
            passed = True
            yield Told(f"{_capital(fluid.name)} passes it for {setup.shown.show(time, 'time')}.")
        elif _stands_on(where, zone):
            yield Told(f"{_capital(fluid.name)} is left standing on it.", doubt=True)
    if not passed:
        yield Told("No preflush or spacer passes all of it.", doubt=True)


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _stands_on(where: Placed, zone: Zone) -> bool:
    return where.top < zone.bottom.value and where.bottom > zone.top.value


def _pressure(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell the column that stands at it when the plug has seated, against pore and weak_at."""
    planned, show = as_planned(job), job.known.shown.show
    column, path = cement_job.outside_column(planned), path_of(job.known)
    found = []
    for depth in (zone.top.value, zone.bottom.value):
        down = vertical(depth, path)
        found.append(column.pressure(depth, path) / (STANDARD_GRAVITY * down))
    ends = dict.fromkeys(show(each, "density") for each in (min(found), max(found)))
    yield Told(f"Standing column when the plug has seated: {' to '.join(ends)}.")
    if zone.pore is None:
        yield Told("Its pore pressure is not in the set-up.", doubt=True)
    elif min(found) < zone.pore.value:
        yield Told(f"The column stands under its pore pressure, {zone.pore.text}.", doubt=True)
    else:
        yield Told(f"The column stands over its pore pressure, {zone.pore.text}.")
    if zone.weak_at is None:
        yield Told("The density at which it takes fluid is not in the set-up.", doubt=True)
    elif max(found) >= zone.weak_at.value:
        yield Told(f"The column reaches what it takes fluid at, {zone.weak_at.text}.", doubt=True)
    else:
        yield Told(f"The column stands under what it takes fluid at, {zone.weak_at.text}.")


def _while_pumping(job: Job, zone: Zone) -> Iterator[Told]:
    """Tell the least and the greatest density that pressed on it, as pumped and as planned."""
    show = job.known.shown.show
    ends = (zone.top.value, zone.bottom.value)
    points = [each for each in live(as_planned(job)).placement.points if each.point.depth in ends]
    if not points:
        raise Missing("What presses on it while pumping is not worked out below the shoe.")
    least = min(min(each.equivalent) for each in points)
    most = max(max(each.equivalent) for each in points)
    yield Told(f"While pumping {show(least, 'density')} to {show(most, 'density')} by calculation.")
    if zone.pore is not None and least < zone.pore.value:
        pore = zone.pore.text
        yield Told(f"While pumping it falls under the pore pressure, {pore}.", doubt=True)
    if zone.weak_at is not None and most >= zone.weak_at.value:
        weak = zone.weak_at.text
        yield Told(f"While pumping it reaches {weak}, at which the zone takes fluid.", doubt=True)


def _losses(job: Job, _zone: Zone) -> Iterator[Told]:
    """Tell of losses seen while circulating and displacing."""
    lost = step_measure(job, "losses", "volume")
    if lost is not None and lost.value > 0:
        yield Told(f"{lost.text} lost while circulating.", doubt=True)
    for list_id, step_id, when in RETURNS:
        record = job.steps.get((list_id, step_id))
        plan = job.lists.get(list_id)
        if record is None or plan is None or not record.state:
            continue
        good = record.state in plan.step(step_id).good
        yield Told(f"Returns while {when}: {record.state}.", doubt=not good)
    yield from _returns_read(job)


def _returns_read(job: Job) -> Iterator[Told]:
    """Tell of readings with less than full returns, and whether a free fall explains them."""
    less = [
        each
        for each in counts(job)
        if seen_phase(each.reading) in (LESS, NONE) and not stopped(each.reading)
    ]
    if not less:
        return
    shown = job.known.shown
    try:
        here = live(job)
        odd = [each for each in less if called(here, each).call == TOO_LITTLE]
    except ShoedownError:
        odd = less
    worst = min(odd or less, key=lambda each: seen_phase(each.reading) != NONE)
    what = f"Returns read at {shown.show(worst.volume, 'volume')}: {seen_phase(worst.reading)}"
    if odd:
        yield Told(f"{what}; a free fall does not explain it.", doubt=True)
    else:
        yield Told(f"{what}, as is due after a free fall by calculation.")


RETURNS = (
    ("mud-conditioning", "returns", "circulating"),
    ("plug-release", "displacement-started", "displacing"),
)
TELLERS: tuple[Teller, ...] = (
    _cement,
    _pumped,
    _standoff,
    _fittings,
    _contact,
    _pressure,
    _while_pumping,
    _losses,
)
