"""The sections that only the casing and cementing report has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tally.job.entry import several
from tally.job.gates import applies
from tally.job.job import Job, PumpReading
from tally.job.witnessing import behind
from tally.reports.cement_fields import (
    after_fields,
    design_fields,
    done_fields,
    fluid_fields,
)
from tally.reports.fields import Fields, seen
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import MIXED, mixed, samples
from tally.reports.pdf.document import Section
from tally.reports.pdf.parts import listed, pairs
from tally.reports.pdf.pieces import Pieces, Space, Table, paragraph, table
from tally.reports.pump_curve import NOT_COUNTED, every_reading
from tally.reports.running_fields import (
    INTERVALS,
    WEIGHTS,
    intervals,
    notes,
    running_fields,
    weights,
)
from tally.reports.text_parts import stamp
from tally.steps.model import Checklist
from tally.units import Measure

_APART = Space(2.0)
NOT_DUE = "no limit is set for it, or the programme has no bottom plug"


def told_section(told: Fields, room: float) -> Section:
    """Return fields as labels and what stands for them."""
    return Section(told.title, pairs(room, told.fields))


def running_section(tally: FinalTally, room: float) -> Section:
    """Return how the running went."""
    return told_section(running_fields(tally), room)


def intervals_section(tally: FinalTally, room: float) -> Section:
    """Return how fast each ten joints were run."""
    head, *others = INTERVALS
    columns = table(
        room,
        (head, 0.0),
        (others[0], 90.0),
        *((name, 84.0) for name in others[1:3]),
        (others[3], 66.0, True),
    )
    rows = listed(columns, intervals(tally))
    none = (paragraph("Nothing is run yet.", room),)
    return Section("Running speed by tens of joints", rows or none, columns.heading())


def weights_section(tally: FinalTally, room: float) -> Section:
    """Return the readings of the indicator."""
    columns = table(
        room,
        *((name, 0.0, True) for name in WEIGHTS[:-1]),
        (WEIGHTS[-1], 78.0, True),
    )
    rows = listed(columns, weights(tally))
    none = (paragraph("The indicator was not read: no weight stands in the book.", room),)
    return Section("Weights on the indicator, blocks included", rows or none, columns.heading())


def design_section(tally: FinalTally, room: float) -> Section:
    """Return the hole, the mud and the plan."""
    return told_section(design_fields(tally), room)


def fluids_section(tally: FinalTally, room: float) -> Section:
    """Return the fluids of the programme."""
    groups = tuple(
        (
            *paragraph(fluid.title, room, bold=True),
            *(piece for pair in pairs(room, fluid.fields) for piece in pair),
            Space(),
        )
        for fluid in fluid_fields(tally)
    )
    none = paragraph("No fluid is in the cementing programme of the set-up.", room)
    return Section("Fluids, in pumping order", groups or (none,))


def done_section(tally: FinalTally, room: float) -> Section:
    """Return what was done."""
    return told_section(done_fields(tally), room)


def after_section(tally: FinalTally, room: float) -> Section:
    """Return what is found afterwards."""
    return told_section(after_fields(tally), room)


def mixing_section(tally: FinalTally, room: float) -> Section:
    """Return the mixing log and the samples that are kept."""
    when, fluid, *others = MIXED
    columns = table(room, (when, 70.0), (fluid, 0.0), *((name, 68.0, True) for name in others))
    rows = listed(columns, mixed(tally))
    none = (paragraph("Nothing was read while mixing.", room),)
    kept = samples(tally)
    more = ((Space(), *paragraph("Samples kept", room, bold=True)), *pairs(room, kept))
    return Section("Mixing as read", (*(rows or none), *(more if kept else ())), columns.heading())


def readings_section(tally: FinalTally, room: float) -> Section:
    """Return the counts as they were read."""
    columns = table(
        room,
        *(("time", 84.0), ("volume by the tank", 0.0, True), ("strokes", 0.0, True)),
        *(("pressure", 0.0, True), ("rate", 0.0, True), ("entry", 60.0, True)),
    )
    rows = listed(columns, (_reading(tally.job, one) for one in every_reading(tally.job)))
    none = (paragraph("Nothing was read while the top plug was pumped down.", room),)
    return Section("Displacement as read", rows or none, columns.heading())


def _reading(job: Job, one: PumpReading) -> Sequence[str]:
    strokes = "-" if one.strokes is None else f"{one.strokes:,}"
    tank, pressure, rate = (_typed(each) for each in (one.tank, one.pressure, one.rate))
    entry = f"{one.seq} {NOT_COUNTED}" if one in job.in_doubt else str(one.seq)
    return stamp(one.at), tank, strokes, pressure, rate, entry


def _typed(measure: Measure | None) -> str:
    return measure.text if measure else "-"


def steps_sections(tally: FinalTally, room: float) -> tuple[Section, ...]:
    """Return each checklist with what was entered for its steps."""
    worked = {plan for plan, _ in tally.job.steps}
    plans = [plan for plan in tally.job.lists.values() if plan.id in worked]
    return tuple(_steps(tally.job, plan, room) for plan in plans)


def _steps(job: Job, plan: Checklist, room: float) -> Section:
    columns = table(
        room,
        *(("step", 0.0), ("seen", 130.0), ("by", 58.0), ("witness", 58.0), ("time", 70.0)),
    )
    return Section(
        f"Checklist: {plan.title}", tuple(_records(job, plan, columns)), columns.heading()
    )


def _records(job: Job, plan: Checklist, columns: Table) -> Iterator[Pieces]:
    due = [step for step in plan.steps if applies(job, step) or (plan.id, step.id) in job.steps]
    for step in due:
        record = job.steps.get((plan.id, step.id))
        if record is None:
            yield (*columns.row([step.text, "not entered", "", "", ""]), _APART)
            continue
        parts = (
            record.note,
            *(behind(step, record) if step.hold_point else ()),
            f"passed: {record.passed}" if record.passed else "",
            record.differs,
        )
        more = "; ".join(part for part in parts if part)
        told = f"{seen(record)}; {more}" if more else seen(record)
        row = columns.row([step.text, told, record.by, record.witness, stamp(record.at)])
        yield (*row, _APART)
    left_out = len(plan.steps) - len(due)
    if left_out:
        told = f"{several(left_out, 'step')} left out, not applying: {NOT_DUE}."
        yield (*columns.row([told, "", "", "", ""]), _APART)


def notes_section(tally: FinalTally, room: float) -> Section:
    """Return the notes in full."""
    rows = pairs(room, notes(tally))
    return Section("Notes", rows or (paragraph("None.", room),))
