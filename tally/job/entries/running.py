"""Running: items made up in the string, rejected, laid down, pulled back out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.checks import check_question
from tally.job.counts import goes_above, next_item, next_turn, on_top, turn
from tally.job.depths import below_hole
from tally.job.entries.pipe import on_rack
from tally.job.entry import Entry, ended, entry_kind, seconds_between
from tally.job.hold_point import held
from tally.job.job import LAID_DOWN, ON_RACK, REJECTED, RUN, Fitting, Item, Job, Made
from tally.job.making_up import torque_doubt
from tally.job.setup import Pipe
from tally.job.step_wants import not_second
from tally.job.stopped import stopped
from tally.job.stored import measured
from tally.job.volumes import over_the_top
from tally.units import Measure
from tally.units.steps import LONGEST_METRES

LONGEST_LOWERING = 3600.0
"""[s]; what takes longer is no single joint going down."""


def running_open(job: Job) -> str:
    """Return why no item can be run or taken off now, or nothing."""
    if job.setup is None:
        return "The job is not set up yet; set it up before pipe is run."
    if job.landing is not None:
        return (
            f"The string is on depth since entry {job.landing.seq}; "
            "strike that entry before the string is changed."
        )
    return ""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ItemRun(Entry):
    """An item was made up and lowered; without a length it is as listed."""

    KIND = "item run"

    number: str
    fittings: tuple[Fitting, ...] = ()
    length: int | None = None
    typed: str = ""
    lowering: Measure | None = measured("lowering time", optional=True)
    """By the clock from slips out to slips set, where somebody timed it."""
    torque: Measure | None = measured("torque", optional=True)
    """It was made up with, where somebody read it."""
    position: str = ""
    """Where the coupling stands on the thread, in words."""
    second: str = ""
    """The second person where the shut hold point is passed."""

    def check(self, job: Job) -> str:
        """Refuse what is not on the rack, a length of nothing, and pieces of nothing."""
        return (
            running_open(job)
            or on_rack(job, self.number)
            or _no_length(job, self.number, self.length)
            or _no_pieces(self.fittings)
            or _no_lowering(self.lowering)
        )

    def demand(self, job: Job) -> str:
        """Refuse to pass the shut hold point without a reason and a second person."""
        shut = held(job, self.number)
        if not shut:
            return ""
        if not self.despite.strip() or not self.second:
            return f"{shut} This gate is passed only with a reason and a second person."
        return not_second(job, self.by, self.second)

    def ask(self, job: Job) -> str:
        """Stop on what is not the next one, not checked, not as listed, or run too quickly."""
        item = job.items[self.number]
        questions = (
            stopped(job),
            self._below_hole(job),
            self._above(job),
            self._order(job),
            f"{_name(item)} is set aside by the running list." if item.number in job.aside else "",
            check_question(job, item),
            self._length(job),
            self._pace(job),
            self._lowering(job),
            torque_doubt(job, item, self.torque),
        )
        return " ".join(each[0].upper() + each[1:] for each in questions if each)

    def _below_hole(self, job: Job) -> str:
        """Return that there is no hole any more for what would be run, or nothing."""
        item, step = job.items[self.number], job.known.step
        length = item.length if self.length is None else self.length
        below = below_hole(job, item.kind, length)
        if below <= 0:
            return ""
        hole = job.known.hole.depth.text
        return (
            f"{_name(item)} would put the shoe {step.with_unit(below)} below the bottom of "
            f"the hole, {hole}; look at the tally, the stick-up and the depth of the hole."
        )

    def _above(self, job: Job) -> str:
        """Return that nothing goes in above a hanger or a landing joint, or nothing."""
        top = on_top(job)
        if top is None or goes_above(job, job.items[self.number].kind):
            return ""
        return (
            f"{_name(job.items[top.number])} is on top of the string, and "
            f"{_name(job.items[self.number])} is not run above it: d says that the string is on "
            "depth, p pulls the top item out again."
        )

    def _order(self, job: Job) -> str:
        due = next_item(job)
        if due is None or due.number == self.number or not goes_above(job, due.kind):
            return ""
        return f"{_name(job.items[self.number])} is not the next one; {_name(due)} is."

    def _length(self, job: Job) -> str:
        item, step = job.items[self.number], job.known.step
        doubt = ""
        if self.length is not None and not _as_near_as_asked(job, self.length, item.length):
            doubt = (
                f"{_name(item)} is listed with {step.with_unit(item.length)}, "
                f"typed {step.with_unit(self.length)}."
            )
        outside = length_doubt(job, item, item.length if self.length is None else self.length)
        return f"{doubt} {outside}".strip()

    def _pace(self, job: Job) -> str:
        least = job.known.limit("least_joint_time")
        if least is None or not job.last_run:
            return ""
        gone = seconds_between(job.last_run, self.at)
        if not 0 <= gone < least.value:
            return ""
        return f"The last item was run {gone:.0f} s ago; the least plausible is {least.text}."

    def _lowering(self, job: Job) -> str:
        """Return what is doubtful: a time of lowering longer than the whole time of the joint."""
        if self.lowering is None or not job.last_run:
            return ""
        gone = seconds_between(job.last_run, self.at)
        if not 0 <= gone < self.lowering.value:
            return ""
        return (
            f"Lowering is timed with {self.lowering.text}, but the item before was run "
            f"{gone:.0f} s ago."
        )

    def apply(self, job: Job) -> Job:
        """Make the item up on top of the string; what was passed with a reason stays in sight."""
        shut = held(job, self.number) if self.second else ""
        below = self._below_hole(job) if self.despite else ""
        job = self._made_up(job)
        if below:
            what = f"{below} Run all the same: {ended(self.despite)}"
            job = job.with_exception(self.seq, what[0].upper() + what[1:], self.by, self.at)
        if not shut:
            return job
        what = f"Hold point passed with {self.number}: {shut} Reason: {ended(self.despite)}"
        return job.with_exception(
            self.seq, f"{what} Second person: {self.second}.", self.by, self.at, critical=True
        )

    def _made_up(self, job: Job) -> Job:
        item = job.items[self.number]
        length = item.length if self.length is None else self.length
        if length != item.length:
            job = _remeasured(job, item, length, self.typed)
            item = job.items[self.number]
        joint = job.joints_run + 1 if item.kind == "joint" else 0
        made = Made(
            item.number,
            item.kind,
            item.pipe,
            length,
            job.length + length,
            joint,
            self.fittings,
            self.at,
            self.by,
            self.seq,
            self.lowering.value if self.lowering else None,
            self.torque,
            self.position,
        )
        items = {**job.items, item.number: replace(item, state=RUN, reason="")}
        return job.but(
            items=items,
            string=(*job.string, made),
            last_run=self.at,
            turn=next_turn(job.order, items, turn(job).place),
        )

    def said(self) -> str:
        """Return the entry in words."""
        with_what = ", ".join(str(fitting) for fitting in self.fittings)
        length = f", measured {self.typed}" if self.typed else ""
        timed = f", lowered in {self.lowering.text}" if self.lowering else ""
        made_up = f", made up to {self.torque.text}" if self.torque else ""
        position = f", {self.position}" if self.position else ""
        told = f"{self.number} run{length}{made_up}{position}{timed}"
        return told + (f" with {with_what}" if with_what else "")


def _no_length(job: Job, number: str, length: int | None) -> str:
    """Return why an item cannot have this length, or nothing."""
    step = job.known.step
    if length is None or 0 < step.si(length) <= LONGEST_METRES:
        return ""
    return f"{step.with_unit(length)} is no length of item {number}; measure it again."


def _no_pieces(fittings: tuple[Fitting, ...]) -> str:
    """Return what is wrong with what is installed, or nothing."""
    for fitting in fittings:
        if not fitting.what.strip():
            return "Say what is installed; a piece has no name."
        if fitting.count < 1:
            return f"{fitting.count} of '{fitting.what}' is no count; pieces are counted from 1."
    return ""


def _no_lowering(lowering: Measure | None) -> str:
    """Return why a time is no time of lowering, or nothing."""
    if lowering is None or 1 <= lowering.value <= LONGEST_LOWERING:
        return ""
    return (
        f"{lowering.text} is no lowering time; it is 1 s to 1 h from slips out to slips set. "
        "Leave it out where nobody timed it."
    )


def _as_near_as_asked(job: Job, length: int, listed: int) -> bool:
    """Whether a length is the one listed, or inside the limit that the job sets for it."""
    limit = job.known.limit("length_difference")
    band = job.known.step.steps(limit.value) if limit else 0
    return abs(length - listed) <= band


def _remeasured(job: Job, item: Item, length: int, typed: str) -> Job:
    """Return the job with an item's length measured anew; the length on location follows."""
    job = job.with_item(replace(item, length=length, typed=typed))
    if item.kind != "joint":
        return job
    return replace(job, received_length=job.received_length + length - item.length)


def length_doubt(job: Job, item: Item, length: int) -> str:
    """Return what is doubtful about a joint's length, or nothing: its range class."""
    if item.kind != "joint":
        return ""
    pipe: Pipe = job.known.pipe(item.pipe)
    step = job.known.step
    if pipe.shortest is None or pipe.longest is None:
        return ""
    if step.steps(pipe.shortest.value) <= length <= step.steps(pipe.longest.value):
        return ""
    return (
        f"{step.with_unit(length)} is outside {pipe.shortest.text} to {pipe.longest.text}, "
        "the range of this pipe."
    )


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Rejected(Entry):
    """An item failed a check before it was made up."""

    KIND = "rejected"

    number: str
    reason: str

    def check(self, job: Job) -> str:
        """Refuse what is not on the rack, or has no reason."""
        if not self.reason.strip():
            return f"Say why {self.number} is rejected."
        return on_rack(job, self.number)

    def apply(self, job: Job) -> Job:
        """Set the item aside."""
        item = job.items[self.number]
        return job.with_item(replace(item, state=REJECTED, reason=self.reason))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.number} rejected ({self.reason})"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class LaidDown(Entry):
    """An item came back off the string, or off the floor before it was made up for good."""

    KIND = "laid down"

    number: str
    reason: str

    def check(self, job: Job) -> str:
        """Refuse what lies below other items, or has no reason."""
        if not self.reason.strip():
            return f"Say why {self.number} is laid down."
        return running_open(job) or _at_hand(job, self.number)

    def apply(self, job: Job) -> Job:
        """Take the item off the string if it is in it, and set it aside."""
        item = job.items[self.number]
        job = _without(job, self.number)
        return job.with_item(replace(item, state=LAID_DOWN, reason=self.reason))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.number} laid down ({self.reason})"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PulledOut(Entry):
    """The top item came out of the string and is back on the rack."""

    KIND = "pulled out"

    number: str
    reason: str = ""

    def check(self, job: Job) -> str:
        """Refuse anything but the top item."""
        item = job.items.get(self.number)
        if item is not None and item.state != RUN:
            return f"Item {self.number} is not in the string; check the number."
        return running_open(job) or _at_hand(job, self.number)

    def apply(self, job: Job) -> Job:
        """Put the item back on the rack."""
        item = job.items[self.number]
        return _without(job, self.number).with_item(replace(item, state=ON_RACK))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.number} pulled out" + (f" ({self.reason})" if self.reason else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted(Entry):
    """What is installed on an item of the string, in full; it replaces what was noted."""

    KIND = "fitted"

    number: str
    fittings: tuple[Fitting, ...] = ()

    def check(self, job: Job) -> str:
        """Refuse an item that is not in the string."""
        if job.made(self.number) is None:
            return f"Item {self.number} is not in the string; nothing can be installed on it."
        return _no_pieces(self.fittings)

    def ask(self, job: Job) -> str:
        """Ask when the item is below the floor already."""
        if job.string[-1].number == self.number:
            return ""
        return f"{self.number} is below the floor; say why what was installed is noted now."

    def apply(self, job: Job) -> Job:
        """Replace what is noted for the item."""
        string = tuple(
            replace(made, fittings=self.fittings) if made.number == self.number else made
            for made in job.string
        )
        return replace(job, string=string)

    def said(self) -> str:
        """Return the entry in words."""
        what = ", ".join(str(fitting) for fitting in self.fittings) or "nothing"
        return f"installed on {self.number}: {what}"


def _at_hand(job: Job, number: str) -> str:
    """Return why an item can be neither on the floor nor the top of the string, or nothing."""
    item = job.items.get(number)
    if item is None or item.state != RUN:
        return on_rack(job, number)
    top = job.string[-1]
    if top.number == number:
        return ""
    above = next(n for n, made in enumerate(reversed(job.string)) if made.number == number)
    name = _name(item)
    return (
        f"{name[0].upper()}{name[1:]} lies below {above} more; "
        f"{top.number} is on top and comes out first."
    )


def _without(job: Job, number: str) -> Job:
    """Return the job with an item off the top of the string; the mud that stood in it is lost."""
    if not (job.string and job.string[-1].number == number):
        return job
    job = replace(job, string=job.string[:-1])
    return replace(job, spilled=job.spilled + over_the_top(job))


def _name(item: Item) -> str:
    if item.kind == "joint":
        return f"joint {item.number}"
    own = "" if item.number == item.kind else f" {item.number}"
    return f"the {item.kind}{own}"
