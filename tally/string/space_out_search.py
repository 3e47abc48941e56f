"""The search of a space-out: the string made up from its top down, branches cut by length."""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import accumulate, combinations

from tally.string.reachable_lengths import Reachable, how_near
from tally.string.space_out_question import Candidate, Choice, Question
from tally.string.step_ranges import Ranges, common, nearest, shared, spanned, taken_from, without


@dataclass(frozen=True, slots=True)
class Top:
    """The string from its top down, as far as it is made up."""

    length: int
    stick_ups: Ranges
    """Those at which every wish about it is kept."""
    used: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    marker: int | None = None
    """Where the bottom of the marker is, counted from the top of the string down."""


@dataclass(slots=True)
class Kept:
    """The best choices of one number of changes, no more than there is room for."""

    room: int
    found: list[Choice] = field(default_factory=list)

    def wants(self, off: int) -> bool:
        """Whether a choice that is so far off would be kept."""
        return len(self.found) < self.room or off < self.found[-1].off

    def keep(self, choice: Choice) -> None:
        """Keep a choice in its place; of equal ones the first stays first."""
        insort(self.found, choice, key=lambda each: each.off)
        del self.found[self.room :]


class Search:
    """The choices that keep every wish of one question."""

    def __init__(self, question: Question, patience: int | None = None) -> None:
        self.question = question
        self.patience = patience
        """How many states may be looked at; no limit: as many as it takes."""
        self.shoes = _shoes(question)
        """Depths of the shoe at which pocket, marker as run and couplings as run are right."""
        self.reachable = Reachable(question.joints, _gaps(question, self.shoes))
        wanted = question.hole - question.pocket.wanted + question.stick_up.wanted
        self.ideal = wanted - question.run
        """Length to be put on that gives both the pocket and the stick-up wanted."""
        self.barren: set[tuple[int, int | None, int, Ranges, int | None]] = set()

    def ranked(self, most: int) -> list[Choice]:
        """Return the best choices by the rule: fewest changes, then nearest."""
        best: list[Choice] = []
        tops = [(pups, self.made_top(pups)) for pups in self.pup_sets()]
        ways = self.ways(tops)
        for changes in sorted(ways):
            kept = Kept(most - len(best))
            for pups, top, passed in ways[changes]:
                self.down_all(pups, top, passed, changes, kept)
            best += kept.found
            if len(best) == most:
                break
        return best

    def ways(
        self, tops: list[tuple[tuple[Candidate, ...], Top]]
    ) -> dict[int, list[tuple[tuple[Candidate, ...], Top, int]]]:
        """Return pups and numbers of joints passed over whose lengths fit, by their changes."""
        found: dict[int, list[tuple[tuple[Candidate, ...], Top, int]]] = {}
        for passed in range(max(1, len(self.question.joints))):
            lengths = self.reachable.ended(passed)
            for pups, top in tops:
                if self.near(lengths, top) is not None:
                    changes = passed + self.changed(pups)
                    found.setdefault(changes, []).append((pups, top, passed))
        return found

    def any(self) -> bool:
        """Whether there is a choice at all."""
        lengths = self.reachable.ended(None)
        for pups in self.pup_sets():
            if self.patience is not None and self.patience < 0:
                break
            top, kept = self.made_top(pups), Kept(1)
            if self.near(lengths, top) is not None and self.down_all(pups, top, None, 0, kept):
                return True
        return False

    def pup_sets(self) -> Iterator[tuple[Candidate, ...]]:
        """Yield every set of pups with those that must go in, the longest pup first."""
        pups = sorted(self.question.pups, key=lambda each: -each.length)
        musts = {each for each in pups if each.must}
        for count in range(len(pups) + 1):
            yield from (each for each in combinations(pups, count) if musts.issubset(each))

    def changed(self, pups: tuple[Candidate, ...]) -> int:
        """Return how many pups are put in or taken out against the list."""
        return sum((each in pups) != each.listed for each in self.question.pups)

    # From the top down

    def made_top(self, pups: tuple[Candidate, ...]) -> Top:
        """Return the string from its top down to the lowest pup."""
        stick_up = self.question.stick_up
        top = Top(0, spanned(stick_up.low, stick_up.high))
        for length in (*reversed(self.question.top), *(each.length for each in reversed(pups))):
            top = Top(top.length + length, self.clear(top.stick_ups, top.length))
        return top

    def clear(self, stick_ups: Ranges, coupling: int) -> Ranges:
        """Return the stick-ups at which a coupling so far from the top lies in no stretch."""
        for each in self.question.keep_clear:
            low, high = coupling - each.bottom, coupling - each.top + self.question.coupling
            stick_ups = without(stick_ups, low, high) if each.top <= each.bottom else stick_ups
        return stick_ups

    def under(self, top: Top, joint: Candidate) -> Top:
        """Return the string with one more joint at its lower end."""
        length = top.length + joint.length
        stick_ups = self.clear(top.stick_ups, top.length)
        marker, wish = top.marker, self.question.marker
        if wish is not None and joint.number == self.question.marker_number:
            marker = length
            stick_ups = shared(stick_ups, length - wish.high, length - wish.low)
        return Top(length, stick_ups, (joint.number, *top.used), top.left_out, marker)

    def near(self, lengths: int, top: Top) -> int | None:
        """Return how near lengths under the top come to the one that is ideal, if one will do."""
        if not top.stick_ups or not self.shoes:
            return None
        done = self.question.run + top.length
        low = self.shoes[0][0] + top.stick_ups[0][0] - done
        high = self.shoes[-1][1] + top.stick_ups[-1][1] - done
        return how_near(lengths, low, high, self.ideal - top.length)

    def down_all(
        self,
        pups: tuple[Candidate, ...],
        top: Top,
        passed: int | None,
        changes: int,
        kept: Kept,
    ) -> bool:
        """Go down from a top with each joint as the last one used; whether anything fitted."""
        fitted = False
        for last in self.reachable.last_ones():
            if passed is None and fitted:
                break
            if last == 0:
                fitted |= not passed and self.finished(pups, top, changes, kept)
                continue
            below = self.under(top, self.question.joints[last - 1])
            fitted |= self.down(last - 1, passed, below, pups, changes, kept)
        return fitted

    def down(
        self,
        lowest: int,
        passed: int | None,
        top: Top,
        pups: tuple[Candidate, ...],
        changes: int,
        kept: Kept,
    ) -> bool:
        """Go on with the joints below; whether anything fitted or was passed by as no better."""
        near = self.near(self.reachable.lengths(lowest, passed), top)
        state = (lowest, passed, top.length, top.stick_ups, top.marker)
        if near is None or state in self.barren or not self.has_patience():
            return False
        if passed is None and kept.found:
            return True
        if not kept.wants(near):
            return True
        if lowest == 0:
            return self.finished(pups, top, changes, kept)
        fitted, joint = False, self.question.joints[lowest - 1]
        if not joint.must and passed != 0:
            over = replace(top, left_out=(joint.number, *top.left_out))
            less = None if passed is None else passed - 1
            fitted = self.down(lowest - 1, less, over, pups, changes, kept)
        fitted |= self.down(lowest - 1, passed, self.under(top, joint), pups, changes, kept)
        if not fitted:
            self.barren.add(state)
        return fitted

    def has_patience(self) -> bool:
        """Count one more state that is looked at; whether there may be more."""
        if self.patience is not None:
            self.patience -= 1
        return self.patience is None or self.patience >= 0

    # A string made up

    def finished(self, pups: tuple[Candidate, ...], top: Top, changes: int, kept: Kept) -> bool:
        """Keep a string that is made up, at its best stick-up, if there is one."""
        length = self.question.run + top.length
        stick_ups = common(top.stick_ups, taken_from(length, self.shoes))
        if self.question.marker is not None and self.marker_at(top, length) is None:
            return False
        if not stick_ups:
            return False
        off, _, stick_up = min(self.judged(top, length, each) for each in self.best(top, stick_ups))
        if kept.wants(off):
            kept.keep(self.choice(pups, top, changes, off, stick_up))
        return True

    def best(self, top: Top, stick_ups: Ranges) -> tuple[int, ...]:
        """Return the stick-ups among which the best one is: the sum of distances bends there."""
        length = self.question.run + top.length
        wanted = [self.question.stick_up.wanted]
        wanted.append(self.question.pocket.wanted - self.question.hole + length)
        marker = self.marker_at(top, length)
        if marker is not None and self.question.marker is not None:
            wanted.append(marker - self.question.marker.wanted)
        return nearest(stick_ups, tuple(wanted))

    def judged(self, top: Top, length: int, stick_up: int) -> tuple[int, int, int]:
        """Return how far a stick-up puts the string from what is wanted, the pocket by itself."""
        question = self.question
        pocket = abs(question.hole - (length - stick_up) - question.pocket.wanted)
        off = pocket + abs(stick_up - question.stick_up.wanted)
        marker = self.marker_at(top, length)
        if marker is not None and question.marker is not None:
            off += abs(marker - stick_up - question.marker.wanted)
        return off, pocket, stick_up

    def marker_at(self, top: Top, length: int) -> int | None:
        """Return where the bottom of the marker is, counted from the top of the string down."""
        if self.question.marker_run is not None:
            return length - self.question.marker_run
        return top.marker

    def choice(
        self, pups: tuple[Candidate, ...], top: Top, changes: int, off: int, stick_up: int
    ) -> Choice:
        """Return a string that is made up with what it gives."""
        question, length = self.question, self.question.run + top.length
        shoe, marker = length - stick_up, self.marker_at(top, length)
        depths = self.couplings(pups, top, stick_up)
        return Choice(
            used=top.used,
            left_out=top.left_out,
            pups=tuple(each.number for each in pups),
            changes=changes,
            off=off,
            length=length,
            stick_up=stick_up,
            shoe=shoe,
            pocket=question.hole - shoe,
            marker=None if marker is None else marker - stick_up,
            clear=tuple(
                (each.name, _gap(depths, each.top, each.bottom, question.coupling))
                for each in question.keep_clear
            ),
        )

    def couplings(self, pups: tuple[Candidate, ...], top: Top, stick_up: int) -> list[int]:
        """Return the depth of the top of every coupling."""
        by_number = {each.number: each.length for each in self.question.joints}
        lengths = [
            *reversed(self.question.top),
            *(each.length for each in reversed(pups)),
            *(by_number[number] for number in reversed(top.used)),
        ]
        made = (
            [total - stick_up for total in accumulate(lengths[:-1], initial=0)] if lengths else []
        )
        shoe = self.question.run + top.length - stick_up
        return [*made, *(shoe - each for each in self.question.couplings)]


def _shoes(question: Question) -> Ranges:
    """Return the depths of the shoe that the pocket and what is run allow."""
    pocket = question.pocket
    low, high = question.hole - pocket.high, question.hole - pocket.low
    shoes = spanned(low, high)
    if question.marker is not None and question.marker_run is not None:
        wish, run = question.marker, question.marker_run
        shoes = shared(shoes, wish.low + run, wish.high + run)
    for each in question.keep_clear:
        for coupling in question.couplings if each.top <= each.bottom else ():
            top, bottom = each.top - question.coupling, each.bottom
            shoes = without(shoes, coupling + top, coupling + bottom)
    return shoes


def _gaps(question: Question, shoes: Ranges) -> Ranges:
    """Return the lengths on top of what is run that end in a stretch wherever the shoe may be."""
    if not shoes:
        return ()
    highest, lowest = shoes[0][0] - question.run, shoes[-1][1] - question.run
    stretches = (each for each in question.keep_clear if each.top <= each.bottom)
    return tuple(
        (lowest - each.bottom, highest - each.top + question.coupling) for each in stretches
    )


def _gap(couplings: list[int], top: int, bottom: int, length: int) -> int:
    """Return how far the nearest coupling is from a stretch, nothing where it reaches in."""
    return min((max(top - (each + length), each - bottom, 0) for each in couplings), default=0)
