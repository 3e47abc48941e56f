"""The sections of the text page about the mixing, the lists called, and the shoe."""

from __future__ import annotations

from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.wet_shoe import shoe_words
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.mixing_fields import MIXED, mixed, samples, surface_told
from tally.reports.page import Column, Lines, Section, row, rule, wrapped
from tally.reports.text_parts import cells, pair, stacked, who

_COLUMNS = tuple(
    Column(head, wide) for head, wide in zip(MIXED, (16, 14, 12, 14, 11, 12, 13), strict=True)
)
TOTALS = (
    ("mixed_volume", "slurry mixed"),
    ("mixed_sacks", "sacks used"),
    ("mixed_fluid", "mix fluid used"),
)


def mixing_section(tally: FinalTally) -> Section:
    """Return the mixing log with its totals; nothing where nothing was read."""
    job = tally.job
    if not (job.mixing or job.samples or job.at_surface):
        return Section((), ())
    log = (row(_COLUMNS, MIXED), *(cells(_COLUMNS, *each) for each in mixed(tally)))
    lines = stacked(
        *(log if job.mixing else ()),
        *(_total(job, key, label) for key, label in TOTALS),
        *(pair(f"sample of {name}", told) for name, told in samples(tally)),
        *(pair(f"{what} at surface", surface_told(tally, what)) for what in ("spacer", "cement")),
        ("",),
    )
    return Section((rule("MIXING LOG"),), (lines,))


def _total(job: Job, key: str, label: str) -> Lines:
    found = figure(job, key)
    if found.value is None:
        return ()
    planned = [each for each in found.inputs if each.where.startswith("figure ")]
    beside = f"programme {show(job, planned[0].value, planned[0].quantity)}" if planned else ""
    return pair(label, show(job, found.value, found.quantity), beside)


def trouble_section(tally: FinalTally) -> Section:
    """Return the lists that were started, and how the shoe stands; nothing without either."""
    job = tally.job
    started = [
        pair(job.lists[each].title if each in job.lists else each, one.why, who(one.by, one.at))
        for each, one in job.started.items()
    ]
    shoe = shoe_words(job)
    if not started and not shoe:
        return Section((), ())
    lines = stacked(*started, wrapped(plain(shoe)) if shoe else (), ("",))
    return Section((rule("LISTS CALLED AND THE SHOE"),), (lines,))
