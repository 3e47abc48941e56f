"""Figures of waiting on cement: how long by the rules confirmed for the place."""

from __future__ import annotations

from tally.job.figures.model import CALCULATED, TYPED, Figure, Input, Missing, calculated, live
from tally.job.job import Job
from tally.job.setup import WaitingRule
from tally.job.waiting import Cured, Waited, cured, governing, picked, waits
from tally.job.waiting_rules import asks

FROM = "from the cement in place"


@live("waiting_needed", "Waiting on cement, by the rule that governs")
def waiting_needed(job: Job) -> Figure:
    """Return the longest time that the confirmed rules ask for, from the cement in place."""
    found = waits(job)
    governs = governing(found)
    if governs.wait.time is None:
        raise Missing(
            f"The rule {governs.rule.name} ({asks(governs.rule)}) cannot be told: "
            f"{governs.wait.lacks}."
        )
    inputs = (
        Input("governs", governs.rule.name, "text", CALCULATED, "the longest of the rules"),
        *(_rule(job, each) for each in found),
        *_laboratory(cured(job)),
    )
    return Figure(governs.wait.time, "time", f"longest of the rules, {FROM}", inputs)


@live("strength_time", "Time to the strength the rules ask for")
def strength_time(job: Job) -> Figure:
    """Return when the laboratory has the greatest strength that the confirmed rules ask for."""
    wanted = [rule for rule in picked(job) if rule.strength is not None]
    if not wanted:
        raise Missing("No confirmed waiting rule asks for a strength.")
    most = max(wanted, key=_strength)
    lab = cured(job)
    if lab is None:
        raise Missing("No laboratory strength is in the job set-up.")
    time = lab.curve.reaches(_strength(most))
    if time is None:
        last = job.known.shown.show(lab.curve.readings[-1][1], "pressure")
        raise Missing(
            f"The laboratory readings end at {last}, below {asks(most)}; they are not carried on."
        )
    asked = Input(f"strength by {most.name}", _strength(most), "pressure", TYPED, "waiting rule")
    how = "between the readings of the laboratory, along a straight line"
    return Figure(time, "time", how, (asked, *_laboratory(lab)))


def _strength(rule: WaitingRule) -> float:
    return rule.strength.value if rule.strength else 0.0


def _rule(job: Job, one: Waited) -> Input:
    where = f"{asks(one.rule)}; {one.rule.edition or 'edition not said'}"
    if one.wait.time is None:
        return Input(one.rule.name, one.wait.lacks, "text", CALCULATED, where)
    return calculated(one.rule.name, one.wait.time, "time", where)


def _laboratory(lab: Cured | None) -> tuple[Input, ...]:
    if lab is None:
        return (Input("laboratory strength", "none", "text", TYPED, "job set-up"),)
    cured_at = f"cured at {lab.temperature.text}" if lab.temperature else "cured at not said"
    where = f"{lab.slurry or 'slurry at the coldest point'}, {cured_at}"
    made = Input(
        "laboratory readings", len(lab.curve.readings), "count", TYPED, f"job set-up, {where}"
    )
    doubt = (Input("in doubt", lab.doubt, "text", CALCULATED, "laboratory"),) if lab.doubt else ()
    return (made, *doubt)
