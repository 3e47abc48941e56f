"""Expected beside seen while the string is run: tank, what is installed, weight, empty pipe."""

from __future__ import annotations

from dataclasses import replace

from screens.widgets.beside import COLUMNS, Beside, tally_state
from screens.widgets.block import short
from tally.errors import ShoedownError
from tally.job import volumes
from tally.job.figures import Figure, figure, show
from tally.job.fittings import installed, missing_on, wanted
from tally.job.job import Fitting, Job
from tally.job.running_records import WeightReading
from tally.job.tank import TankCheck, call, last_reading, since_mark
from tally.job.weight_band import expected_then


def watched(job: Job, width: int) -> list[Beside]:
    """Return expected beside seen for what is watched while running."""
    rows = [
        _tank(job, "trip tank, last item", last_reading(job)),
        _tank(job, _since(since_mark(job)), since_mark(job)),
        _installed(job, width),
    ]
    if job.weighed:
        rows.append(_weight(job, job.weighed[-1]))
    rows += lowering_row(job)
    if job.known.filling.closed_end:
        room = volumes.capacity(job) - volumes.filled(job)
        empty = show(job, volumes.empty_length(job), "length")
        share = volumes.entering(job)
        what = f"empty, auto-fill {share:.0%}" if share else "pipe empty from the top"
        rows.append(Beside(what, "", empty, "", f"takes {_volume(job, room)}"))
    return rows


def _installed(job: Job, width: int) -> Beside:
    want, have = sum(wanted(job).values()), sum(installed(job).values())
    lacks = missing_on(job)
    state = "missing" if lacks else "agrees"
    room = width - COLUMNS[2] - len("missing ")
    named = _lacking(lacks[0][2], lacks[0][1], room) if lacks else ""
    out = f"{have - want:+d}" if have != want else "0"
    return Beside("centralizers, scratchers", str(want), str(have), out, state, more=named)


def _lacking(fitting: Fitting, number: str, room: int) -> str:
    """Return what an item lacks; where room is short the word is cut, never the number."""
    where = f"on {number}"
    word = short((replace(fitting, count=1),), room - len(where) - 1)
    return f"{word} {where}".lstrip()


def _volume(job: Job, value: float) -> str:
    return show(job, value, "volume")


def _tank(job: Job, what: str, check: TankCheck | None) -> Beside:
    if check is None:
        return Beside(what, "-", "-", "", "not read twice yet")
    if check.items != 1 and "last" in what:
        what = f"trip tank, last {check.items}"
    shown = job.known.shown
    unit = shown.unit("volume")
    limit = "" if check.limit is None else shown.number(check.limit, "volume")
    return Beside(
        what,
        f"{_signed(shown.number(check.expected, 'volume'))} {unit}",
        _signed(shown.number(check.seen, "volume")),
        _signed(shown.number(check.difference, "volume")),
        call(check).upper() or tally_state(check.agrees),
        limit,
    )


def _weight(job: Job, reading: WeightReading) -> Beside:
    """Return the weight going down as it was read last, beside what hung then."""
    shown, seen = job.known.shown, reading.slack_off
    unit, expected = shown.unit("force"), down_then(job, reading)
    apart = seen.value - expected if seen and expected is not None else None
    agrees, bound = _weight_bound(job, seen.value if seen else None, apart)
    return Beside(
        "weight going down",
        "-" if expected is None else f"{_band(job, expected)} {unit}",
        "-" if seen is None else shown.number(seen.value, "force"),
        "" if apart is None else _signed(shown.number(apart, "force")),
        tally_state(agrees),
        bound,
    )


def _band(job: Job, expected: float) -> str:
    """Return the weight expected, as a band where a limit says how far it may be off."""
    shown, band = job.known.shown, job.known.limit("weight_difference")
    if band is None:
        return shown.number(expected, "force")
    ends = (expected - band.value, expected + band.value)
    return "-".join(shown.number(end, "force") for end in ends)


def _weight_bound(job: Job, seen: float | None, apart: float | None) -> tuple[bool | None, str]:
    """Return whether a weight going down is inside its limits, and the limit that decides."""
    shown = job.known.shown
    least, band = job.known.limit("least_slack_off"), job.known.limit("weight_difference")
    if least is not None and seen is not None and (band is None or seen < least.value):
        return seen >= least.value, f"least {shown.number(least.value, 'force')}"
    if band is not None and apart is not None:
        return abs(apart) <= band.value, shown.number(band.value, "force")
    return None, f"least {shown.number(least.value, 'force')}" if least else ""


def lowering_row(job: Job) -> list[Beside]:
    """Return the least lowering time beside that of the last item, where one of them is known."""
    what, timed = "lowering time", bool(job.string) and job.string[-1].lowering is not None
    seen, least = figure(job, "lowering_seen"), figure(job, "least_lowering")
    if not timed:
        if least.value is None or job.landing is not None:
            return []
        wanted = f"{show(job, least.value, 'lowering time')} or more"
        return [Beside(what, wanted, "-", "", "speed not measured")]
    clock = show(job, job.string[-1].lowering, "lowering time")
    if seen.value is None:
        return [Beside(what, "-", clock, "", "no limit set")]
    wanted = f"{_named(job, seen, 'least')} or more"
    state = "agrees" if seen.value >= 0 else "TOO FAST"
    apart = _signed(show(job, seen.value, seen.quantity))
    return [Beside(what, wanted, clock, apart, state)]


def _named(job: Job, of: Figure, name: str) -> str:
    one = next(each for each in of.inputs if each.name == name)
    return show(job, one.value, one.quantity)


def down_then(job: Job, reading: WeightReading) -> float | None:
    """Return the weight to expect going down at a reading; nothing where it cannot be told."""
    try:
        return expected_then(job, reading).slack_off
    except ShoedownError:
        return None


def _since(check: TankCheck | None) -> str:
    return f"since {check.since}" if check is not None and check.since else "trip tank, in all"


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"
