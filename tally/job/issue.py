"""The issues of a report: what was signed, and what was amended since.

Whoever signs fixes the entries that the report was made of. What is entered later does not touch
that issue: it begins the next one, which shows every value of a signed entry that was put right
since, the first value beside the new one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tally.errors import ShoedownError
from tally.job.differing import Changed, differing
from tally.job.entries.correction import Correction
from tally.job.entries.people import PinSet, SetUp
from tally.job.entries.pipe import Received
from tally.job.entries.running import ItemRun
from tally.job.entries.signing import ReportSigned
from tally.job.entry import Entry
from tally.job.fold import effective, substitute
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
    for entry in entries:
        if entry.seq in kept:
            signed[number].append(kept[entry.seq])
            upto = kept[entry.seq].entries
        elif upto and not isinstance(entry, ReportSigned | PinSet):
            if signed[number]:  # what is signed is fixed: another issue begins
                number, added = number + 1, 0
                signed[number] = []
            found = _amendment(job, entries, entry, upto, number)
            amendments += found
            added += not found
    now = sorted(signed.pop(number), key=lambda one: MEANINGS.index(one.meaning))
    earlier = [one for each in signed.values() for one in each]
    return Issue(report, number, tuple(now), tuple(earlier), tuple(amendments), added)


def amending(entries: Sequence[Entry], entry: Entry, upto: int) -> int:
    """Return which of the first entries another one puts right; 0 where it is none of them."""
    if isinstance(entry, Correction) and entry.of <= upto:
        return entry.of
    if isinstance(entry, SetUp):
        before = [e.seq for e in entries if isinstance(e, SetUp) and e.seq < entry.seq]
        return before[-1] if before and before[-1] <= upto else 0
    return 0


def _amendment(
    job: Job, entries: Sequence[Entry], entry: Entry, upto: int, number: int
) -> list[Amendment]:
    of = amending(entries, entry, upto)
    if not of:
        return []
    stood = effective([each for each in entries if each.seq < entry.seq])
    was = next((each for each in stood if each.seq == of), None)
    if was is None:
        return []
    try:
        now = _instead(entries, entry, of)
    except (ShoedownError, TypeError):
        return []  # it could not be put in place: the book goes by what stood before
    told = (
        was.worded(job),
        "struck: it did not happen" if now is None else now.worded(job),
        () if now is None else _values(stood, was, now),
    )
    reason = entry.reason if isinstance(entry, Correction) else entry.despite
    return [Amendment(number, entry.seq, of, *told, entry.by, entry.at, reason)]


def _values(stood: Sequence[Entry], was: Entry, now: Entry) -> tuple[Changed, ...]:
    """Return both values; the length of an item that was run as listed stands in its list."""
    changed = differing(was, now)
    if not isinstance(was, ItemRun) or was.length is not None:
        return changed
    came = (each for entry in stood if isinstance(entry, Received) for each in entry.items)
    typed = [each.typed for each in came if each.number == was.number]
    if not typed:
        return changed
    listed = f"{typed[-1]}, as listed"
    return tuple(replace(one, was=listed) if one.what == "length" else one for one in changed)


def _instead(entries: Sequence[Entry], entry: Entry, of: int) -> Entry | None:
    """Return what stands in the place of an entry by this one; nothing where it was struck."""
    if not isinstance(entry, Correction):
        return entry
    return substitute(next(each for each in entries if each.seq == of), entry)
