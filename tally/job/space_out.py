"""Space-out of a job: its question from set-up, string and rack, and its answer as a running list.

What lies below the last thirty joints that may be used is run as listed. What is set aside is not
used; a joint locked in its place has to be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from tally.errors import Missing
from tally.job.counts import ON_TOP
from tally.job.job import ON_RACK, Item, Job
from tally.job.running_list import RunningList, Slot, current, slots
from tally.job.setup import KeepClear
from tally.string.space_out import MARKER, MUST, POCKET, STICK_UP, hindrances, space_out
from tally.string.space_out_question import Candidate, Choice, Question, Stretch, Wish
from tally.units import Measure

MOST_JOINTS, MOST_PUPS = 30, 8
SPARES_LOOKED_AT = 10


@dataclass(frozen=True, slots=True)
class SpaceOutOfJob:
    """The question of a job, and the items about it that are run as listed."""

    question: Question
    below: tuple[str, ...]
    """What is run and what is to be run as listed, from the shoe up."""
    top: tuple[str, ...]
    """What goes on top in any case."""
    unused: tuple[str, ...]
    """What the list has above all that is looked at."""
    above_hanger: int | None = None
    """Length above the top of the hanger; nothing where there is none."""

    def hang_off(self, choice: Choice) -> int | None:
        """Return the depth at which a choice hangs off: the top of its hanger."""
        return None if self.above_hanger is None else self.above_hanger - choice.stick_up

    def listed(self, job: Job, choice: Choice) -> RunningList:
        """Return the running list that a choice makes.

        What it does not use follows as spare.
        """
        now = current(job)
        made = (*self.below, *choice.used, *choice.pups, *self.top)
        rest = tuple(number for number in self._rest(choice) if number not in made)
        return RunningList((*made, *rest), now.locked, now.aside, choice.length)

    def _rest(self, choice: Choice) -> tuple[str, ...]:
        over = [each.number for each in self.question.joints if each.number not in choice.used]
        pups = [each.number for each in self.question.pups if each.number not in choice.pups]
        return (*over, *self.unused, *pups)


def asked(job: Job) -> SpaceOutOfJob:
    """Return what a job asks of its space-out.

    Raises
    ------
    Missing
        If the job is not set up, is on depth, or wants a marker that it has not.
    """
    if job.setup is None:
        raise Missing("The job is not set up; there is nothing to space out.")
    if job.landing is not None:
        raise Missing("The string is on depth; there is nothing left to space out.")
    items = [slot for slot in slots(job) if slot.run or slot.item.kind not in ON_TOP]
    marker = _marker(job, items)
    below, looked_at, unused = _parted(items, marker)
    top = tuple(each for kind in ON_TOP for each in _on_rack(job, kind))
    at = None if marker is None or marker not in below else _height(below, marker)
    question = Question(
        hole=_steps(job, job.known.hole.depth),
        pocket=_pocket(job),
        stick_up=_stick_up(job, top),
        run=sum(slot.length for slot in below),
        couplings=tuple(accumulate(slot.length for slot in below)),
        joints=tuple(_candidate(job, slot, marker) for slot in looked_at),
        pups=_pups(job, items),
        top=tuple(each.length for each in top),
        coupling=_steps(job, job.known.space_out.coupling),
        keep_clear=tuple(_stretch(job, each) for each in job.known.keep_clear),
        marker=None if marker is None else _marker_wish(job),
        marker_run=at,
        marker_number="" if marker is None else marker.item.number,
    )
    return SpaceOutOfJob(
        question,
        _numbers(below),
        tuple(each.number for each in top),
        _numbers(unused),
        _above_hanger(top),
    )


def _above_hanger(top: Sequence[Item]) -> int | None:
    """Return the length of what goes on top of the hanger; nothing where there is no hanger."""
    kinds = [each.kind for each in top]
    if "hanger" not in kinds:
        return None
    return sum(each.length for each in top[kinds.index("hanger") + 1 :])


def _parted(
    items: Sequence[Slot], marker: Slot | None
) -> tuple[list[Slot], list[Slot], list[Slot]]:
    """Return what is run as listed, what is chosen from, and what lies above that."""
    run = [slot for slot in items if slot.run]
    still = [
        slot
        for slot in items
        if not slot.run
        and slot.item.kind != "pup"
        and (slot.joint or not slot.spare or slot is marker)
    ]
    end = min(len(still), sum(not slot.spare for slot in still) + SPARES_LOOKED_AT)
    start = max(0, end - MOST_JOINTS)
    return [*run, *still[:start]], still[start:end], still[end:]


def _numbers(items: Sequence[Slot]) -> tuple[str, ...]:
    return tuple(slot.item.number for slot in items)


def proposals(spaced: SpaceOutOfJob) -> tuple[Choice, ...]:
    """Return up to five choices, the best one first."""
    return space_out(spaced.question)


# The parts of the question


def _on_rack(job: Job, kind: str) -> Iterator[Item]:
    for item in job.items.values():
        if item.kind == kind and item.state == ON_RACK and item.number not in job.aside:
            yield item


def _pups(job: Job, items: list[Slot]) -> tuple[Candidate, ...]:
    listed = {slot.item.number for slot in items if slot.item.kind == "pup" and not slot.spare}
    pups = [
        Candidate(each.number, each.length, each.number in job.locked, listed=each.number in listed)
        for each in _on_rack(job, "pup")
    ]
    return tuple(sorted(pups, key=lambda each: not each.listed)[:MOST_PUPS])


def _candidate(job: Job, slot: Slot, marker: Slot | None) -> Candidate:
    locked = slot.item.number in job.locked and not slot.spare
    return Candidate(slot.item.number, slot.length, must=locked or slot is marker or not slot.joint)


def _marker(job: Job, items: list[Slot]) -> Slot | None:
    """Return the marker whose depth is wanted."""
    if job.known.space_out.marker is None:
        return None
    found = next((slot for slot in items if slot.item.kind == "marker"), None)
    if found is None:
        raise Missing("A depth of the marker is wanted, and no marker is in the running list.")
    return found


def _height(items: Sequence[Slot], of: Slot) -> int:
    """Return the bottom of an item, counted from the shoe up."""
    return sum(slot.length for slot in items[: items.index(of)])


def _steps(job: Job, measure: Measure | None) -> int:
    return 0 if measure is None else job.known.step.steps(measure.value)


def _pocket(job: Job) -> Wish:
    """Return the pocket wanted; without a band it may take up to a joint more than is wanted."""
    plan = job.known
    wanted = _steps(job, plan.hole.depth) - _steps(job, plan.hole.casing_point)
    if plan.space_out.pocket is not None:
        wanted = _steps(job, plan.space_out.pocket)
    if plan.space_out.pocket_band is None:
        longest = max(
            (each.length for each in job.items.values() if each.kind == "joint"), default=0
        )
        return Wish(wanted, 0, wanted + longest)
    band = _steps(job, plan.space_out.pocket_band)
    return Wish(wanted, max(0, wanted - band), wanted + band)


def _stick_up(job: Job, top: tuple[Item, ...]) -> Wish:
    """Return the stick-up wanted, or that which hangs the hanger off at the depth wanted."""
    wishes = job.known.space_out
    wanted, least = job.known.lengths.stick_up, 0
    if wishes.hang_off is not None:
        above = _above_hanger(top)
        if above is None:
            raise Missing(
                f"The string is to hang off at {wishes.hang_off.text}, but there is no hanger on "
                "the rack: add one to the items of the set-up, or take the hang-off depth out."
            )
        wanted = above - _steps(job, wishes.hang_off)
        least = min(wanted, least)
    band = _steps(job, wishes.stick_up_band)
    return Wish(wanted, max(least, wanted - band), wanted + band)


def _marker_wish(job: Job) -> Wish:
    wishes = job.known.space_out
    wanted, any_depth = _steps(job, wishes.marker), _steps(job, job.known.hole.depth)
    band = any_depth if wishes.marker_band is None else _steps(job, wishes.marker_band)
    return Wish(wanted, wanted - band, wanted + band)


def _stretch(job: Job, each: KeepClear) -> Stretch:
    top = -_steps(job, each.above) if each.top is None else _steps(job, each.top)
    return Stretch(each.name, top, _steps(job, each.bottom))


# In words


def wish_line(job: Job, question: Question) -> str:
    """Return what is wanted in one line."""
    parts = [_wanted(job, "pocket", question.pocket), _stick_up_wanted(job, question)]
    if question.marker is not None:
        parts.append(_wanted(job, "marker", question.marker))
    parts += [
        f"clear {each.name} {_show(job, each.top)} to {_show(job, each.bottom)}"
        for each in question.keep_clear
    ]
    return f"wanted, {job.known.step.unit}: {'; '.join(parts)}"


def _stick_up_wanted(job: Job, question: Question) -> str:
    """Return the stick-up wanted; where a depth to hang off at is, that depth."""
    wish, wanted = question.stick_up, job.known.space_out.hang_off
    if wanted is None:
        return _wanted(job, "stick-up", wish)
    at, wish_at = _steps(job, wanted), wish.wanted
    depth = Wish(at, at + wish_at - wish.high, at + wish_at - wish.low)
    return _wanted(job, "hang-off depth", depth)


def _wanted(job: Job, what: str, wish: Wish) -> str:
    wanted = f"{what} {_show(job, wish.wanted)}"
    if wish.low == wish.high:
        return wanted
    return f"{wanted} ({_show(job, wish.low)} to {_show(job, wish.high)})"


def _show(job: Job, steps: int) -> str:
    return job.known.step.show(steps)


def why_nothing_fits(job: Job, question: Question) -> str:
    """Return in one sentence what would have to give for something to fit."""
    told = [_giving(job, each.wish, each.miss) for each in hindrances(question)]
    if not told:
        return "Nothing fits, and no one wish was found that alone could give: change two or more."
    return f"Nothing fits; it would with {', or '.join(told)}."


def _giving(job: Job, wish: str, miss: int | None) -> str:
    if wish == MUST or miss is None:
        return "nothing locked in its place"
    far = job.known.step.with_unit(miss)
    if wish in (POCKET, STICK_UP, MARKER):
        return f"{far} more room for the {wish}"
    return f"{wish} {far} narrower at each end"
