"""Checks of the rows against one another, against the pipe, and against what is in the book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from random import Random
from statistics import mean, median

from tally.feeds.rig_list import doubts
from tally.feeds.rig_list.doubts import WHOLE_LIST, Doubt
from tally.feeds.rig_list.items import ListItem
from tally.feeds.rig_list.neighbours import slips
from tally.feeds.rig_list.rules import Rules
from tally.job.setup import Pipe

SAMPLE = 20
"""Joints that are picked at random; their mean times the count must agree with the sum."""
_CHANCE = 4.0
"""Standard errors beyond which a difference of means is more than chance gives."""
_ABOUT = (0.5, 1.5)
"""What is about a make-up loss, as a share of it."""


def between_rows(joints: Sequence[ListItem], rules: Rules) -> Iterator[tuple[ListItem, Doubt]]:
    """Yield what is doubtful about a joint by its range, the row before, and its neighbours."""
    before: ListItem | None = None
    for item in joints:
        doubt = outside(item, rules)
        if doubt is not None:
            yield item, doubt
        if before is not None and before.exact == item.exact:
            said = f"{item.plain} is the length of row {before.place} too; measured twice?"
            yield item, Doubt(item.place, doubts.SAME, said)
        before = item
    yield from slips(joints)


def outside(item: ListItem, rules: Rules) -> Doubt | None:
    """Return that a joint is outside the range of its pipe, or nothing."""
    pipe, step = rules.pipe(item.pipe), rules.step
    if pipe.shortest is None or pipe.longest is None or item.length <= 0:
        return None
    if step.steps(pipe.shortest.value) <= item.length <= step.steps(pipe.longest.value):
        return None
    said = (
        f"{step.with_unit(item.length)} is outside {pipe.shortest.text} to {pipe.longest.text}, "
        "the range of this pipe."
    )
    return Doubt(item.place, doubts.OUTSIDE, said)


@dataclass(frozen=True, slots=True)
class Sample:
    """Some joints picked at random, the same ones for the same file."""

    numbers: tuple[str, ...]
    mean: float
    """Their mean length as it enters the book, in steps."""
    joints: int
    mean_of_all: float
    spread: float
    """How far the joints lie from their middle: a spread that no slip moves, in steps."""

    @property
    def apart(self) -> float:
        """The mean of the sample less that of all, in steps."""
        return self.mean - self.mean_of_all

    @property
    def error(self) -> float:
        """What chance moves the mean of the sample by, in steps."""
        return self.spread * sqrt(1 / len(self.numbers) - 1 / self.joints)


def sample_of(joints: Sequence[ListItem], sha256: str) -> Sample | None:
    """Return 20 joints at random; nothing where there are not more joints than that.

    Parameters
    ----------
    joints : Sequence[ListItem]
        The joints that can be taken
    sha256 : str
        The fingerprint of the file, which seeds the choice: the same file gives the same joints
    """
    if len(joints) <= SAMPLE:
        return None
    picked = sorted(Random(sha256).sample(range(len(joints)), SAMPLE))
    lengths = [item.length for item in joints]
    return Sample(
        numbers=tuple(joints[place].number for place in picked),
        mean=mean(lengths[place] for place in picked),
        joints=len(joints),
        mean_of_all=mean(lengths),
        spread=_spread(lengths),
    )


def _spread(lengths: Sequence[int]) -> float:
    middle = median(lengths)
    return 1.4826 * median(abs(length - middle) for length in lengths)


def about_a_loss(per_joint: float, rules: Rules) -> bool:
    """Return whether a difference per joint, in steps, is about the make-up loss of the job."""
    if rules.make_up_loss is None:
        return False
    loss = float(rules.make_up_loss / rules.step.size)
    return _ABOUT[0] * loss <= abs(per_joint) <= _ABOUT[1] * loss


def of_the_mean(sample: Sample | None, pipe: Pipe, rules: Rules) -> Iterator[Doubt]:
    """Yield what is doubtful about the mean: against the sum, and against joints in the book."""
    if sample is None:
        return
    step = rules.step
    if abs(sample.apart) > _CHANCE * max(sample.error, 1.0):
        yield _apart(
            f"the mean of {SAMPLE} joints at random is {step.with_unit(round(sample.mean))}, that "
            f"of all {sample.joints} is {step.with_unit(round(sample.mean_of_all))}",
            sample.apart,
            rules,
        )
    here = rules.before.get(pipe.name, ())
    if len(here) <= SAMPLE:
        return
    apart = sample.mean_of_all - mean(here)
    error = sqrt(sample.spread**2 / sample.joints + _spread(here) ** 2 / len(here))
    if about_a_loss(apart, rules) and abs(apart) > 2 * error:
        yield _apart(
            f"the mean of {SAMPLE} joints at random is {step.with_unit(round(sample.mean))} and "
            f"that of all {step.with_unit(round(sample.mean_of_all))}, that of the {len(here)} "
            f"joints in the book {step.with_unit(round(mean(here)))}",
            apart,
            rules,
        )


def _apart(what: str, apart: float, rules: Rules) -> Doubt:
    about = ""
    if about_a_loss(apart, rules):
        about = f", about the make-up loss ({rules.loss_text}): look whether they are overall"
    said = f"{what}: {rules.step.with_unit(round(abs(apart)))} apart{about}."
    return Doubt(WHOLE_LIST, doubts.MEAN, said)
