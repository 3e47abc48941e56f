"""The section of the text page with what happened while the string was run."""

from __future__ import annotations

from tally.job.figures import show
from tally.job.happening import FlowCheck, Happening
from tally.job.job import Job
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.page import Lines, Section, rule, wrapped
from tally.reports.text_parts import who


def running_section(tally: FinalTally) -> Section:
    """Return make-up torque and lowering times read, flow checks, trouble and changes of crew."""
    told = running_told(tally.job)
    if not told:
        return Section((), ())
    lines: tuple[Lines, ...] = tuple(wrapped(plain(each), hang=2) for each in told)
    return Section((rule("WHILE RUNNING"),), (*lines, ("",)))


def running_told(job: Job) -> tuple[str, ...]:
    """Return a line for what was read of the connections, then one for each thing in its turn."""
    step = job.known.step
    happened: list[tuple[FlowCheck | Happening, str]] = [(one, one.words) for one in job.happened]
    happened += [
        (one, f"flow check, {one.time.text}: {one.state}{_noted(one.note)}")
        for one in job.flow_checks
    ]
    lines = [
        f"Entry {one.seq}, {who(one.by, one.at)}, shoe at {step.with_unit(one.shoe)}: {words}"
        for one, words in sorted(happened, key=lambda each: each[0].seq)
    ]
    return (*_torques(job), *_lowered(job), *lines)


def _noted(note: str) -> str:
    return f" ({note})" if note else ""


def _torques(job: Job) -> tuple[str, ...]:
    read = [made.torque for made in job.string if made.torque]
    if not read:
        return ()
    least, most = min(each.value for each in read), max(each.value for each in read)
    ends = f"{job.known.shown.number(least, 'torque')} to {show(job, most, 'torque')}"
    return (f"Make-up torque read on {len(read)} of {len(job.string)} connections: {ends}.",)


def _lowered(job: Job) -> tuple[str, ...]:
    timed = [made.lowering for made in job.string if made.lowering is not None]
    if not timed:
        return ()
    least = show(job, min(timed), "lowering time")
    return (f"Lowering timed on {len(timed)} of {len(job.string)} items, the shortest {least}.",)
