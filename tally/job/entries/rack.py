"""The rack: bundles counted, joints checked, equipment noted, the running list set."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from tally.job.checks import CHECKS, DRIFT
from tally.job.entry import Entry, accepted, entry_kind, several
from tally.job.equipment import listed_name
from tally.job.job import RUN, Job
from tally.job.list_warnings import list_warnings
from tally.job.naming import in_short
from tally.job.order_rules import OrderRules
from tally.job.rack_records import BundleCount, CheckMark, EquipmentMark
from tally.job.running_list import RunningList, drafted
from tally.job.stored import measured
from tally.units import Measure

NOT_SET_UP = "The job is not set up yet; set it up first."
TOLD_AT_ONCE = 4


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class BundleCounted(Entry):
    """The joints of a bundle or a truck were counted; counting it again replaces the count."""

    KIND = "bundle counted"

    bundle: str
    counted: int
    noted: int | None = None
    """By the delivery note."""
    numbers: tuple[str, ...] = ()
    """The numbers of its joints, where they are known."""

    def check(self, job: Job) -> str:
        """Refuse a bundle without a name, and counts below nothing."""
        if not self.bundle.strip():
            return "Say which bundle or truck was counted."
        if self.counted < 0 or (self.noted or 0) < 0:
            return "A bundle has no joint or more; type the count again."
        return _twice(self.numbers)

    def ask(self, job: Job) -> str:
        """Ask where the count is not that of the delivery note."""
        if self.noted in (None, self.counted):
            return ""
        return (
            f"{self.bundle}: {self.noted} by the delivery note, {self.counted} counted: "
            f"{self.counted - (self.noted or 0):+d}."
        )

    def apply(self, job: Job) -> Job:
        """Keep the count; a difference from the note stays in sight."""
        count = BundleCount(
            self.bundle, self.noted, self.counted, self.numbers, self.seq, self.by, self.at
        )
        question = self.ask(job)
        job = replace(job, bundles={**job.bundles, self.bundle: count})
        if not question:
            return job
        what = f"Received: {question} {accepted(self.despite)}"
        return job.with_exception(self.seq, what, self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        note = f", {self.noted} by the note" if self.noted is not None else ""
        return f"{self.bundle}: {several(self.counted, 'joint')} counted{note}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Checked(Entry):
    """A check of one joint or of many: passed or failed. A failure rejects nothing by itself."""

    KIND = "checked"

    what: str
    passed: bool
    numbers: tuple[str, ...]
    who: str = ""
    """Who checked; the person at the keys unless somebody is named."""
    mandrel: Measure | None = measured("diameter", optional=True)
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a check that nobody knows, and joints that are not in the book."""
        if self.what not in CHECKS:
            return f"'{self.what}' is no check of a joint; the checks are {', '.join(CHECKS)}."
        if not self.numbers:
            return "Say which joints were checked."
        unknown = [number for number in self.numbers if number not in job.items]
        if unknown:
            return f"There is no item {in_short(unknown)} in the book; look at the numbers."
        if self.mandrel is not None and self.what != DRIFT:
            return f"A mandrel goes with a drift only, not with {self.what}."
        return _twice(self.numbers)

    def ask(self, job: Job) -> str:
        """Ask where a joint is in the string already, or the mandrel does not go into the pipe."""
        run = [number for number in self.numbers if job.items[number].state == RUN]
        questions = (_late(run), self._mandrel(job))
        return " ".join(each for each in questions if each)

    def _mandrel(self, job: Job) -> str:
        if self.mandrel is None or not self.passed:
            return ""
        pipes = {job.known.pipe(job.items[number].pipe).name for number in self.numbers}
        for name in sorted(pipes):
            inner = job.known.pipe(name).inner_diameter
            if self.mandrel.value > inner.value:
                return f"A mandrel of {self.mandrel.text} does not go into {name}, {inner.text}."
        return ""

    def apply(self, job: Job) -> Job:
        """Mark the joints."""
        mark = CheckMark(
            self.passed, self.who or self.by, self.seq, self.at, self.mandrel, self.note
        )
        marked = {(number, self.what): mark for number in self.numbers}
        return replace(job, checks={**job.checks, **marked})

    def said(self) -> str:
        """Return the entry in words."""
        with_what = f" with {self.mandrel.text}" if self.mandrel else ""
        note = f": {self.note}" if self.note else ""
        found = "passed" if self.passed else "failed"
        return f"{in_short(self.numbers)} {found} {self.what}{with_what}{note}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class EquipmentNoted(Entry):
    """Something of the equipment list is here or not, checked or not."""

    KIND = "equipment noted"

    name: str
    here: bool
    checked: bool = False
    supplier: str = ""
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a thing without a name, and one that is checked before it is here."""
        if not self.name.strip():
            return "Say what is noted."
        if self.checked and not self.here:
            return f"{self.name} is not here; it cannot be checked yet."
        return ""

    def apply(self, job: Job) -> Job:
        """Note it under the name that it has in the list."""
        mark = EquipmentMark(
            self.supplier, self.here, self.checked, self.note, self.seq, self.by, self.at
        )
        return replace(job, equipment={**job.equipment, listed_name(job, self.name): mark})

    def said(self) -> str:
        """Return the entry in words."""
        state = "here and checked" if self.checked else "here" if self.here else "not here"
        note = f" ({self.note})" if self.note else ""
        return f"{self.name}: {state}{note}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class OrderSet(Entry):
    """The running list was set: the order from the shoe up, and what it leaves out."""

    KIND = "order set"

    order: tuple[str, ...]
    reason: str
    locked: tuple[str, ...] = ()
    aside: tuple[str, ...] = ()
    rules: OrderRules | None = None
    """What it was built by, where it was built by rules."""
    length: int | None = None
    """The length of string that it was spaced out to."""

    def check(self, job: Job) -> str:
        """Refuse a list that nobody could run by, or one that comes too late."""
        if job.setup is None:
            return NOT_SET_UP
        if job.landing is not None:
            return f"The string is on depth since entry {job.landing.seq}; its list is closed."
        if not self.order:
            return "The running list is empty; put something in it."
        if not self.reason.strip():
            return "Say why the running list is set."
        return _twice(self.order) or self._aside(job)

    def _list(self) -> RunningList:
        return RunningList(self.order, self.locked, self.aside, self.length)

    def _aside(self, job: Job) -> str:
        both = [number for number in self.aside if number in set(self.order)]
        if both:
            return f"{in_short(both)} cannot be in the list and set aside."
        unknown = [number for number in self.aside if number not in job.items]
        if unknown:
            return f"There is no item {in_short(unknown)} in the book to set aside."
        loose = [number for number in self.locked if number not in set(self.order)]
        return f"{in_short(loose)} is locked and not in the list." if loose else ""

    def ask(self, job: Job) -> str:
        """Ask where the list is doubtful."""
        draft = drafted(job, self._list())
        told = [warning.text for warning in list_warnings(draft)]
        more = len(told) - TOLD_AT_ONCE
        rest = [f"And {more} more."] if more > 0 else []
        return " ".join([*told[:TOLD_AT_ONCE], *rest])

    def apply(self, job: Job) -> Job:
        """Set the list."""
        job = drafted(job, self._list())
        return replace(job, list_rules=self.rules or job.list_rules, list_set=self.seq)

    def said(self) -> str:
        """Return the entry in words."""
        aside = f", {in_short(self.aside)} set aside" if self.aside else ""
        return f"running list set, {several(len(self.order), 'item')}{aside} ({self.reason})"


def _twice(numbers: Iterable[str]) -> str:
    again = [number for number, times in Counter(numbers).items() if times > 1]
    return f"{in_short(again)} is named twice; each number once." if again else ""


def _late(run: list[str]) -> str:
    if not run:
        return ""
    verb = "is" if len(run) == 1 else "are"
    return f"{in_short(run)} {verb} in the string already; say why the check is noted now."
