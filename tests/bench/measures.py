"""The measures that `python -m tests.bench` takes, in the order of the table.

A measure names two sides: functions that set one side up and yield what takes a sample. Those of
the reference programs stand in timed.py and minimal.py, ours in ours.py.
"""

from __future__ import annotations

from contextlib import AbstractContextManager

from tests.bench import (
    books,
    centred,
    followed,
    gathered,
    ours,
    placing,
    printing,
    stations,
    streamed,
    timed,
)
from tests.bench.ratio import Measure, Sample

SAVED_JOINT = Measure(
    name="a joint saved, with its checks, chain and rows",
    ours=lambda: ours.saved_joint(run=20),
    reference=ours.bare_insert,
    against="a bare insert and commit, same settings",
    limit=1.5,
)

SAVED_LATE = Measure(
    name="a joint saved at joint 2,000",
    ours=lambda: ours.saved_joint(run=2000),
    reference=lambda: ours.saved_joint(run=20),
    against="the same at joint 20",
    limit=1.2,
)

START = Measure(
    name="start to the first key taken, a book of 300 joints",
    ours=lambda: ours.start(run=300),
    reference=timed.minimal_start,
    against="a minimal app of the same toolkit",
    limit=2.0,
    rounds=60,
    warm_up=5,
    ceiling=1.5,
)


def _minimal_table() -> AbstractContextManager[Sample]:
    return timed.minimal_table(rows=300)


PAINTED_JOINT = Measure(
    name="Enter to a saved joint painted, 300 joints run",
    ours=lambda: ours.painted_joint(run=300),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=1.5,
    statistic="95th percentile",
    ceiling=0.1,
)

STREAMED_JOINT = Measure(
    name="the same with the rig's stream coming in ten times a second",
    ours=lambda: streamed.painted_joint(run=300),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=1.5,
    statistic="95th percentile",
    rounds=150,
    warm_up=15,
    ceiling=0.1,
)

TYPED_KEY = Measure(
    name="a digit typed into the entry line painted, 300 joints run",
    ours=lambda: books.typed_key(run=300),
    reference=books.minimal_typed_key,
    against="a digit in a minimal app of one input",
    limit=1.25,
    statistic="95th percentile",
    rounds=100,
    warm_up=10,
    ceiling=0.05,
)

START_LATE = Measure(
    name="start to the first key taken, a book of 2,000 joints",
    ours=lambda: ours.start(run=2000),
    reference=lambda: ours.start(run=20),
    against="the same of 20 joints",
    limit=1.5,
    rounds=30,
    warm_up=3,
)

CORRECTED = Measure(
    name="the first of 300 joints put right, every depth and volume anew, painted",
    ours=lambda: books.corrected(run=300),
    reference=lambda: books.bare_sums(rows=300),
    against="running sums of 300 numbers, a bare commit, a minimal repaint",
    limit=3.0,
    rounds=60,
    warm_up=5,
    ceiling=0.25,
)

OPENED_AGAIN = Measure(
    name="start to the first key taken after the program was killed in mid-commit",
    ours=lambda: books.opened_again(run=300, killed=True),
    reference=lambda: books.opened_again(run=300, killed=False),
    against="the same of a book that was left",
    limit=1.5,
    rounds=30,
    warm_up=3,
    ceiling=2.0,
)

VERIFIED = Measure(
    name="a book of 3,000 entries verified: file, chain, sums and rows",
    ours=lambda: books.verified(run=2996),
    reference=lambda: books.bare_check(run=2996),
    against="SQLite's own check, each line hashed and read as JSON",
    limit=20.0,
    rounds=60,
    warm_up=3,
    ceiling=0.25,
)

RUNNING_FIGURES = Measure(
    name="all figures of running, a string of 2,000 joints",
    ours=lambda: ours.running_figures(run=2000),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=0.5,
)

FIGURES_LATE = Measure(
    name="all figures of running at joint 2,000",
    ours=lambda: ours.running_figures(run=2000),
    reference=lambda: ours.running_figures(run=1000),
    against="the same at joint 1,000",
    limit=2.3,
)

SPEED_LIMITS = Measure(
    name="the running speed limit at 100 depths, 400 joints run",
    ours=lambda: ours.speed_limits(run=400, depths=100),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=1.5,
    rounds=100,
    warm_up=10,
    ceiling=0.25,
)

STANDOFF = Measure(
    name="the standoff of 400 joints, a centralizer on each",
    ours=lambda: centred.whole_string(run=400),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=1.0,
    rounds=100,
    warm_up=10,
    ceiling=0.25,
)

STANDOFF_ADDED = Measure(
    name="the standoff with one more joint run over 399",
    ours=lambda: centred.joint_added(run=400),
    reference=lambda: centred.whole_string(run=400),
    against="the whole string worked out",
    limit=0.1,
    rounds=100,
    warm_up=10,
)

SPACED_OUT = Measure(
    name="a space-out of 30 joints and 8 pups, every wish set",
    ours=ours.spaced_out,
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=3.0,
    rounds=60,
    warm_up=3,
    ceiling=1.0,
)

PLACEMENT = Measure(
    name="a cementing job of 900 bbl predicted, half-barrel steps",
    ours=lambda: placing.placement(900),
    reference=lambda: placing.plain_march(900),
    against="a plain time march of it, 0.1-minute steps",
    limit=1.0,
    rounds=40,
    warm_up=3,
    ceiling=0.5,
)

LONG_PLACEMENT = Measure(
    name="a cementing job of 1,800 bbl predicted",
    ours=lambda: placing.placement(1800),
    reference=lambda: placing.placement(900),
    against="the same of 900 bbl",
    limit=2.3,
    rounds=40,
    warm_up=3,
)

FOLLOWED = Measure(
    name="a key on the plugs page to its page painted, a pump file of 86,400 rows followed",
    ours=lambda: followed.refreshed(86_400),
    reference=_minimal_table,
    against="Enter to a new row of a minimal table, nothing saved",
    limit=2.0,
    statistic="95th percentile",
    rounds=100,
    warm_up=10,
    ceiling=0.1,
)

PRINTED = Measure(
    name="the final tally of 400 joints as PDF",
    ours=lambda: printing.tally_printed(joints=400),
    reference=lambda: printing.bare_cells(joints=400),
    against="the bare library drawing the same cells",
    limit=1.5,
    rounds=60,
    warm_up=3,
)

GATHERED = Measure(
    name="a book of 3,000 entries gathered: file, chain and lines verified",
    ours=lambda: gathered.gathered(entries=3000),
    reference=lambda: gathered.bare_bulk(entries=3000),
    against="a bare bulk insert of the same lines, same settings",
    limit=3.0,
    rounds=60,
    warm_up=3,
)

SEEN_ELSEWHERE = Measure(
    name="a joint entered at one station on the page of another, 300 joints run",
    ours=lambda: stations.seen_elsewhere(run=300),
    reference=stations.bare_poll,
    against="a bare commit seen by a bare look each quarter second",
    limit=2.0,
    statistic="95th percentile",
    rounds=100,
    warm_up=5,
    ceiling=1.0,
)

MEASURES: list[Measure] = [
    SAVED_JOINT, SAVED_LATE, START, START_LATE, OPENED_AGAIN, PAINTED_JOINT, STREAMED_JOINT,
    TYPED_KEY, CORRECTED, RUNNING_FIGURES, FIGURES_LATE, SPEED_LIMITS, STANDOFF, STANDOFF_ADDED,
    SPACED_OUT, PLACEMENT, LONG_PLACEMENT, FOLLOWED, PRINTED, VERIFIED, GATHERED,
    SEEN_ELSEWHERE,
]  # fmt: skip
