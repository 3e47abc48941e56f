"""The job against its placement: expected beside seen from the slurry on, plugs, bump proposed."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, STATES, STOP, Line, line
from screens.widgets.beside import Beside, beside, tally_state
from tally.cement.returns import AS_EXPECTED
from tally.errors import ShoedownError
from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.placement import Count, Live, counts, live
from tally.job.placement_outcome import Governing, governing
from tally.job.returns_watch import called, seen_phase
from tally.job.with_readings import bumped
from tally.units import Measure

LANDED = 0.1
"""[m]"""


def under_way(job: Job) -> bool:
    """Whether slurry is on its way and the bump not called yet."""
    begun = job.steps.get(("plug-release", "first-slurry"))
    return begun is not None and begun.outcome == "done" and bumped(job) is None


def placed_lines(job: Job, width: int) -> list[Content]:
    """Return expected beside seen where the job is; why not, where it cannot be worked out."""
    try:
        here = live(job)
    except ShoedownError as lack:
        return [line(f" Not worked out: {lack}"[:width], ATTENTION)]
    read = counts(job)
    last = read[-1] if read else None
    lines = beside(width, [_pressure(job, here, last)])
    lines += _governing(job, here, width)
    lines.append(_returns(job, here, read, width))
    lines.append(_plugs(job, width))
    lines += _bump(job, width)
    return lines


def _pressure(job: Job, here: Live, last: Count | None) -> Beside:
    shown, unit = job.known.shown, job.known.shown.unit("pressure")
    wanted = (here.expected(last.volume) if last else here.expected_now).pressure
    told = f"{shown.number(wanted, 'pressure')} {unit}"
    read = last.reading.pressure if last else _while_mixing(job)
    if read is None:
        return Beside("pressure", told, "-", "", "not read yet" if last is None else "not read")
    apart, limit = read.value - wanted, job.known.limit("pump_pressure")
    agrees = None if limit is None else abs(apart) <= limit.value
    return Beside(
        "pressure",
        told,
        shown.number(read.value, "pressure"),
        shown.number(apart, "pressure difference"),
        tally_state(agrees),
        "" if limit is None else shown.number(limit.value, "pressure"),
    )


def _while_mixing(job: Job) -> Measure | None:
    """Return the pressure that was read with the last look at the mixing, before the zero."""
    return job.mixing[-1].pressure if job.mixing and job.zeroed is None else None


def _governing(job: Job, here: Live, width: int) -> list[Content]:
    """Return the depth that governs: its density now and the greatest ahead, against its limit."""
    found, shown = governing(here), job.known.shown
    now, most = show(job, found.now, "density"), shown.number(found.greatest, "density")
    told = f"equivalent density at {found.name} {now} now, {most} at most;"
    limit, style = _against(job, found)
    if 1 + len(told) + 1 + len(limit) <= width:
        return [Line(width).put(1, told, INK).put(2 + len(told), limit, style).content()]
    return [Line(width).put(1, told, INK).content(), Line(width).put(3, limit, style).content()]


def _against(job: Job, found: Governing) -> tuple[str, str]:
    """Return what a depth takes fluid at, and how its densities stand to that; with the role."""
    if found.limit is None:
        return "no density is set at which it takes fluid", QUIET
    takes = f"takes fluid at {job.known.shown.number(found.limit, 'density')}"
    if found.now > found.limit:
        return f"{takes}: outside now", STOP
    if found.greatest > found.limit:
        return f"{takes}: outside, still to come", ATTENTION
    return f"{takes}: agrees", STATES["agrees"]


def _returns(job: Job, here: Live, read: tuple[Count, ...], width: int) -> Content:
    """Return the returns expected beside those seen last, with where that was if it is past."""
    seen_at = [each for each in read if seen_phase(each.reading) or each.reading.returned]
    last = seen_at[-1] if seen_at else read[-1] if read else None
    told = called(here, last)
    drawn = Line(width).put(1, "returns", QUIET).put(10, told.expected, INK)
    column = 10 + len(told.expected) + 2
    if not told.call:
        return drawn.put(column, told.seen or "not told", QUIET).content()
    seen = f"seen: {told.seen}"
    if last is not read[-1] and last is not None:
        seen = f"seen at {show(job, last.volume, 'volume')}: {told.seen}"
    if told.call == AS_EXPECTED:
        return drawn.put(column, f"{seen}, agrees", STATES["agrees"]).content()
    return drawn.put(column, f"{seen}: {told.means.split(':')[-1].strip()}", STOP).content()


def _plugs(job: Job, width: int) -> Content:
    """Return where the plugs are, and until when the fluids fall if they still do."""
    here, shown = live(job), job.known.shown
    parts = []
    for name in ("top", "bottom"):
        depth = figure(job, f"placed_{name}_plug")
        if depth.value is not None:
            landed = float(depth.value) >= here.plan.well.collar - LANDED
            where = "on the collar" if landed else show(job, depth.value, "length")
            parts.append(f"{name} {where}")
    falls = figure(job, "placed_fall_to")
    if falls.value is not None and here.zero + float(falls.value) > here.pumped:
        parts.append(f"falls to {shown.show(float(falls.value), 'volume difference')}")
    told = "  ".join(parts) or "in the head"
    return Line(width).put(1, "plugs", QUIET).put(10, told, INK).content()


def _bump(job: Job, width: int) -> list[Content]:
    """Return the bump that the readings show, for a person to confirm."""
    seen = figure(job, "bump_seen")
    if seen.value is None:
        return []
    volume = show(job, seen.value, "volume")
    text = f" rise seen at {volume}, inside the band: b to confirm the bump"
    return [line(text[:width], ATTENTION)]
