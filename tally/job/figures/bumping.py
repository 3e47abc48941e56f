"""The bump as the readings show it, proposed for a person to confirm."""

from __future__ import annotations

from tally.cement.bump import Rise
from tally.job import bump_watch
from tally.job.bump_watch import Watched
from tally.job.figures import programme, pumping
from tally.job.figures.model import Figure, Input, Missing, calculated, live, on, typed
from tally.job.job import Job

BAND = "bump_band"


@live("bump_seen", "Bump proposed by the readings")
def bump_seen(job: Job) -> Figure:
    """Return the volume at which the readings show a bump."""
    rise, inputs = _seen(job)
    return Figure(rise.volume, "volume", f"proposed, to be confirmed: {rise.why}", inputs)


@live("bump_rise", "Rise of pressure at the bump proposed")
def bump_rise(job: Job) -> Figure:
    """Return by how much the pressure rose at the bump that is proposed."""
    rise, inputs = _seen(job)
    return Figure(rise.after - rise.before, "pressure", "after it - before it", inputs)


def _seen(job: Job) -> tuple[Rise, tuple[Input, ...]]:
    """Return the bump proposed with what it rests on, or say why none is."""
    seen = bump_watch.watched(job, pumping.stroke_volume(job).value)
    if not seen.points:
        raise Missing("No reading since the zero has both a count and a pressure.")
    total = on(pumping.displacement(job))
    margin = typed("bump margin", job.known.limit("bump_margin"), "limits")
    early, late, band = _band(job, total)
    gives = job.known.pumping.compressibility
    rule = bump_watch.rule_for(
        seen.points,
        float(total.value or 0.0),
        (early, late),
        float(margin.value or 0.0),
        gives.value if gives else None,
    )
    found = seen.found(rule)
    if found.proposal is None:
        raise Missing(f"No bump is proposed: {found.why}.")
    inputs = (total, *band, margin, *_pressures(found.proposal, seen))
    return found.proposal, inputs


def _pressures(rise: Rise, seen: Watched) -> tuple[Input, ...]:
    where = f"readings with a pressure, by the {seen.count}"
    return (
        calculated("pressure before it", rise.before, "pressure", where),
        calculated("pressure after it", rise.after, "pressure", where),
    )


def _band(job: Job, total: Input) -> tuple[float, float, tuple[Input, ...]]:
    """Return how early and how late it may come: as the limit says, else as is calculated."""
    limit = job.known.limit(BAND)
    if limit is not None:
        return limit.value, limit.value, (typed("band of the bump", limit, "limits"),)
    earliest, latest = on(programme.bump_earliest(job)), on(programme.bump_latest(job))
    calculated_at = float(total.value or 0.0)
    early = calculated_at - float(earliest.value or 0.0)
    return early, float(latest.value or 0.0) - calculated_at, (earliest, latest)
