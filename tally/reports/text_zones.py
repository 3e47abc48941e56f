"""The sections of the text page about the zones and the waiting on cement."""

from __future__ import annotations

from tally.errors import Missing
from tally.job.job import Job
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


def _zone(record: ZoneRecord) -> Lines:
    zone = record.zone
    holds = f", {zone.fluid}" if zone.fluid else ""
    heading = plain(f"{zone.name}, {zone.top.text} to {zone.bottom.text}{holds}")
    return stacked(
        wrapped(heading),
        *(wrapped(plain(f"  {text}"), hang=2) for text in record.done),
        *(wrapped(plain(f"  IN DOUBT: {text}"), hang=2) for text in record.doubts),
        ("",),
    )


def waiting_section(tally: FinalTally) -> Section:
    """Return since when the cement is in place and what the rules ask; nothing before either."""
    job = tally.job
    since = in_place(job)
    if since is None and job.picked is None:
        return Section((), ())
    clock = pair("cement in place", who(since.how, since.at)) if since else ()
    lines = stacked(clock, *_rules(job), wrapped(HABIT), ("",))
    return Section((rule("WAITING ON CEMENT"),), (lines,))


def _rules(job: Job) -> list[Lines]:
    try:
        found = waits(job)
    except Missing as lack:
        return [wrapped(str(lack))]
    assert job.picked is not None  # waits() has refused a job without rules
    confirmed = pair("confirmed by", who(job.picked.confirmed, job.picked.at), job.picked.reason)
    return [*(_rule(each) for each in found), confirmed]


def _rule(one: Waited) -> Lines:
    wait = one.wait
    told = wait.lacks if wait.time is None else f"wait {hours(wait.time)}"
    return pair(one.rule.name, asks(one.rule), told, one.rule.clause, one.rule.edition)
