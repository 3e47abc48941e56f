"""A batch of readings from a gauge: its line stands in the journal, its rows in their own table."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tally.errors import InputError
from tally.job.batch import MOST_ROWS, BatchColumn
from tally.job.entry import Entry, entry_kind, moment, several
from tally.job.followed_file import ReadUpTo
from tally.job.job import Job

_HASH = re.compile(r"[0-9a-f]{64}", re.ASCII)


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Readings(Entry):
    """Rows came from a file or a stream; they are kept, and change nothing in the job."""

    KIND = "readings"

    source: str
    """Where they came from, as it was named."""
    columns: tuple[BatchColumn, ...]
    rows: int
    first: str
    """When the first row was read, and the last one: ISO 8601 with the offset."""
    last: str
    sha256: str
    """Of the text of the rows, which is kept beside the journal."""
    place: str = ""
    """Up to where the source is read with this batch, in the words of its reader."""
    since: str = ""
    """The place up to which it was read before."""
    told: tuple[str, ...] = ()
    """What was wrong with the source on the way, in sentences."""

    def check(self, job: Job) -> str:
        """Refuse a batch that names no source, no column or no row, or ends before it begins."""
        if not self.source.strip() or not self.columns:
            return "A batch of readings names where it came from and its columns."
        if len({each.name for each in self.columns}) != len(self.columns):
            return "Two columns of a batch of readings have one name."
        if not 1 <= self.rows <= MOST_ROWS:
            return f"A batch holds 1 to {MOST_ROWS:,} rows, not {self.rows:,}."
        fault = self._order()
        if fault:
            return fault
        return "" if _HASH.fullmatch(self.sha256) else "A batch of readings names its SHA-256."

    def _order(self) -> str:
        try:
            ordered = moment(self.first) <= moment(self.last)
        except InputError as fault:
            return str(fault)
        return "" if ordered else "The last row of a batch of readings cannot be before the first."

    def demand(self, job: Job) -> str:
        """Refuse rows of a source that another program has read on meanwhile."""
        known = job.read_up_to.get(self.source)
        if self.place and known and known.place != self.since:
            return "Another program has read on from this source; its rows are not kept twice."
        return ""

    def apply(self, job: Job) -> Job:
        """Keep how far the source is read; the readings themselves are not folded."""
        if not self.place:
            return job
        upto = ReadUpTo(self.seq, self.place, self.last)
        return job.but(read_up_to={**job.read_up_to, self.source: upto})

    def said(self) -> str:
        """Return the entry in words."""
        return f"{several(self.rows, 'row')} from {self.source}"
