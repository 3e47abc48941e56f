"""The sections of the text page about the mixing, the lists called, and the shoe."""

from __future__ import annotations

from tally.job.wet_shoe import shoe_words
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.mixing_fields import (
    MIXED,
    mixed,
    mixed_totals,
    samples,
    surface_told,
)
from tally.reports.page import Column, Section, row, rule, wrapped
from tally.reports.text_parts import cells, pair, stacked, who

_COLUMNS = tuple(
    Column(head, wide) for head, wide in zip(MIXED, (16, 14, 12, 14, 11, 12, 13), strict=True)
)


def mixing_section(tally: FinalTally) -> Section:
    """Return the mixing log with its totals; nothing where nothing was read."""
    job = tally.job
    if not (job.mixing or job.samples or job.at_surface):
        return Section((), ())
    log = (row(_COLUMNS, MIXED), *(cells(_COLUMNS, *each) for each in mixed(tally)))
    lines = stacked(
        *(log if job.mixing else ()),
        *(pair(label, told) for label, told in mixed_totals(tally)),
        *(pair(f"sample of {name}", told) for name, told in samples(tally)),
        *(pair(f"{what} at surface", surface_told(tally, what)) for what in ("spacer", "cement")),
        ("",),
    )
    return Section((rule("MIXING LOG"),), (lines,))


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
