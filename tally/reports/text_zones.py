"""The sections of the text page about the zones and the waiting on cement."""

from __future__ import annotations

from tally.errors import Missing
from tally.job.job import Job
from tally.job.setup import Zone
from tally.job.waiting import HABIT, Waited, hours, in_place, waits
from tally.job.waiting_rules import asks
from tally.job.zones import PROVES_NOTHING, ZoneRecord, how_far, zone_records
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.page import Lines, Section, rule, wrapped
from tally.reports.text_parts import pair, stacked, who


def zones_section(tally: FinalTally) -> Section:
    """Return what was done at each zone and what is in doubt; nothing without zones."""
    records = zone_records(tally.job)
    if not records:
        return Section((), ())
    first = (*wrapped(plain(how_far(tally.job))), *wrapped(PROVES_NOTHING), "")
    return Section((rule("ZONES"),), (first, *(_zone(each) for each in records)))


def called(zone: Zone) -> str:
    """Return a zone with its depths and what it holds."""
    holds = f", {zone.fluid}" if zone.fluid else ""
    return f"{zone.name}, {zone.top.text} to {zone.bottom.text}{holds}"


def _zone(record: ZoneRecord) -> Lines:
    return stacked(
        wrapped(plain(called(record.zone))),
        *(wrapped(plain(f"  {text}"), hang=2) for text in record.done),
        *(wrapped(plain(f"  IN DOUBT: {text}"), hang=2) for text in record.doubts),
        ("",),
    )


def waiting_section(tally: FinalTally) -> Section:
    """Return since when the cement is in place and what the rules ask; nothing before either."""
    lines = waiting_lines(tally.job)
    if not lines:
        return Section((), ())
    pairs = (pair(label, *told) if label else wrapped(" ".join(told)) for label, *told in lines)
    return Section((rule("WAITING ON CEMENT"),), (stacked(*pairs, wrapped(HABIT), ("",)),))


def waiting_lines(job: Job) -> tuple[tuple[str, ...], ...]:
    """Return labels and what stands for them, part by part; a sentence has no label."""
    since = in_place(job)
    if since is None and job.picked is None:
        return ()
    clock = (("cement in place", who(since.how, since.at)),) if since else ()
    return (*clock, *_rules(job))


def _rules(job: Job) -> tuple[tuple[str, ...], ...]:
    try:
        found = waits(job)
    except Missing as lack:
        return (("", str(lack)),)
    assert job.picked is not None  # waits() has refused a job without rules
    confirmed = ("confirmed by", who(job.picked.confirmed, job.picked.at), job.picked.reason)
    return (*(_rule(each) for each in found), confirmed)


def _rule(one: Waited) -> tuple[str, ...]:
    wait = one.wait
    told = wait.lacks if wait.time is None else f"wait {hours(wait.time)}"
    return one.rule.name, asks(one.rule), told, one.rule.clause, one.rule.edition
