"""Centralizers and scratchers: what the programme wants on each joint, and what is missing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from tally.job.centralizing import is_centralizer
from tally.job.counts import next_item
from tally.job.job import Fitting, Job
from tally.job.programme import programme
from tally.job.setup import Rule


def due_on(job: Job, joint: int) -> tuple[Fitting, ...]:
    """Return what the programme wants on a joint, counted from the shoe."""
    return due_by(programme(job), joint)


def due_by(rules: Iterable[Rule], joint: int) -> tuple[Fitting, ...]:
    """Return what lines of the programme that are turned into joints want on one of them."""
    return tuple(
        Fitting(rule.what, rule.position, rule.count) for rule in rules if joint in rule.joints
    )


def due_next(job: Job) -> tuple[Fitting, ...]:
    """Return what the programme wants on the next item; nothing for an item that is no joint."""
    item = next_item(job)
    if item is None or item.kind != "joint":
        return ()
    return due_on(job, job.joints_run + 1)


def usual(job: Job) -> Fitting | None:
    """Return what is meant by one more: the programme's first centralizer, else its first line."""
    rules = programme(job)
    rule = next((one for one in rules if is_centralizer(job.known, one.what)), None)
    rule = rule or next(iter(rules), None)
    return Fitting(rule.what, rule.position) if rule else None


def with_one_more(fittings: tuple[Fitting, ...], more: Fitting) -> tuple[Fitting, ...]:
    """Return what is installed with one piece more of a kind.

    >>> [str(each) for each in with_one_more((Fitting("scratcher"),), Fitting("scratcher"))]
    ['2 x scratcher']
    """
    same = next((each for each in fittings if each.what == more.what), None)
    if same is None:
        return (*fittings, more)
    return tuple(
        replace(each, count=each.count + more.count) if each is same else each for each in fittings
    )


def installed(job: Job) -> Counter[str]:
    """Return how many of each kind are installed."""
    count: Counter[str] = Counter()
    for made in job.string:
        for fitting in made.fittings:
            count[fitting.what] += fitting.count
    return count


def programmed(job: Job) -> Counter[str]:
    """Return how many of each fitting the whole programme has."""
    whole: Counter[str] = Counter()
    for rule in programme(job):
        whole[rule.what] += rule.count * len(rule.joints)
    return whole


def wanted(job: Job) -> Counter[str]:
    """Return how many of each kind the programme wants on the joints run so far."""
    count: Counter[str] = Counter()
    for rule in programme(job):
        reached = sum(1 for joint in rule.joints if joint <= job.joints_run)
        count[rule.what] += rule.count * reached
    return count


def missing_on(job: Job) -> tuple[tuple[int, str, Fitting], ...]:
    """Return joint, number and fitting for everything wanted on a joint run but not there."""
    lacks = []
    rules = programme(job)
    for made in job.string:
        have = Counter({fitting.what: 0 for fitting in made.fittings})
        for fitting in made.fittings:
            have[fitting.what] += fitting.count
        for want in due_by(rules, made.joint) if made.joint else ():
            short = want.count - have[want.what]
            have[want.what] -= min(want.count, have[want.what])
            if short > 0:
                lacks.append((made.joint, made.number, Fitting(want.what, want.position, short)))
    return tuple(lacks)


def missing(job: Job) -> str:
    """Return what is missing in one sentence, or nothing."""
    lacks = missing_on(job)
    if not lacks:
        return ""
    named = ", ".join(f"{fitting} on {number}" for _, number, fitting in lacks[:4])
    more = f" and {len(lacks) - 4} more" if len(lacks) > 4 else ""
    return f"Not installed as programmed: {named}{more}."
