"""The final tally as one structure: what was run from the shoe up, what was not, and who says so.

It is built from the job alone, with the entries for who and when; the files and the page that is
signed are different ways of writing it down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from tally.errors import ShoedownError
from tally.job.counts import Balance, Share, balance
from tally.job.depths import reaches, shoe_depth, stick_up
from tally.job.entry import Entry
from tally.job.figures import Figure, all_figures
from tally.job.fittings import installed, missing_on, programmed, wanted
from tally.job.issue import Issue, issue
from tally.job.job import RUN, SENT_AWAY, Fitting, Job
from tally.job.setup import Person, Setup
from tally.job.signature import REPORTS
from tally.reports.said import Accepted, Corrected, Said
from tally.reports.tally_lines import Block, Depths, Installed, NotRun, Row

BLOCK = 10
"""Joints to a block of the tally."""
SIGNED_BY = ("tally keeper", "checker", "company representative")
CAUTION = (
    "A record and a calculator, not a gauge, a barrier or a licensed person's decision. "
    "Local codes come first. Depths are lengths as tallied: stretch, temperature and the slack "
    "of the hole are not counted. Check the figures against the paper tally before they are used."
)


@dataclass(frozen=True, slots=True)
class FinalTally:
    """The tally, ready to be written down; `final` once the string is on depth."""

    job: Job
    setup: Setup
    final: bool
    rows: tuple[Row, ...]
    blocks: tuple[Block, ...]
    not_run: tuple[NotRun, ...]
    balance: Balance
    sent_away: Share
    others: Share
    """Items of the string that are no joints."""
    depths: Depths
    figures: dict[str, Figure]
    fittings: tuple[Installed, ...]
    missing: tuple[tuple[int, str, Fitting], ...]
    exceptions: tuple[Accepted, ...]
    corrections: tuple[Corrected, ...]
    people: tuple[Person, ...]
    signatures: tuple[tuple[str, str], ...]
    """Role and, where one person has it, the name."""
    issues: dict[str, Issue]
    """Where each report that is signed stands, by its key."""
    began: str
    """When the first entry was made."""
    entries: int
    head: str
    """The last hash of the chain: whoever holds the book can check the page against it."""

    @property
    def open_exceptions(self) -> tuple[Accepted, ...]:
        """Differences that were accepted and are not closed."""
        return tuple(one for one in self.exceptions if not one.closed_by)

    @property
    def shoe_track(self) -> tuple[Row, ...]:
        """Items from the shoe up to and with the collar on which the plugs land."""
        places = [place for place, row in enumerate(self.rows) if row.kind == "collar"]
        return self.rows[: places[-1] + 1] if places else ()


def final_tally(job: Job, entries: Sequence[Entry], head: tuple[int, str]) -> FinalTally:
    """Return the tally of a job; `head` is the count of entries and the last hash of the book.

    Raises
    ------
    ShoedownError
        If the job is not set up, so that there is nothing to tally.
    """
    if job.setup is None:
        raise ShoedownError("The job is not set up yet; there is no tally to write.")
    said = Said(entries, job)
    rows = _rows(job, said)
    return FinalTally(
        job=job,
        setup=job.setup,
        final=job.landing is not None,
        rows=rows,
        blocks=_blocks(rows),
        not_run=_not_run(job, said),
        balance=balance(job),
        sent_away=_share([i.length for i in job.items.values() if _joint_gone(i.state, i.kind)]),
        others=_share([row.length for row in rows if not row.joint]),
        depths=_depths(job),
        figures={figure.key: figure for figure in all_figures(job)},
        fittings=_fittings(job),
        missing=missing_on(job),
        exceptions=said.accepted(job),
        corrections=said.corrections(),
        people=tuple(job.people.values()),
        signatures=tuple((role, only_name(job, role)) for role in SIGNED_BY),
        issues={key: issue(job, entries, key) for key in REPORTS},
        began=entries[0].at if entries else "",
        entries=head[0],
        head=head[1],
    )


def _rows(job: Job, said: Said) -> tuple[Row, ...]:
    return tuple(
        Row(
            order=order,
            number=reach.made.number,
            kind=reach.made.kind,
            description=job.items[reach.made.number].description,
            pipe=job.known.pipe(reach.made.pipe),
            joint=reach.made.joint,
            length=reach.made.length,
            cumulative=reach.made.top,
            top=reach.top,
            bottom=reach.bottom,
            fittings=reach.made.fittings,
            at=reach.made.at,
            by=reach.made.by,
            remarks=said.remarks(reach.made),
        )
        for order, reach in enumerate(reaches(job), start=1)
    )


def _blocks(rows: Sequence[Row]) -> tuple[Block, ...]:
    """Part the rows into tens of joints; an item that is no joint goes with those below it."""
    blocks: list[Block] = []
    joints = 0
    numbered = []
    for row in rows:
        joints = row.joint or joints
        numbered.append((max(0, joints - 1) // BLOCK + 1, row))
    for number, group in groupby(numbered, key=lambda pair: pair[0]):
        before = blocks[-1].to_here if blocks else 0
        blocks.append(Block(number, tuple(row for _, row in group), before))
    return tuple(blocks)


def _not_run(job: Job, said: Said) -> tuple[NotRun, ...]:
    out = []
    for item in job.items.values():
        if item.state == RUN:
            continue
        at, by = said.put_aside(item.number)
        pipe = job.known.pipe(item.pipe)
        one = (item.number, item.kind, item.description, pipe, item.length)
        out.append(NotRun(*one, item.state, item.reason, at, by, said.remeasured(item.number)))
    return tuple(out)


def _depths(job: Job) -> Depths:
    step, hole = job.known.step, job.known.hole
    return Depths(
        string=job.length,
        stick_up=stick_up(job),
        shoe=shoe_depth(job),
        hole=step.steps(hole.depth.value),
        casing_point=step.steps(hole.casing_point.value),
    )


def _fittings(job: Job) -> tuple[Installed, ...]:
    have, want, whole = installed(job), wanted(job), programmed(job)
    kinds = dict.fromkeys([*whole, *have])
    return tuple(Installed(what, have[what], want[what], whole[what]) for what in kinds)


def _joint_gone(state: str, kind: str) -> bool:
    return state == SENT_AWAY and kind == "joint"


def _share(lengths: Sequence[int]) -> Share:
    return Share(len(lengths), sum(lengths))


def only_name(job: Job, role: str) -> str:
    """Return the name of whoever has a role, where one person alone has it."""
    names = [person.name for person in job.people.values() if person.role == role]
    return names[0] if len(names) == 1 else ""
