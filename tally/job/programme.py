"""The centralizer and scratcher programme turned into joints, as the lengths stand now.

A line by depth or by zone means every joint of which a part lies there with the shoe at the
casing point. It is turned into joints anew whenever joints change, so a joint laid down or put
in never moves a centralizer out of its zone. What is run stays where it is, counted from the shoe.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tally.job.job import Job
from tally.job.running_list import Slot, slots
from tally.job.setup import Rule, Setup


def programme(job: Job) -> tuple[Rule, ...]:
    """Return every line of the programme with its joints, counted from the shoe."""
    rules = job.known.programme
    if not any(by_depth(rule) for rule in rules):
        return rules
    on_plan = job if job.landing is None else replace(job, landing=None)
    joints = [slot for slot in slots(on_plan) if slot.joint]
    return tuple(_turned(job.known, rule, joints) for rule in rules)


def by_depth(rule: Rule) -> bool:
    """Whether a line names its joints by where they will lie."""
    return bool(rule.zone) or rule.top is not None or rule.bottom is not None


def interval(setup: Setup, rule: Rule) -> tuple[int, int] | None:
    """Return the top and the bottom of a line's interval, in whole steps; nothing if it has none.

    A line without its top starts at the datum; one without its bottom goes down to the shoe.
    """
    zone = next((one for one in setup.zones if one.name == rule.zone), None)
    if rule.zone and zone is None:
        return None
    top, bottom = (zone.top, zone.bottom) if zone else (rule.top, rule.bottom)
    step = setup.step
    deepest = max(setup.hole.depth.value, setup.hole.casing_point.value)
    return (
        step.steps(top.value) if top else 0,
        step.steps(bottom.value if bottom else deepest),
    )


def _turned(setup: Setup, rule: Rule, joints: Sequence[Slot]) -> Rule:
    if not by_depth(rule):
        return rule
    between = interval(setup, rule)
    if between is None:
        return rule
    top, bottom = between
    inside = [slot.joint for slot in joints if slot.top < bottom and slot.bottom > top]
    return replace(rule, joints=tuple(sorted({*rule.joints, *inside[:: rule.every]})))


def rule_faults(setup: Setup) -> Iterator[str]:
    """Yield what is wrong with the lines of the programme, in sentences."""
    for rule in setup.programme:
        yield from _faults(setup, rule)


def _faults(setup: Setup, rule: Rule) -> Iterator[str]:
    line = f"The programme's line for {rule.what}"
    if rule.zone and (rule.top is not None or rule.bottom is not None):
        yield f"{line} names the zone {rule.zone} and depths; give one or the other."
    if rule.zone and rule.zone not in [one.name for one in setup.zones]:
        named = ", ".join(one.name for one in setup.zones) or "none"
        yield f"{line} names the zone {rule.zone}; the zones of the job are: {named}."
    if rule.top is not None and rule.bottom is not None and rule.top.value >= rule.bottom.value:
        yield f"{line}: its top, {rule.top.text}, is not above its bottom, {rule.bottom.text}."
    if rule.every < 1:
        yield f"{line} is for every {rule.every} joints; every joint is 1, every second is 2."
    elif rule.every > 1 and not by_depth(rule):
        yield f"{line} says every {rule.every} without depths or a zone; name its joints instead."
