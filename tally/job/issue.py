"""The issues of a report: what was signed, and what was amended since.

Whoever signs fixes the entries that the report was made of. What is entered later does not touch
that issue: it begins the next one, which shows every value of a signed entry that was put right
since, the first value beside the new one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.job.amending import Amended, all_amended
from tally.job.differing import Changed
from tally.job.entries.correction import Correction
from tally.job.entries.people import PinSet
from tally.job.entries.signing import ReportSigned
from tally.job.entry import Entry
from tally.job.job import Job
from tally.job.signature import APPROVED, MEANINGS, Signature


@dataclass(frozen=True, slots=True)
class Amendment:
    """A signed entry that was put right after signing: both values, who, when and why."""

    issue: int
    """The issue that shows it first."""
    seq: int
    """The entry that amends."""
    of: int
    was: str
    """The entry in words, as it stood when it was signed."""
    now: str
    values: tuple[Changed, ...]
    by: str
    at: str
    reason: str


@dataclass(frozen=True, slots=True)
class Issue:
    """One report as it stands: its issue, who signed this one and those before."""

    report: str
    number: int
    signatures: tuple[Signature, ...]
    earlier: tuple[Signature, ...]
    amendments: tuple[Amendment, ...]
    added: int
    """Entries that came after the issue before was signed, other than those that amend it."""

    @property
    def approved(self) -> tuple[Signature, ...]:
        """Who approved this issue."""
        return tuple(one for one in self.signatures if one.meaning == APPROVED)

    @property
    def amended(self) -> bool:
        """Whether this issue amends what was signed before."""
        return any(one.issue == self.number for one in self.amendments)

    @property
    def name(self) -> str:
        """The issue with what became of the one before.

        >>> Issue("tally", 1, (), (), (), 0).name
        'issue 1'
        """
        if self.number == 1:
            return "issue 1"
        how = "amended" if self.amended else "added to"
        return f"issue {self.number}, {how} after signing"

    @property
    def not_final(self) -> str:
        """Why this issue is not final, in a few words, or nothing."""
        if self.approved:
            return ""
        if not self.signatures:
            again = " again" if self.earlier else ""
            return f"nobody has signed it{again}"
        told = (f"{one.meaning} by {one.name}" for one in self.signatures)
        return f"{', '.join(told)}; nobody has approved it"


def issue(job: Job, entries: Sequence[Entry], report: str) -> Issue:
    """Return the issue at which a report stands."""
    number, upto, added = 1, 0, 0
    signed: dict[int, list[Signature]] = {1: []}
    amendments: list[Amendment] = []
    kept = {one.seq: one for one in job.signatures if report in one.reports}
    changes = all_amended(job, entries) if kept else {}
    for entry in entries:
        if entry.seq in kept:
            signed[number].append(kept[entry.seq])
            upto = kept[entry.seq].entries
        elif upto and not isinstance(entry, ReportSigned | PinSet):
            if signed[number]:  # what is signed is fixed: another issue begins
                number, added = number + 1, 0
                signed[number] = []
            found = _amendment(job, entry, changes.get(entry.seq), upto, number)
            amendments += found
            added += not found
    now = sorted(signed.pop(number), key=lambda one: MEANINGS.index(one.meaning))
    earlier = [one for each in signed.values() for one in each]
    return Issue(report, number, tuple(now), tuple(earlier), tuple(amendments), added)


def _amendment(
    job: Job, entry: Entry, found: Amended | None, upto: int, number: int
) -> list[Amendment]:
    if found is None or found.of > upto:
        return []
    now = "struck: it did not happen" if found.now is None else found.now.worded(job)
    told = (found.was.worded(job), now, found.values)
    reason = entry.reason if isinstance(entry, Correction) else entry.despite
    return [Amendment(number, entry.seq, found.of, *told, entry.by, entry.at, reason)]
