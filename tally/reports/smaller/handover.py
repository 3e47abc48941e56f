"""The handover: how the job stands, what is next, what is open, who hands over to whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from tally.job import depths
from tally.job.at_hand import at_hand
from tally.job.counts import balance, coming
from tally.job.entry import several
from tally.job.figures import show
from tally.job.hold_points import hold_points
from tally.job.job import Job
from tally.job.kept_records import Handover
from tally.job.standing import standing
from tally.job.tank import mark
from tally.job.volumes import empty_length
from tally.job.witnessing import signed_how
from tally.reports.fields import NOT_RECORDED, Field, depth_told, reckoned
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import mixed_totals
from tally.reports.sheet import Part, Sheet, sheet
from tally.reports.smaller.kept import held
from tally.reports.text_parts import stamp, who

AHEAD = 12
"""Items of the running list among which the next one that is no joint is looked for."""


def handover_sheet(tally: FinalTally) -> Sheet:
    """Return the page that one person gives to the next."""
    job = tally.job
    still = tally.open_exceptions
    passed = tuple(
        f"{stamp(one.at)}  {one.words}: {one.released}; witness {one.witness}"
        for one in hold_points(job)
    )
    parts = (
        Part("Who", fields=_who(job), none="Nobody has handed over yet (F2, h)."),
        Part("State", fields=tuple(_state(tally))),
        Part("Next", said=(at_hand(job).words,)),
        Part("To watch", said=tuple(_watch(tally)), none="Nothing is said of it."),
        Part("Fluids and levels", fields=tuple(_fluids(tally))),
        Part(
            f"Open exceptions: {len(still)}",
            said=tuple(f"Entry {one.seq}, {who(one.by, one.at)}: {one.what}" for one in still),
            none="None.",
        ),
        Part(f"Hold points passed: {len(passed)}", said=passed, none="None is passed yet."),
        Part("Handed over before", said=_before(job), none="Not before."),
    )
    return replace(sheet("handover", "Handover", tally, parts, ()), signing=_signing(job))


def _signing(job: Job) -> tuple[tuple[str, str], ...]:
    last = job.handovers[-1] if job.handovers else None
    names = (last.by, last.taken_by or last.to) if last else ("", "")
    return tuple(zip(("hands over", "takes over"), names, strict=True))


def _who(job: Job) -> tuple[Field, ...]:
    if not job.handovers:
        return ()
    one = job.handovers[-1]
    taken = (
        f"{signed_how(one.taken_by, one.signed)}; {stamp(one.taken_at)}"
        if one.taken_at
        else f"NOT YET: {one.to} has not taken over"
    )
    told = (
        ("hands over", f"{signed_how(one.by, one.signed)}; {stamp(one.at)}"),
        ("to", one.to),
        ("taken over by", taken),
        ("because", one.taken_why),
    )
    return tuple((label, text) for label, text in told if text)


def _before(job: Job) -> tuple[str, ...]:
    return tuple(_one_before(one) for one in reversed(job.handovers[:-1]))


def _one_before(one: Handover) -> str:
    taken = f"taken over by {one.taken_by}, {stamp(one.taken_at)}" if one.taken_at else "not taken"
    return f"{stamp(one.at)}  {one.by} to {one.to}, {taken}"


def _state(tally: FinalTally) -> Iterator[Field]:
    job, step = tally.job, tally.setup.step
    sums = balance(job)
    yield "joints", f"{sums.run.count} run, {sums.left.count} left on rack"
    if not sums.agrees:
        yield "balance", "DOES NOT AGREE (F3)"
    if not job.string:
        yield "string", "nothing is run yet"
        return
    shoe = step.with_unit(depths.shoe_depth(job))
    if job.landing is None:
        yield "shoe", f"{shoe}, {step.with_unit(depths.to_go(job))} to the casing point"
        return
    yield "shoe", f"on depth at {shoe}, {who(job.landing.by, job.landing.at)}"
    hung = job.hung_off
    yield "hung off", f"with {hung.load.text}; {who(hung.by, hung.at)}" if hung else "not hung off"


def _watch(tally: FinalTally) -> Iterator[str]:
    job = tally.job
    last = job.handovers[-1] if job.handovers else None
    if last and last.watch:
        yield last.watch
    if job.stuck:
        yield f"The pipe is stuck since {stamp(job.stuck.at)}."
    if job.shut_in:
        yield f"The well is shut in since {stamp(job.shut_in.at)}: others lead."
    yield from _waiting_witnesses(job)
    if job.landing is None and job.string:
        yield from _on_the_way(tally)
    for one in job.calibrations:
        if held(job.last, one) == "RUN OUT":
            yield f"The calibration of {one.what} has run out on {one.due}."


def _waiting_witnesses(job: Job) -> Iterator[str]:
    for plan in job.lists.values():
        for step in plan.steps:
            record = job.steps.get((plan.id, step.id))
            if record and step.critical and record.outcome == "done" and not record.witness:
                yield f"Waiting for a witness: {step.text} ({plan.title})."


def _on_the_way(tally: FinalTally) -> Iterator[str]:
    for key, words in (
        ("fill_joints", "joints to run before filling"),
        ("least_lowering", "least lowering time of the next joint"),
        ("greatest_pull", "greatest pull"),
    ):
        found = tally.figures[key]
        if found.value is not None:
            yield f"{words}: {show(tally.job, found.value, found.quantity)}"
    for place, item in enumerate(islice(coming(tally.job), AHEAD)):
        if item.kind != "joint":
            yield f"{item.kind} {item.number} after {several(place, 'item')}"
            return


def _fluids(tally: FinalTally) -> Iterator[Field]:
    job, units = tally.job, tally.setup.shown
    yield "mud weight by the set-up", tally.setup.pumping.mud_weight.text
    if job.landing is None and job.string and tally.setup.filling.closed_end:
        yield "pipe empty from its top", depth_told(tally, empty_length(job))
    if job.tank:
        last = job.tank[-1]
        yield "trip tank", f"{last.volume.text}, read {stamp(last.at)}"
        yield (
            "trip tank, gain or loss",
            f"{reckoned(tally, 'tank_total_difference')}, since {mark(job)}",
        )
    yield from mixed_totals(tally)
    if job.pumped:
        one = job.pumped[-1]
        counts = [one.tank.text] if one.tank else []
        counts += [f"{one.strokes:,} strokes"] if one.strokes is not None else []
        pressure = f", {one.pressure.text}" if one.pressure else ""
        yield "pumped since the zero", f"{' or '.join(counts)}{pressure}, read {stamp(one.at)}"
    yield from _standing(tally)
    if job.fills:
        filled = sum(each.volume for each in job.fills)
        yield (
            "filled from the top",
            f"{units.show(filled, 'volume')} in {several(len(job.fills), 'fill')}",
        )


def _standing(tally: FinalTally) -> Iterator[Field]:
    found = standing(tally.job)
    if found is None:
        return
    for where, stretches in (("inside", found.inside), ("around", found.outside)):
        told = (
            f"{one.name} {depth_told(tally, one.top)} to {depth_told(tally, one.bottom)}"
            for one in stretches
        )
        yield f"{where} the casing", "; ".join(told) or NOT_RECORDED
    for plug, depth in found.plugs:
        yield plug, f"at {depth_told(tally, depth)}, by the count"
