"""A book of the invented job that is signed and corrected as it goes on."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from tally.book.standing import Standing, begun
from tally.job.entries.correction import Correction
from tally.job.entries.running import ItemRun
from tally.job.entries.signing import ReportSigned
from tally.job.entry import Entry, to_fields
from tally.job.issue import Issue, issue
from tests.tally.job.invented import LEAD, REP, Telling

OWN = ("kind", "by", "at", "seq")


class Signed:
    """A book with what its chain ends with, so that reports of it can be signed."""

    def __init__(self, told: Telling, book: str = "signed") -> None:
        self.standing: Standing = begun(book)
        for entry in told.entries:
            _, self.standing = self.standing.next(entry)

    def says(self, kind: type[Entry], *, by: str = LEAD, **told: Any) -> Entry:
        """Record an entry, a minute after the last."""
        _, self.standing = self.standing.next(kind(by=by, at=self.now, **told))
        return self.standing.entries[-1]

    @property
    def now(self) -> str:
        last = datetime.fromisoformat(self.standing.job.last)
        return (last + timedelta(minutes=1)).isoformat()

    def signs(self, meaning: str = "approved", name: str = REP, *reports: str, **told: Any) -> Any:
        """Sign reports, the tally if none is named, as the book stands."""
        where = {"entries": self.standing.count, "head": self.standing.head}
        person = self.standing.job.people.get(told.get("name", name))
        who = {
            "name": name,
            "role": person.role if person else "driller",
            "meaning": meaning,
            "reports": reports or ("tally",),
        }
        return self.says(ReportSigned, by=name, **(who | where | told))

    def corrects(self, number: str, typed: str, reason: str = "read wrongly") -> Entry:
        """Put the length right with which an item was run, in feet with two decimals."""
        run = next(
            each
            for each in self.standing.entries
            if isinstance(each, ItemRun) and each.number == number
        )
        kept = {key: one for key, one in to_fields(run).items() if key not in OWN}
        instead = {**kept, "length": round(float(typed) * 100), "typed": typed}
        return self.says(Correction, of=run.seq, reason=reason, instead=instead)

    def issue(self, report: str = "tally") -> Issue:
        """Return where a report stands."""
        return issue(self.standing.job, self.standing.entries, report)
